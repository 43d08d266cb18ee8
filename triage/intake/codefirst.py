"""Codes before their modules: the line that names the module of the codes above it, moved in front of them.

>>> from triage.intake.rows import rows_of
>>> text = "P0562 low\\n  Module: ABS\\n  Status: stored\\nU0100 lost\\n  in: BCM"
>>> found = in_front(rows_of(text), lambda name: True)
>>> [row.text for row in found]
['Module: ABS', 'P0562 low', 'Status: stored', 'in: BCM', 'U0100 lost']
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from copy import copy
from functools import lru_cache

from triage.intake.answers import spoken
from triage.intake.characters import has_digit
from triage.intake.heads import is_key, role_of
from triage.intake.layouts import Row
from triage.intake.names import tidy
from triage.intake.phrases import word_set, words
from triage.model import codes as model_codes

#: A line that ends with one of these goes on in the next one, which is then no name.
_OPEN_ENDS = word_set(
    "with from by of to the a and or for in at on mit von zu und der die das dem den avec de du la le et con del el y"
)


def in_front(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows, each line that names the module of the codes above it in front of them. ``is_name``: listed names."""
    found: list[Row] = []
    for stretch in _stretches(rows):
        owners = _owners(stretch, is_name)
        if not owners:
            found += stretch
            continue
        taken = {owner for owner in owners.values() if owner is not None}
        for at, row in enumerate(stretch):
            owner = owners.get(at)
            if owner is not None:
                found.append(_moved(stretch[owner], row))
            if at not in taken:
                found.append(row)
    return found


def _stretches(rows: Sequence[Row]) -> list[list[Row]]:
    """The rows cut behind each blank one."""
    found: list[list[Row]] = [[]]
    for row in rows:
        found[-1].append(row)
        if row.blank:
            found.append([])
    return found


def _owners(stretch: Sequence[Row], is_name: Callable[[str], bool]) -> dict[int, int | None]:
    """By the place of a line with codes: the place of the line below that names its module, None where none does.
    Empty where the lines are not so ordered."""
    coded = [at for at, row in enumerate(stretch) if _is_coded(row)]
    if not coded or any(row.roles is not None or row.head for row in stretch):
        return {}
    naming = [at for at, row in enumerate(stretch) if not row.finds.codes and _kind(row.low) == "module"]
    if not naming and len(coded) >= 2:
        naming = _bare_names(stretch, coded, is_name)
    if not naming or naming[0] < coded[0]:
        return {}
    owners: dict[int, int | None] = {}
    for place, at in enumerate(coded):
        stop = coded[place + 1] if place + 1 < len(coded) else len(stretch)
        below = bisect_right(naming, at)
        owners[at] = naming[below] if below < len(naming) and naming[below] < stop else None
    owned = [(at, name) for at, name in owners.items() if name is not None]
    if len(owned) < len(naming) or len(owned) < 0.6 * len(coded):
        return {}
    deeper = all(stretch[name].line.indent > stretch[at].line.indent for at, name in owned)
    if owners[coded[-1]] is None and not deeper:
        # Code, module, code: either order would leave one code alone.
        return {}
    return owners


def _is_coded(row: Row) -> bool:
    """Whether a row holds a code, or a maker's own number behind a key for codes."""
    return bool(row.finds.codes) or _kind(row.low) == "code"


@lru_cache(maxsize=8192)
def _kind(low: str) -> str:
    """ "code" for a key for codes with a maker's own number, "module" for one for a module with a value that is no
    answer, else ""."""
    key, value = _pair(low)
    if not value:
        return ""
    role = role_of(key)
    if role == "code":
        return "code" if has_digit(value) and model_codes.own(value.partition(" ")[0]) else ""
    return "module" if (role == "module" or is_key(key)) and not spoken(value) else ""


def _pair(low: str) -> tuple[str, str]:
    """The key and the value of a row of both, in small letters."""
    for mark in (":", "=", "..."):
        if mark in low:
            head, _, rest = low.partition(mark)
            if len(head) <= 34:
                return head.strip(), rest.strip(" .:")
    return "", ""


def _bare_names(stretch: Sequence[Row], coded: Sequence[int], is_name: Callable[[str], bool]) -> list[int]:
    """The places of listed names that stand alone, further right, below the lines with codes, if most have one."""
    found = []
    for at in coded:
        below = stretch[at + 1] if at + 1 < len(stretch) else None
        if below is None or below.finds.codes or below.line.indent <= stretch[at].line.indent:
            continue
        ends = words(stretch[at].low[-40:])
        if is_name(tidy(below.text)) and not (ends and ends[-1][0] in _OPEN_ENDS):
            found.append(at + 1)
    return found if len(found) >= 0.8 * len(coded) else []


def _moved(row: Row, before: Row) -> Row:
    """``row`` as it stands in front of ``before``: no further right than that."""
    moved = copy(row)
    moved.line = copy(row.line)
    moved.line.indent = before.line.indent
    return moved
