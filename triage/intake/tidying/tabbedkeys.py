"""Blocks of keys and values with a tab between them, as a form has them that was copied: written with a colon, so that
no value is taken for a cell below another's head.

>>> from triage.intake.plain.characters import lines
>>> said = "Unit\\tABS\\nFault code\\tC0035\\nState\\tstored\\n\\nUnit\\tRadio\\nResult\\tno faults"
>>> [line.text for line in coloned(lines(said))]
['Unit: ABS', 'Fault code: C0035', 'State: stored', '', 'Unit: Radio', 'Result: no faults']
>>> [line.text for line in coloned(lines("Unit\\tCode\\nABS\\tC0035\\nRadio\\tB1000"))]
['Unit\\tCode', 'ABS\\tC0035', 'Radio\\tB1000']

Dots that lead to a colon, and the one tab behind it, part nothing else.

>>> [line.text for line in coloned(lines("No answer ..... : ABS, Radio\\nUnit:\\tABS\\nABS ..... no codes"))]
['No answer: ABS, Radio', 'Unit: ABS', 'ABS ..... no codes']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.naming.heads import role_of
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_PAIR = lazily(r"(?P<key>[^\t;:=|]{2,34})(?P<tab>\t\s{0,3})(?P<value>[^\t;|]*)")
_ADDRESS = lazily(r"(?:addr(?:ess)?|adresse|adr|direccion|id)\.?")
_PARTS = lazily(r";\s*")
_SIGN = signs.of_parts("\t")
#: The first colon of a line behind dots, or before the one tab of the line.
_LED, _LED_SIGN = lazily(r"[^\t:=|;.]{2,40}?(\s?\.{3,80}\s?:\s{0,3})(?=\S)"), signs.of_parts("..")
_COLON = lazily(r"[^\t:=|;]{2,40}(:\t\s{0,3})(?=\S)[^\t]*")
_FEWEST, _LONGEST = 2, 400


def coloned(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those of such blocks with colons. Linear."""
    found = _led(found)
    places = {at: pairs for at in signs.places(found, _SIGN) if (pairs := _pairs(found[at]))}
    roles = [[role for role, _ in pairs] for pairs in places.values()]
    named = sum("module" in each for each in roles)
    others = sum(not {"code", "status", "answer", "description"}.isdisjoint(each) for each in roles)
    if named < _FEWEST or others < _FEWEST or any(each.count("module") > 1 for each in roles):
        return found
    if any(is_across(found[at].low) for at in signs.places(found, _SIGN)):
        return found
    kept = list(found)
    for at, pairs in places.items():
        for _, (start, end) in reversed(pairs):
            kept[at] = reworded(kept[at], start, end, ": ")
    return kept


def _led(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with a colon alone for what leads to one, or stands behind it."""
    dotted = [*signs.places(found, _LED_SIGN)]
    # Where lines have several such keys, these are read together.
    several = any(found[at].text.count("..:") > 1 for at in dotted)
    led = {} if several else {at: match.span(1) for at in dotted if (match := _LED.match(found[at].text))}
    led |= {at: match.span(1) for at in signs.places(found, _SIGN) if (match := _COLON.fullmatch(found[at].text))}
    return [reworded(line, *led[at], ": ") if at in led else line for at, line in enumerate(found)] if led else found


def is_across(low: str) -> bool:
    """Whether several modules stand behind one key, parted by tabs: the head of a table with a column for each."""
    if ";" in low[:_LONGEST]:
        # "Unit\tABS; Fault code\tC0035": several keys with their values.
        return False
    key, *names = (cell.strip() for cell in low[:_LONGEST].split("\t"))
    # "Unit<tab>ABS; Code<tab>C0035" has a key in its second cell.
    named = [name for name in names if name and ";" not in name and role_of(name) is None]
    return len(named) > 1 and len(named) == len(list(filter(None, names))) and role_of(key, exactly=True) == "module"


def _pairs(line: Line) -> list[tuple[str, tuple[int, int]]]:
    """What each key of a line is for, and where its tab stands; none where a piece of the line is no key with its
    value, or the value is a key as well: then they are heads."""
    text = line.low.rstrip()
    if len(text) > _LONGEST:
        return []
    cuts = [match.span() for match in _PARTS.finditer(text)]
    spans = zip([0, *(end for _, end in cuts)], [*(start for start, _ in cuts), len(text)], strict=True)
    found: list[tuple[str, tuple[int, int]]] = []
    heads = 0
    for start, end in spans:
        pair = _PAIR.fullmatch(text, start, end)
        key = pair["key"].strip() if pair is not None else ""
        role = role_of(key, exactly=True) or ("address" if _ADDRESS.fullmatch(key) is not None else None)
        if pair is None or role is None:
            return []
        heads += role_of(pair["value"].strip(), exactly=True) is not None
        found.append((role, pair.span("tab")))
    return found if heads < len(found) else []


__all__ = ["coloned", "is_across"]
