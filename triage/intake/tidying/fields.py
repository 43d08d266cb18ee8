"""Lines of several keys with their values, cut into one row for each: "{ecu: ABS, dtc: C0040, status: stored}".

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in cut(rows_of('status=stored ecu="Engine control" code=P0562\\nABS: code C0040'))]
['ecu="Engine control', 'code=P0562', 'status=stored', 'ABS: code C0040']
>>> [row.text for row in cut(rows_of("C0040 left\\n  State: current   Count: 3\\n  Age: 2, Count: 1\\n},"))]
['C0040 left', 'State: current', 'Count: 3', 'Age: 2, Count: 1']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.lines import supplyrow
from triage.intake.lines.recut import without
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import outside, states
from triage.intake.said.answers import answer_of_cell

_KEY = lazily(
    r"(?:^|(?<=[\s,;|{]))[\"']?([a-z][a-z_-]{0,22}(?: [a-z]{1,12}){0,2}(?: ?#?[1-9][0-9]?)?)[\"']?\s?"
    r"(?:\.{0,2}[:=]|\.{3,60}(?:\s?:)?)\s?(?=[^\s:=/.])"
)
_ROLES = frozenset(
    {"module", "code", "failure_type", "status", "status_byte", "description", "count", "count_of_codes", "answer",
     "reply", "spn", "fmi", "volts"}
)
#: The order in which the rows are read, whatever the order in the line.
_ORDER = ("module", "code", "spn", "fmi")
_EDGE = " \t,;|{}[]\"'"
#: What is told of a code in a line below it.
_OF_A_CODE = frozenset(
    ("status", "status_byte", "failure_type", "count", "odometer", "rpm", "speed", "coolant", "volts_at_fault")
)
_ASIDES = frozenset((None, "date", "description", "volts", "other", "count_of_codes"))
#: What parts a value from the next key: a wide gap, a mark, or, behind a status, a space.
_PARTED = lazily(r"(?<![\s:=])(?:\s{2,}|\s*[\t,;|]\s*)|(?<=[a-z)])\s(?=[a-z]{3,14}\s?[:=]\s?\S)")
_KEYED = lazily(r"[\"']?([a-z][a-z ./_-]{0,30}?)[\"']?\s?(?:[:=]|\.{3,60})\s*(?=[^\s:=/.])")
#: A code stands so many rows above what is told of it.
_MOST_BELOW, _SEVERAL = 4, 2
#: Between keys in the head of a page.
_BARS = lazily(r"\s*\|\s*|\s{3,}|\t")
_HEAD_KEY = lazily(r"[a-z][a-z0-9 ./-]{1,30}:\s?\S")
_EMPTY = lazily(r"\s?\[\s?\]")
#: A key of codes behind others, with nothing or with a code behind it: "module=TCM; dtcs=".
_OF_CODES = lazily(
    r"[;|,\t]\s*[\"']?((?:active |stored |fault |trouble |gespeicherte )?(?:dtcs?|codes?|faults?|fehler(?:codes?)?|"
    r"defauts?|codigos?|averias?)(?:[ _]?list[ea]?)?)[\"']?\s?[:=]\s?"
    r"(?:[\"']{2}|(?=[;|,]|$)|(?=[\"']?[pcbu][0-3][0-9a-f]{3}))"
)
#: The lamp that a code lights.
_LAMP = lazily(
    r"(?:^|\s{2,}|[,;|]\s?)(?:(?:warning|amber|red|stop|malfunction|warn|kontroll)[ -]?)?"
    r"(?P<lamp>(?:lamps?|mil|telltale|lampe|leuchte|voyant|temoin|testigo)(?: (?:status|state))?\s?[:=]\s?"
    r"[a-z-]{2,12}(?:/[a-z]{2,8})?(?: lamp)?)(?:\s*[,;|]\s?|\s{2,}|\s*$)"
)
_LONGEST_LAMP = 160
_NOTHING = ("=;", "=,", "=|", "= |", ":;", ": ;", ":|", ": |")
_BRACKETS = frozenset("{}[],; ")


def cut(rows: Sequence[Row]) -> list[Row]:
    """The rows, those of several known keys cut at them: the module first, then the code, then the rest. What only
    opens or closes a bracket round them is left out."""
    rows = _without_lamps(_with_none(rows))
    found: list[Row] = []
    for at, row in enumerate(rows):
        if row.text and (":" in row.text or "=" in row.text or "..." in row.text):
            spans = () if row.finds.codes or _is_below_code(rows, at) else _of_a_head(row.low)
            if spans:
                found += [Row(row.line, row.text[start:end], row.start + start) for start, end in spans]
            elif _is_plain(row.low):
                found.append(row)
            else:
                found += _of_a_code(rows, at) if not row.finds.codes else _fields(row)
        elif not row.text or row.text[0] not in _BRACKETS or not _BRACKETS.issuperset(row.text):
            found.append(row)
    return found


def _with_none(rows: Sequence[Row]) -> Sequence[Row]:
    """The rows of modules, with "none" behind a key of codes that is empty, where the same key holds the codes of
    others: "module=ECM; dtcs=P0562" above "module=TCM; dtcs="."""
    keys = [(at, key) for at, row in enumerate(rows) if ("=" in row.text or ":" in row.text)
            and (row.finds.codes or row.text[-1] in "=:;\"'" or any(mark in row.text for mark in _NOTHING))
            and (key := _OF_CODES.search(row.low)) is not None]
    coded = {key[1] for at, key in keys if rows[at].finds.codes}
    empty = [(at, key) for at, key in keys if not rows[at].finds.codes and key[1] in coded]
    if not empty:
        return rows
    mended = list(rows)
    for at, key in empty:
        row = rows[at]
        first = _KEY.match(row.low, len(row.low) - len(row.low.lstrip(_EDGE)))
        if first is not None and role_of(first[1], exactly=True) == "module":
            line = reworded(row.line, row.start + key.end(), row.start + key.end(), "none")
            mended[at] = Row(line, row.text[: key.end()] + "none" + row.text[key.end() :], row.start)
    return mended


def _without_lamps(rows: Sequence[Row]) -> Sequence[Row]:
    """The rows, those below a code without the lamp that it has among other things that are told of it: "Lamp: none
    Active   Occ: 3"."""
    told = {at: lamp for at, row in enumerate(rows) if not row.finds.codes and (":" in row.text or "=" in row.text)
            and len(row.text) <= _LONGEST_LAMP and (lamp := _LAMP.search(row.low)) is not None
            and _is_below_code(rows, at)}
    if not told:
        return rows
    found: list[Row] = []
    for at, row in enumerate(rows):
        if (lamp := told.get(at)) is None:
            found.append(row)
        elif row.low[: lamp.start()].strip(_EDGE):
            found.append(without(row, (lamp.start(), lamp.end("lamp"))))
        elif row.low[lamp.end() :].strip(_EDGE):
            found.append(without(row, lamp.span()))
    return found


@remembered
def _is_plain(low: str) -> bool:
    """Whether a line holds one key at most, the commonest ones."""
    if len(_keys(low)) > 1:
        return False
    first = _KEYED.match(low)
    return first is None or _PARTED.search(low, first.end()) is None


def _of_a_code(rows: Sequence[Row], at: int) -> list[Row]:
    """A row of several keys that tell of the code above ("Status: stored   Count: 11") as one for each."""
    row = rows[at]
    first = _KEYED.match(row.low)
    if first is None or role_of(first[1], exactly=True) not in _OF_A_CODE or not _PARTED.search(row.low, first.end()):
        return _fields(row)
    keys = [(0, first)]
    for parted in _PARTED.finditer(row.low, first.end()):
        key = _KEYED.match(row.low, parted.end())
        apart = parted[0] != " " or parted.start() > keys[-1][1].end()
        if key is not None and apart and (parted[0] != " " or role_of(key[1], exactly=True) in _OF_A_CODE):
            keys.append((parted.end(), key))
    roles = [role_of(key[1], exactly=True) for _, key in keys]
    if len(keys) < 2 or not _OF_A_CODE.union(_ASIDES).issuperset(roles):
        return _fields(row)
    stops = [start for start, _ in keys[1:]] + [len(row.text)]
    told = [row.low[key.end() : stop].strip(_EDGE) for (_, key), stop in zip(keys, stops, strict=True)]
    if any(role == "status" and _KEYED.match(value) is not None for role, value in zip(roles, told, strict=True)):
        # "Status: akt. = aktiv; pas. = passiv" explains letters.
        return [row]
    said = any(
        role == "status" and (states.of_cell(value) is not None or answer_of_cell(value) is not None)
        for role, value in zip(roles, told, strict=True)
    )
    if not said and not _is_below_code(rows, at):
        return _fields(row)
    # "Fault count: 3" beside the status of a code: whether it counts that code or those of the module can't be told.
    return [
        Row(row.line, row.text[start:stop].rstrip(_EDGE), row.start + start)
        for (start, _), role, stop in zip(keys, roles, stops, strict=True)
        if role != "count_of_codes"
    ]


@remembered
def _of_a_head(low: str) -> Sequence[tuple[int, int]]:
    """Where the keys with their values stand in a line of a page's head, one of which tells what fed the vehicle:
    "Scan type: complete | Battery support unit: none | DLC voltage: 12.0"; () for any other line."""
    if "|" not in low and "   " not in low and "\t" not in low:
        return ()
    cuts = [match.span() for match in _BARS.finditer(low)]
    starts, ends = [0, *(end for _, end in cuts)], [*(start for start, _ in cuts), len(low)]
    spans = list(zip(starts, ends, strict=True))
    pieces = [low[start:end] for start, end in spans]
    if len(pieces) < 2 or any(_HEAD_KEY.match(piece) is None for piece in pieces):
        return ()
    supply = [supplyrow.alone(piece) or outside.alone(piece) for piece in pieces]
    others = [piece.partition(":")[2].strip() for piece, told in zip(pieces, supply, strict=True) if not told]
    return spans if any(map(outside.alone, pieces)) and not any(answer_of_cell(value) for value in others) else ()


def _is_below_code(rows: Sequence[Row], at: int) -> bool:
    """Whether a code stands right above a row, with nothing between that stands further left."""
    indent = rows[at].line.indent
    for above in reversed(rows[max(0, at - _MOST_BELOW) : at]):
        if above.blank or above.finds.codes:
            return not above.blank and above.line.indent <= indent
        indent = min(indent, above.line.indent)
    return False


_ANSWERS = frozenset(("yes", "no", "ja", "nein", "oui", "non", "si", "true", "false"))
_VALUE_ENDS = lazily(r"[;|,\t]|\s{2,}")


@remembered
def _keys(low: str) -> Sequence[tuple[int, str]]:
    """The known keys of a line with their roles; none where it does not start with one."""
    begin = len(low) - len(low.lstrip(_EDGE))
    quoted = begin > 0 and low[begin - 1] in "\"'"
    first = _KEY.match(low, begin - quoted)
    if first is None or role_of(first[1], exactly=True) is None:
        return ()
    found = []
    for match in _KEY.finditer(low):
        start, key = match.start(1), match[1]
        role = _role(low, match)
        # "Fault: not present: C0042"
        while role is None and " " in key and states.of_cell(match[1]) is None:
            # "circuit open State: stored": the words before belong to the value.
            start, key = start + key.index(" ") + 1, key.partition(" ")[2]
            role = told if (told := role_of(key, exactly=True)) in ("status", "code", "count") else None
        if role is not None and (role in _ROLES or role == "other"):
            found.append((start, role))
    return found


def _role(low: str, match: re.Match[str]) -> str | None:
    """The role of a key; one with a slip in it, or that asks after a status, is that of a status whose value is one or
    answers it ("dtc stattus: history", "active: no")."""
    role = role_of(match[1], exactly=True)
    if role is not None:
        return role
    value = _VALUE_ENDS.split(low[match.end() : match.end() + 60], maxsplit=1)[0].strip(_EDGE + ".)")
    if value in _ANSWERS:
        return "status" if "status" in (role_of(match[1]), role_of(f"{match[1]} ?")) else None
    return "status" if role_of(match[1]) == "status" and states.of_cell(value) is not None else None


def _groups(roles: Sequence[str]) -> list[int]:
    """To which of several codes of a line each key belongs: what stands behind its code, or, where the line begins so,
    before it. 0 for the module, and for all where no more than one code is told."""
    if sum(role == "code" for role in roles) < _SEVERAL:
        return [0] * len(roles)
    told = [role for role in roles if role != "module"]
    behind = told[0] == "code"
    found, codes = [], 0
    for role in roles:
        codes += role == "code" and behind
        found.append(0 if role == "module" else codes + (not behind))
        codes += role == "code" and not behind
    return found


def _fields(row: Row) -> list[Row]:
    """One row as its fields; the row itself where it does not start with a known key, or holds one only."""
    keys = _keys(row.low)
    if len(keys) < 2:
        return [row]
    if any(code.kind == "J1939" for code in row.finds.codes):
        # "SPN: 94 FMI: 18" is one code.
        keys = [(start, role) for start, role in keys if role not in ("spn", "fmi")]
    roles = {role for _, role in keys}
    if len(keys) < 2 or len(roles) < 2 or row.low[: keys[0][0]].strip(_EDGE) or not roles & {"module", "code", "spn"}:
        return [row]
    stops = [start for start, _ in keys[1:]] + [len(row.text)]
    groups = _groups([role for _, role in keys])
    parts: list[tuple[tuple[int, int], Row]] = []
    for (start, role), stop, group in zip(keys, stops, groups, strict=True):
        text = row.text[start:stop].rstrip(_EDGE)
        empty = _EMPTY.match(row.text, start + len(text), stop) if text[-1:] in (":", "=") else None
        if empty is not None:
            # An empty list is an answer.
            text = row.text[start : empty.end()]
        rank = _ORDER.index(role) if role in _ORDER else len(_ORDER)
        parts.append(((group, rank), Row(row.line, text, row.start + start)))
    parts.sort(key=lambda part: part[0])
    return [part for _, part in parts]
