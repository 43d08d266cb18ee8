"""Lines that are a status and nothing else, where each heads the codes below it."""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import listheads, states
from triage.intake.said.answers import answer_of_cell

#: How many codes stand below a status.
_COUNT_BEHIND = lazily(r"\s?(?:[(\[][0-9]{1,3}[)\]]|: ?[0-9]{1,3})$")
#: A list that is empty.
_NONE_BEHIND = lazily(r"[(\[]0[)\]]|[:=]\s?-+$|-\s-+$")


def are_heads(rows: Sequence[Row]) -> bool:
    """Whether every line that is a status alone stands over a line with a code, the first over the first of all."""
    filled = [row for row in rows if not row.blank and row.kind != "rule"]
    coded = [at for at, row in enumerate(filled) if row.finds.codes]
    if not coded or not any(map(_is_status, filled[: coded[0] + 1])):
        return False
    alone = [at for at, row in enumerate(filled) if _is_status(row)]
    if alone[-1] + 1 >= len(filled):
        return False
    below = [filled[at + 1] for at in alone]
    if len(alone) >= len(coded) and any(
        row.line.indent <= filled[at].line.indent for at, row in zip(alone, below, strict=True)
    ):
        return False
    empty = [row for row in below if not row.finds.codes]
    return len(empty) < len(alone) and all(answer_of_cell(row.low, loose=True) == "clean" for row in empty)


def _is_status(row: Row) -> bool:
    """Whether a line is a status alone, in whatever form, or one with the number of its codes: "Not active (2)"; not
    where it says that there are none of it: "Pending: -"."""
    if len(row.low) > 30 or row.finds.codes or _NONE_BEHIND.search(row.low) is not None:
        return False
    low = _COUNT_BEHIND.sub("", row.low)
    return states.of_cell(low) is not None or (":" not in low and " " not in low and (
        listheads.status_of_head(low, True)[0] is not None))


__all__ = ["are_heads"]
