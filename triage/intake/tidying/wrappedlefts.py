"""The name and the code of a row in columns, wrapped in their own columns as descriptions are: what stands below them
goes behind them, and the columns on their right make room for it.

>>> from triage.intake.plain.characters import lines
>>> text = ("Instrument  C0035-  Short in the    stored\\ncluster     11      door loom\\n"
...         "Engine      P0562   Supply          stored\\n(main)\\nRadio       P0563   Supply          stored")
>>> for line in joined(lines(text), {"instrument cluster", "engine", "radio"}.__contains__):
...     print(line.text)
Instrument cluster  C0035-11  Short in the    stored
                              door loom
Engine (main)       P0562     Supply          stored
Radio               P0563     Supply          stored
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.lines.glue import Part, together
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, has_letter, indent_of, line_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import conditions, states
from triage.intake.said.answers import answer_of_cell

_PIECE = lazily(r"[^\s]+(?: [^\s]+)*")
_TYPE = lazily(r"[\[(]?(?=[0-9]|[a-f]{2})[0-9a-f]{2}[\])]?")
#: The first digit of a failure type behind its code, and what may be the second.
_HALF, _OTHER_HALF = lazily(r" ?[-:] ?[0-9A-F]$"), lazily(r"[0-9a-f]")
_LONGEST, _MOST_RESTS, _MOST_WORDS = 240, 3, 4
Span = tuple[int, int]


class _Rest(NamedTuple):
    """A line in which a row goes on: the places of the row and the line, and the rest of its name and of its code in it
    where it holds such."""

    row: int
    line: int
    name: Span | None
    type: Span | None


def joined(found: Sequence[Line], is_name: IsName) -> Sequence[Line]:
    """The lines, the first cells of their rows in one line each. Linear."""
    rests = _rests(found, is_name)
    if not rests:
        return found
    ends: dict[int, dict[int, list[Part | str]]] = {}
    taken: dict[int, list[Span]] = {}
    for rest in rests:
        name, *_ = pieces = _pieces(found[rest.row])
        for span, column in ((rest.name, name), (rest.type, _code_of(found[rest.row], pieces))):
            if span is not None and column is not None:
                text = found[rest.row].text[slice(*column)]
                joint = _joint(text, found[rest.line].text[slice(*span)], span is rest.type, is_name)
                ends.setdefault(rest.row, {}).setdefault(column[1], []).extend((joint, (found[rest.line], *span)))
                taken.setdefault(rest.line, []).append(span)
    room = _room(found, ends)
    out = [_written(line, ends.get(at, {}), taken.get(at, []), room) for at, line in enumerate(found)]
    return [line for at, line in enumerate(out) if line.text.strip() or not found[at].text.strip()]


def _joint(text: str, rest: str, typed: bool, is_name: IsName) -> str:
    """What stands between a cell and what it goes on with below: nothing where a word or a number was broken."""
    if not typed:
        whole = f"{text} {rest}".lower()
        return "" if rest[0].islower() and not is_name(whole) else " "
    if not rest[0].isalnum():
        return " "
    return "" if text.endswith(("-", ":")) or _HALF.search(text) else "-"


def _pieces(line: Line) -> list[Span]:
    """What stands between wide gaps of a line."""
    if len(line.text) > _LONGEST or "\t" in line.text:
        return []
    return [match.span() for match in _PIECE.finditer(line.text)]


def _code_of(line: Line, pieces: Sequence[Span]) -> Span | None:
    """The piece of a row that is a code and nothing else."""
    codes = find(line.text).codes
    if len(codes) != 1:
        return None
    return next(((start, end) for start, end in pieces if start == codes[0].start and (
        not line.text[codes[0].end : end].strip(" -:") or _HALF.match(line.text[codes[0].end : end]))), None)


def _rests(found: Sequence[Line], is_name: IsName) -> list[_Rest]:
    """The lines that go on with the name or the code of the row above."""
    rests: list[_Rest] = []
    row, pieces, name = -1, list[Span](), ""
    for at, line in enumerate(found):
        own = _pieces(line)
        if row >= 0 and own and at - row <= _MOST_RESTS and (
                rest := _rest_of(found, row, pieces, at, own, name, is_name)) is not None:
            if rest.name is not None:
                if not _leads_on(found, at, pieces):
                    row = -1
                    continue
                told = line.low[slice(*rest.name)]
                name = f"{name}{'' if is_name(f'{name}{told}') and not is_name(f'{name} {told}') else ' '}{told}"
            if rest.name is not None or rest.type is not None:
                rests.append(rest)
            continue
        row, pieces = (at, own) if len(own) > 1 and _is_row(line, own) else (-1, own)
        name = line.low[slice(*own[0])] if own and row >= 0 and _code_of(line, own) != own[0] else ""
    return rests


def _is_row(line: Line, pieces: Sequence[Span]) -> bool:
    """Whether a line is a row that begins with a code in a column of its own, or with a name: behind it stands such a
    code, or an answer."""
    first = line.text[slice(*pieces[0])]
    code = _code_of(line, pieces)
    if code == pieces[0]:
        return True
    if find(first).codes or not has_letter(first) or ":" in first:
        return False
    return code is not None or (
        len(pieces) == 2 and answer_of_cell(line.low[slice(*pieces[1])].strip()) is not None)


def _rest_of(
    found: Sequence[Line], row: int, pieces: Sequence[Span], at: int, own: Sequence[Span], name: str, is_name: IsName
) -> _Rest | None:
    """What a line goes on with of a row above, each piece of it right below one of that; None where it does not."""
    line, starts = found[at], [start for start, _ in pieces]
    if any(start not in starts for start, _ in own) or find(line.text).codes:
        return None
    coded = _code_of(found[row], pieces)
    told: list[Span | None] = [None, None]
    for start, end in own:
        low = line.low[start:end]
        if start == starts[0] and name:
            if not _goes_on(name, low, is_name):
                return None
            told[0] = start, end
        elif coded is not None and start == coded[0]:
            if not _is_type(found[row].text[slice(*coded)], low, len(own) == 1):
                return None
            told[1] = start, end
        elif answer_of_cell(low) is not None or (told[0] is not None and states.of_cell(low) is not None):
            # A row of its own.
            return None
    return _Rest(row, at, *told)


def _is_type(code: str, rest: str, alone: bool) -> bool:
    """Whether a text below a code is its failure type, or the second digit of it; ``alone``: nothing else stands there,
    and a number may count anything."""
    found = next(iter(find(code).codes), None)
    if found is None or found.kind != "J2012" or found.failure_type is not None:
        return False
    if _HALF.match(code[found.end :]):
        return _OTHER_HALF.fullmatch(rest) is not None
    return _TYPE.fullmatch(rest) is not None and not (alone and rest.isalnum() and not code.endswith(("-", ":")))


def _goes_on(name: str, rest: str, is_name: IsName) -> bool:
    """Whether a name goes on with a text below it: in brackets, or so that a listed name comes about."""
    if len(rest.split()) > _MOST_WORDS or role_of(rest) is not None or states.of_cell(rest) is not None or (
            answer_of_cell(rest) is not None):
        return False
    if rest[0] == "(" and rest[-1] == ")" and "(" not in name:
        return has_letter(rest) and not conditions.find(rest[1:-1]).any()
    return "(" not in rest and (is_name(f"{name} {rest}") or is_name(f"{name}{rest}"))


def _leads_on(found: Sequence[Line], at: int, pieces: Sequence[Span]) -> bool:
    """Whether no row without a name stands below a line: a name above it would be that row's."""
    below = next((line for line in found[at + 1 : at + 2] if line.text.strip()), None)
    own = _pieces(below) if below is not None else []
    return not own or own[0][0] <= pieces[0][0] or not find(below.text if below is not None else "").codes


def _room(found: Sequence[Line], ends: Mapping[int, Mapping[int, Sequence[Part | str]]]) -> dict[int, int]:
    """By the places where columns begin: how many blanks more what goes before them needs."""
    room: dict[int, int] = {}
    for at, own in ends.items():
        starts = [start for start, _ in _pieces(found[at])]
        for end, parts in own.items():
            start = next((start for start in starts if start > end), None)
            if start is not None:
                more = sum(len(part) if isinstance(part, str) else part[2] - part[1] for part in parts)
                room[start] = max(room.get(start, 0), end + more + 2 - start)
    return room


def _written(
    line: Line, ends: Mapping[int, Sequence[Part | str]], taken: Sequence[Span], room: Mapping[int, int]
) -> Line:
    """A line with the rests of its cells behind these, without what it held of the cells above, its columns where they
    have moved to."""
    pieces = _pieces(line)
    moved = [start for start in room if room[start] > 0 and _parts_at(line, start)] if pieces else []
    if not (ends or taken or moved):
        return line
    kept = [span for span in pieces if span not in taken]
    if not kept:
        return line_of(line.number, line.raw, "", (0,))
    out: list[Part | str] = []
    length = 0
    for start, end in kept:
        begin = start + sum(room[edge] for edge in moved if edge <= start)
        out += [" " * max(begin - length, 1 if length else 0), (line, start, end)]
        length = max(begin, length + 1 if length else 0) + end - start
        for part in ends.get(end, ()):
            out.append(part)
            length += len(part) if isinstance(part, str) else part[2] - part[1]
    whole = together(*out)
    whole.indent = indent_of(whole.text)
    return whole


def _parts_at(line: Line, start: int) -> bool:
    """Whether a column may begin at a place of a line: two blanks stand before it, or nothing at all."""
    return len(line.text) > start and not line.text[max(0, start - 2) : start].strip()


__all__ = ["joined"]
