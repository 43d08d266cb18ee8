"""Lines that are nothing but a moment without a year, each above a list of the same modules: "Monday", "2 March",
"02/03", "08:15". Each heads a scan.

>>> from triage.intake.plain.characters import lines
>>> said = "Monday\\nABS: C0035\\nRadio: B1000\\n\\nTuesday\\nABS: C0035\\nRadio: ok"
>>> [line.text for line in told(lines(said))]
['Scan 1: Monday', 'ABS: C0035', 'Radio: B1000', '', 'Scan 2: Tuesday', 'ABS: C0035', 'Radio: ok']
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.dates import MONTH

_DAY = (
    r"(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?|(?:mo|di|mi|do|fr|sa|so|lun|mar|mer|jeu|ven|"
    r"sam|dim|mie|jue|vie|sab|dom)\b|(?:mon|diens|donners|frei|sams|sonn)tag|mittwoch|(?:lun|mar|mercre|jeu|vendre|same)di|"
    r"dimanche|lunes|martes|miercoles|jueves|viernes|sabado|domingo)\.?"
)
_DATE = (
    rf"(?:[0-3]?[0-9]\.[01]?[0-9]\.|(?:the )?[0-3]?[0-9](?:st|nd|rd|th|\.)?[ ](?:of |de )?{MONTH}|"
    rf"[0-3][0-9][/-][0-3][0-9]|{MONTH} [0-3]?[0-9])"
)
_CLOCK = r"(?:[01]?[0-9]|2[0-3])[:h][0-5][0-9](?: ?(?:h|uhr|am|pm))?"
_MOMENT = lazily(rf"[-=*#\s]*(?:{_DAY},?(?:[ ]{_DATE})?|{_DATE})?(?:,?[ ]?{_CLOCK})?[-=*#\s:]*")
_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-9a-f]{4}(?![0-9a-f])")
#: What stands before the codes or the answer of a line.
_LEAD = lazily(
    r"[\s>*#-]*([a-z][a-z0-9 /_.-]{0,38}?)(?=\s*[:=|;\t]|\s{2}|\s[pcbu][0-9a-f]{4}|\s*$|"
    r"\s(?:ok|none|nil|nothing|clean|clear|silent|dead|no|not|all|still|kein|keine|nichts|aucun|rien|pas|sin|ningun|nada)\b)"
)
_LONGEST = 40


def told(found: Sequence[Line]) -> list[Line]:
    """The lines with such moments told as the scans they head. Linear."""
    heads = [at for at, line in enumerate(found) if _is_moment(line)]
    if len(heads) < 2 or any(_CODE.search(line.low) for line in found[: heads[0]]):
        return list(found)
    blocks = [_leads(found[start + 1 : end]) for start, end in pairwise([*heads, len(found)])]
    if len({found[at].low.strip() for at in heads}) < len(heads) or not all(map(_alike, blocks, blocks[1:])):
        return list(found)
    numbers = {at: number for number, at in enumerate(heads, 1)}
    return [_head(line, numbers[at]) if at in numbers else line for at, line in enumerate(found)]


def _is_moment(line: Line) -> bool:
    """Whether a line is nothing but a moment."""
    low = line.low
    return 3 < len(low) < _LONGEST and any(c.isalnum() for c in low) and _MOMENT.fullmatch(low) is not None


def _leads(block: Sequence[Line]) -> set[str]:
    """What the lines of a block begin with."""
    return {match[1] for line in block if (match := _LEAD.match(line.low)) is not None}


def _alike(block: set[str], after: set[str]) -> bool:
    """Whether two blocks tell of the same modules: at least two in each, half of the shorter in both."""
    least = min(len(block), len(after))
    return least > 1 and 2 * len(block & after) >= least


def _head(line: Line, number: int) -> Line:
    start = len(line.text) - len(line.text.lstrip(" -=*#"))
    return reworded(line, start, start + 1, f"Scan {number}: {line.text[start]}")


__all__ = ["told"]
