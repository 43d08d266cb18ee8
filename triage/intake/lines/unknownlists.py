"""Short names and names with a capital letter that nobody knows, told by the other rows or by the mark before them."""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines import namelist, unknown
from triage.intake.lines.row import Row
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken
from triage.intake.said.near import small
from triage.intake.words.vocabulary import STATES

_ITEM = lazily(r"(?:the |der |die |das |le |la |el )?([A-Z\u00c0-\u00de][\w-]{1,24}(?: [\w.-]{1,20}){0,3})")
_MOST_ROWS = 400


def behind_mark(row: Row, texts: Sequence[str]) -> bool:
    """Whether the first of several texts stands behind a colon or the like, and each may be a name that nobody knows.

    >>> from triage.intake.lines.rows import rows_of
    >>> row = rows_of("No reply: HOPPER GATE, Mast node left")[0]
    >>> behind_mark(row, ["HOPPER GATE", "Mast node left"]), behind_mark(row, ["Mast node left"])
    (True, False)
    """
    lead = row.text[: max(row.text.find(texts[0]), 0)].rstrip()
    return lead.endswith((":", " -", "=", ">")) and all(
        _ITEM.fullmatch(text) and not spoken(small(text)) and not STATES.find(small(text)) for text in texts)


def adopt_joined(rows: Sequence[Row], names: Names) -> None:
    """List the short names behind codes that a stroke joins and nobody knows, in this text alone, where one of them
    stands there without the others in another row: "P0562 -> PNQ / ABS" among "U0100 -> ABS"."""
    rows = rows[:_MOST_ROWS]
    if not any(" / " in row.text for row in rows):
        return
    is_name = namelist.known(names)
    texts = {tidy(row.text[start:end]) for row in rows for start, end in namelist.parts(row, is_name)}
    for text in sorted(text for text in texts if " / " in text):
        parts = [tidy(part) for part in text.split(" / ")]
        if not texts.isdisjoint(parts) and all(map(unknown.is_one_of_short, parts)):
            for part in parts:
                if not names.listed(part):
                    names.adopt_whole(part)


__all__ = ["adopt_joined", "behind_mark"]
