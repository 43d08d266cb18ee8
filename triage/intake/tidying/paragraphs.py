"""Paragraphs: sentences that a mail wrapped into lines of one width are put together again.

>>> from triage.intake.lines.rows import rows_of
>>> found = join(rows_of("The cluster has U0100 and the brakes did\\nnot answer. In the radio there are no\\ncodes."))
>>> [row.text for row in found]
['The cluster has U0100 and the brakes did not answer. In the radio there are no codes.']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

from triage.intake.lines.glue import closed, glued
from triage.intake.lines.goingon import (
    BREAKS,
    GOES_ON,
    LIST_LIKE,
    PROSE,
    begins_with_status,
    fits,
    is_answered,
    last_word,
    tears_name,
)
from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD
from triage.intake.said.answers import answer_of_cell, spoken

#: A paragraph has several such words in it.
_SIGN = signs.of_words(PROSE.__contains__)
_JOINT = lazily(r"[,;]\s|\s-+\s|[.!?]\s")
_HEADING = lazily(r"[^,.;!?]*:")
_SENTENCE = lazily(r"(?<![\s.])[.!?](?:\s|$)")
#: The time of a message, or of a line in a log.
_CLOCK = lazily(r"[0-2]?[0-9][:h][0-5][0-9](?::[0-5][0-9])?\s+(?=\S)")
_TIGHT_COMMA = lazily(r",(?![ 0-9]|$)")
_KEYED = lazily(r"[^:]{1,24}:(?=[^\W\d]|\s)")
#: Brackets that no sentence is told in.
_CLOSERS = "]}>"
_MOST, _MOST_HEAD, _SHORT, _LEAST = 60, 4, 40, 18
#: A line that lacks no more than so much of the width is full.
_SLACK = 4


def join(rows: Sequence[Row], is_name: Callable[[str], bool] = lambda name: False) -> list[Row]:
    """The rows with each wrapped paragraph as one; all else as it is. ``is_name``: listed names."""
    found: list[Row] = []
    at = 0
    while at < len(rows):
        last = at
        while last < len(rows) and not rows[last].blank and last - at < _MOST:
            last += 1
        if last > at:
            found += _stretch(rows[at:last], is_name)
            at = last
        else:
            found.append(rows[at])
            at += 1
    return found


def _stretch(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """A stretch of lines without a blank one: a paragraph, or several that each end before the line is full, or rows as
    they are."""
    if len(rows) < 2:
        return list(rows)
    # No paragraph begins above a line that is too short for one, but for its last.
    short = next((at for at in range(len(rows) - 2, -1, -1) if len(rows[at].text) < _LEAST), -1)
    if short < 0 and _is_paragraph(rows, is_name):
        return [_joined(rows)]
    for head in range(max(short + 1, 1), min(_MOST_HEAD, len(rows) - 2) + 1):
        # Of another width, lines that greet or tell of the whole scan stand right above the paragraph.
        if _is_paragraph(rows[head:], is_name) and _ends(rows[head - 1], rows[head], is_name):
            return [*rows[:head], _joined(rows[head:])]
    if not (_greets(rows[0]) or any(row.text[-1] in ".!?" for row in rows[:-1])):
        return list(rows)
    lengths = [len(" ".join(row.text.split())) for row in rows]
    # The next word would have fitted behind what ends the sentence.
    ends = []
    for at, (above, below) in enumerate(pairwise(rows)):
        ended = above.text[-1] in ".!?" or (at == 0 and _greets(above))
        if ended and fits(lengths[at], below.text, max(lengths) - _SLACK):
            ends.append(at + 1)
    found: list[Row] = []
    for start, end in pairwise([0, *ends, len(rows)] if ends else [0]):
        part = rows[start:end]
        found += [_joined(part)] if len(part) > 1 and _is_paragraph(part, is_name) else part
    return found or list(rows)


def _ends(above: Row, below: Row, is_name: Callable[[str], bool]) -> bool:
    """Whether a line above a paragraph is none of it: it ends a sentence or greets, or it is short and breaks off
    nowhere."""
    if above.finds.codes or spoken(above.low):
        return False
    if above.text[-1] in ".!?" or _greets(above):
        return True
    return len(above.text) < _SHORT and not _is_open(above, below, is_name)


def _greets(row: Row) -> bool:
    """Whether a line addresses a reader: "Hi all,", "Morning,"."""
    return row.text[-1] == "," and len(row.text.split()) <= 4 and not has_digit(row.text) and ":" not in row.text


def _is_paragraph(rows: Sequence[Row], is_name: Callable[[str], bool]) -> bool:
    """Whether a stretch of lines is running prose: one indent, one width, sentences, the small words of a language."""
    if not any(signs.of(row.low) & _SIGN for row in rows):
        return False
    # No line but the last is shorter than 0.6 of the width, which is 30 or more.
    if any(len(row.text) < _LEAST for row in rows[:-1]) or any(len(row.text) > 110 for row in rows):
        return False
    if any(row.line.indent != rows[0].line.indent for row in rows[1:]) or _dashed(rows[0]):
        return False
    lengths = [len(" ".join(row.text.split())) + 2 * _dashed(row) for row in rows]
    width = max(lengths)
    if width < 30 or any(length < 0.6 * width for length in lengths[:-1]):
        return False
    if any(LIST_LIKE.search(row.text) for row in rows) or all(_KEYED.match(row.text) for row in rows):
        return False
    if any(_begins_anew(above, below, is_name) for above, below in pairwise(rows)):
        return False
    # A line ends where the next word no longer fitted.
    firsts = ["-" if _dashed(row) else row.text for row in rows[1:]]
    if any(fits(length, first, width - _SLACK) for length, first in zip(lengths, firsts, strict=False)):
        return False
    text = " ".join(row.low for row in rows)
    words = [word for word in WORD.findall(text) if not has_digit(word)]
    small = sum(word in PROSE for word in words)
    if len(words) < 8 or small < 0.1 * len(words) or _is_list(rows):
        return False
    sentences = len(_SENTENCE.findall(text))
    # One line of a message may break behind "Brakes:"; where more are no more than that, the lines are headings.
    colons = sum(_HEADING.fullmatch(row.text) is not None for row in rows)
    told = sentences >= 1 + 2 * colons or (not colons and text.count("; ") >= 3)
    if told and len(rows) > 3 and width >= 50:
        return True
    # The widths of few or short lines prove little: they must tell something, and one break off within a sentence.
    if not any(row.finds.codes or spoken(row.low) for row in rows):
        return False
    told = told or (not colons and _JOINT.search(text) is not None)
    return told and any(_is_open(above, below, is_name) for above, below in pairwise(rows))


def _is_list(rows: Sequence[Row]) -> bool:
    """Whether the lines are rows of a list: cells between commas, strokes or as many semicolons, or most of them begin
    with a code; or messages, each with its time."""
    if all(_CLOCK.match(row.low) is not None for row in rows):
        return True
    cells = sum(len(_TIGHT_COMMA.findall(row.text)) for row in rows)
    if cells >= len(rows) or all(" / " in row.text for row in rows):
        return True
    if len(rows) > 2 and rows[0].text.count(";") > 1 and len({row.text.count(";") for row in rows}) == 1:
        return True
    answered = [answer_of_cell(row.low.rpartition(" - ")[2]) is not None for row in rows if " - " in row.text]
    if sum(answered) > max(2, len(rows) / 2):
        # "Radio - no reply", below a remark perhaps
        return True
    coded = [bool(row.finds.codes) and row.finds.codes[0].start == 0 for row in rows]
    if sum(coded) < 2 or 2 * sum(coded) < len(rows):
        return False
    starts = coded[0] + sum(
        begins and (above.text[-1].isalnum() or above.text[-1] in _CLOSERS)
        and not _is_open(above, below, lambda name: False)
        for begins, (above, below) in zip(coded[1:], pairwise(rows), strict=True))
    return starts >= 2 and 2 * starts >= len(rows)


def _is_open(above: Row, below: Row, is_name: Callable[[str], bool]) -> bool:
    """Whether a line breaks off within a sentence: behind or before a small word, or within a name."""
    if _dashed(below) or _hyphened(above.text, below):
        return True
    if below.text[0] == "(" and above.finds.codes and begins_with_status(below.low):
        return True
    keyed = _KEYED.match(below.text)
    if keyed is not None and is_name(below.text[: keyed.end()].rstrip(": ")):
        # "ABS: no codes" begins anew, whatever stands above it ("jump pack on").
        return False
    if not above.text[-1:].isalnum():
        # Behind "Brakes:" a line breaks only where another sentence stands before that.
        last = above.text.rstrip(":").split()[-3:]
        named = above.text[-1:] == ":" and any(is_name(" ".join(last[-left:])) for left in range(1, len(last) + 1))
        return named or (above.text[-1:] == "," and below.text[0].islower())
    if below.text[0].isupper() and is_answered(above.low):
        return False
    ends, starts = last_word(above.low), WORD.match(below.low)
    if has_digit(ends) and begins_with_status(below.low):
        return True
    if ends in BREAKS or (keyed is None and starts is not None and below.text[0].islower() and starts[0] in GOES_ON):
        return True
    return tears_name(above.text, below.text, is_name)


def _begins_anew(above: Row, below: Row, is_name: Callable[[str], bool]) -> bool:
    """Whether a line begins with the name of a module and a colon, and no sentence ends above it or goes on in it."""
    keyed = _KEYED.match(below.text)
    return keyed is not None and above.text[-1].isalnum() and last_word(above.low) not in BREAKS and (
        is_name(below.text[: keyed.end()].rstrip(": ")))


def _hyphened(text: str, below: Row) -> bool:
    """Whether a line breaks at a hyphen within a word ("anti-" above "lock")."""
    return text[-1:] == "-" and text[-2:-1].isalpha() and below.text[0].isalpha()


def _dashed(row: Row) -> bool:
    """Whether a dash that may part two sentences was taken off the line as the mark of a list."""
    return row.line.text[: row.start].strip() == "-"


def _joined(rows: Sequence[Row]) -> Row:
    """Several rows as one; it stands where the first of them does."""
    one = rows[0]
    for row in rows[1:]:
        one = glued(one, row, "" if _hyphened(one.text, row) else " - " if _dashed(row) else " ")
    line = closed(one.line, one.start)
    return Row(line, line.text[one.start :], one.start)
