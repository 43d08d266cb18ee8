"""Whole names in the lists of a sentence: in "no answer from chassis levelling, towbar electronics and CCU" each piece
between commas and "and" is one name, whether the tables know it or only a part of it.

A list is one of names where it belongs to an answer. Elsewhere only capital letters behind "in the" or the like name a
module that nobody knows.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from triage.intake.entries import subjects
from triage.intake.lines import unknown
from triage.intake.lines.row import Row
from triage.intake.naming.joined import joined
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set, words
from triage.intake.said import engine_state, phases
from triage.intake.said.answeraround import Spoken
from triage.intake.said.answers import spoken
from triage.intake.said.attribution import AND, LEADS, SAYS, Span
from triage.intake.scan.context import Context
from triage.intake.words.vocabulary import STATES

#: What ends the list of a sentence, and what parts its pieces.
_ENDS = lazily(rf"\.{NOT_SHORT}(?=\s|$)|[!?;:()\[\]\n]|\s-+(?=\s)|(?<![a-z])(?:but|while|aber|mais|pero)\s")
_JOINTS = lazily(r",|(?<=\s)(?:and|or|nor|und|oder|noch|et|ou|ni|y|o|&)(?=\s)")
LEADING = LEADS | word_set(
    "the a an both any either neither all also now then next der die das den le la l les el los las un une auch "
    "beide both")
#: No name of a module that nobody knows holds one of these.
NO_NAME = (SAYS | LEADS | AND | word_set(
    "or oder noch ou ni o not no nor the then when after before during again today yesterday now still also only all "
    "any it they them that which who first last later there here so as if did do does will would could can cannot rest "
    "others other same twice nothing none everything everybody nobody jetzt nun heute gestern maintenant ensuite "
    "ahora luego hoy")) - word_set("a de del du en m la le set log")
#: So sure is a text that it is a name where only its words stand beside one.
_SURE = 85.0
#: What stands around the second name of a module.
_OPENS, _CLOSES = (" (", "(", " ["), (")", "]")
_ARTICLE = lazily(r"(?<![a-z])the $")
#: Right behind a name: what else it is called. Before it: what leads to the subject of a sentence, or opens one.
_ALIAS = lazily(r"\s?\(([a-z][a-z0-9 /-]{1,40})\)(?=\s|[,.;:!?]|$)")
_REST = lazily(r"(?<!\))[a-z0-9 /-]{0,30}\)")
_LED = lazily(r"(?:(?<![a-z])the |(?:^|[.!?:;]\s))$")
_MOST_WORDS, _LONGEST, _SHORT, _REACH, _FAR = 5, 60, 4, 5, 6


class _Piece(NamedTuple):
    """A piece of a list: its place without the words that lead to it, and whether its sentence begins with it."""

    start: int
    end: int
    opens: bool


def mended(context: Context, row: Row, names: Sequence[Span], said: Sequence[Spoken]) -> list[Span]:
    """The names of a sentence, those in the lists of its answers (``said``) whole, with the unknown ones among them.
    Linear in the row."""
    names = _stretched(context, row, _joined(row, names), said)
    if not said:
        return names
    found: set[Span] = set()
    gone: set[Span] = set()
    for pieces in _lists(row, names, said):
        inside = [_within(names, piece) for piece in pieces]
        known = sum(map(bool, inside))
        for piece, parts in zip(pieces, inside, strict=True):
            if parts and parts != [piece[:2]] and _is_whole(context, row, piece):
                found.add(piece[:2])
                gone.update(parts)
            elif not parts and (unlisted := _unknown(context, row, piece, len(pieces), known)) is not None:
                found.add(unlisted)
    return sorted((set(names) - gone) | found) if found else names


def _stretched(context: Context, row: Row, names: Sequence[Span], said: Sequence[Spoken]) -> list[Span]:
    """The names, each over the words beside it where these end as names of modules do and make it one: "towbar
    electronics", "brake conrol module"."""
    taken = bytearray(len(row.low) + 1)
    facts = [(code.start, code.end) for code in row.finds.codes] + [(hit.start, hit.end) for hit in said]
    for start, end in [*names, *facts]:
        taken[start:end] = b"\1" * (end - start)
    parts = words(row.low)
    firsts = [start for _, start, _ in parts]
    found: list[Span] = []
    for start, end in names:
        first, last = bisect_left(firsts, start), bisect_left(firsts, end) - 1
        while 0 < first <= last < first + _MOST_WORDS and _is_beside(row, parts[first - 1], parts[first], taken):
            first -= 1
        while first <= last < min(first + _MOST_WORDS, len(parts)) - 1 and (
                _is_beside(row, parts[last + 1], parts[last], taken)):
            last += 1
        whole = (min(start, parts[first][1]), max(end, parts[last][2])) if first <= last else (start, end)
        text = row.text[whole[0] : whole[1]]
        longer = whole != (start, end) and not unknown.KINDS.isdisjoint((parts[first][0], parts[last][0]))
        longer = longer and len(text) <= _LONGEST and context.names.score(text) >= _SURE
        found.append(whole if longer else (start, end))
    return found


def _is_beside(row: Row, word: tuple[str, int, int], other: tuple[str, int, int], taken: bytearray) -> bool:
    """Whether a word that is free stands right beside another and may be part of a name."""
    gap = row.low[min(word[2], other[2]) : max(word[1], other[1])]
    return gap == " " and not taken[word[1]] and word[0] not in NO_NAME and word[0] not in LEADING


def _within(names: Sequence[Span], piece: _Piece) -> list[Span]:
    """The names that stand in a piece."""
    found = names[bisect_left(names, (piece.start, 0)) : bisect_left(names, (piece.end, 0))]
    return [name for name in found if name[1] <= piece.end]


def _lists(row: Row, names: Sequence[Span], said: Sequence[Spoken]) -> Iterator[list[_Piece]]:
    """The lists in which answers of a row are told, each as its pieces that hold words."""
    covered = bytearray(len(row.low) + 1)
    for start, end in names:
        covered[start:end] = b"\1" * (end - start)
    at = 0
    for stop in [*(match.start() for match in _ENDS.finditer(row.low)), len(row.low)]:
        if not covered[stop]:
            joints = [match.span() for match in _JOINTS.finditer(row.low, at, stop) if not covered[match.start()]]
            pieces = zip([at, *(end for _, end in joints)], [*(start for start, _ in joints), stop], strict=True)
            yield from _runs(row, list(pieces), said)
            at = stop


def _runs(row: Row, pieces: Sequence[Span], said: Sequence[Spoken]) -> Iterator[list[_Piece]]:
    """The runs of pieces without a code in which an answer is told."""
    codes = [code.start for code in row.finds.codes]
    run: list[_Piece] = []
    told = False
    for at, (start, end) in enumerate(pieces):
        first, last = bisect_left(said, start, key=_start_of), bisect_left(said, end, key=_start_of)
        if bisect_left(codes, start) < bisect_left(codes, end):
            if told:
                yield run
            run, told = [], False
            continue
        told = told or first < last
        before, behind = (said[first].start, said[last - 1].end) if first < last else (end, end)
        lead = _core(row, start, min(before, end))
        core = lead or _core(row, min(behind, end), end)
        if core is not None:
            run.append(_Piece(*core, at == 0 and lead is not None))
    if told:
        yield run


def _start_of(hit: Spoken) -> int:
    return hit.start


def _core(row: Row, start: int, end: int) -> Span | None:
    """The place of what is left of a piece behind the words that lead to it."""
    parts = [(word, first, last) for word, first, last in words(row.low[start:end])]
    at = next((at for at, (word, _, _) in enumerate(parts) if word not in LEADING), len(parts))
    if at == len(parts):
        return None
    first, last = start + parts[at][1], start + parts[-1][2]
    # "the sunroof module (roof)": the bracket is part of the name.
    return first, last + (row.low[last : last + 1] in _CLOSES and "(" in row.low[first:last])


def _joined(row: Row, names: Sequence[Span]) -> list[Span]:
    """The names, two with nothing but a space between as one where only the first has a capital letter: "Chassis
    levelling" is one name, "engine transmission" and "Engine Transmission" may be a list without commas."""
    found: list[Span] = []
    for start, end in names:
        last = found[-1] if found else (0, 0)
        before, text = row.text[last[0] : last[1]], row.text[start:end]
        beside = last[1] + 1 == start and row.text[last[1]] == " " and min(len(before), len(text)) > _SHORT
        if beside and before[0].isupper() and not before.isupper() and text.islower():
            found[-1] = last[0], end
        else:
            found.append((start, end))
    return found


def _is_whole(context: Context, row: Row, piece: _Piece) -> bool:
    """Whether a piece of a list is one name with more words than the name, or names, that the tables know in it."""
    text = row.text[piece.start : piece.end]
    found = words(row.low[piece.start : piece.end])
    if len(text) > _LONGEST or len(found) > _MOST_WORDS or any(word in NO_NAME for word, _, _ in found):
        return False
    return not joined(text, context.names) and context.names.score(tidy(text)) >= 60.0


def bracketed(context: Context, row: Row, names: Sequence[Span]) -> list[Span]:
    """The names, each with the other name of the same module that stands in brackets right behind it as one: "Parking
    brake (EPB)", also where the first has a slip in it. Behind "the", or at the beginning of a sentence, that may be
    what the workshop calls it ("the brake unit (ABS)"); elsewhere the first may be what a code speaks of."""
    found: list[Span] = []
    taken = subjects.cover(row, [(code.start, code.end) for code in row.finds.codes])
    for start, end in names:
        if found and start < found[-1][1]:
            continue
        if "(" in row.low[start:end] and (rest := _REST.match(row.low, end)) is not None:
            # "the seat module driver (driver" seat)
            end = rest.end() if 1 not in taken[end : rest.end()] else end
        if found and row.low[found[-1][1] : start] in _OPENS and row.low[end : end + 1] in _CLOSES:
            whole = found[-1][0], end + 1
            meant = [context.names.match(row.text[at:to]) for at, to in (found[-1], (start, end))]
            if meant[0].known and meant[0].canonical == meant[1].canonical:
                found[-1] = whole
                continue
        alias = _ALIAS.match(row.low, end)
        if alias is not None and 1 not in taken[end : alias.end()] and _is_alias(context, row, found, start, alias):
            end = alias.end()
        found.append((start, end))
    return found


def _is_alias(context: Context, row: Row, found: Sequence[Span], start: int, alias: re.Match[str]) -> bool:
    """Whether the words in brackets behind a name that begins at a place are another name of its module."""
    led = _LED.search(row.low, max(0, start - _FAR), start) is not None
    if not led and not (found and row.low[found[-1][1] - 1] == ")" and subjects.ANOTHER.fullmatch(
            row.low, found[-1][1], start)):
        return False
    text = alias[1]
    parts = [word for word, _, _ in words(text)]
    if len(parts) > _SHORT or spoken(text) or STATES.find(text) or any(word in NO_NAME for word in parts):
        return False
    first = row.low[start : alias.start()].split()
    initials = "".join(word[0] for word in first)
    short = len(first) == 1 and unknown.is_short(row.text[start : alias.start()]) and len(parts) > 1
    if short and context.names.score(text) >= 60.0:
        # "the ACM (aftertreatment control module)"
        return True
    meant = [context.names.match(name) for name in (row.text[start : alias.start()], row.text[slice(*alias.span(1))])]
    return (meant[0].known and meant[0].canonical == meant[1].canonical) or text.replace(" ", "") == initials or any(
        word.startswith(text) for word in first if len(word) > 2)


def is_subject(low: str) -> bool:
    """Whether words before a verb may be the name of a module that nobody knows: few, and none that no name has."""
    found = [word for word, _, _ in words(low)]
    return 0 < len(found) <= _SHORT and not any(word in NO_NAME or word in LEADING for word in found)


def _unknown(context: Context, row: Row, piece: _Piece, size: int, known: int) -> Span | None:
    """The place of a name that nobody knows: capital letters, or words with one where half of the list's pieces
    (``size``) are known; in a text of letters of one size one short word where all others are."""
    parts = words(row.low[piece.start : piece.end])
    start, end = piece.start + parts[0][1], piece.start + parts[0][2]
    listed = 1 < size <= 2 * known
    if row.text == row.low or not any("a" <= char <= "z" for char in row.text):
        word = row.text[start:end].upper()
        short = len(parts) == 1 and known == size - 1 and (
            (size > 2 and unknown.is_short(word)) or (size > 1 and word == "ECU"))
        return (start, end) if short and parts[0][0] not in NO_NAME and not has_digit(row.text[start:end]) else None
    short = unknown.is_short(row.text[start:end]) or ((listed or piece.opens) and row.text[start:end] == "ECU")
    if short and all(word in NO_NAME for word, _, _ in parts[1:]):
        return start, end
    while parts and parts[-1][0] in NO_NAME:
        # "... the Bay module K at all"
        parts = parts[:-1]
    end = piece.start + parts[-1][2] if parts else piece.start
    text, low = row.text[piece.start : end], row.low[piece.start : end]
    if not parts or context.translated or len(parts) > _SHORT:
        return None
    led = _ARTICLE.search(row.low, max(0, piece.start - _REACH), piece.start) is not None
    # "The Ladder unit did not respond": capital letters behind "the", and a word that names of modules have; small
    # letters where it ends them.
    kind = [word in unknown.KINDS for word, _, _ in parts]
    if text[0].islower() and not (led and kind[-1] and len(parts) > 2):
        return None
    if not (led and any(kind) and not all(kind)) and (not listed or (piece.opens and not led)):
        return None
    if text.isupper() or has_digit(text) or len(text) > _LONGEST or any(word in NO_NAME for word, _, _ in parts):
        return None
    if spoken(low) or STATES.find(low) or phases.find(low) is not None or engine_state.spans(low):
        return None
    return piece.start, end


__all__ = ["LEADING", "NO_NAME", "bracketed", "is_subject", "mended"]
