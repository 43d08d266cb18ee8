"""A zero right behind the name of a module, in a text that counts so of several: "ECU 01 engine 0, ECU 03 abs 0" is
written out as "no codes", without the address before the name; a count with its codes behind it is left out.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> from triage.intake.plain.characters import lines
>>> said = "ECU 01 engine 0, ECU 03 abs 0\\nECU 44 eps 1: C0545 stored\\nbank 0"
>>> [line.text for line in written_out(lines(said), Names(load()))]
['engine no codes, abs no codes', 'eps: C0545 stored', 'bank 0']
>>> [line.text for line in written_out(lines("ABS 0\\nDoor 1"), Names(load()))]
['ABS 0', 'Door 1']
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.naming.names import Names
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_ADDRESS = r"(?:(?:ecu|module|mod|unit|sg|stg|steuergerat|calculateur|centralita|addr(?:ess)?)\.? ?#?[0-9a-f]{1,3} )?"
#: A clause with a name and a zero; a name with a count of the codes behind it.
_ZERO = lazily(rf"(?:^|[,;] ?| / )[\s>*-]{{0,6}}({_ADDRESS})([a-z][a-z ./&-]{{1,40}}?)( 0)(?=\s*(?:[,;]|$| / ))")
_COUNT = lazily(rf"[\s>*-]{{0,6}}({_ADDRESS})([a-z][a-z ./&-]{{1,40}}?)( [1-9][0-9]?)(?=[ :-]+[pcbu][0-3])")
_FEWEST, _LONGEST = 2, 400


class _Counted(NamedTuple):
    """The places of an address, of a number behind a name, and whether the number is zero."""

    address: tuple[int, int]
    number: tuple[int, int]
    zero: bool


def written_out(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines, with "no codes" for such zeros. Linear."""
    told: dict[int, list[_Counted]] = {}
    zeros: set[str] = set()
    for at, line in enumerate(found):
        if " 0" not in line.low or len(line.low) > _LONGEST:
            continue
        for match in _ZERO.finditer(line.low):
            if names.likely(match[2]):
                zeros.add(match[2])
                told.setdefault(at, []).append(_Counted(match.span(1), match.span(3), True))
    if len(zeros) < _FEWEST:
        return found
    for at, line in enumerate(found):
        held = _COUNT.match(line.low) if at not in told and len(line.low) <= _LONGEST else None
        if held is not None and names.likely(held[2]) and len(find(line.text, line.low).codes) == int(held[3]):
            told[at] = [_Counted(held.span(1), held.span(3), False)]
    mended = list(found)
    for at, counts in told.items():
        for count in reversed(counts):
            mended[at] = reworded(mended[at], *count.number, " no codes" if count.zero else "")
            mended[at] = reworded(mended[at], *count.address, "")
    return mended


__all__ = ["written_out"]
