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

from triage.intake.entries.headings import LISTS, status_of_head
from triage.intake.lines.layouts import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said.wholeanswer import meaning
from triage.intake.scan.context import Context
from triage.model.snapshot import StatusWord

_PIECE = lazily(r"\s*[,;|\t]\s*|\s+[-/&]\s+|\s{2,}|\s(?:and|und|et|y)\s")
_EMPTY = r"(?:none|nil|nothing|no codes|0|-{1,3}|keine?r?|nichts|aucune?s?|neant|rien|ningun[oa]?|nada)"
_VALUE = lazily(rf"\s*(?::|=|\s-|\.{{2,}}|\s)\s*{_EMPTY}(?:\s(?:found|stored|present|read))?[ .!)\]]*$")
_BEFORE = lazily(r"(?:no|zero|0|keine?|pas de|aucune?s?|sin|ningun[oa]?s?)\s+(?=[a-z])")
_SIGNS = lazily(r"n[oi]|keine|aucun|rien|sin |nada|pas de|0|[:=]\s*-|ning|nichts")
_OF_CODES = lazily(
    r"(?<![a-z])(?:codes?|dtcs?|faults?|\w*fehler\w*|defauts?|codigos?|averias?|fallos?|list\w{0,3})(?![a-z])"
)
#: Of codes that are no longer present: where there are none, the module may well hold others.
_OLD = lazily(r"histor|(?<![a-z])(?:past|old|previous|alte?|fruhere?|anciens?|passes?|antiguos?|anteriores)(?![a-z])")
_MEMORY = lazily(r"memor|speicher|memoire")
_LONGEST = 100
_SURE: frozenset[StatusWord] = frozenset(("confirmed", "stored", "current"))


@lru_cache(maxsize=8192)
def told(low: str, translated: bool) -> tuple[StatusWord, ...]:
    """The lists that a line tells to be empty; () where it tells anything else."""
    if len(low) > _LONGEST or _SIGNS.search(low) is None:
        return ()
    found: list[StatusWord] = []
    for piece in _PIECE.split(low.strip(" .*")):
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
    value = _VALUE.search(low)
    return status_of_head(low[: value.start()], translated)[0] if value is not None else None


def read(context: Context, row: Row) -> bool:
    """A line of empty lists: of the module above, or of the scan; whether it was one."""
    lists = told(row.low, context.translated)
    if not lists or (_BEFORE.match(row.low) and meaning(row.low.strip(" .!")) == "clean"):
        # "No stored or pending codes" is an answer.
        return False
    if context.open_code is not None and not _OF_CODES.search(row.low):
        # Below a code "confirmed: 0" may be a flag of that.
        return False
    for status in lists:
        name = LISTS.get(status)
        if name is not None:
            context.saw_list(name)
    context.saw_scan = True
    module = context.builder.module
    if module is None or not context.under_heading or row.line.indent < context.heading_indent:
        return True
    context.open_code = context.open_row = None
    if context.section_of_module:
        context.section, context.section_of_module = None, False
    if not module.codes and not _SURE.isdisjoint(lists) and not _OLD.search(row.low):
        context.builder.answer(module, "clean")
    return True


def taken_off(rows: Sequence[Row]) -> list[Row]:
    """The rows, those with codes without the empty lists behind them: "confirmed: C0035, pending: none"."""
    found = list(rows)
    for at, row in enumerate(found):
        if not row.finds.codes or _SIGNS.search(row.low, row.finds.codes[-1].end) is None:
            continue
        for mark in _PIECE.finditer(row.low, row.finds.codes[-1].end):
            if told(row.low[mark.end() :], False):
                found[at] = Row(row.line, row.text[: mark.start()], row.start, behind=row.behind)
                break
    return found
