"""Codes that stand behind their descriptions: "ENGINE: Voltage low (P0562) stored; Throttle actuator range (P2101)".

Such a line begins with the name of its module, or stands below it: no part that a description speaks of is then a
module of its own.

>>> from code_tables import load
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("ENGINE: Voltage low (P0562) stored; Fuel pump relay (P0627)\\nABS (C0035) stored; BCM (U0100)")
>>> adopt(found, Names(load()))
>>> [[row.text[start:end] for start, end in row.described] for row in found]
[['ENGINE', 'Voltage low', ') stored', '', ' Fuel pump relay', ')'], []]
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.codes.finds import Found
from triage.intake.lines import unknown
from triage.intake.lines.row import Row
from triage.intake.lines.supplyrow import stands_between
from triage.intake.naming.addresses import BEFORE
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import LINKS
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set
from triage.intake.plain.remember import remembered
from triage.intake.said import phases, states
from triage.intake.said.answers import spoken
from triage.intake.said.attribution import LEADS, SAYS
from triage.intake.said.counts import stated_count
from triage.intake.said.listheads import status_of_head
from triage.intake.said.near import small
from triage.intake.words.module_words import FILLERS, SIDES

Span = tuple[int, int]

_NAMED = lazily(r"([^:;,.|\t]{2,60}?)(?:\s*:\s*|\s+-+\s+)(?=\S)")
#: What leads from a description to its code, and closes behind that.
_OPEN = lazily(r"\s*[(\[]\s*$|\s+-+\s+$|\s+$")
_MARKED = lazily(r"[(\[-]\s*$")
_INSIDE = lazily(r"[^()\[\]]{0,40}[)\]]")
_NEXT = lazily(r"\s*[;,/]\s*|\s+-+\s+|\.\s+|\s+(?:and|und|et|y)\s+")
_COUNT = lazily(r"[(\[]?\s*(?:x\s?[0-9]{1,3}|[0-9]{1,3}\s?(?:x|times|mal|fois|veces))\s*[)\]]?")
_IN_BRACKETS = lazily(r"\s?[(\[]\s?[0-9]{1,3}\s?[)\]]\s?:?$")
_DECORATED = lazily(
    r"\[[^][]{3,60}\]|\*\*[^*]{3,60}\*\*|(?:[=-]{2,}|#+) [^=]{3,60}(?: [=-]{2,})?|[^-=]{3,60} [=-]{2,}"
)
_STOPS = lazily(r"[;!?]|,\s|\.\s")
#: Who does something: a clause of a sentence, and no description.
_VERBS = SAYS - word_set("with set log logs a da is are")
_SIDE = word_set("side seite cote lado hand")
_LONGEST, _SHORTEST = 90, 4
#: So many descriptions without a name tell how the others are to be read.
_FEWEST_TITLES = 2
#: Likeness of a name that is more often a module than a part of one.
_MODULE, _ADDRESSED = 90.0, 60.0


class _Code(NamedTuple):
    """The places of a code's description and of what is said behind it; ``name`` that of its module, empty where it is
    the one before; ``marked`` where a bracket or a hyphen stands between description and code."""

    name: Span
    told: Span
    tail: Span
    marked: bool


def adopt(rows: Sequence[Row], names: Names) -> None:
    """Set ``described`` of the rows whose codes stand behind their descriptions: for each code the places of its
    module's name, its description and what is said behind it. Linear."""
    left: list[Row] = []
    below: list[Row] = []
    heading: Row | None = None
    led = 0
    for row in rows:
        if row.blank:
            continue
        if not row.finds.codes:
            if heading is not None and _stands_between(row.low):
                continue
            left += _adopt_headed(heading, below, names, led)
            below, heading, led = [], row, 0
        elif not _may_be(row):
            # "P0562 voltage low", among others, is below the same heading.
            heading = heading if row.finds.codes[0].start == 0 else None
            led += len(row.finds.codes)
        elif row.entry:
            row.described = _flat(_below_name(row, names))
        elif found := _led(row, names):
            row.described, heading = found, None
        elif heading is not None:
            below.append(row)
    left += _adopt_headed(heading, below, names, led)
    _adopt_likewise(left, sum(bool(row.described) for row in rows), names)


def _below_name(row: Row, names: Names) -> list[_Code]:
    """The code of a row in an outline behind its description, whatever name that may be; empty for any other."""
    codes = _codes(row, 0, names, sure=True)
    return codes if codes and all(code.name == (0, 0) and code.marked for code in codes) else []


def _may_be(row: Row) -> bool:
    """Whether words stand before the first code of a row that is no row of a table."""
    return row.finds.codes[0].start > 4 and "|" not in row.text and "\t" not in row.text and len(row.text) <= 600


@remembered
def _stands_between(low: str) -> bool:
    """Whether a row may stand between a heading and its codes: part numbers, a voltage, a word for their status, what
    a key tells of a code."""
    key, mark, value = low.partition(":")
    if stands_between(low) or (mark and value and role_of(key.strip()) in ("status", "description")):
        return True
    return len(low) <= 66 and low.endswith(":") and status_of_head(low, False)[0] is not None


def _is_heading(row: Row, names: Names) -> bool:
    """Whether a row is the name of a module alone, behind a key for modules or before a count of its codes, say."""
    stated = stated_count(row.low)
    counted = row.text if stated is None or row.text[stated[2] :].strip(" )]:") else row.text[: stated[1]]
    text = tidy(_IN_BRACKETS.sub("", counted))
    key, mark, value = text.partition(":")
    if mark and value.strip() and names.bare(text) == text:
        return role_of(small(key.strip())) == "module" and has_letter(value)
    head, _, rest = text.rpartition(" ")
    if rest.isalnum() and head and role_of(small(head)) == "module":
        # "ECU ASM", "Control module EDC"
        return True
    bare = names.bare(text)
    # An address beside it is that of a module.
    return len(row.text) <= 80 and names.score(bare) >= (_MODULE if bare == text else _ADDRESSED)


def _is_decorated(row: Row, stop: int | None) -> bool:
    """Whether a row, up to the count of its codes, stands in marks as a heading does, or is short for a name:
    "[ Address 39: trailer ]", "GCU", "0x70C GCU"."""
    if phases.find(row.low) is not None or states.in_text(row.low) or spoken(row.low):
        return False
    text = row.text[:stop].rstrip()
    name = tidy(text)
    addressed = BEFORE.fullmatch(name)
    if addressed is not None and text[:1].isalpha():
        return True
    return _DECORATED.fullmatch(text) is not None or unknown.is_short(name if addressed is None else addressed[1])


def _adopt_headed(heading: Row | None, rows: Sequence[Row], names: Names, led: int) -> Sequence[Row]:
    """Rows below a heading, where none of their descriptions is, or begins with, the name of a module, or all of their
    codes with the ``led`` ones at the start of other rows are as many as it says. The rows below one that were left."""
    if heading is None or not rows or not _MARKED.search(rows[0].text, 0, rows[0].finds.codes[0].start):
        return ()
    stated = stated_count(heading.low)
    if stated is not None and not stated[0]:
        # A module without codes heads none.
        return ()
    whole = stated is not None and stated[0] == led + sum(len(row.finds.codes) for row in rows)
    if not _is_heading(heading, names):
        if not (decorated := _is_decorated(heading, stated[1] if stated is not None else None)) or not whole:
            return rows if decorated else ()
        # What nobody knows may be the title of a list of modules.
        whole = False
    found = [_codes(row, 0, names, sure=whole) for row in rows]
    if not all(_are_titles(row, codes, names, whole) for row, codes in zip(rows, found, strict=True)):
        return rows
    for row, codes in zip(rows, found, strict=True):
        row.described = _flat(codes)
    return ()


def _adopt_likewise(rows: Sequence[Row], others: int, names: Names) -> None:
    """Rows below headings whose descriptions hold names of modules among ``others`` that hold none: where these are the
    more, names in their place are words of descriptions ("Lateral acceleration sensor (C0061)")."""
    titles, named = [], []
    for row in rows:
        strictly = _codes(row, 0, names)
        if _are_titles(row, strictly, names):
            titles.append((row, strictly))
        elif (codes := _codes(row, 0, names, sure=True)) and all(code.name == (0, 0) and code.marked for code in codes):
            named.append((row, codes))
    if len(titles) + others < max(len(named), _FEWEST_TITLES):
        return
    for row, codes in (*titles, *named):
        row.described = _flat(codes)


def _are_titles(row: Row, codes: Sequence[_Code], names: Names, sure: bool = False) -> bool:
    """Whether each code of a row stands in a bracket behind a description that is no name and, but where that is sure,
    begins with none."""
    return bool(codes) and not any(
        code.name != (0, 0) or not code.marked or (not sure and _names_module(row, code.told, names)) for code in codes
    )


def _led(row: Row, names: Names) -> tuple[Span, ...]:
    """The places in a row that begins with the name of a module; () for any other."""
    stop = row.finds.codes[0].start
    marked = ":" in row.text[:stop] or " -" in row.text[:stop]
    match = _NAMED.match(row.text, 0, stop) if marked else None
    if match is None or not _is_name(match[1], names):
        return ()
    codes = _codes(row, match.end(), names)
    if not codes:
        return ()
    return _flat([codes[0]._replace(name=(0, match.end(1))), *codes[1:]])


def _is_name(text: str, names: Names) -> bool:
    """Whether a text before a mark is the name of a module."""
    return role_of(small(text.strip())) is None and names.score(tidy(text)) >= 60.0


def _flat(codes: Sequence[_Code]) -> tuple[Span, ...]:
    return tuple(span for code in codes for span in (code.name, code.told, code.tail))


def _codes(row: Row, begin: int, names: Names, sure: bool = False) -> list[_Code]:
    """The codes of a row from a place on, each behind its description; empty where one of them is not. ``sure``: the
    first is described, whatever name the words before it are."""
    found: list[_Code] = []
    codes = row.finds.codes
    for at, code in enumerate(codes):
        opened = _OPEN.search(row.text, max(begin, code.start - 6), code.start)
        if opened is None:
            return []
        name, told = _name_before(row, begin, opened.start(), names) if at else ((0, 0), (begin, opened.start()))
        close = _closed(row, code)
        marked = bool(opened[0].strip())
        if close is None or not _describes(row, told, names, marked, sure and not at):
            return []
        if at and name == (0, 0) and _is_other(row, told, code, names):
            return []
        if at + 1 == len(codes):
            if any(hit.start > close and states.of_cell(row.low[hit.start : hit.end]) is None
                   for hit in spoken(row.low)):
                # "...; radio silent"
                return []
            found.append(_Code(name, told, (code.end, len(row.text)), marked))
            break
        cut = _next(row, close, codes[at + 1].start)
        if cut is None:
            return []
        found.append(_Code(name, told, (code.end, cut[0]), marked))
        begin = cut[1]
    return found


def _closed(row: Row, code: Found) -> int | None:
    """Where the bracket round a code ends, or the code where it stands in none; None where the bracket stays open."""
    if row.text[: code.start].rstrip()[-1:] not in ("(", "["):
        return code.end
    match = _INSIDE.match(row.text, code.end)
    return match.end() if match is not None else None


def _name_before(row: Row, begin: int, end: int, names: Names) -> tuple[Span, Span]:
    """The name of another module before a description ("...; ABS: pump relay"), and the description."""
    match = _NAMED.match(row.text, begin, end)
    if match is None or ":" not in match[0] or not _is_name(match[1], names):
        return (0, 0), (begin, end)
    return (begin, match.end(1)), (match.end(), end)


def _next(row: Row, close: int, stop: int) -> tuple[int, int] | None:
    """Where what is said of a code ends, which ends at ``close`` with its bracket, and where the next description
    begins; None where no mark parts them."""
    strong = row.text.rfind(";", close, stop)
    if strong >= 0:
        return strong, strong + 1
    at = end = close
    for match in _NEXT.finditer(row.low, close, stop):
        piece = row.low[at : match.start()].strip(" )]")
        if piece and states.of_cell(piece) is None and _COUNT.fullmatch(piece) is None:
            break
        at, end = match.end(), match.start()
    return (end, at) if at > close else None


def _describes(row: Row, told: Span, names: Names, marked: bool, sure: bool = False) -> bool:
    """Whether a place holds the description of a fault: words that are no name of a module, no status, no sentence.
    ``sure``: several words may be a name, and hold a comma."""
    text = tidy(row.text[told[0] : told[1]])
    low = small(text)
    found = WORD.findall(low)
    words = [word for word in found if not (len(word) < 2 or word in LINKS or word in FILLERS or word.isdigit())]
    if not 0 < len(text) <= _LONGEST or ":" in text or len(words) < (1 if marked else 2):
        return False
    if len(max(words, key=len)) < _SHORTEST or all(word in SIDES or word in _SIDE or word.isdigit() for word in found):
        return False
    if any(word in _VERBS for word in found):
        return False
    if names.score(text) >= _MODULE and not (sure and " " in text):
        return False
    if phases.find(low) is not None or stated_count(low) is not None:
        return False
    if states.of_cell(low) is not None or (not marked and states.in_text(low)):
        return False
    # "ABS: no comms, engine low voltage P0562"
    return not (spoken(low) and _STOPS.search(text))


def _is_other(row: Row, told: Span, code: Found, names: Names) -> bool:
    """Whether a description behind the first may as well be another module and its code: "in the gearbox ratio", or
    "ABS pump" with a code of the chassis."""
    low = row.low[told[0] : told[1]].strip()
    if low.partition(" ")[0] in LEADS and names.find(low):
        return True
    return code.text[:1] in "CB" and (names.listed(low) or _names_module(row, told, names))


def _names_module(row: Row, told: Span, names: Names) -> bool:
    """Whether a description begins with a name that is more often a module than a part."""
    low = row.low[told[0] : told[1]].strip()
    found = names.find(low)
    return bool(found) and not found[0][0] and found[0][2] and names.score(low[: found[0][1]]) >= _MODULE


__all__ = ["adopt"]
