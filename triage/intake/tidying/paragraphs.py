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
from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set
from triage.intake.said.answers import spoken, takes_object
from triage.intake.words.vocabulary import STATES

_GRAMMAR = word_set(
    "the a an is are was were has have had and in from did does not no there this that of with at to it we i on "
    "then but also both after before "
    "der die das ist sind hat haben und im in aus nicht kein keine mit auch es wir dann aber nach vor den dem ein "
    "eine "
    "le la les est sont a ont et dans de du des pas ne aucun avec aussi il on puis mais apres avant un une "
    "el los las es son ha han y en del no ningun con tambien se luego pero despues antes uno una"
)
#: What tells of codes and answers; a line that ends with one goes on in the next.
_TELLS = word_set(
    "shows show gives give gave got get gets reports running would could cannot stayed nothing dropped went "
    "down as zeigt zeigen meldet melden gibt nichts affiche indique donne rien muestra muestran presenta da nada "
    "donnent remonte steht stehen tiene tienen threw throws"
)
#: A paragraph has several such words in it.
_SIGN = signs.of_words((_GRAMMAR | _TELLS).__contains__)
#: No sentence begins with one of these.
_VERBS = word_set(
    "from did does is are was were has have and or shows show gives gave stayed would hat haben hatte ist sind und "
    "oder zeigt meldet a ont est sont et ou indique ha han son y o tiene muestra"
)
_JOINT = lazily(r"[,;]\s|\s-+\s|[.!?]\s")
_HEADING = lazily(r"[^,.;!?]*:")
_SENTENCE = lazily(r"[.!?](?:\s|$)")
_LIST_LIKE = lazily(r"[|\t]|=(?! ?[0-9]+[.,][0-9])|;(?! |$)|\s{3,}|\.{4}|_{4}")
_TIGHT_COMMA = lazily(r",(?![ 0-9]|$)")
_KEYED = lazily(r"[^:]{1,24}:\s")
#: Brackets that no sentence is told in.
_CLOSERS = "]}>"
_MOST, _MOST_HEAD, _SHORT, _LEAST = 60, 4, 40, 18


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
        if ended and lengths[at] + 1 + len(below.text.split(" ", 1)[0]) < max(lengths) - 3:
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
    if any(_LIST_LIKE.search(row.text) for row in rows) or all(_KEYED.match(row.text) for row in rows):
        return False
    # A line ends where the next word no longer fitted.
    firsts = [1 if _dashed(row) else len(row.text.split(" ", 1)[0]) for row in rows[1:]]
    if any(length + 1 + first < width - 3 for length, first in zip(lengths, firsts, strict=False)):
        return False
    text = " ".join(row.low for row in rows)
    words = [word for word in WORD.findall(text) if not has_digit(word)]
    small = sum(word in _GRAMMAR or word in _TELLS for word in words)
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
    """Whether the lines are rows of a list: cells between commas or strokes, or most of them begin with a code."""
    cells = sum(len(_TIGHT_COMMA.findall(row.text)) for row in rows)
    if cells >= len(rows) or all(" / " in row.text for row in rows):
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
    if below.text[0] == "(" and above.finds.codes and (told := STATES.find(below.low[:32])) and told[0].start < 2:
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
    said = spoken(above.low) if below.text[0].isupper() else ()
    if said and said[-1].end >= len(above.low) and not takes_object(above.low, said[-1]):
        # "Gateway antwortet nicht" is told to its end.
        return False
    last, first = above.text.split()[-3:], below.text.split()[:3]
    ends, starts = above.low.split()[-1].lstrip("(["), WORD.match(below.low)
    if has_digit(ends) and (told := STATES.find(below.low[:24])) and not told[0].start:
        return True
    if ends in _GRAMMAR or ends in _TELLS or (starts is not None and below.text[0].islower() and starts[0] in _VERBS):
        return True
    return any(
        is_name(" ".join([*last[-left:], *first[:right]]).rstrip(".,;:"))
        for left in range(1, len(last) + 1) for right in range(1, len(first) + 1))


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
