"""Codes that nobody can read among others, behind the name of their module: "Brakes: SPN 1045 ; SPN 1836 FMI 5",
"ABS: P12?? ; C1234", "ABS: one unreadable, C1234".

They are told in a notice and left out, so that what follows is of the module that its line names.

>>> from code_tables import load
>>> from triage.intake.lines.rows import rows_of
>>> found, told = left_out(rows_of("ECM: P0562\\nABS: P12?? ; C1234 active\\nBrakes: SPN 1045 ; SPN 1836 FMI 5"))
>>> [row.text for row in found], [line.text[start:end] for line, start, end, _ in told]
(['ECM: P0562', 'ABS: C1234 active', 'Brakes: SPN 1836 FMI 5'], ['P12??', 'SPN 1045'])
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import Line, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states
from triage.intake.said.near import small

#: Line, from, to, and what to say of it.
Told = tuple[Line, int, int, str]

#: A name and the mark behind it.
_NAMED = lazily(r"(?P<name>[^:=;|\t]{2,50}?)\s*(?::|=|-{0,2}>)\s*(?=\S)")
#: A parameter number of heavy vehicles; one with its failure mode is a code.
_SPN = lazily(r"(?<![a-z0-9])spn[ :=#.-]{0,3}[0-9]{1,7}(?![0-9])")
#: One that stands for itself behind another code.
_PIECE = lazily(
    r"\s*[;,/|&+]\s*spn[ :=#.-]{0,3}[0-9]{1,7}\s?[?]{0,3}(?: (?:un-?read(?:able)?|illegible|smudged))?"
    r"(?=\s*(?:[;,/|&+]|$))"
)
#: What somebody writes who can't read a code.
_UNREAD = lazily(
    r"(?<![a-z])(?:un-?read(?:able)?|illegible|unleserlich|nicht lesbar|illisible|ilegible|smudged?|smeared|verwischt|"
    r"torn(?: off)?|cut off|blurred|blurry|abgerissen|efface|borroso|not (?:legible|readable)|"
    r"(?:ones?|two|three|some|codes?) (?:that |which )?(?:i |we )?(?:can ?'?t|couldn ?'?t|can ?not|could not|not) read"
    r")(?![a-z])|\?{2,}|[0-9a-z] ?\?(?=\s*[,;/]|\s+[a-z])"
)
#: Such a piece ends at a mark.
_PARTED = (";", ",", "/", "|", "+", "&")
_MOST_WORDS = 5
MISSING = "is not read: the number of its failure mode (FMI) is missing"
NOT_READ = "is not read: write the code out"


def left_out(rows: Sequence[Row]) -> tuple[list[Row], list[Told]]:
    """The rows without such codes, and what is to be told of each. Linear."""
    found, told = list(rows), list[Told]()
    for at, row in enumerate(rows):
        if row.head or row.roles:
            continue
        if not row.finds.codes:
            match = _SPN.match(row.low)
            # "FMI: 4" may stand in a line of its own.
            if match is not None and not any("fmi" in other.low for other in rows[max(at - 1, 0) : at + 3]):
                told.append((row.line, row.start, row.start + match.end(), f"{match[0].upper()} {MISSING}"))
            continue
        # A line that is broken behind the number may go on with the failure mode.
        last = len(row.low) if any(other.low.startswith("fmi") for other in rows[at + 1 : at + 2]) else -1
        told += [(row.line, row.start + start, row.start + end, f"{row.text[start:end]} {MISSING}")
                 for start, end in _lone(row)]
        parts = [part for part in _pieces(row) if part[1] != last]
        if (stretch := _unread(row)) is not None:
            start, end = stretch
            told += [(row.line, row.start + each.start, row.start + each.end, each.message)
                     for each in row.finds.refusals if start <= each.start < end]
            if not told or told[-1][0] is not row.line:
                what = row.text[start:end].rstrip(" ;,")
                told.append((row.line, row.start + start, row.start + start + len(what), f"{what} {NOT_READ}"))
            parts = [stretch, *parts]
        if parts:
            found[at] = without(row, *parts)
    return found, told


def _pieces(row: Row) -> list[tuple[int, int]]:
    """The places, with the mark before each, of parameter numbers without a failure mode that stand behind a code."""
    if "spn" not in row.low or not is_as_pasted(row):
        return []
    lone, first = {start for start, _ in _lone(row)}, row.finds.codes[0].end
    spans = [match.span() for match in _PIECE.finditer(row.low, first)]
    return [(start, end) for start, end in spans if any(start < at < end for at in lone)]


def _lone(row: Row) -> list[tuple[int, int]]:
    """The places of parameter numbers without a failure mode in a row with other codes."""
    if "spn" not in row.low:
        return []
    places = [(code.start, code.end) for code in row.finds.codes]
    found = [match.span() for match in _SPN.finditer(row.low)]
    return [(start, end) for start, end in found if not any(first < end and start < last for first, last in places)]


def _unread(row: Row) -> tuple[int, int] | None:
    """Where codes that can't be read stand between the name of a module and the first code of a row."""
    stop = row.finds.codes[0].start
    match = _NAMED.match(row.text, 0, stop)
    if match is None or match.end() >= stop or not is_as_pasted(row):
        return None
    name, rest = tidy(match["name"]), row.low[match.end() : stop]
    low = small(name)
    if not has_letter(name) or len(name.split()) > _MOST_WORDS or role_of(low) is not None or states.in_text(low):
        return None
    if phases.find(low) is not None:
        return None
    refused = any(match.end() <= each.start < stop for each in row.finds.refusals)
    if not refused and _SPN.search(rest) is None and (
            not rest.rstrip().endswith(_PARTED) or _UNREAD.search(rest) is None):
        return None
    return match.end(), stop


__all__ = ["left_out"]
