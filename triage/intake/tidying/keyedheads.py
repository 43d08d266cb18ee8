"""Words for a control unit before the names of modules, without a colon: "Control module Addr 31 Audio amplifier".

"System" before a name is a part of it as often ("System voltage"). Where such words begin several lines of a text, and
a name that is known stands behind them in most, they are a key, and are taken off where the name does not hold them.
Where a name that nobody knows stands behind them too, with its codes or its answer, all of them get a colon behind.

>>> from triage.intake.lines.rows import rows_of
>>> texts = ("Control unit 0x70C QZM", "P0562 low", "Control unit 0x710 Radio", "Control unit 0x714 Radio 2")
>>> [row.text for row in taken_off(rows_of("\\n".join(texts)), lambda name: "Radio" in name and "unit" not in name)]
['0x70C QZM', 'P0562 low', '0x710 Radio', '0x714 Radio 2']
>>> texts = ("Module Radio", "B1000", "Module Left barn", "B1001", "Module - Radio 2", "B1002")
>>> [row.text for row in taken_off(rows_of("\\n".join(texts)), lambda name: "Radio" in name)]
['Module:Radio', 'B1000', 'Module:Left barn', 'B1001', 'Module : Radio 2', 'B1002']
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import replace

from triage.intake.codes.ownnumbers import TOKEN
from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.counts import stated_count
from triage.intake.words.column_words import ROLES

_KEYS = frozenset(key for key in ROLES["module"] if key.replace(" ", "").isalpha())
_SIGN = signs.of_words(frozenset(key.partition(" ")[0] for key in _KEYS).__contains__)
_LONGEST_KEY = max(len(key.split()) for key in _KEYS)
#: Behind one of these the words before are part of a name or of a sentence.
_GOES_ON = word_set("de du des d of for der des del and und et y is was in im with name names")
_MARKS = ("", ":", "=", "-", "|", ".")
_WORD = lazily(r"[a-z]+(?= )")
#: Where a module is found, before its name.
_ADDRESS = lazily(
    r"(?:addr(?:ess)?\.?|adresse|direccion|id|sa)?\s?(?:0x|\$)?(?=[0-9a-f]*[0-9])[0-9a-f]{1,4}h?[\s:.)-]+"
)
_NUMBER = lazily(TOKEN)
#: What leads from a key to its value.
_VALUE = lazily(r"[:=]")
#: What ends a name.
_STOP = lazily(r"\t|\s\s|\s-|\s?[(\[:=|,;]|\.\.")
_FEWEST, _LONGEST, _MOST_WORDS = 2, 90, 5


def taken_off(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows without such words. Linear."""
    found: dict[str, list[tuple[int, int, bool]]] = defaultdict(list)
    for at in signs.places(rows, _SIGN):
        row = rows[at]
        if row.finds.codes or len(row.text) > _LONGEST or role_of(_VALUE.split(row.low, maxsplit=1)[0]) == "module":
            # "ECU 3: body", "ECU 3 = body" are keys with their number.
            continue
        if (end := _key_end(row.low)) and is_as_pasted(row):
            known = _known(row, end, is_name)
            key = row.low[: end - 1].rstrip(" -")
            found[key].append((at, end, known or _ADDRESS.match(row.low, end) is not None))
    result = list(rows)
    for key, places in found.items():
        distinct = {rows[at].low for at, _, _ in places}
        sure = [at for at, _, known in places if known]
        # A known name right below a code alone in its line: descriptions stand elsewhere.
        bare = any(_below_a_code(rows, at) for at in sure)
        heads = [at for at, end, known in places
                 if not known and (bare or not _below_a_code(rows, at)) and _heads(rows, at, end)
                 # "Calculateur véhicule" is known with the word before it.
                 and not is_name(_name(rows[at].text))]
        all_head = len(sure) >= _FEWEST and len(sure) + len(heads) == len(places)
        if len(distinct) < _FEWEST or not (2 * len(sure) >= len(places) or all_head):
            continue
        if heads:
            for at in (*heads, *sure):
                result[at] = _with_colon(rows[at], len(key))
            continue
        for at, end, known in places:
            row = rows[at]
            if not is_name(_name(row.text)) and (known or _is_short(row.text[end:])):
                result[at] = row.part(end)
    return result


def _key_end(low: str) -> int:
    """Where the name begins behind the most words for a control unit; 0 where none stand there."""
    end, key, best = 0, "", 0
    for _ in range(_LONGEST_KEY):
        match = _WORD.match(low, end)
        if match is None:
            break
        key, end = f"{key} {match[0]}".lstrip(), match.end() + 1
        if key in _KEYS:
            best = end
    if best and low.startswith("- ", best):
        best += 2
    rest = low[best:].split(" ", 1)[0]
    named = has_letter(low[best:]) and rest[:1] not in _MARKS and rest.rstrip("'") not in _GOES_ON
    return best if named else 0


def _heads(rows: Sequence[Row], at: int, start: int) -> bool:
    """Whether what stands behind the words in a row can be a name that nobody knows: a few words, with codes right
    below, their number or an answer behind it."""
    row = rows[at]
    told = stated_count(row.low)
    hit = next(iter(spoken(row.low)), None)
    stop = min([len(row.low), *([told[1]] if told is not None else []), *([hit.start] if hit is not None else [])])
    if not 0 < len(row.low[start:stop].strip(" -(:").split()) <= _MOST_WORDS:
        return False
    below = next((other for other in rows[at + 1 : at + 4] if not other.blank), None)
    # Numbers that the whole text tells to be codes are not known yet.
    coded = below is not None and (
        bool(below.finds.codes) or below.text[0].isdigit() or _NUMBER.match(below.text) is not None)
    return coded or stop < len(row.low) or (below is not None and answer_of_cell(below.low) is not None)


def _below_a_code(rows: Sequence[Row], at: int) -> bool:
    """Whether a row stands right below a code alone in its line, as the description of it does."""
    codes = rows[at - 1].finds.codes if at else ()
    return bool(codes) and not rows[at - 1].low[codes[-1].end :].strip(" -:")


def _with_colon(row: Row, end: int) -> Row:
    """The row with a colon behind the words, which end at a place, for the blank or the dash there."""
    at = end + 1 if row.text.startswith(" -", end) else end
    place = row.start + at
    line = replace(row.line, text=f"{row.line.text[:place]}:{row.line.text[place + 1 :]}",
                   low=f"{row.line.low[:place]}:{row.line.low[place + 1 :]}")
    return replace(row, line=line, text=f"{row.text[:at]}:{row.text[at + 1 :]}", low="", shape=None)


def _known(row: Row, start: int, is_name: Callable[[str], bool]) -> bool:
    """Whether a name that is known stands behind the words, behind an address or a number or not."""
    match = _ADDRESS.match(row.low, start)
    names = (_name(row.text[start:]), _name(row.text[match.end() :]) if match is not None else "")
    return any(name and is_name(name) for name in names)


def _name(text: str) -> str:
    """The name at the beginning of a text."""
    stop = _STOP.search(text, 1)
    return tidy(text if stop is None else text[: stop.start()])


def _is_short(text: str) -> bool:
    """Whether a text begins with an abbreviation before another name: "RCU / Emissions"."""
    head, _, rest = text.partition(" ")
    return 2 <= len(head) <= 5 and head.isupper() and rest[:2] in ("/ ", "- ")


__all__ = ["taken_off"]
