"""Lines that break off behind a verb of saying, with the codes in the next: "RAD gave" above "P0200, P0300 and".

Codes in lines of their own below such a line are a list: the verb is then left out, and the name heads it.

>>> from triage.intake.lines.rows import rows_of
>>> text = "BCM: P0100\\nRAD gave\\nP0200, P0300 and\\nP0400 pending.\\nABS shows\\nC0031 stored\\nC0034 active"
>>> [row.text for row in joined(rows_of(text), lambda low: [(0, 3, True)] if low[:3] in ("rad", "abs") else [])]
['BCM: P0100', 'RAD gave P0200, P0300 and P0400 pending.', 'ABS:', 'C0031 stored', 'C0034 active']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import line_of
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said.counts import stated_count
from triage.intake.words.saying_words import VERBS

_HAS = word_set("has have had got hat hatte hatten haben a ont avait tiene tienen tenia zeigt zeigen meldet melden "
                "affiche affichent muestra muestran")
_SAYS = VERBS | _HAS
#: A verb at the end of a line, perhaps with what stands behind it: "came up with", "gave me".
_LAST = lazily(r"\s([a-z]+)(?:\s(?:up|with|out|back|me|us|also|still|auch|noch|aussi|tambien))*\s?:?$")
#: "Gearbox - status: responding" says nothing of codes.
_MARK = lazily(r"[:=|]|\s-+\s")
_OPEN = lazily(r"(?:[,+&;]|\s(?:and|und|et|y|with|plus))$")
_GOES_ON = lazily(r"(?:[+&,;]\s?|(?:and|und|et|y|plus)\s)")
_SIGN = signs.of_words(_SAYS.__contains__)
_MOST_WORDS, _LONGEST, _MOST_LINES, _LEAD = 8, 80, 12, 12

Found = tuple[int, int, bool]


def joined(rows: Sequence[Row], names_in: Callable[[str], Sequence[Found]]) -> list[Row]:
    """The rows, such lines put together with the codes below. ``names_in``: where the names of modules stand in a text
    in small letters. Linear."""
    found: list[Row] = []
    at = 0
    while at < len(rows):
        row, last = rows[at], at + 1
        said = _says(rows, at, names_in)
        if said is None:
            found.append(row)
        elif _is_list(rows, at + 1):
            found.append(Row(row.line, f"{row.text[:said].rstrip()}:", row.start))
        else:
            text = f"{row.text.rstrip(' :')} {rows[at + 1].text}"
            last = at + 2
            while last < len(rows) and last - at < _MOST_LINES and not rows[last].blank and (
                    _OPEN.search(text) or _GOES_ON.match(rows[last].low)):
                text = f"{text} {rows[last].text}"
                last += 1
            found.append(Row(line_of(row.line.number, text, text, own=row.line.own), text, 0))
        at = last
    return found


def _says(rows: Sequence[Row], at: int, names_in: Callable[[str], Sequence[Found]]) -> int | None:
    """Where the verb begins in a line that names a module and ends with one, with a code first in the next line."""
    row = rows[at]
    if row.blank or row.finds.codes or len(row.low) > _LONGEST or at + 1 >= len(rows) or not signs.of(row.low) & _SIGN:
        return None
    below = rows[at + 1]
    if below.blank or not below.finds.codes or below.finds.codes[0].start > 1:
        return None
    verb = _LAST.search(row.low)
    if verb is None or verb[1] not in _SAYS or row.text[verb.start(1) :] == "A":
        return None
    counted = stated_count(row.low)
    if counted is not None and counted[2] >= len(row.low.rstrip(" :")):
        # "Shifter > 2 codes read" heads them.
        return None
    if len(row.low.split()) > _MOST_WORDS or _MARK.search(row.low, 0, verb.start() + 1):
        return None
    found = names_in(row.low)
    # "Head-up display" is a name as a whole; "no message from module A" tells of another module.
    named = bool(found) and found[0][0] <= _LEAD and found[-1][1] <= verb.start()
    return verb.start() if named else None


def _is_list(rows: Sequence[Row], at: int) -> bool:
    """Whether several lines with one code each, none of which breaks off, begin at a place."""
    pair = rows[at : at + 2]
    return len(pair) == 2 and not pair[1].blank and all(
        len(row.finds.codes) == 1 and row.finds.codes[0].start <= 1 and not _OPEN.search(row.low) for row in pair)


__all__ = ["joined"]
