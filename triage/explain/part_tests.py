"""What to do once codes went with a part that was unplugged: that part and its wires come before all else they share.

The codes of its own open plug are no faults: they go once it is plugged in again and cleared (common practice).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from triage.explain.case import Case, gate_of
from triage.explain.standing import STRICTEST
from triage.model.casebook import NOT_SEEN, SEEN, Casebook, PartTest, Timeline
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


#: How the step begins that watches a renewed part.
WATCH_WORDS = "watch the live value"


def renewed_checks(book: Casebook, line: Timeline, case: Case, bits: Floats, names: list[str]) -> list[NextCheck]:
    """The run that a part which was just replaced is watched in, where its code is gone: it is not tested again before
    (common practice)."""
    checks: list[NextCheck] = []
    for fault in unproved(book, line, case):
        module = book.module_name[book.fault_module[fault]]
        shown = names[fault].replace(module, case.name(module), 1)
        speed = "speed sensor" in book.facts[fault].title
        checks.append({
            "do": f"{WATCH_WORDS} of what was replaced for {shown} " + (
                "on the road, all wheels side by side: air gap, ring and sides" if speed else
                "from a cold start until it is warm, connector and wiring moved meanwhile"),
            "where": "on the road, read by a second person" if speed else "at the vehicle, parked", "minutes": 30.0,
            "passes_if": "it follows without a jump, and the code stays away", "settles": [names[fault]],
            "gain_bits": round(0.8 * float(bits[fault]) + 0.2, 2),
            "gate": "braking and steering tried at walking pace first, no red warning lamp, and only where it may be "
                    "driven" if speed else "parking brake on, gear disengaged, nobody in front of the vehicle"})
    return checks


def unproved(book: Casebook, line: Timeline, case: Case) -> list[int]:
    """Open faults whose part was replaced and which no scan shows since: not those of restraints and high voltage, nor
    what shows on the road alone where nobody may drive."""
    found = []
    for fault in case.open:
        column = line.renewed.get(fault)
        since = book.seen[fault, column:].tolist() if column is not None else []
        facts = book.facts[fault]
        watched = facts.safety not in ("restraints", "high voltage") and not (
            case.unfit and "speed sensor" in facts.title)
        if watched and NOT_SEEN in since and SEEN not in since:
            found.append(fault)
    return found


def apart(case: Case, test: PartTest | None, renewed: Sequence[int] = ()) -> Case:
    """What the checks of single circuits have to know: all but what the test of an unplugged part tells of, and the
    faults whose part was ``renewed``."""
    told = {*renewed, *(test.went if test is not None else ()), *(test.made if test is not None and test.went else ())}
    if not told:
        return case
    return case._replace(open=[fault for fault in case.open if fault not in told],
                         listed=[fault for fault in case.listed if fault not in told])


__all__ = ["WATCH_WORDS", "apart", "part_checks", "renewed_checks", "unproved"]
