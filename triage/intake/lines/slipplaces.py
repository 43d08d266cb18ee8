"""Codes with letters for several digits ("poaa6"), where the places of the other codes of a text tell them to be codes.

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("P0562 low\\npoaa6 lost\\nU0100 lost")
>>> adopt(found, lambda name: False)
>>> [[code.text for code in row.finds.codes] for row in found]
[['P0562'], ['P0AA6'], ['U0100']]
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.codes.found import in_code_cell
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.near import small

#: A word like a code, a digit in it, between a name and nothing or words that may be a status; "coil1" and "pos12" are
#: words with a number.
_WILD = lazily(
    r"([^\W\d][^|;\t]{1,40}?)(?:\s*[:=>|;\t-]+\s*|\s+)"
    r"((?=[A-Za-z|]{1,6}[0-9])(?![A-Za-z](?:[oil]{3}[0-9]|[oil]{0,4}[abcdefsz][a-z]{0,4}[0-9]{1,3})(?![^\W_]))"
    r"[PCBUpcbu][0-9OoIil|][0-9A-Fa-fOoIilSsZz|]{3,5})(?:\s*[,:;(|\t-]?\s*([^\W\d][^|;\t()]{2,30}?)\)?)?"
)
#: So many lines that start with a code tell how the others are to be read.
_FEW = 2


def adopt(rows: Sequence[Row], is_name: Callable[[str], bool]) -> None:
    """Read words that look like a code with letters for its digits ("poaa6") as one where other lines start with codes
    and these start with such a word, or where others have theirs behind a name and these hold no more behind one."""
    bare = [row for row in rows if not (row.finds.codes or row.blank or row.roles or row.head)]
    doubtful = [row for row in bare if row.finds.refusals and not row.finds.refusals[0].start]
    wild = [(row, match) for row in bare if (match := _WILD.fullmatch(row.text)) is not None]
    if not doubtful and not wild:
        return
    coded = [row for row in rows if row.finds.codes and not row.head]
    first = sum(row.finds.codes[0].start == 0 for row in coded)
    for row, match in wild if len(coded) - first >= _FEW else ():
        slip = in_code_cell(match[2])
        if slip.codes and is_name(tidy(match[1])) and (not match[3] or states.of_cell(small(match[3])) is not None):
            code, at = slip.codes[0], match.start(2)
            found = code._replace(start=at, end=at + code.end, bare=at + code.bare)
            row.finds = row.finds._replace(codes=(found,), refusals=())
    if first < _FEW or first < 0.6 * len(coded):
        return
    for row in doubtful:
        slip = in_code_cell(row.text)
        if slip.codes and slip.codes[0].slip is not None and len(row.finds.refusals) == 1:
            row.finds = row.finds._replace(codes=slip.codes, refusals=())


__all__ = ["adopt"]
