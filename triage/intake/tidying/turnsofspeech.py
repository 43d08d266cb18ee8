"""Turns of speech that set a status off from its code, written as a comma does: "U0100 sits in the ABS as stored",
"has P0562 but not present any more", "shows U3000, failing now - radio clean".

>>> from triage.intake.lines.rows import rows_of
>>> said = ("P0562 sits in ABS as stored.\\nABS has P0562 but is no longer active, ok\\nP0562 as before, but ABS ok\\n"
...         "ABS has P0562, active now - ECM U0100 lost")
>>> for row in commas(rows_of(said)):
...     print(row.text)
P0562 sits in ABS, stored.
ABS has P0562, no longer active, ok
P0562 as before, but ABS ok
ABS has P0562, active now. ECM U0100 lost
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.lines.glue import as_read
from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import phases, volts
from triage.intake.said.answers import spoken
from triage.intake.words.vocabulary import STATES

_LEAD = lazily(
    r"\s(?:as(?: an?)?|als|comme|como|but(?: (?:is|are|it is|they are|it's))?|aber|mais|pero)\s(?=[a-z])"
)
_DASH = lazily(r"\s-\s(?=[^\W\d_])")
_IN = lazily(r"\s(?:in|on|from|im|bei|vom|dans|du|en|del)\s")
_ENDS = lazily(r"\s?(?:[.,;:!]|$|-\s)")
_SIGN = signs.of_words(lambda word: word in ("as", "als", "comme", "como", "but", "aber", "mais", "pero"))
#: A dash stands for a full stop only behind a clause that a comma parts.
_AFTER_COMMA = r",\s.{3,60}\s-\s"
_COMMA = lazily(_AFTER_COMMA)
_SIGN_OF_DASHES = signs.of_text(_AFTER_COMMA)
#: "U0100 and U0140, both as history", "all are marked as pending": said of several, and understood.
_OF_ALL = word_set(
    "both all each two three alle beide jeweils tous toutes les deux todos todas ambos marked flagged listed shown "
    "kept given markiert gefuhrt marques marquees affiches affichees marcados marcadas"
)
_LONGEST, _FARTHEST, _FEWEST = 4000, 48, 2


def commas(rows: Sequence[Row]) -> list[Row]:
    """The rows, such statuses behind a comma. Linear."""
    return [_written(row) if signs.of(row.low) & (_SIGN | _SIGN_OF_DASHES) else row for row in rows]


def _written(row: Row) -> Row:
    """A row with a comma before each status that a word sets off behind a code, and a full stop behind one that a dash
    parts from the next clause."""
    if not row.finds.codes or row.cells or "|" in row.text or "\t" in row.text or len(row.text) > _LONGEST:
        return row
    first, changes = row.finds.codes[0].end, list[tuple[int, int, str]]()
    for lead in _LEAD.finditer(row.low, first):
        before = row.low[: lead.start()].rstrip()
        if before[-1:] in (",", "-", ";", ":") or before.rsplit(None, 1)[-1] in _OF_ALL:
            continue
        if (end := _status_end(row.low, lead.end())) is not None:
            changes.append((lead.start(), lead.end(), ", "))
            changes += [(end, end + 3, ". ")] if row.low[end : end + 3] == " - " else []
    dashes = list(_DASH.finditer(row.low)) if _COMMA.search(row.low) is not None else []
    if _parts_clauses(row, dashes):
        changes += [(*dash.span(), ". ") for dash in dashes if not any(
            dash.start() == end for _, end, mark in changes) and (*dash.span(), ". ") not in changes]
        dashes = []
    for dash in (dash for dash in dashes if dash.start() >= first):
        comma = row.low.rfind(", ", max(first, dash.start() - _FARTHEST), dash.start())
        stop = _DASH.search(row.low, dash.end())
        end = stop.start() if stop is not None else len(row.low)
        if comma >= 0 and _tells(row, dash.end(), end) and _status_end(row.low, comma + 2) == dash.start() and any(
                code.end == comma or row.low[code.end : comma].startswith((" (", " [")) for code in row.finds.codes):
            changes.append((*dash.span(), ". "))
    if not changes:
        return row
    line, length = as_read(row), len(row.text)
    for start, end, mark in sorted(changes, reverse=True):
        line, length = reworded(line, row.start + start, row.start + end, mark), length + len(mark) - (end - start)
    return Row(line, line.text[row.start : row.start + length], row.start, entry=row.entry, heads=row.heads)


def _parts_clauses(row: Row, dashes: Sequence[re.Match[str]]) -> bool:
    """Whether dashes stand for full stops: a code, an answer or a voltage is told behind each, and more words."""
    if len(dashes) < _FEWEST:
        return False
    stops = [*(dash.start() for dash in dashes[1:]), len(row.low)]
    pieces = [(dash.end(), stop) for dash, stop in zip(dashes, stops, strict=True)]
    if any(code.start == start and _IN.search(row.low, start, stop) is None
           for start, stop in pieces for code in row.finds.codes):
        # "Pump - U0100 lost": what stands before the dash is the name.
        return False
    if any((end := _status_end(row.low, start)) is not None and row.low[end : end + 1] == ":" for start, _ in pieces):
        # "Siren - stored: B2972. Uh, ABS - stored: C0035": so it is before a status that heads the codes of its name.
        return False
    ends = {code.end for code in row.finds.codes}
    if any(dash.start() in ends and STATES.find(row.low[dash.end() : dash.end() + _FARTHEST])[:1] for dash in dashes):
        # "ABS: C0035 - not active & C0040 - stored": the dash leads to the status of the code before it.
        return False
    begins = [max(row.low.rfind(mark, 0, dash.start()) for mark in ("; ", ". ", "! ", "? ")) for dash in dashes]
    parted = [0, *(dash.end() for dash in dashes)]
    if any(begin >= before and not (_tells(row, begin, dash.start()) or volts.find(low := row.low[begin : dash.start()])
                                    or phases.find(low)) for begin, before, dash in zip(
                                        begins, parted, dashes, strict=False)):
        # "Pump - pending U0100; Radio - stored B1234": nothing is told between the mark and the dash but the name.
        return False
    return all((_tells(row, start, stop) or volts.find(row.low[start:stop]))
               and len(row.low[start:stop].split()) >= _FEWEST for start, stop in pieces)


def _tells(row: Row, start: int, stop: int) -> bool:
    """Whether a code or an answer is told in a part of a row."""
    return any(start <= code.start < stop for code in row.finds.codes) or bool(spoken(row.low[start:stop]))


def _status_end(low: str, at: int) -> int | None:
    """Where a status ends that begins at a place, if nothing else is said before the next mark; None for any other."""
    window = low[at : at + _FARTHEST]
    hits = STATES.find(window)
    if not hits or hits[0].start:
        return None
    end = at + hits[0].end
    return end if _ENDS.match(low, end) is not None else None


__all__ = ["commas"]
