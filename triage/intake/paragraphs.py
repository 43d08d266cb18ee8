"""Paragraphs: sentences that a mail wrapped into lines of one width are put together again, and each stands for itself.

>>> from triage.intake.rows import rows_of
>>> found = join(rows_of("The cluster has U0100 and the brakes did\\nnot answer. In the radio there are no\\ncodes."))
>>> [row.text for row in found]
['The cluster has U0100 and the brakes did not answer.', 'In the radio there are no codes.']
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise

from triage.intake import engine_state, volts
from triage.intake.answers import spoken
from triage.intake.characters import has_digit, line_of
from triage.intake.clause_words import ABBREVIATED, SHORT_STATES
from triage.intake.found import Found
from triage.intake.layouts import Row
from triage.intake.phrases import WORD, word_set
from triage.intake.vocabulary import ANSWERS, STATE_FILLER, STATES

_GRAMMAR = word_set(
    "the a an is are was were has have had and in from did does no not there this that of with at to it we i on "
    "then but also both after before came shows logged has "
    "der die das ist sind hat haben und im in aus nicht kein keine mit auch es wir dann aber nach vor den dem ein "
    "eine meldet steht "
    "le la les est sont a ont et dans de du des pas ne aucun avec aussi il on puis mais apres avant un une affiche "
    "el los las es son ha han y en del no ningun con tambien se luego pero despues antes uno una tiene muestra"
)
_CLAUSE_END = re.compile(r"[.!?](?:\s|$)|;\s|\s/\s")
_SENTENCE_END = re.compile(r"[.!?](?:\s|$)")
_LIST_LIKE = re.compile(r"[|\t=]|\s{3,}|\.{4}|_{4}|;(?=\S)")
#: Codes that go on in running text: "P0562 (stored). The ABS ..."
_CODE_FIRST = re.compile(r"[pcbu][0-9a-zo]{4}.{0,80}(?:[.;]\s|,\s|\sand\s|\sund\s|\set\s|\sy\s)")
_KEYED = re.compile(r"[^:]{1,24}:\s")
#: A line that ends with these is whole.
_WHOLE = (".", "!", "?", ":")
_MOST = 60
#: A sentence of more characters is cut at its commas.
_LONG = 2000
_STOP = re.compile(r"[.!?]+[\"')\]]*\s+(?=\S)")
#: The last words of a sentence that goes on in small letters.
_UNITS = word_set("v volt volts volte km kmh miles min minutes minuten ah uhr h")
#: The first words of a sentence that goes on in small letters.
_STARTS = re.compile(
    r"(?:got|found|no|nothing|cannot|can't|could|couldn't|did|didn't|haven't|skipped|battery|batt|had|the|there|ignition|engine|"
    r"key|koeo|koer|scanned|keine?|batterie|im|motor|aucun|pas|sin|bateria|then|also|now|cleared|erased|after|rescan\w*|codes|all)(?![a-z])"
)
_ENDS = STATES.ends | ANSWERS.ends | _UNITS


def join(rows: Sequence[Row]) -> list[Row]:
    """The rows with each wrapped paragraph as one, cut into its sentences; all else as it is."""
    found: list[Row] = []
    at = 0
    while at < len(rows):
        last = at
        while last < len(rows) and not rows[last].blank and last - at < _MOST:
            last += 1
        if last == at:
            found.append(rows[at])
            at += 1
            continue
        stretch = rows[at:last]
        for row in _unwrapped(stretch) if last - at >= 2 and _is_prose(stretch) else stretch:
            found += _sentences(row)
        at = last
    return found


def _is_prose(rows: Sequence[Row]) -> bool:
    """Whether a stretch of lines is running prose: clauses that end, and the small words of a language."""
    width = max(len(row.text) for row in rows)
    if not 30 <= width <= 110 or sum(len(row.text) >= 0.6 * width for row in rows) < 2 - (len(rows) == 2):
        return False
    if any(_LIST_LIKE.search(row.text) for row in rows) or all(_KEYED.match(row.text) for row in rows):
        return False
    text = " ".join(row.low for row in rows)
    if _SENTENCE_END.search(text) is None and not (
        _CLAUSE_END.search(text)
        and any(_is_open(above) or row.low.split(" ", 1)[0] in _GRAMMAR for above, row in pairwise(rows))
    ):
        return False
    found = WORD.findall(text)
    return len(found) >= 8 and sum(word in _GRAMMAR for word in found) >= 0.06 * len(found)


def _unwrapped(rows: Sequence[Row]) -> list[Row]:
    """The rows of a stretch, those that a wrap parted as one."""
    width = max(len(" ".join(row.text.split())) for row in rows)
    found: list[list[Row]] = []
    for row in rows:
        above = found[-1][-1] if found else None
        if above is not None and _goes_on(above, row, width):
            found[-1].append(row)
        else:
            found.append([row])
    return [_joined(parts) if len(parts) > 1 else parts[0] for parts in found]


def _goes_on(above: Row, row: Row, width: int) -> bool:
    """Whether a line ends where the next word no longer fitted, in the middle of a clause."""
    length = len(" ".join(above.text.split()))
    first = len(row.text.split(" ", 1)[0])
    return (
        above.line.indent == row.line.indent
        and length >= 0.6 * width
        and length + 1 + first >= width - 3
        and (not row.finds.codes or row.finds.codes[0].start > 0 or _is_open(above))
        and (not above.text.endswith(_WHOLE) or (above.text[-1] == ":" and _CODE_FIRST.match(row.low) is not None))
    )


def _is_open(row: Row) -> bool:
    """Whether a line can't end here: at a joint, a small word, or inside brackets."""
    low = row.low
    if low.endswith((",", ":", "&", "+", "(", " -", " /")) or low.rfind("(") > low.rfind(")"):
        return True
    last = low[-12:].rsplit(None, 1)[-1] if low[-12:].strip() else ""
    return last in _GRAMMAR or last in ("plus", "or", "oder", "ou", "found", "got", "with", "mit", "spn", "fmi", "p")


def _joined(rows: Sequence[Row]) -> Row:
    """Several rows as one; it stands where the first of them does."""
    text = " ".join(row.text for row in rows)
    return Row(line_of(rows[0].line.number, text, text), text, 0)


def _sentences(row: Row) -> list[Row]:
    """The sentences of a row, each as a row; a row that is no prose as it is."""
    text = row.text
    if len(text) < 20 or (_STOP.search(text) is None and len(text) <= _LONG) or _LIST_LIKE.search(text) is not None:
        return [row]
    places = [0]
    stops = list(_STOP.finditer(text))
    for at, match in enumerate(stops):
        end = stops[at + 1].start() if at + 1 < len(stops) else len(text)
        if _ends_here(row, places[-1], match) and _stands_alone(row, match.end(), end):
            places.append(match.end())
    if len(text) > _LONG:
        places = _shorter(text, places)
    if len(places) == 1:
        return [row]
    return [
        Row(row.line, text[start:end].rstrip(), row.start + start)
        for start, end in zip(places, [*places[1:], len(text)], strict=True)
    ]


def _shorter(text: str, places: list[int]) -> list[int]:
    """Where to cut a text so that no piece runs on: at the places, and at a comma within each ``_LONG`` characters."""
    found = []
    for start, end in zip(places, [*places[1:], len(text)], strict=True):
        found.append(start)
        while end - start > _LONG:
            cut = max(text.rfind(mark, start + _LONG // 2, start + _LONG) for mark in (", ", "; ", " / "))
            if cut < 0:
                break
            start = cut + 2
            found.append(start)
    return found


def _ends_here(row: Row, start: int, match: re.Match[str]) -> bool:
    """Whether a full stop ends a sentence: not behind an abbreviation or a number of a list."""
    low = row.low
    last = WORD.findall(low[max(start, match.start() - 24) : match.start()])
    if not last or match.start() - start < 4:
        return False
    if match[0][0] != "." or match[0].startswith(".."):
        return True
    after = row.text[match.end() : match.end() + 1]
    if last[-1] in SHORT_STATES:
        return after.isupper() or _STARTS.match(low, match.end()) is not None
    if last[-1] in ABBREVIATED or (len(last[-1]) == 1 and last[-1].isalpha() and last[-1] != "v"):
        return False
    return not after.islower() or last[-1] in _ENDS or has_digit(last[-1]) or low[match.start() - 1] == ")"


def _stands_alone(row: Row, start: int, end: int) -> bool:
    """Whether what follows a full stop says something of its own: no status or rest of a description."""
    low = row.low[start:end]
    found = WORD.findall(low[:200])
    place = bisect_left(row.finds.codes, start, key=_start)
    codes = [code for code in row.finds.codes[place : place + _MOST] if code.start < end]
    if codes or spoken(low[:400]) or volts.find(low[:200]) or engine_state.engine(low[:200]) is not None:
        said = {word for hit in STATES.find(low[:400]) for word in hit.phrase.split()}
        said |= {word for code in codes for word in WORD.findall(row.low[code.start : code.end])}
        return any(word not in said and word not in STATE_FILLER for word in found)
    return len(found) >= 3 and any(word in _GRAMMAR for word in found)


def _start(code: Found) -> int:
    return code.start
