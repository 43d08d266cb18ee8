"""Codes before their modules: the line that names the module of the codes above it, moved in front of them.

>>> from triage.intake.lines.rows import rows_of
>>> text = "P0562 low\\n  Module: ABS\\n  Status: stored\\nU0100 lost\\n  in: BCM"
>>> found = in_front(rows_of(text), lambda name: name in ("ABS", "BCM"))
>>> [row.text for row in found]
['Module: ABS', 'P0562 low', 'Status: stored', 'in: BCM', 'U0100 lost']
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from copy import copy
from functools import lru_cache

from triage.intake.codes.finds import Finds
from triage.intake.lines.glue import Part, as_read, together
from triage.intake.lines.row import Cell, Row
from triage.intake.lines.supplyrow import stands_between
from triage.intake.naming.heads import is_key, role_of
from triage.intake.naming.names import Names, tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set
from triage.intake.said import states
from triage.intake.said.answers import spoken
from triage.intake.said.counts import is_often
from triage.intake.tidying.namesbehind import BEHIND_STATUS, cut, may_name, name_and_status
from triage.model import codes as model_codes

#: A line that ends with one of these goes on in the next one, which is then no name.
OPEN_ENDS = word_set(
    "with from by of to the a and or for in at on mit von zu und der die das dem den avec de du la le et con del el y"
)


#: A line that only counts the codes, and what stands between a name and its status.
_ENTRY = lazily(
    r"\W*(?:fault|code|dtc|entry|item|fehler|fehlercode|defaut|averia|fallo|error|codigo)\s*(?:no\.?|nr\.?|#)?\s*[0-9]{1,3}"
    r"\s*(?:(?:of|/|von|de|sur)\s*[0-9]{1,3})?\W*"
)
_COUNTS = signs.of_pattern("^(?:fault|code|dtc|entry|item|fehler|defaut|averia|fallo|error|codigo)")
_EDGE = " \t:;,-=|"
#: What parts a status from what stands before it.
_PARTED = lazily(r"\s*[(\[{]|\s+-+>?\s|\s*=+>?\s|\s*[,;:]\s|\s/\s|\s{2,}")
_LONGEST_STATUS = 60
_MOST_ADOPTED = 40


def in_front(rows: Sequence[Row], is_name: Callable[[str], bool], names: Names | None = None) -> list[Row]:
    """The rows, each line that names the module of the codes above it in front of them. ``is_name``: listed names;
    ``names`` are given those that nobody knows."""
    for at in signs.places(rows, _COUNTS):
        _rule(rows[at])
    rows, named = (rows, {}) if names is None else cut(rows, names)
    named = named or _named_below(rows, is_name)
    if not named and names is not None:
        named = _set_in_below(rows, names.likely)
    if named:
        if names is not None:
            _adopt(rows, named, names)
        return _with_names(rows, named, lambda name: is_name(name) or may_name(name))
    if not any(_kind(row.low) == "module" for row in rows if not row.finds.codes):
        return list(rows)
    found: list[Row] = []
    stretches = _stretches(rows)
    if _begins_with_names(stretches):
        return list(rows)
    for stretch in stretches:
        owners = _owners(stretch)
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


def _rule(row: Row) -> None:
    """Make a line that only counts the codes ("Fault 1 of 3") a rule between them."""
    if row.text and not row.finds.codes and len(row.text) <= 32 and _ENTRY.fullmatch(row.low):
        row.kind, row.cells = "rule", []


def _stretches(rows: Sequence[Row]) -> list[list[Row]]:
    """The rows cut behind each blank one and each rule."""
    found: list[list[Row]] = [[]]
    for row in rows:
        found[-1].append(row)
        if row.blank or row.kind == "rule":
            found.append([])
    return found


def _named_below(rows: Sequence[Row], is_name: Callable[[str], bool]) -> dict[int, list[int]]:
    """By the place of a line with a code: the places of the names right below it, each alone in its line or with its
    status. Empty where the text is not so written. Set in where the listed ones are, others are names as well."""
    coded = [at for at, row in enumerate(rows) if row.finds.codes and row.roles is None]
    found: dict[int, list[int]] = {}
    deeper = headed = True
    for at in coded:
        ends = WORD.findall(rows[at].low[-40:])
        if ends and ends[-1] in OPEN_ENDS:
            continue
        headed = headed and _name_above(rows, at, is_name)
        below = at + 1
        while below < len(rows):
            further = rows[below].line.indent > rows[at].line.indent
            if name_and_status(rows[below], is_name) is not None:
                deeper = deeper and further
                found.setdefault(at, []).append(below)
            elif not further or name_and_status(rows[below], may_name) is None:
                break
            below += 1
    listed = sum(len(names) for names in found.values())
    if listed < 2 or len(found) < (0.6 if deeper else 0.8) * len(coded) or (headed and not deeper):
        return {}
    if deeper:
        return _with_others(rows, coded, found)
    # As far left as the codes, a name could be that of the codes below it as well.
    alone = all(len(names) == 1 for names in found.values()) and len(found) == len(coded)
    follows = all(names[-1] + 1 >= len(rows) or not rows[names[-1] + 1].finds.codes for names in found.values())
    return found if alone and follows else {}


def _with_others(rows: Sequence[Row], coded: Sequence[int], found: dict[int, list[int]]) -> dict[int, list[int]]:
    """The places of names below codes, and of lines as far in and of the same kind (with a status, or where none has
    one) that may be names: those that nobody lists."""
    listed = [rows[at] for places in found.values() for at in places]
    indents = {row.line.indent for row in listed}
    spans = {id(row): name_and_status(row, may_name) for row in listed}
    bare = sum(span is None or span[1] >= len(row.text) for row, span in zip(listed, spans.values(), strict=True))
    every: dict[int, list[int]] = {}
    for at in coded:
        known = set(found.get(at, ()))
        below = at + 1
        while below < len(rows) and not rows[below].finds.codes and (below in known or (
                rows[below].line.indent in indents and (span := name_and_status(rows[below], may_name)) is not None
                and (span[1] < len(rows[below].text) or 2 * bare > len(listed)))):
            every.setdefault(at, []).append(below)
            below += 1
    return every


def _set_in_below(rows: Sequence[Row], is_name: Callable[[str], bool]) -> dict[int, list[int]]:
    """The same where nothing but names is set in below the codes: most of them known, the others in the same place."""
    coded = [at for at, row in enumerate(rows) if row.finds.codes and row.roles is None]
    if len(coded) < 2 or _name_above(rows, coded[0], is_name):
        return {}
    found: dict[int, list[int]] = {}
    sure = 0
    for at in coded:
        below = at + 1
        while below < len(rows) and rows[below].text and rows[below].line.indent > rows[at].line.indent:
            if name_and_status(rows[below], may_name) is None:
                return {}
            sure += name_and_status(rows[below], is_name) is not None
            found.setdefault(at, []).append(below)
            below += 1
    listed = sum(map(len, found.values()))
    return found if len(found) == len(coded) and listed > 1 and sure >= 0.5 * listed else {}


def _adopt(rows: Sequence[Row], named: dict[int, list[int]], names: Names) -> None:
    """List the names of several words that stand below the codes and that nobody knows, in this text alone."""
    below = (rows[at] for places in named.values() for at in places)
    texts = {tidy(row.text[: (name_and_status(row, may_name) or (0, 0))[0]]) for row in below}
    for text in sorted(text for text in texts if " " in text and not names.likely(text))[:_MOST_ADOPTED]:
        names.adopt_whole(text)


def _name_above(rows: Sequence[Row], at: int, is_name: Callable[[str], bool]) -> bool:
    """Whether a name stands above a line, with nothing but part numbers, a voltage or heads of columns between."""
    at -= 1
    if at >= 0 and name_and_status(rows[at], is_name) is not None:
        return True
    while at > 0 and not (rows[at].finds.codes or rows[at].blank) and (
            rows[at].head or stands_between(rows[at].low)):
        at -= 1
    return at >= 0 and name_and_status(rows[at], is_name) is not None


def _with_names(rows: Sequence[Row], named: dict[int, list[int]], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows, each code once below each of the names that stood below it, with the status beside the name."""
    taken = {at for names in named.values() for at in names}
    found: list[Row] = []
    for at, row in enumerate(rows):
        if at in taken:
            continue
        for below in named.get(at, ()):
            other = rows[below]
            end, status = name_and_status(other, is_name) or (len(other.text), len(other.text))
            whole = states.of_cell(other.low[status:]) is not None
            further = None if whole else BEHIND_STATUS.search(other.text, status)
            said = status, len(other.text) if further is None else further.start()
            alone = below + 1 >= len(rows) or below + 1 in taken or rows[below + 1].line.indent < other.line.indent or (
                rows[below + 1].blank or bool(rows[below + 1].finds.codes))
            if len(row.finds.codes) == 1 and not row.finds.codes[0].start and (alone or said[0] < said[1]):
                found.append(_in_cells(row, other, end, said))
            else:
                found += [_moved(Row(other.line, other.text[:end].rstrip(), other.start), row), row]
                found += [Row(other.line, other.text[slice(*said)], other.start + status)] if said[0] < said[1] else []
            found += [] if further is None else [other.part(further.end())]
        if at not in named:
            found.append(row)
    return found


def _in_cells(row: Row, other: Row, end: int, said: tuple[int, int]) -> Row:
    """A row of a table: the name of a module up to a place of its line, a code with its text, the status."""
    code = row.finds.codes[0]
    close, status = len(row.text), (other, *said)
    if said[0] == said[1] and (led := next(_status_at_end(row, code.end), None)) is not None:
        close, status = led.start(), (row, led.end(), close)
    spans = ((other, 0, end), (row, code.start, code.end), (row, code.end, close), status)
    pieces: list[Part | str] = []
    cells: list[Cell] = []
    at = 0
    for told, start, stop in spans:
        text = told.text[start:stop]
        start += len(text) - len(text.lstrip(_EDGE))
        stop = max(start, start + len(text.strip(_EDGE)))
        line = as_read(told)
        pieces += [(line, told.start + start, told.start + stop), "\t"]
        cells.append(Cell(at, at + stop - start, told.text[start:stop], told.low[start:stop]))
        at += stop - start + 1
    line = together(*pieces[:-1])
    place = cells[1].start - code.start
    found = Row(line, line.text, 0, cells=cells, kind="\t", roles=("module", "code", "description", "status"))
    found.finds = Finds((code._replace(start=code.start + place, end=code.end + place, bare=code.bare + place),))
    return found


def _status_at_end(row: Row, start: int) -> Iterator[re.Match[str]]:
    """What parts a status that ends a row from the text before it, behind a place."""
    marks = _PARTED.finditer(row.low, max(start, len(row.low) - _LONGEST_STATUS))
    return (match for match in marks if states.of_cell(row.low[match.end() :]) is not None)


def _begins_with_names(stretches: Sequence[Sequence[Row]]) -> bool:
    """Whether the first stretch with codes and names of their modules begins with a name: a page may break later where
    it looks the other way round."""
    for stretch in stretches:
        naming = [bool(row.finds.codes) for row in stretch if row.finds.codes or _kind(row.low) == "module"]
        if len(set(naming)) > 1:
            return not naming[0]
    return False


def _owners(stretch: Sequence[Row]) -> dict[int, int | None]:
    """By the place of a line with codes: the place of the line below that names its module, None where none does.
    Empty where the lines are not so ordered."""
    naming = [at for at, row in enumerate(stretch) if not row.finds.codes and _kind(row.low) == "module"]
    if not naming or any(row.roles is not None or row.head for row in stretch):
        return {}
    coded = [at for at, row in enumerate(stretch) if _is_coded(row)]
    if not coded or naming[0] < coded[0]:
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
    return "module" if (role == "module" or is_key(key)) and not (spoken(value) or is_often(key, value)) else ""


def _pair(low: str) -> tuple[str, str]:
    """The key and the value of a row of both, in small letters."""
    for mark in (":", "=", "..."):
        if mark in low:
            head, _, rest = low.partition(mark)
            if len(head) <= 34:
                return head.strip(), rest.strip(" .:")
    return "", ""


def _moved(row: Row, before: Row) -> Row:
    """``row`` as it stands in front of ``before``: no further right than that."""
    moved = copy(row)
    moved.line = copy(row.line)
    moved.line.indent = before.line.indent
    return moved
