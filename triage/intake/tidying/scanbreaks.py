"""Lists of the same modules one after the other, each a scan of its own though no title says so: under lines that are
nothing but a moment without a year ("Monday", "2 March", "08:15"), or with no more than a gap or an unknown title
between, where a later one says clean of a module that an earlier one gives codes to.

>>> from triage.intake.plain.characters import lines
>>> said = "Monday\\nABS: C0035\\nRadio: B1000\\n\\nTuesday\\nABS: C0035\\nRadio: ok"
>>> [line.text for line in told(lines(said), {"abs", "radio"}.__contains__)[0]]
['Scan 1: Monday', 'ABS: C0035', 'Radio: B1000', '', 'Scan 2: Tuesday', 'ABS: C0035', 'Radio: ok']
>>> said = "arrival\\nABS: C0035\\nRadio: B1000\\n\\ndeparture\\nABS: C0035\\nRadio: no codes"
>>> found, heads = told(lines(said), {"abs", "radio"}.__contains__)
>>> [line.text for line in found], [head.number for head in heads]
(['arrival', 'ABS: C0035', 'Radio: B1000', '', 'Scan 2: departure', 'ABS: C0035', 'Radio: no codes'], [5])
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence, Set
from dataclasses import dataclass, field
from itertools import pairwise

from triage.intake.lines.goingon import LINKS, last_word
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, line_of, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases, states, volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.dates import MONTH

_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-9a-f]{4}(?![0-9a-f])")
_KEY = lazily(r"[\s|>*-]*(?:[0-9]{1,3}[.)]\s+)?([a-z][a-z ]{2,20}?)\s*[:=]\s*(?=[a-z])")
_LEAD = lazily(
    r"[\s|>*-]*(?:[0-9]{1,3}[.)]\s+)?([a-z][a-z0-9 /_.-]{0,38}?)"
    r"(?:\s*(?:[:=|;\t]|\.{3,})|\s{2,}|\s-+\s|\s(?=[pcbu][0-9a-f]{4})|\s*$|\s(?=(?:ok|none|nil|nothing|clean|clear|silent|"
    r"dead|no|not|all|still|kein|keine|nichts|aucun|rien|pas|sin|ningun|nada)\b))"
)
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
_RULE = lazily(r"[\s=*_~#|:+-]*")
_CELL_ENDS = lazily(r"\s*[|;\t]\s*|\s{2,}")
#: Words of a list that stands beside others of the same scan.
_KINDS = lazily(
    r"(?<![a-z])(?:modes?|services?|lists?|liste[ns]?|memor(?:y|ies|ia)|memoire|\w*speicher|readiness|monitors?|freeze|"
    r"details?|overview|summary|checks?|topology|ubersicht|zusammenfassung|resume[ns]?|modos?|listas?|codes?|dtcs?|"
    r"faults?|fehler|defauts?|averias?|communication|kommunikation)(?![a-z])|\$[0-9a-f]{2}"
)
_LONGEST = 60
_LONGEST_MOMENT = 40


@dataclass
class _Told:
    """What one line, or a name and the lines below it, tells of a module."""

    at: int
    name: str
    codes: set[str] = field(default_factory=set)
    answer: str = ""

    def denies(self, before: _Told) -> bool:
        """Whether it says that a module holds no codes, or does not answer, to which the list before gave some; or
        gives codes to one that did not answer; or lacks a code of the list before and repeats another. The other way
        round, the first may be an overview ("Radio: OK") of what the second holds."""
        if not self.codes:
            return bool(before.codes and self.answer)
        return before.answer == "silent" or bool(before.codes - self.codes and before.codes & self.codes)


def told(found: Sequence[Line], is_name: IsName) -> tuple[list[Line], list[Line]]:
    """The lines with what heads each scan told as that, and the lines that part scans by the lists alone. Linear."""
    moments = _moments(found)
    numbers = moments or _numbers(found, is_name)
    parts = [_head(line, numbers[at]) if at in numbers else [line] for at, line in enumerate(found)]
    return [line for each in parts for line in each], [] if moments else [found[at] for at in numbers]


def _moments(found: Sequence[Line]) -> dict[int, int]:
    """By the place of a line that is nothing but a moment, each above a list of the same modules: its number."""
    heads = [at for at, line in enumerate(found) if _is_moment(line.low)]
    if len(heads) < 2 or any(_CODE.search(line.low) for line in found[: heads[0]]):
        return {}
    blocks = [{lead[1] for line in found[start + 1 : end] if (lead := _LEAD.match(line.low)) is not None}
              for start, end in pairwise([*heads, len(found)])]
    if len({found[at].low.strip() for at in heads}) < len(heads) or not all(map(_alike, blocks, blocks[1:])):
        return {}
    return {at: number for number, at in enumerate(heads, 1)}


def _is_moment(low: str) -> bool:
    """Whether a line is nothing but a moment."""
    return 3 < len(low) < _LONGEST_MOMENT and any(c.isalnum() for c in low) and _MOMENT.fullmatch(low) is not None


def _alike(before: Set[str], after: Set[str]) -> bool:
    """Whether two lists tell of the same modules: at least two in each, half of the shorter in both."""
    least = min(len(before), len(after))
    return least > 1 and 2 * len(before & after) >= least


def _numbers(found: Sequence[Line], is_name: IsName) -> dict[int, int]:
    """By the place of a line that parts two scans: the number of the later one."""
    leads, known = _leads(found, is_name)
    named = [at for at, lead in leads.items() if lead[1] in known]
    firsts = [at for at in named if leads[at][1] == leads[named[0]][1]]
    if len(firsts) < 2 or any(_tells_of_scan(line.low) for line in found[firsts[0] : firsts[-1]]):
        # One list, or what parts the scans is told.
        return {}
    blocks = _blocks(_entries(found, leads, known))
    if len(blocks) < 2 or not all(_is_again(one, two) for one, two in pairwise(blocks)):
        return {}
    starts = [block[0].at for block in blocks[1:]]
    entries = {entry.at for block in blocks for entry in block}
    if any(_heads_list(found, at, entries) for at in [blocks[0][0].at, *starts]):
        # A list of one kind.
        return {}
    breaks = [_break(found, at) for at in starts]
    return {at: number for number, at in enumerate(breaks, 2) if at is not None} if None not in breaks else {}


def _break(found: Sequence[Line], at: int) -> int | None:
    """The line that parts the scan that begins at a line from the one before: a title, a gap, or the head of a table.
    None where none does."""
    place = at - 1
    while place > 0 and ((found[place].text and _RULE.fullmatch(found[place].low)) or _is_table_head(found[place].low)):
        place -= 1
    if place < at - 1 and not _parts(found[place]):
        # The head of the table, or the rule, stands right below the list before.
        return place + 1
    if not found[place].text.strip() and place > 1 and not found[place - 2].text.strip() and _parts(found[place - 1]):
        return place - 1
    return place if _parts(found[place]) else None


def _is_table_head(low: str) -> bool:
    """Whether a line is the head of a table: "| Module | Code |"."""
    cells = [cell for cell in _CELL_ENDS.split(low.strip(" |")) if cell]
    return len(cells) > 1 and all(role_of(cell) is not None for cell in cells)


def _leads(found: Sequence[Line], is_name: IsName) -> tuple[dict[int, re.Match[str]], set[str]]:
    """By the place of a line: what stands before its codes or its answer; and those that are names of modules, of more
    lines than one: of others it does not matter."""
    leads = {at: lead for at, line in enumerate(found) if (lead := _lead(line.low)) is not None
             # "No communication with", and below it "instrument cluster": the rest of a description.
             and not (at and last_word(found[at - 1].low) in LINKS)}
    often = Counter(lead[1] for lead in leads.values())
    return leads, {lead for lead, times in often.items() if times > 1 and is_name(lead)}


def _entries(found: Sequence[Line], leads: dict[int, re.Match[str]], known: Set[str]) -> list[_Told]:
    """What is told of each module, in the order of the lines."""
    entries: list[_Told] = []
    for at, line in enumerate(found):
        if not line.low or line.low.isspace():
            continue
        lead, codes = leads.get(at), set(_CODE.findall(line.low))
        if lead is not None and lead[1] in known:
            entries.append(_Told(at, lead[1], codes, "" if codes else _answer(line.low[lead.end() :])))
        elif entries and codes:
            entries[-1].codes |= codes
        elif entries and at == entries[-1].at + 1 and not entries[-1].codes and _is_one_cell(line.low):
            # Behind a name of its own stands the answer of another module.
            entries[-1].answer = entries[-1].answer or _answer(line.low)
    return entries


def _is_one_cell(low: str) -> bool:
    """Whether a line has nothing but one cell, or a key before it."""
    first, mark, _ = low.strip().partition(next((cut[0] for cut in _CELL_ENDS.finditer(low.strip())), "\n"))
    return not mark or role_of(first.rstrip(" :=")) is not None


def _lead(low: str) -> re.Match[str] | None:
    """What stands before the codes or the answer of a line, behind a key for modules."""
    key = _KEY.match(low)
    return _LEAD.match(low, key.end() if key is not None and role_of(key[1]) == "module" else 0)


def _answer(said: str) -> str:
    """What a text says of a module that holds no codes."""
    cells = [cell.strip(" :=.-") for cell in _CELL_ENDS.split(said) if len(cell) < _LONGEST] if len(said) < 400 else []
    return next((answer for cell in cells if len(cell) > 1 and (answer := answer_of_cell(cell)) is not None), "")


def _blocks(entries: Sequence[_Told]) -> list[list[_Told]]:
    """The entries, cut where the first module of all is told of again."""
    starts = [at for at, entry in enumerate(entries) if entry.name == entries[0].name]
    return [list(entries[start:end]) for start, end in pairwise([*starts, len(entries)])]


def _is_again(one: Sequence[_Told], two: Sequence[_Told]) -> bool:
    """Whether a list tells of the modules of the one before, each once, and otherwise of one at least."""
    before, after = ({entry.name: entry for entry in block} for block in (one, two))
    if len(before) < len(one) or len(after) < len(two) or not _alike(before.keys(), after.keys()):
        return False
    return any(after[name].denies(before[name]) for name in before.keys() & after.keys())


def _parts(line: Line) -> bool:
    """Whether a line may part two scans: a gap, a rule, or a title that tells nothing else of them."""
    low = line.low
    if _RULE.fullmatch(low) is not None:
        return True
    if len(low) > _LONGEST or _CODE.search(low) or states.in_text(low) or spoken(low):
        return False
    return answer_of_cell(low) is None and not _tells_of_scan(low)


def _tells_of_scan(low: str) -> bool:
    """Whether a line without a code tells when the scan was taken, where it stands, what was done before it or what the
    supply was."""
    if _CODE.search(low) or not low or low.isspace():
        return False
    return bool(phases.find(low) or phases.scan_head(low) or phases.events(low) or dates.may_stand_in(low)
                or volts.find(low))


def _heads_list(found: Sequence[Line], at: int, entries: Set[int]) -> bool:
    """Whether words above a list say of what kind it is, so that another may be of the same scan: "Pending codes",
    "Service $07", "Readiness". A code that another kind of list lacks has not gone."""
    place = at - 1
    while place >= 0 and (_RULE.fullmatch(found[place].low) or _is_table_head(found[place].low)):
        place -= 1
    gap = place < at - 1
    words: list[str] = []
    while place >= 0 and found[place].low.strip():
        low = found[place].low.strip()
        if place in entries or _CODE.search(low) or answer_of_cell(low) is not None:
            # The end of the list before.
            words = [] if gap else words
            break
        words.append(low)
        place -= 1
    return any(_KINDS.search(low) or states.in_text(low) or (low[-1] == ":" and spoken(low)) for low in words)


def _head(line: Line, number: int) -> list[Line]:
    """A line that heads a scan, in the place of one that parts two; before it where that is the head of a table, or
    words that may be read as the heading of a module ("Wiggled the loom at the ABS plug:")."""
    start = len(line.text) - len(line.text.lstrip(" -=*#>|:+"))
    apart = _is_table_head(line.low) or line.low.rstrip().endswith(":")
    if start < len(line.text) and not apart:
        return [reworded(line, start, start + 1, f"Scan {number}: {line.text[start]}")]
    text = f"Scan {number}:"
    head = line_of(line.number, line.raw, text, (0,) * len(text), line.own)
    return [head, line] if apart else [head]


__all__ = ["told"]
