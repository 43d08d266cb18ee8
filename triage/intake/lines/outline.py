"""Outlines: lists in which every code is set in, by its indentation or its bullet, below the name of its module.

What such a text does all through is no matter of single words: a line in the place of the entries names no module of
its own, though its description may be the name of one, and a line in the place of the headings is one.

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("# ABS\\n- Speed sensor (C0035)\\n# Wipers\\n- Brake pressure sensor (C0044)\\n- Airbag (U0151)")
>>> adopt(found, *2 * (lambda name: name in ("ABS", "Wipers", "Airbag"),))
>>> [row.entry for row in found], [row.heads for row in found]
([False, True, False, True, True], [True, False, True, False, False])
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Sequence
from functools import cache
from itertools import starmap

from triage.intake.codes.pieces import soft_pieces
from triage.intake.lines.row import Row
from triage.intake.lines.unknown import is_one_of_short
from triage.intake.naming import IsName
from triage.intake.naming.addresses import BEFORE, BEHIND, LABELLED_BEHIND
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.counts import stated_count
from triage.intake.said.listheads import status_of_head
from triage.intake.said.near import small

#: How far a line is set in, and the marks before its text.
Level = tuple[int, str]

#: So far before the text of a row its marks are looked for.
_FARTHEST = 400
_MARKS = lazily(r"[\w\s]+")
#: Marks that stay before the text of a heading.
_LEAD = lazily(r"[#=*\[<~_-]+")
_LEADING = frozenset("#=*[<~_-")
_BESIDE = lazily(r"\s*[()\[\]]\s*|\s+-\s+")
_COUNT = lazily(r"(?:\s-\s*|\s?:\s*|\s*[(\[]\s*)[0-9]{1,3}\s*[)\]]?\s*:?$")
_ADDRESSED = lazily(r"^[A-Za-z ]{2,20} (?:0x|\$)[0-9A-Fa-f]{1,8}[\s:.-]+(?=\w)")
#: So many lists with so many codes tell how a text is laid out; so many of their headings are names, so many of their
#: entries may hold one by chance.
_FEWEST_LISTS, _FEWEST_CODES, _NAMED, _BY_CHANCE = 2, 3, 0.6, 0.34


def adopt(rows: Sequence[Row], is_name: IsName, is_sure: IsName) -> None:
    """Set ``entry`` of the rows with codes in the lists of an outline, and ``heads`` of those above them
    that have a mark of their own. Linear.

    ``is_sure`` tells of the pieces of an entry what ``is_name`` tells of a heading.
    """
    # Entries without a mark stand below headings with one, or headings without below others.
    levels = [(0, "") if row.blank else level_of(row) for row in rows]
    lists = [*_lists(rows, levels, True).values(), *_lists(rows, levels, False).values()]
    told: dict[Level, list[int]] = defaultdict(list)
    for at, row in enumerate(rows):
        if row.finds.codes:
            told[levels[at]].append(at)
    places = {id(row): at for at, row in enumerate(rows)}
    known: dict[str, bool] = {}
    may_name = cache(lambda before, behind: _may_name(before, behind, is_sure))
    for found in lists:
        entries = [row for _, group in found for row in group]
        if len(found) < _FEWEST_LISTS or len(entries) < _FEWEST_CODES:
            continue
        first, last = places[id(found[0][0])], places[id(entries[-1])]
        of_heads = {level_of(head) for head, _ in found}
        if any(bisect_right(told[level], first) < bisect_left(told[level], last) for level in of_heads):
            # Another scan of the text may have its codes in the place of these headings.
            continue
        names = {_name(head) for head, _ in found}
        for name in names - known.keys():
            # "Fleet modem (TGW)": a name that nobody lists has its abbreviation beside it.
            known[name] = is_name(name) or any(map(is_one_of_short, _BESIDE.split(name)))
        if len(names) < _FEWEST_LISTS or sum(known[name] for name in names) < _NAMED * len(names):
            continue
        if sum(starmap(may_name, map(_around, entries))) > _BY_CHANCE * len(entries):
            continue
        for head, group in found:
            # Without a mark or a number the rest of a long line may stand there.
            head.heads = bool(level_of(head)[1]) or head.text.endswith("--") or head.start > head.line.indent or (
                _leads_section(rows, places[id(head)]))
            for row in group:
                row.entry = True


def _lists(
    rows: Sequence[Row], levels: Sequence[Level], marked: bool
) -> dict[tuple[int, Level], list[tuple[Row, list[Row]]]]:
    """By the indent of the headings and the level of the entries: the rows that stand above others with codes, and
    these. ``marked``: of two levels with one indent the one with a mark is the higher one."""
    found: dict[tuple[int, Level], list[tuple[Row, list[Row]]]] = defaultdict(list)
    above: list[tuple[Level, Row]] = []
    for row, level in zip(rows, levels, strict=True):
        if row.blank or row.note or row.aside is not None:
            continue
        while above and above[-1][0][0] > level[0]:
            above.pop()
        known = [at for at, (other, _) in enumerate(above) if other == level]
        if marked and not level[1]:
            known = [at for at in known if at + 1 == len(above)]
        del above[known[0] if known else len(above) :]
        heads = (entry for entry in reversed(above) if not _is_section(entry[1])) if row.finds.codes else iter(())
        head = next(heads, None)
        if head is not None and not head[1].finds.codes:
            lists = found[head[0][0], level]
            if not lists or lists[-1][0] is not head[1]:
                lists.append((head[1], []))
            lists[-1][1].append(row)
        above.append((level, row))
    return found


def level_of(row: Row) -> Level:
    """How far a row is set in, and the marks before its text as they were pasted, without a number or address."""
    line, marks = row.line, ""
    if row.start or line.offsets is not None:
        # Of a part far into a long line only what stands right before it.
        stop = line.span(row.start, row.start)[0]
        before = line.raw[max(0, stop - _FARTHEST) : stop]
        marks = _MARKS.sub("", before) if before and not before.isspace() else ""
    if row.text[:1] in _LEADING:
        lead = _LEAD.match(row.text)
        marks += lead[0] if lead is not None else ""
    return line.indent, marks


def _is_section(row: Row) -> bool:
    """Whether a row between a heading and its entries only tells their status: "Stored:"."""
    return len(row.low) <= 66 and not row.finds.codes and status_of_head(row.low, False)[0] is not None


def _leads_section(rows: Sequence[Row], at: int) -> bool:
    """Whether a status that heads codes is set in right below a row, before them: no description goes on above that."""
    below = rows[at + 1 : at + 3]
    return len(below) == 2 and rows[at].line.indent < below[0].line.indent <= below[1].line.indent and (
        _is_section(below[0]) and bool(below[1].finds.codes))


def count_at(text: str) -> int:
    """Where the bare count of codes begins that ends a heading: "=== ABS === (3)"; its end where none does."""
    match = _COUNT.search(text)
    return len(text) if match is None else match.start()


def _name(head: Row) -> str:
    """What a heading names, without the count of its codes, and a short name without its address."""
    stated = stated_count(head.low)
    text = head.text if stated is None else head.text[: stated[1]]
    name = tidy(text[: count_at(text)])
    if (addressed := _ADDRESSED.search(name)) is not None:
        name = name[addressed.end() :]
    beside = (pattern.fullmatch(name) for pattern in (BEFORE, BEHIND, LABELLED_BEHIND))
    return next((match[1] for match in beside if match is not None and is_one_of_short(match[1])), name)


def _around(row: Row) -> tuple[str, str]:
    """What stands before the first code of a row, and behind it."""
    code = row.finds.codes[0]
    return row.text[: code.start], row.text[code.end :]


def _may_name(before: str, behind: str, is_name: IsName) -> bool:
    """Whether a piece of a row with codes may be the name of its module."""
    texts = [strip_links(before), *(piece for _, piece in soft_pieces(behind)[:6])]
    return any(
        text and states.of_cell(small(text)) is None and (is_name(text) or is_one_of_short(text))
        for text in map(tidy, texts)
    )


__all__ = ["Level", "adopt", "count_at", "level_of"]
