"""Lines that are a status and nothing else, where each heads the codes below it."""

from __future__ import annotations

from collections.abc import Sequence, Set

from triage.intake.lines.pages import CONTINUED
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import listheads, states
from triage.intake.said.answers import answer_of_cell
from triage.model.snapshot import StatusWord

#: How many codes stand below a status.
_COUNT_BEHIND = lazily(r"\s?(?:[(\[][0-9]{1,3}[)\]]|: ?[0-9]{1,3})$")
_FEWEST, _LONGEST, _NEAR = 2, 66, 3
#: A list that is empty.
_NONE_BEHIND = lazily(r"[(\[]0[)\]]|[:=]\s?-+$|-\s-+$")


def places(rows: Sequence[Row], translated: bool, marks: Set[int]) -> dict[int, StatusWord]:
    """By the places of the lines that name a status and nothing else but lists of codes: that status, where each such
    line heads the codes below it, and several do. ``marks``: the numbers of the lines of a page's head or foot."""
    found = {at: status for at, row in enumerate(rows) if not row.blank and (status := _headed(row, translated))}
    return found if len(set(found.values())) >= _FEWEST and _are_heads(rows, set(found), marks) else {}


def _headed(row: Row, translated: bool) -> StatusWord | None:
    """The status that a line names as a head of a list does, whatever marks or count stand around it."""
    if row.finds.codes or row.roles is not None or len(row.low) > _LONGEST or _NONE_BEHIND.search(row.low) is not None:
        return None
    return listheads.status_of_head(_COUNT_BEHIND.sub("", row.low.rstrip(" -=*_:")), translated)[0]


def are_heads(rows: Sequence[Row], marks: Set[int]) -> bool:
    """Whether every line that is a status alone stands over a line with a code, the first over the first of all."""
    return _are_heads(rows, {at for at, row in enumerate(rows) if not row.blank and _is_status(row)}, marks)


def _are_heads(rows: Sequence[Row], heads: set[int], marks: Set[int]) -> bool:
    """Whether the lines at some places stand each over a line with a code, the first over the first of all, a page's
    end or the head of a table between them or not, and behind that the name of the module once more."""
    kept = [at for at, row in enumerate(rows)
            if not row.blank and not row.head and row.kind != "rule" and (row.finds.codes or (
                row.line.number not in marks and (len(row.low) > _LONGEST or CONTINUED.search(row.low) is None)))]
    filled = [rows[at] for at in kept]
    coded = [at for at, row in enumerate(filled) if row.finds.codes]
    if not coded or heads.isdisjoint(kept[: coded[0] + 1]):
        return False
    if all(_heads_table(rows, at) for at in heads):
        return True
    alone = [at for at, place in enumerate(kept) if place in heads]
    if alone[-1] + 1 >= len(filled):
        return False
    below = [filled[at + 1] for at in alone]
    if len(alone) >= len(coded) and any(
        row.line.indent <= filled[at].line.indent for at, row in zip(alone, below, strict=True)
    ):
        return False
    empty = [row for row in below if not row.finds.codes]
    return len(empty) < len(alone) and all(answer_of_cell(row.low, loose=True) == "clean" for row in empty)


def _heads_table(rows: Sequence[Row], at: int) -> bool:
    """Whether a line stands right over the head of a table."""
    below = next((row for row in rows[at + 1 : at + _NEAR] if not row.blank), None)
    return below is not None and bool(below.head)


def _is_status(row: Row) -> bool:
    """Whether a line is a status alone, in whatever form, or one with the number of its codes: "Not active (2)"; not
    where it says that there are none of it: "Pending: -"."""
    if len(row.low) > 30 or row.finds.codes or _NONE_BEHIND.search(row.low) is not None:
        return False
    low = _COUNT_BEHIND.sub("", row.low)
    return states.of_cell(low) is not None or (":" not in low and " " not in low and (
        listheads.status_of_head(low, True)[0] is not None))


__all__ = ["are_heads", "places"]
