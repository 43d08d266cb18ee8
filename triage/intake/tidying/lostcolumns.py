"""Tables whose cells nothing parts any more, as they come out of a page that was copied without its tabs: below a head
of columns each row is cut by what its columns hold, and tabs stand where the cells end.

>>> from triage.intake.plain.characters import lines
>>> text = "Module Code Status Text\\nABS C0035 not present sensor low\\nABS no reply\\n\\nABS C0035 low"
>>> [line.text for line in tabbed(lines(text), lambda name: name == "ABS")]
['Module\\tCode\\tStatus\\tText', 'ABS\\tC0035\\tnot present\\tsensor low', 'ABS\\t\\tno reply', '', 'ABS C0035 low']
>>> text = "ABS C0035 sensor low stored 3\\nABS C0040 pump worn active 12\\nECM P0118 coolant active 1"
>>> [line.text[-9:] for line in tabbed(lines(text), lambda name: name == "ABS")]
['stored x3', 'ctive x12', 'active x1']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.lines.glue import Part, together
from triage.intake.lines.row import finds_of
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit, has_letter, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import spoken
from triage.intake.words.vocabulary import STATES
from triage.model import codes as model_codes

_SIGN = signs.of_words(lambda word: role_of(word, exactly=True) == "code")
_COUNT = lazily(r"\s+([0-9]{1,3})\s*$")
_COUNT_FIRST = lazily(r"\s*[0-9]{1,3}(?=\s)")
_TYPE = lazily(r"\s*([0-9a-f]{2})(?=\s|$)")
_WORD = lazily(r"\S+")
#: Marks that part cells: a text with them has its columns.
_MARKS = ("\t", "|", ";", "  ")
_PARTING = frozenset("-\u2013\u2014/:>\u00b7\u2022")
_FEWEST, _MOST_HEADS, _LONGEST_HEAD, _MOST_WORDS, _LONGEST = 3, 12, 3, 8, 300
Span = tuple[int, int]


def tabbed(found: Sequence[Line], is_name: Callable[[str], bool]) -> Sequence[Line]:
    """The lines, those of such tables with tabs between their cells; without a head, numbers that stand behind the
    status of line after line written as counts. Linear."""
    heads = {at: columns for at in signs.places(found, _SIGN) if (columns := _head(found[at]))}
    if not heads:
        return _counted(found)
    kept = list(found)
    for at, columns in heads.items():
        roles = [role for _, role in columns]
        below = at + 1
        while below < len(found) and below not in heads and found[below].text.strip():
            if (cells := _cells(found[below], roles, is_name)) is not None:
                kept[below] = _joined(found[below], cells)
                kept[at] = _joined(found[at], [span for span, _ in columns])
            below += 1
    return kept


def _head(line: Line) -> list[tuple[Span, str]]:
    """The columns that a line names and nothing parts, each with what it holds; none for any other line."""
    if len(line.text) > _LONGEST or has_digit(line.text) or any(mark in line.text.strip() for mark in _MARKS):
        return []
    words = [match.span() for match in _WORD.finditer(line.low)]
    columns = _columns(line.low, words, 0, frozenset()) if _FEWEST <= len(words) <= _MOST_HEADS else None
    if any(not has_letter(low) and low in _PARTING for low in line.low.split()):
        # "DTC - Module - Status": marks part the cells of its rows too.
        return []
    roles = {role for _, role in columns or ()}
    return columns or [] if len(roles) >= _FEWEST and {"module", "code"} <= roles else []


def _columns(low: str, words: Sequence[Span], at: int, taken: frozenset[str]) -> list[tuple[Span, str]] | None:
    """The words from a place on as heads of columns, none of which holds what another does; None where they are none. A
    head of one word is tried before one of several: "Code Status" are two."""
    if at == len(words):
        return []
    for size in range(1, min(_LONGEST_HEAD, len(words) - at) + 1):
        span = words[at][0], words[at + size - 1][1]
        role = role_of(low[slice(*span)], exactly=True)
        if role is None or role in taken:
            continue
        others = _columns(low, words, at + size, taken | {role})
        if others is not None:
            return [(span, role), *others]
    return None


def _cells(line: Line, roles: Sequence[str], is_name: Callable[[str], bool]) -> list[Span] | None:
    """Where the cells of a row stand, one for each column up to the last filled one; None where it is no such row."""
    if len(line.text) > _LONGEST or any(mark in line.text.strip() for mark in _MARKS[:2]):
        return None
    coded = _code(line, is_name)
    at = list(roles).index("code")
    if coded is None:
        hits = spoken(line.low)
        name = tidy(line.text[: hits[-1].start]) if hits else ""
        if not hits or line.low[hits[-1].end :].strip(" .)") or not is_name(name):
            return None
        told = list(roles).index("status") if "status" in roles else at
        if list(roles).index("module") > told:
            return None  # The name would stand behind its answer.
        begin = hits[-1].start
        cells = [(begin, begin)] * (told + 1)
        cells[list(roles).index("module")], cells[told] = (0, begin), (begin, len(line.text))
        return cells
    start, bare, end = coded
    end = bare if "failure_type" in roles else end
    before = _split(line, (0, start), roles[:at], "module", is_name)
    behind = _split(line, (end, len(line.text)), roles[at + 1 :], "description", is_name)
    if before is None or behind is None or ("module" in roles[:at] and not line.text[:start].strip()):
        return None
    return [*before, (start, end), *behind]


def _code(line: Line, is_name: Callable[[str], bool]) -> tuple[int, int, int] | None:
    """Where the cells of a row stand, one for each column up to the last filled one; None where it is no row."""
    codes = finds_of(line, line.text, line.low).codes
    if codes:
        return codes[0].start, codes[0].bare or codes[0].end, codes[0].end
    for match in _WORD.finditer(line.text):
        if has_digit(match[0]) and model_codes.own(match[0]) and is_name(tidy(line.text[: match.start()])):
            return match.start(), match.end(), match.end()
    return None


def _split(
    line: Line, span: Span, roles: Sequence[str], rest: str, is_name: Callable[[str], bool]
) -> list[Span] | None:
    """A part of a line cut into the columns of ``roles``: what is told by its kind from both ends, the ``rest`` what is
    left between. None where a column can't be told."""
    low, (begin, end) = line.low, span
    found: list[Span] = [(begin, begin)] * len(roles)
    middle = list(roles).index(rest) if rest in roles else len(roles)
    for at, role in enumerate(roles[:middle]):
        size = _name_size(line.text[begin:end], is_name) if role == "module" else _size(low[begin:end], role)
        if size < 0:
            return None
        found[at], begin = (begin, begin + size), begin + size
    for at in range(len(roles) - 1, middle, -1):
        size = _size(low[begin:end], roles[at], last=True)
        if size < 0:
            return None
        found[at], end = (end - size, end), end - size
    if middle < len(roles):
        found[middle] = begin, end
    elif low[begin:end].strip():
        return None
    return found


def _size(low: str, role: str, last: bool = False) -> int:
    """How many letters at the start (or the end) of a text are the cell of a column: 0 where it is empty, -1 where what
    it holds can't be told from the rest."""
    if role == "status":
        return _status_size(low, last)
    if role == "count":
        match = _COUNT.search(low) if last else _COUNT_FIRST.match(low)
        return len(match[0]) if match is not None else 0
    if role == "failure_type" and not last:
        match = _TYPE.match(low)
        return match.end() if match is not None else 0
    return -1


def _name_size(text: str, is_name: Callable[[str], bool]) -> int:
    """How many letters at the start of a text are the name of a module: the most words that are one; -1 for none."""
    ends = [match.end() for match in _WORD.finditer(text)][:_MOST_WORDS]
    return next((end for end in reversed(ends) if is_name(tidy(text[:end]))), -1)


def _status_size(low: str, last: bool) -> int:
    """How many letters at an end of a text are a status: the most words that are one."""
    places = [match.span() for match in _WORD.finditer(low)]
    places = places[-_MOST_WORDS:] if last else places[:_MOST_WORDS]
    for size in range(len(places), 0, -1):
        start, end = (places[-size][0], len(low)) if last else (0, places[size - 1][1])
        text = low[start:end].strip(" .,;()[]-:")
        hits = STATES.find(text)
        # Words beside it are the description's: "bus off previously active".
        if hits and (hits[0].start if last else len(text) - hits[-1].end):
            continue
        if states.of_cell(text, translated=False) is not None:
            return end - start
    return 0


def _joined(line: Line, cells: Sequence[Span]) -> Line:
    """The line with its cells parted by tabs."""
    pieces: list[Part | str] = []
    for start, end in cells:
        text = line.text[start:end]
        begin = start + len(text) - len(text.lstrip())
        pieces += [(line, begin, max(begin, start + len(text.rstrip()))), "\t"]
    return together(*pieces[:-1])


def _counted(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with an "x" before the number behind the status of a code, where most lines with codes end so."""
    places: dict[int, int] = {}
    for at, line in enumerate(found):
        match = _COUNT.search(line.text) if line.text[-1:].isdigit() and len(line.text) <= _LONGEST else None
        if match is not None and not any(mark in line.text.strip() for mark in _MARKS) and _status_size(
                line.low[: match.start()], last=True):
            places[at] = match.start(1)
    if len(places) < _FEWEST:
        return found
    coded = [at for at, line in enumerate(found) if finds_of(line, line.text, line.low).codes]
    if sum(at in places for at in coded) < max(0.8 * len(coded), _FEWEST):
        return found
    kept = list(found)
    for at in set(coded).intersection(places):
        start = places[at]
        kept[at] = reworded(found[at], start, len(found[at].text.rstrip()), "x" + found[at].text[start:].rstrip())
    return kept


__all__ = ["tabbed"]
