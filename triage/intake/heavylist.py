"""SPN and FMI with a stroke between them, under a line that says so: "SPN/FMI", then "168/4 active".

>>> from triage.intake.rows import rows_of
>>> found = rows_of("SPN/FMI list - engine\\n168/4 active\\n110/3 inactive\\n12/05/2025")
>>> adopt(found)
>>> [[code.text for code in row.finds.codes] for row in found]
[[], ['SPN 168 FMI 4'], ['SPN 110 FMI 3'], []]
"""

from __future__ import annotations

from triage.intake.found import Found
from triage.intake.layouts import Row
from triage.intake.patterns import lazily
from triage.intake.phrases import word_set, words
from triage.model import codes as model_codes

_HEAD = lazily(r"(?<![a-z])spn\s?[/.-]\s?fmi(?![a-z])")
_LIST_WORDS = word_set(
    "list codes code dtc dtcs fault faults status state description text liste fehler fehlerliste defauts codigos of "
    "in for the count occurrences oc"
)
_PAIR = lazily(r"([0-9]{1,6})\s?[/.-]\s?([0-2]?[0-9]|3[01])(?=\s|$|[,;:|])(?!\s?(?:v|volts?|km|min)(?![a-z]))")


def _named(row: Row) -> Row:
    """A head without its words for codes; one that has no others is passed over like that of a table."""
    bare = _HEAD.sub(lambda head: " " * len(head[0]), row.low)
    kept = [(start, end) for word, start, end in words(bare) if word not in _LIST_WORDS]
    if not kept:
        row.head = True
        return row
    start, end = kept[0][0], kept[-1][1]
    return Row(row.line, row.text[start:end], row.start + start)


def adopt(rows: list[Row]) -> None:
    """Give the rows below such a head that start with a pair of numbers those as their code; the head keeps the name
    of its module alone. Linear."""
    headed = False
    for at, row in enumerate(rows):
        if row.blank or row.finds.codes:
            continue
        if _HEAD.search(row.low) is not None:
            headed = True
            if not row.head:
                rows[at] = _named(row)
            continue
        match = _PAIR.match(row.text) if headed else None
        code = model_codes.parse(f"SPN {int(match[1])} FMI {int(match[2])}") if match is not None else None
        if match is not None and code is not None:
            found = Found(0, match.end(), code.text, kind="J1939", bare=match.end())
            row.finds = row.finds._replace(codes=(found,))
