"""Paragraphs: sentences that a mail wrapped into lines of one width are put together again.

>>> from triage.intake.rows import rows_of
>>> found = join(rows_of("The cluster has U0100 and the brakes did\\nnot answer. In the radio there are no\\ncodes."))
>>> [row.text for row in found]
['The cluster has U0100 and the brakes did not answer. In the radio there are no codes.']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.characters import line_of
from triage.intake.layouts import Row
from triage.intake.phrases import WORD, word_set

_GRAMMAR = word_set(
    "the a an is are was were has have had and in from did does not no there this that of with at to it we i on "
    "then but also both after before "
    "der die das ist sind hat haben und im in aus nicht kein keine mit auch es wir dann aber nach vor den dem ein "
    "eine "
    "le la les est sont a ont et dans de du des pas ne aucun avec aussi il on puis mais apres avant un une "
    "el los las es son ha han y en del no ningun con tambien se luego pero despues antes uno una"
)
_SENTENCE = re.compile(r"[.!?](?:\s|$)")
_LIST_LIKE = re.compile(r"[|\t=]|;(?! )|\s{3,}|\.{4}|_{4}")
_KEYED = re.compile(r"[^:]{1,24}:\s")
_MOST = 60


def join(rows: Sequence[Row]) -> list[Row]:
    """The rows with each wrapped paragraph as one; all else as it is."""
    found: list[Row] = []
    at = 0
    while at < len(rows):
        last = at
        while last < len(rows) and not rows[last].blank and last - at < _MOST:
            last += 1
        if last - at >= 2 and _is_paragraph(rows[at:last]):
            found.append(_joined(rows[at:last]))
            at = last
        elif last > at:
            found += rows[at:last]
            at = last
        else:
            found.append(rows[at])
            at += 1
    return found


def _is_paragraph(rows: Sequence[Row]) -> bool:
    """Whether a stretch of lines is running prose: one indent, one width, sentences, the small words of a language."""
    # No line but the last is shorter than 0.6 of the width, which is 30 or more.
    if any(len(row.text) < 18 for row in rows[:-1]) or any(len(row.text) > 110 for row in rows):
        return False
    if any(row.line.indent != rows[0].line.indent for row in rows[1:]):
        return False
    lengths = [len(" ".join(row.text.split())) for row in rows]
    width = max(lengths)
    if width < 30 or any(length < 0.6 * width for length in lengths[:-1]):
        return False
    if any(_LIST_LIKE.search(row.text) for row in rows) or all(_KEYED.match(row.text) for row in rows):
        return False
    # A line ends where the next word no longer fitted.
    firsts = [len(row.text.split(" ", 1)[0]) for row in rows[1:]]
    if any(length + 1 + first < width - 3 for length, first in zip(lengths, firsts, strict=False)):
        return False
    text = " ".join(row.low for row in rows)
    words = WORD.findall(text)
    small = sum(word in _GRAMMAR for word in words)
    if len(words) < 8 or small < 0.15 * len(words):
        return False
    sentences = len(_SENTENCE.findall(text))
    # One line of a message may break behind "Brakes:"; where more do, the lines are headings.
    colons = sum(row.text.endswith(":") for row in rows)
    return sentences >= 1 + 2 * colons or (not colons and text.count("; ") >= 3)


def _joined(rows: Sequence[Row]) -> Row:
    """Several rows as one; it stands where the first of them does."""
    text = " ".join(row.text for row in rows)
    return Row(line_of(rows[0].line.number, text, text), text, 0)
