"""Names that nobody knows, in the column in which each line of a list has its module: "P0562; low voltage; Quersperre".

What stands in a place of all lines with a code and comes again beside other codes tells of no code, and so no
description: it is the module, where it is no status and nothing else that is told of faults in general ("high", "bus
A"). A description is another for each code. Such names, and the others of their column, are names of the whole text:
"No faults: Hoist" tells of one that comes only there.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> text = "U0100; engine lost; Quersperre\\nP0562; low voltage; Quersperre\\nU0121; brakes lost; Vordach"
>>> _ = adopted(lines(text), names)
>>> names.listed("Quersperre"), names.listed("Vordach"), names.listed("engine lost")
(True, True, False)
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from triage.intake.lines.shortcolumn import NO_MODULES
from triage.intake.lines.unlistednames import is_name, may_name, tells_fault
from triage.intake.naming.addresses import BEFORE
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import Line, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.near import small

#: A code with its failure type.
_CODE = (r"(?<![A-Za-z0-9])(?:(?:[PCBU] ?|[pcbu])[0-3][0-9A-Fa-f]{3}"
         r"(?:\s?[-:/]?\s?(?:(?:FTB|ftb)\s)?[(\[]?[0-9A-Fa-f]{2}[)\]]?)?"
         r"|(?:SPN|spn)[ :]{0,2}[0-9]{1,6}(?:[\s/,;:-]{1,3}(?:FMI|fmi)[ :]{0,2}[0-9]{1,2})?)(?![A-Za-z0-9])")
_CODES = lazily(_CODE)
_BASE = lazily(r"[A-Za-z]+ ?[0-9A-Fa-f]{4}|[A-Za-z]+[ :]{0,2}[0-9]+")
#: What may part the pieces of a line.
_MARKS = lazily(rf"{_CODE}|\s*[\t;|]\s*|\s\s+|\s+(?:[-=]*>|<[-=]+|[-=]+|/)(?:\s+|$)|,\s+|:\s+|\s?@\s?|\s*[()\[\]]\s*")
#: What leads to the name in its piece.
_LEAD = lazily(r"(?:in|im|dans|en|from|aus)\s+(?:(?:the|dem|der|le|la|el)\s+)?")
_IN = "in"
_FEWEST, _MOST, _MOST_LINES, _LONGEST, _ADOPTED, _SEVERAL = 3, 0.8, 400, 300, 40, 2
_AGAIN, _STRAY, _CLEAR = 0.6, 0.1, 0.25


class _Piece(NamedTuple):
    """A piece of a line, the mark before it, and the slots that it stands in: by its place before or behind the codes,
    or by its marks."""

    text: str
    mark: str
    slots: tuple[tuple[str, ...], ...]


class _Coded(NamedTuple):
    """A line with codes: these, and its pieces."""

    codes: str
    pieces: list[_Piece]


def adopted(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines as they are; ``names`` lists such names of theirs. Linear."""
    coded: list[_Coded] = []
    others: set[str] = set()
    for line in found:
        if len(line.text) > _LONGEST:
            continue
        if _CODES.search(line.text) is not None:
            coded.append(_cut(line))
        else:
            others.update(tidy(piece) for piece in _MARKS.split(line.text))
        if len(coded) > _MOST_LINES:
            break
    if len(coded) < _FEWEST or _are_headed(found, names):
        return found
    column = _column(coded, others, names)
    for name in column[:_ADOPTED]:
        names.adopt_whole(name)
    return found


def _cut(line: Line) -> _Coded:
    """A line with codes, cut at its marks."""
    # Without its failure type: of one code the text is the same.
    codes = "+".join(_BASE.match(match[0])[0] for match in _CODES.finditer(line.text))  # type: ignore[index]
    before: list[tuple[str, str, str]] = []
    behind: list[tuple[str, str, str]] = []
    at, mark, coded = 0, "", False
    ends = [(match.start(), match.end(), match[0].strip()) for match in _MARKS.finditer(line.text)]
    for start, end, further in [*ends, (len(line.text), len(line.text), "")]:
        is_code = bool(further) and _CODES.fullmatch(further) is not None
        text = tidy(line.text[at:start])
        if _tells(text):
            addressed = BEFORE.fullmatch(text)
            text = text if addressed is None else addressed[1]
            lead = _LEAD.match(text)
            (behind if coded else before).append((
                text if lead is None else text[lead.end() :], mark if lead is None else _IN,
                "code" if is_code else further))
        at, mark, coded = end, "code" if is_code else further, coded or is_code
    if len(before) > 1 and before[0][2] == ":":
        # Who writes may stand before it all.
        del before[0]
    pieces = [_Piece(text, mark, (("before", str(at)), ("marks", mark, end)))
              for at, (text, mark, end) in enumerate(before)]
    pieces += [_Piece(text, mark, (("behind", str(at)), ("last", str(len(behind) - at)), ("marks", mark, end)))
               for at, (text, mark, end) in enumerate(behind)]
    return _Coded(codes, pieces)


def _tells(text: str) -> bool:
    """Whether a piece holds words that are no status."""
    low = small(text)
    if not has_letter(text) or states.of_cell(low) is not None or (len(text) < 3 and not text.isupper()):
        return False
    hits = states.in_text(low) if len(low.split()) <= 3 else []
    return not (hits and hits[-1].end >= len(low))


def _column(coded: Sequence[_Coded], others: set[str], names: Names) -> list[str]:
    """The names that nobody lists in the column of the modules; none where no column is surely that."""
    columns: dict[tuple[str, ...], dict[int, str]] = defaultdict(dict)
    marks: dict[int, dict[str, str]] = defaultdict(dict)
    twice: set[tuple[str, ...]] = set()
    for at, line in enumerate(coded):
        for piece in line.pieces:
            marks[at].setdefault(piece.text, piece.mark)
            twice.update(slot for slot in piece.slots if at in columns[slot])
            for slot in piece.slots:
                columns[slot].setdefault(at, piece.text)
    # What stands the same in every line is a key, or who writes, but behind what leads to a module.
    full = [column for slot, column in columns.items()
            if len(column) >= _MOST * len(coded) and slot not in twice
            and (slot[1] in (_IN, "@") or len({*column.values()}) > 1)]
    if not full:
        return []
    repeated = _repeated(coded)
    likely = repeated | others | {text for column in full for text in column.values() if names.listed(text)}
    shares = [_share(column, likely, len(coded)) for column in full]
    best = max(range(len(full)), key=shares.__getitem__)
    chosen = full[best]
    if shares[best] < _AGAIN:
        return []
    apart = [(share, column) for share, column in zip(shares, full, strict=True)
             if sum(column.get(at) != text for at, text in chosen.items()) > (1 - _MOST) * len(chosen)]
    if any(share > shares[best] - _CLEAR for share, _ in apart):
        return []
    usual, _ = Counter(marks[at][text] for at, text in chosen.items()).most_common(1)[0]
    told = {text for at, text in chosen.items() if marks[at][text] == usual}
    described = usual in (_IN, "@") or any(_of_faults(column) >= _CLEAR for _, column in apart)
    # "P0171 (too lean)": in small letters a description may come again as well.
    alone = not apart and len(told & repeated) >= _SEVERAL and not any(text[0].islower() for text in told)
    if not (described or alone or any(text in others or names.listed(text) for text in told)):
        return []
    known = [text for text in told if names.listed(text)]
    capital = sum(not text[0].islower() for text in told) > len(told) / 2 or (
        bool(known) and not any(text[0].islower() for text in known))
    return [text for text in sorted(told)
            if not names.listed(text) and is_name(text) and not (capital and text[0].islower())]


def _repeated(coded: Sequence[_Coded]) -> set[str]:
    """The pieces that stand beside several codes."""
    codes: dict[str, set[str]] = defaultdict(set)
    for line in coded:
        for piece in line.pieces:
            codes[piece.text].add(line.codes)
    return {text for text, beside in codes.items() if len(beside) > 1}


def _share(column: dict[int, str], told: set[str], lines: int) -> float:
    """How much of a column in so many lines is what is ``told`` to be a name."""
    fit = {text: _may_name(text) for text in column.values()}
    # "Unit", before each name and its code, is a key.
    keys = sum(role_of(small(text), exactly=True) is not None for text in column.values())
    if keys > _CLEAR * len(column):
        return 0.0
    if _of_faults(column) > _CLEAR or sum(not fit[text] for text in column.values()) > _STRAY * len(column):
        return 0.0
    return sum(fit[text] and text in told for text in column.values()) / lines


def _of_faults(column: dict[int, str]) -> float:
    """How much of a column tells of faults."""
    return sum(map(tells_fault, column.values())) / len(column)


def _may_name(text: str) -> bool:
    """Whether a piece may be a name: a few words."""
    return may_name(text) and small(text) not in NO_MODULES


def _are_headed(found: Sequence[Line], names: Names) -> bool:
    """Whether the lines right above the codes of a text are mostly names, or a head tells what its columns are."""
    heads = named = 0
    above: Line | None = None
    for line in found:
        if not line.text.strip():
            continue
        coded = _CODES.search(line.text) is not None
        roles = [] if coded else [role_of(small(tidy(piece))) for piece in _cells(line)]
        if "module" in roles or ("code" in roles and None not in roles):
            return True
        if coded and above is not None:
            heads += 1
            named += names.score(names.bare(tidy(above.text))) >= 60.0
        above = None if coded else line
    return named > 0 and named >= 0.3 * heads


def _cells(line: Line) -> Iterator[str]:
    """The pieces of a line that has several."""
    pieces = [piece for piece in _MARKS.split(line.text) if piece.strip()]
    yield from pieces if len(pieces) > 1 and ":" not in line.text else ()


__all__ = ["adopted"]
