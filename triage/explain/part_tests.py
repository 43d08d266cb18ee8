"""What to do once codes went with a part that was unplugged: that part and its wires come before all else they share.

The codes of its own open plug are no faults: they go once it is plugged in again and cleared (common practice).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from triage.explain.case import Case, gate_of
from triage.explain.standing import STRICTEST
from triage.model.casebook import Casebook, PartTest
from triage.model.verdict import NextCheck

if TYPE_CHECKING:
    from collections.abc import Sequence

    from triage.model.casebook import Floats

#: Codes named in one line.
MOST_NAMED = 6


def part_checks(
    book: Casebook, test: PartTest | None, case: Case, dangers: Sequence[str | None], bits: Floats, names: list[str],
) -> list[NextCheck]:
    """The check of the part that took codes with it; it settles those codes and the ones of its open plug."""
    if test is None or not test.went:
        return []
    went = [fault for fault in test.went if fault in case.open]
    if not went:
        return []
    classes = {dangers[fault] for fault in went}
    told = [book.code[fault] for fault in went[:MOST_NAMED]]
    more = f" and {len(went) - len(told)} more" if len(went) > len(told) else ""
    made = [book.code[fault] for fault in test.made]
    plug = f"; {', '.join(made)} {'is' if len(made) == 1 else 'are'} of its open plug" if made else ""
    bodily = bool(classes & {"restraints", "high voltage"})
    how = f"have {test.part} tested by a qualified person" if bodily else f"test {test.part}, its plug and its wires"
    passes = "the maker's figures" + (
        "" if bodily else " at its plug, no path from its wires to another feed or to ground")
    return [{
        "do": f"{how}: with it unplugged {', '.join(dict.fromkeys(told))}{more} went; plug it in, or a sound one, "
              f"clear and read again{plug}",
        "where": f"{test.part}, supply held, key on", "minutes": 20.0,
        "passes_if": f"{passes}, and the codes stay away with a sound one plugged in",
        "settles": [names[fault] for fault in [*went, *(fault for fault in test.made if fault in case.open)]],
        "gain_bits": round(0.8 + float(bits[went].sum()) * 0.8, 2),
        "gate": gate_of(next((name for name in STRICTEST if name in classes), None))}]


def apart(case: Case, test: PartTest | None) -> Case:
    """What the checks of single circuits have to know: all but what the test of an unplugged part tells of."""
    if test is None or not test.went:
        return case
    told = {*test.went, *test.made}
    return case._replace(open=[fault for fault in case.open if fault not in told],
                         listed=[fault for fault in case.listed if fault not in told])


__all__ = ["apart", "part_checks"]
