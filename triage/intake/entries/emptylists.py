"""Lists of codes that are told to be empty: "Confirmed codes: none", "No pending codes", "stored: 0  pending: 0".

One tells that a list was read. A module is clean where the list of what is stored or failing now is empty and no other
holds a code.

>>> told("confirmed codes: none", False), told("stored: 0   pending: -", False), told("no pending dtcs", False)
(('confirmed',), ('stored', 'pending'), ('pending',))
>>> told("active: no", False), told("status: none", False), told("fuel: none", False)
((), (), ())
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from triage.intake.lines.row import Row
from triage.intake.naming.names import LONGEST_NAME, tidy
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.plain.remember import remembered
from triage.intake.said.listheads import LISTS, status_of_head
from triage.intake.said.wholeanswer import meaning
from triage.intake.scan.context import Context
from triage.model.snapshot import StatusWord

_PIECE = lazily(r"\s*[,;|\t]\s*|\s+[-/&]\s+|\s{2,}|\s(?:and|und|et|y)\s")
_EMPTY = r"(?:none|nil|nothing|no codes|0|-{1,3}|keine?r?|nichts|aucune?s?|neant|rien|ningun[oa]?|nada)"
_VALUE = lazily(rf"\s*(?::|=|\s-|\.{{2,}}|\s)\s*{_EMPTY}(?:\s(?:found|stored|present|read))?[ .!)\]]*$")
#: The same alone, below the head of a list.
_NONE = lazily(
    r"[ \t(\[<*-]*(?:none|nil|nothing|no codes|keine?r?|nichts|aucune?s?|neant|rien|ningun[oa]?|nada)[ .!)\]>*-]*"
)
#: What such a value ends with.
_EMPTY_ENDS = tuple(word_set(
    "none nil nothing codes 0 - kein keine keinr keiner nichts aucun aucune aucuns aucunes neant rien ningun ninguno "
    "ninguna nada"
))
_MARKED = lazily(r"[:=.]|\s-")
_TOLD = ("found", "stored", "present", "read")
#: Between a name and its lists.
_BEHIND_NAME = lazily(r"\s*[,;|\t:]\s*|\s+[-/]\s+|\s{2,}")
_GAP = lazily(r"(?<=\w) (?=[a-z])")
_FEW = 4
_BEFORE = lazily(r"(?:no|zero|0|keine?|pas de|aucune?s?|sin|ningun[oa]?s?)\s+(?=[a-z])")
_SIGNS = lazily(r"n[oi]|keine|aucun|rien|sin |nada|pas de|0|[:=]\s*-|ning|nichts")
_OF_CODES = lazily(
    r"(?<![a-z])(?:codes?|dtcs?|faults?|\w*fehler\w*|defauts?|codigos?|averias?|fallos?|list\w{0,3})(?![a-z])"
)
#: Of codes that are no longer present: where there are none, the module may well hold others.
_OLD = lazily(r"histor|(?<![a-z])(?:past|old|previous|alte?|fruhere?|anciens?|passes?|antiguos?|anteriores)(?![a-z])")
_MEMORY = lazily(r"memor|speicher|memoire")
_LONGEST, _SHORTEST = 100, 4
_SURE: frozenset[StatusWord] = frozenset(("confirmed", "stored", "current"))


@remembered
def _may_tell(low: str) -> bool:
    """Whether a word or mark for nothing stands in a line."""
    return _SIGNS.search(low) is not None


@lru_cache(maxsize=8192)
def told(low: str, translated: bool) -> tuple[StatusWord, ...]:
    """The lists that a line tells to be empty; () where it tells anything else."""
    if len(low) > _LONGEST or not _may_tell(low):
        return ()
    found: list[StatusWord] = []
    pieces = _PIECE.split(low.strip(" .*"))
    if not pieces[-1] or _of_piece(pieces[-1], translated) is None:
        # The last piece of most lines is a description or a status.
        return ()
    for piece in pieces:
        status = _of_piece(piece, translated) if piece else None
        if status is None:
            return ()
        found.append(status)
    return tuple(found)


def _of_piece(low: str, translated: bool) -> StatusWord | None:
    """The list that a piece of a line tells to be empty."""
    before = _BEFORE.match(low)
    if before is not None:
        if _MEMORY.search(low):
            # "No fault memory": that the module has none?
            return None
        status, listed = status_of_head(low[before.end() :], translated)
        return status if listed else None
    value = _VALUE.search(low) if _ends_empty(low) else None
    return status_of_head(low[: value.start()], translated)[0] if value is not None else None


def _ends_empty(low: str, start: int = 0) -> bool:
    """Whether a text from a place on may end with a value for nothing."""
    end = len(low.rstrip(" .*!)]"))
    told = next((word for word in _TOLD if low.endswith(word, start, end)), "")
    return low[start : end - len(told)].rstrip().endswith(_EMPTY_ENDS)


@lru_cache(maxsize=8192)
def behind_name(low: str, translated: bool) -> tuple[int, tuple[StatusWord, ...]] | None:
    """Where the name ends in a line that tells all its lists to be empty, and the lists.

    >>> behind_name("trans (tcm) - confirmed: none - pending: none", False)
    (11, ('confirmed', 'pending'))
    >>> behind_name("confirmed: none - pending: none", False) is None
    True
    """
    if len(low) > _LONGEST + LONGEST_NAME or not _may_tell(low):
        return None
    if (not _ends_empty(low) and _BEFORE.search(low) is None) or told(low, translated):
        return None
    for mark in _BEHIND_NAME.finditer(low, 1, LONGEST_NAME):
        if lists := told(low[mark.end() :], translated):
            return None if _is_answer(low[mark.end() :]) else (mark.start(), lists)
    return None


def _is_answer(low: str) -> bool:
    """Whether an empty list is an answer: "no stored or pending codes"."""
    return _BEFORE.match(low) is not None and meaning(low.strip(" .!")) == "clean"


def read(context: Context, row: Row) -> bool:
    """A line of empty lists: of the module it names, of the one above, or of the scan; whether it was one."""
    if not _may_tell(row.low):
        return False
    if (named := behind_name(row.low, context.translated)) is not None:
        return _of_named(context, row, *named)
    lists = told(row.low, context.translated)
    if context.section is not None and context.section_of_module and context.open_code is None and _NONE.fullmatch(
            row.low):
        lists = (context.section,)
    if not lists or _is_answer(row.low) or any(context.names.listed(part.strip()) for part in row.text.split(":", 1)):
        # "Passive entry: no codes" tells of a module of that name.
        return False
    if context.open_code is not None and not _OF_CODES.search(row.low) and not _is_beside_lists(context, row):
        # Below a code "confirmed: 0" may be a flag of that.
        return False
    _saw(context, lists)
    module = context.builder.module
    if module is None or not context.under_heading or row.line.indent < context.heading_indent:
        return True
    context.open_code = context.open_row = None
    if context.section_of_module:
        context.section, context.section_of_module = None, False
    if not module.codes and not _SURE.isdisjoint(lists) and not _OLD.search(row.low):
        context.builder.answer(module, "clean")
    return True


def below(context: Context, row: Row, under: Row, marked: bool = False) -> bool:
    """Whether the row below a heading, set in or the heading marked, is a list without codes: "Active: none"."""
    return (marked or under.line.indent > row.line.indent) and bool(told(under.low, context.translated))


def _is_beside_lists(context: Context, row: Row) -> bool:
    """Whether the codes above stand behind the key of another list, as far left: "Stored: C0035" over "Pending: -"."""
    above = context.open_row
    if above is None or not above.finds.codes or above.line.indent != row.line.indent:
        return False
    key, colon, rest = above.low[: above.finds.codes[0].start].partition(":")
    return bool(colon) and not rest.strip() and status_of_head(key, context.translated)[0] is not None


def _of_named(context: Context, row: Row, stop: int, lists: tuple[StatusWord, ...]) -> bool:
    """"Trans (TCM) - confirmed: none - pending: none": the module in front of its lists."""
    name = tidy(row.text[:stop])
    if context.names.score(name) < 60.0:
        return False
    context.close_module()
    _saw(context, lists)
    start = row.start + max(row.text.find(name), 0)
    module = context.builder.name_module(name, row.line, start, start + len(name))
    if not module.codes and not _SURE.isdisjoint(lists) and not _OLD.search(row.low, stop):
        context.builder.answer(module, "clean")
    context.under_heading = False
    return True


def _saw(context: Context, lists: Sequence[StatusWord]) -> None:
    """Note which lists were read."""
    for status in lists:
        name = LISTS.get(status)
        if name is not None:
            context.saw_list(name)
    context.saw_scan = True


def taken_off(rows: Sequence[Row]) -> list[Row]:
    """The rows, those with codes without the empty lists behind them ("confirmed: C0035, pending: none"), and before
    them ("ABS - confirmed: none - pending: C0035")."""
    found = list(rows)
    for at, row in enumerate(found):
        if not row.finds.codes:
            continue
        start = row.finds.codes[0].start
        if start > _SHORTEST and _SIGNS.search(row.low, 0, start) is not None:
            row = found[at] = _without_first(row)
        end = row.finds.codes[-1].end
        if not _ends_empty(row.low, end) and _BEFORE.search(row.low, end) is None:
            continue
        for mark in _PIECE.finditer(row.low, row.finds.codes[-1].end):
            # In a cell of its own "confirmed no" is a status, and what goes on in the next line.
            if told(row.low[mark.end() :], False) and ("\t" not in mark[0] or _MARKED.search(row.low, mark.end())):
                found[at] = Row(row.line, row.text[: mark.start()], row.start, behind=row.behind)
                break
    return found


def _without_first(row: Row) -> Row:
    """The row without an empty list between the name, if there is one, and the list that holds its first code."""
    code = row.finds.codes[0].start
    last = min(code, LONGEST_NAME + _LONGEST)
    marks = [mark.span() for mark in _BEHIND_NAME.finditer(row.low, 1, last)]
    # "ECM stored: none   pending: P0171", "stored: none   pending: P0171"
    bare = [(gap.start(), gap.end()) for gap in _GAP.finditer(row.low, 1, last)] if ":" in row.low[:last] else []
    for start, begin in [*marks, *bare[:_FEW], (0, 0)]:
        for stop, behind in reversed([mark for mark in marks if mark[0] > begin]):
            if told(row.low[begin:stop], False) and (start or row.low[begin:stop].count(":")):
                start, stop = (start, stop) if start else (0, behind)
                line = reworded(row.line, row.start + start, row.start + stop, "")
                return Row(line, row.text[:start] + row.text[stop:], row.start, behind=row.behind)
    return row
