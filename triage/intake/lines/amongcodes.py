"""Makers' own numbers among the codes of one line, told as those are: "P0563 (voltage high) and ABC40F (data lost)".

>>> from triage.intake.lines.rows import rows_of
>>> texts = ("ECM: P0563 (voltage high), ABC40F (data lost)", "ECM: P0563 high, U0140 lost, 20417 data lost",
...          "P0563 high, 20417 km")
>>> found = rows_of("\\n".join(texts))
>>> adopt(found, lambda name: name == "ECM")
>>> [[code.text for code in row.finds.codes] for row in found]
[['P0563', 'ABC40F'], ['P0563', 'U0140', '20417'], ['P0563']]
>>> found = rows_of("ECM: 9A12B4, U0140, P0563\\nECM: active U0140 lost; stored 20417 fan\\nP0563 at 20417, U0140")
>>> adopt(found, lambda name: name == "ECM")
>>> [[code.text for code in row.finds.codes] for row in found]
[['9A12B4', 'U0140', 'P0563'], ['U0140', '20417'], ['P0563', 'U0140']]
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Literal

from triage.intake.codes import ownnumbers
from triage.intake.codes.finds import Found
from triage.intake.codes.ownnumbers import SIGN, TOKEN
from triage.intake.lines.codeplaces import typed_end
from triage.intake.lines.ownevidence import OTHER_KEYS, QUANTITY, goes_on, measured, own_at
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

#: A number with digits in it behind a mark or a word that leads to a code.
_PLACE = lazily(
    r"(?:([;,|:])|(?<=[\s)])(?:and|und|et|y|sowie|plus|has|have|had|shows?|found|reads?|stored|hat|zeigt|meldet|fand|a|"
    r"presente|affiche|signale|trouve|tiene|muestra|presenta|encontre))\s+"
    rf"({TOKEN})(?=\s+[(\[]?[^\W\d]{{2}})"
)
#: A number behind a mark, or behind words that stand between both.
_ITEM = lazily(
    rf"(?:(?<=[;,|/+:>])\s+|^)(?:([(\[]?[^\W\d_][^\d;,|/:>()\[\]]{{2,40}}[)\]]?)\s+)?({TOKEN})(?![^\s,;|/(\[])")
_ITEM_ENDS = lazily(r"\s*(?:[,;|/]|\+\s|$)")
_ANYWHERE = lazily(rf"(?<![\w./-]){TOKEN}[ (]")
_NUMBER = lazily(rf"(?<![\w./-]){TOKEN}")
_BRACKET = lazily(r"\s*[(\[]([^()\[\]]{2,120})[)\]]")
_JOINT = lazily(r"(?:\s*,(?:\s*(?:and|und|et|y))?|\s+(?:and|und|et|y))\s+")
_TEXT = lazily(r"\s*:?\s*[^\W\d]{3}")
Manner = Literal["bracket", "text", ""]


def adopt(rows: Sequence[Row], is_name: Callable[[str], bool]) -> None:
    """Give the rows with codes those numbers too that stand among them and are told in their manner. Linear."""
    for at in signs.places(rows, SIGN):
        row = rows[at]
        if not row.finds.codes or row.roles or row.head or row.described or _NUMBER.search(row.text) is None:
            continue
        row.finds = row.finds._replace(codes=with_items(row, row.finds.codes, 0, len(row.text)))
        if _ANYWHERE.search(row.text) is None:
            continue
        taken = [(code.start, code.end) for code in row.finds.codes]
        taken += [(refused.start, refused.end) for refused in row.finds.refusals]
        manners = [_manner(row, typed_end(row, code)) for code in row.finds.codes]
        found = []
        for match in _PLACE.finditer(row.text):
            start, end = match.span(2)
            own = own_at(row, start, match[2])
            if own is None or any(first < end and start < last for first, last in taken):
                continue
            if _is_told(row, match, manners) and (match[1] != ":" or _leads(row, match.start(), is_name)):
                found.append(own)
        if found:
            row.finds = row.finds._replace(codes=tuple(sorted((*row.finds.codes, *found), key=lambda code: code.start)))


def with_items(row: Row, codes: Sequence[Found], start: int, stop: int) -> tuple[Found, ...]:
    """The codes of a place with the numbers that fill an item of their list, or that have a status right before or
    behind them in it."""
    taken = [(code.start, code.end) for code in codes]
    taken += [(refused.start, refused.end) for refused in row.finds.refusals]
    found: list[Found] = []
    for match in _ITEM.finditer(row.text[start:stop]):
        at, end = start + match.start(2), start + match.end(2)
        own = own_at(row, at, match[2])
        if own is None or any(first < end and at < last for first, last in taken) or measured(row, end):
            continue
        before = states.of_cell(row.low[start + match.start(1) : start + match.end(1)]) if match[1] else None
        inside = _BRACKET.match(row.low, end, stop)
        told = states.of_cell(inside[1]) is not None if inside is not None else states.leading(row.low, end) > end
        alone = _ITEM_ENDS.match(row.low, inside.end() if inside is not None and told else end, stop) is not None
        sure = ownnumbers.weight(match[2]) == "sure"
        first = match[1] is None and ((told and inside is not None) or (sure and (told or alone)))
        if before is not None or first:
            found.append(own)
    return tuple(sorted((*codes, *found), key=lambda code: code.start))


def _is_told(row: Row, match: re.Match[str], manners: Sequence[Manner]) -> bool:
    """Whether what is behind a number stands as behind the codes of the row: in brackets (or one of these is next); or
    as a text, behind several of them or with a status of its own: other things are counted and measured as well."""
    end = match.end(2)
    manner = _manner(row, end)
    if measured(row, end):
        return False
    if (inside := _BRACKET.match(row.low, end)) is not None:
        next_one = _JOINT.match(row.low, inside.end())
        listed = next_one is not None and any(code.start == next_one.end() for code in row.finds.codes)
        text = inside[1]
        fits = len(text) > 3 and not QUANTITY.match(text) and role_of(text) not in OTHER_KEYS
        return fits and (manner in manners or listed)
    if manner != "text" or not match[1] or goes_on(row.low, end):
        return False
    item = re.split(r"[;,.](?:\s|$)", row.low[end : end + 200], maxsplit=1)[0]
    return manners.count("text") > 1 or bool(states.in_text(item))


def _leads(row: Row, at: int, is_name: Callable[[str], bool]) -> bool:
    """Whether the name of a module stands before a colon."""
    before = re.split(r"[.;,:]\s", row.text[max(0, at - 80) : at])[-1]
    return is_name(tidy(before))


def _manner(row: Row, end: int) -> Manner:
    """How a code that ends at a place is told: in brackets behind it, or in words right behind it."""
    if _BRACKET.match(row.low, end) is not None:
        return "bracket"
    return "text" if _TEXT.match(row.low, end) is not None else ""


__all__ = ["adopt", "with_items"]
