"""Messages that a mail program wrapped: their lines are put together before anything in them is read.

Who dictates parts his modules by "next" and "then", who writes ends his sentences, wherever a line breaks; a line is
full where the first word of the next would not have fitted behind it.

>>> from triage.intake.plain.characters import lines
>>> said = "Morning\\nengine clean ok next abs has C0035 stored, and\\nU0100 active then the radio did not answer\\nBye"
>>> [line.text for line in joined(lines(said))][1:]
['engine clean ok next abs has C0035 stored, and U0100 active then the radio did not answer', 'Bye']
>>> ragged = "Hi. The dash has U0100 and\\nthe radio is clean. Then\\nABS with C0035 stored,\\nC0040 active. Bye"
>>> [line.text for line in joined(lines(ragged))]
['Hi. The dash has U0100 and the radio is clean. Then ABS with C0035 stored, C0040 active. Bye']
>>> [line.text for line in joined(lines("ABS has C0035, then the\\nradio: no answer, then\\nECM: none"))]
['ABS has C0035, then the', 'radio: no answer, then', 'ECM: none']
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from itertools import pairwise

from triage.intake.lines.glue import closed, lines_glued
from triage.intake.lines.goingon import BREAKS, LINKS, LIST_LIKE, SHOWS, STARTED, begins_with_status, last_word, prefix
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily

#: What parts two modules; one of the second kind alone may be said of anything.
_TURNS = lazily(
    r"(?<![a-z])(?:(?:ok(?:ay)?|and|so|right),? )?(?:then|dann|next(?! (?:to|time|week|day|month|year|of)(?![a-z]))|"
    r"weiter|ensuite|puis|luego|despues)(?![a-z])"
)
_LETTERS = lazily(r"(?<![^\W_])[^\W\d_]{3,}(?![^\W_])")
#: The end of a sentence: dots behind a blank lead from a name to its answer ("Radio ... no reply"), one behind the
#: number at the head of a line to a name ("2. Radio").
_STOP = lazily(r"(?<! \.\.)(?<! \.)(?<!^[0-9])(?<!^[0-9][0-9])[.!?] +(?=[^\W\d_])")
#: A code is not broken at a space in it.
_FIRST = lazily(
    r"[pcbu](?: (?:oh?|zero|one|two|three|four|five|six|seven|eight|nine|[0-9a-f])){4}(?![^ ,;.])|"
    r"[pcbu][ -]?[0-3o](?: ?[0-9a-fo]){3}(?:(?:[ :-]{0,2}| ftb )[0-9a-f]{2})?(?![^ ,;.])|[^ ]+")
_DOTS = " ... "
_CODED = lazily(r"[pcbu][ -]?[0-3o][0-9a-fo]{3}(?![0-9a-z]{3})")
_ENDS = lazily(r"(?<![a-z0-9])[pcbu] ?[0-3o][0-9a-fo ]{3,6}$")
_NARROWEST, _WIDEST, _LONGEST, _LEAST, _MOST_WITHIN = 40, 110, 4000, 2, 0.6
#: Lines that break anywhere may be narrower; of so many no more than one begins with a key, and most sentences begin
#: with a capital letter.
_RAGGED, _SHARE_STARTED, _MOST_CAPITAL = 24, 4, 0.7


def joined(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those of a dictated message that was wrapped as one. Linear in their length."""
    if len(found) < _LEAST:
        return found
    kept: list[Line] = []
    at = 0
    while at < len(found):
        last, quote = at, _prefix(found[at])
        while last < len(found) and _prefix(found[last]) == quote and _bare(found[last]):
            last += 1
        kept += _stretch(found[at:last]) if last > at else found[at : at + 1]
        at = max(last, at + 1)
    return kept if len(kept) < len(found) else found


def _prefix(line: Line) -> str:
    end = prefix(line)
    return line.text[:end] if end else ""


def _bare(line: Line) -> str:
    return line.text[prefix(line) :].rstrip()


def _stretch(found: Sequence[Line]) -> list[Line]:
    """Lines without a blank one, each run of full ones with the next as one where somebody dictates in them."""
    width = max(len(_bare(line)) for line in found)
    if len(found) < _LEAST or not _RAGGED <= width <= _WIDEST:
        return list(found)
    kept: list[Line] = []
    run: list[Line] = []
    ragged = _is_ragged(found, width)
    cased = not ragged or _is_cased([_bare(line) for line in found])
    for line in found:
        if run and (_ends(run[-1], line, width, cased) if ragged else (
                _is_listed(line) or not _is_full(run[-1], line, width))):
            kept += [_one(run)] if ragged else _run(run)
            run = []
        run.append(line)
    if width < _NARROWEST and not ragged:
        return list(found)
    return [*kept, _one(run)] if ragged else kept + _run(run)


def _is_ragged(found: Sequence[Line], width: int) -> bool:
    """Whether lines are sentences, each with a capital letter at its beginning, that break anywhere: several end within
    a line, and most lines that end none break off within one."""
    bare = [_bare(line) for line in found]
    if len(found) <= _LEAST or sum(map(len, bare)) > _LONGEST or any(LIST_LIKE.search(text) for text in bare):
        return False
    stops = [text[match.end()] for text in bare for match in _STOP.finditer(text)]
    lines = sum(_STOP.search(text) is not None for text in bare)
    cased = _is_cased(bare)
    capital = not cased or (sum(map(str.isupper, stops)) >= _MOST_CAPITAL * len(stops) and bare[0][0].isupper())
    if lines < _LEAST or not capital or (
            _SHARE_STARTED * sum(_is_listed(line) and not _breaks_off(above, line, cased)
                                 for above, line in pairwise(found)) > len(found)):
        return False
    going = [pair for pair in pairwise(found) if _bare(pair[0])[-1] not in ".!?" and not _ends(*pair, width, cased)]
    within = sum(_breaks_off(*pair, cased) for pair in going)
    return within >= _LEAST and within >= _MOST_WITHIN * len(going)


def _is_cased(bare: Sequence[str]) -> bool:
    """Whether lines hold capital and small letters, so that a letter tells whether a sentence begins with it."""
    words = [word for text in bare for word in _LETTERS.findall(text)]
    return not (all(map(str.islower, words)) or all(map(str.isupper, words))) or _are_cells(bare)


def _are_cells(bare: Sequence[str]) -> bool:
    """Whether most lines are cut by as many commas, as the rows of a table are: "B0028-13,02. radio,engine lost,"."""
    commas = [text.count(",") for text in bare]
    many = max(commas, key=commas.count)
    return many > 1 and commas.count(many) >= _MOST_WITHIN * len(commas)


def _ends(above: Line, line: Line, width: int, cased: bool = True) -> bool:
    """Whether a sentence ends with a line, and no other would have begun behind it: the next begins with a capital
    letter, and would have had room or has a key of its own."""
    low = _bare(above)
    if cased and _bare(line)[0].islower():
        return False
    if low[-1] not in ".!?":
        return low[-1] not in ",-" and _is_listed(line) and last_word(low.lower()) not in BREAKS
    return _is_listed(line) or not _is_full(above, line, width)


def _breaks_off(above: Line, line: Line, cased: bool = True) -> bool:
    """Whether a line breaks off within a sentence: behind a small word, a comma, a dash or what leads to a list, or
    before a small letter or a bracket."""
    low, below = _bare(above), _bare(line)
    small = cased and below[0].islower()
    if last_word(low.lower()) in BREAKS | SHOWS or (small and low[-1] == ";"):
        return True
    if (small or below[0] in "([&") and not _is_listed(line):
        return True
    return low.endswith((",", " -", "/")) or (low[-1] == ":" and _STOP.search(low) is not None)


def _one(run: Sequence[Line]) -> Line:
    """The lines of a run as one."""
    start = len(_prefix(run[0]))
    return closed(reduce(lambda above, line: lines_glued(above, line, start=len(_prefix(line))), run), start)


def _is_full(above: Line, line: Line, width: int) -> bool:
    """Whether the first word of a line would not have fitted behind the one above."""
    low = line.low[len(_prefix(line)) :]
    first = _FIRST.match(low)
    return first is None or len(_bare(above)) + 1 + len(first[0]) > width


def _run(run: list[Line]) -> list[Line]:
    """A run of lines as one where it is dictated."""
    if len(run) < _LEAST or sum(len(line.text) for line in run) > _LONGEST:
        return run
    if any(LIST_LIKE.search(_bare(line)) for line in run):
        return run
    if all(_CODED.match(line.low, len(_prefix(line))) for line in run):
        # No message breaks before each of its codes.
        return run
    one = _one(run)
    # One in a line leads from a name to its answer.
    dotted = any(line.text.count(_DOTS) > 1 for line in run)
    if dotted or len(_TURNS.findall(one.low)) >= _LEAST or _is_told(run, one.text) or _is_listed_on(run):
        return [one]
    return run


def _is_listed(line: Line) -> bool:
    """Whether a line begins as none of a message does."""
    return STARTED.match(line.low, len(_prefix(line))) is not None


def _is_told(run: list[Line], text: str) -> bool:
    """Whether the lines are sentences: several end within a line, and lines begin within one."""
    if len(run) <= _LEAST or 2 * text.count(";") > len(run):
        return False
    if sum(len(_STOP.findall(_bare(line))) for line in run) < _LEAST:
        return False
    within = sum(_bare(above)[-1] not in ".!?:" and (
        _bare(line)[0].islower() or _bare(line)[0] in "([&" or _CODED.match(line.low, len(_prefix(line))) is not None)
        for above, line in pairwise(run))
    return 2 * within >= len(run) - 1 and text.count(":") <= len(run)


def _is_listed_on(run: list[Line]) -> bool:
    """Whether the lines are one list in words, which goes on at most of its breaks: behind a comma, behind "and" or a
    verb of saying, or between a code and its status."""
    breaks = [(_bare(above).lower(), _bare(line).lower()) for above, line in pairwise(run)]
    within = sum(
        (above[-1] == "," and ", " in above[:-1]) or last_word(above) in LINKS | SHOWS
        or (_ENDS.search(above) is not None and begins_with_status(line))
        for above, line in breaks)
    return len(breaks) >= _LEAST and within >= max(_LEAST, _MOST_WITHIN * len(breaks))


__all__ = ["joined"]
