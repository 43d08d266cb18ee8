"""Lists named by what holds them: the service of SAE J1979 by which permanent codes are read ("permanent (Service
0A)"), the message of SAE J1939-73 ("DM1", "Previously active (DM2)").

In translations "permanent" alone means present now; with the service beside it, it is the permanent list in every
language. Both are written as what they are, so that every reader of a status sees words for one: a message in a line of
its own as the head of a list, one before a code or a word for none as the status that leads to it, one in a place of
its own as that status.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in told(lines("P0562 permanent (Service 0A)\\nService $0A: permanent\\npermanent, mode 03"))]
['P0562 permanent DTC', 'permanent DTC', 'permanent, mode 03']
>>> said = "DM2 previously active\\nECM DM1: SPN 110 FMI 3\\nDM2: none\\nSPN 110 FMI 3, active (DM1)"
>>> [line.text for line in told(lines(said))]
['Previously active codes:', 'ECM active: SPN 110 FMI 3', 'Previously active: none', 'SPN 110 FMI 3, active']
>>> [line.text for line in told(lines("Module;SPN;FMI;State\\nECM;110;3;DM2\\nDM1 unit\\nDM1 no answer"))][1:]
['ECM;110;3;previously active', 'DM1 unit', 'DM1 no answer']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import states
from triage.intake.said.listheads import status_of_head
from triage.intake.words.vocabulary import STATES

_PERMANENT = r"permanent(?:e[srn]?|s)?"
_LISTED = r"(?:fehler(?:codes?)?|defauts?|codes?(?: defauts?)?|codigos?|fallos?|averias?|dtcs?|faults?|liste?a?)"
_SERVICE = (
    r"(?:obd(?:[ -]?(?:ii|2))?[ -]?)?(?:service|mode|sid|modus|dienst|servicio|modo)[ -]?(?:(?:0x|\$)?0?a(?![a-z0-9])|"
    r"10(?![0-9a-z]))"
)
_BY_SERVICE = lazily(
    rf"(?<![a-z0-9])(?:{_PERMANENT}(?: ({_LISTED}))?(?: ?[,:/-] ?| )[(\[]?{_SERVICE}[)\]]?|"
    # The word for a service with a slip in it, or none.
    rf"{_PERMANENT} ?[(\[](?:[dms][a-z]{{3,8}} )?(?:0x|\$)?0a[)\]]|"
    rf"{_SERVICE}(?: ?[,:/=-] ?| )[(\[]?{_PERMANENT}(?: ({_LISTED}))?(?![a-z0-9])[)\]]?)"
)
_SIGNS = ("0a", "$a", "xa", "10")
#: What the codes of a message are, by its number: SAE J1939-73.
_MESSAGES = {
    "1": "active", "2": "previously active", "6": "pending", "12": "confirmed", "23": "previously active",
    "27": "pending", "28": "permanent",
}
_NUMBER = r"dm[ -]?0?([0-9]{1,2})(?![0-9a-z])"
_TAG = lazily(rf"(?<![a-z0-9])[(\[]?{_NUMBER}[)\]]?")
#: Right before a code, or a word for none.
_LEADS = lazily(
    rf"(?<![a-z0-9])[(\[]?{_NUMBER}[)\]]?(?:\s{{0,2}}(?:codes?|dtcs?|faults?|fehler|defauts?|fallos?))?\s{{0,2}}"
    r"[:=>-]{0,2}\s{0,2}(?=spn|fmi|none|nil|no (?:code|dtc|fault|active)|keine|aucun|ningun)"
)
#: Behind a status that ends its piece of the line.
_BEHIND = lazily(rf"\s?[(\[]\s?{_NUMBER}\s?[)\]](?=\s*$|\s?[,;|\t:]|\s\s)")
_CELL = lazily(rf"(?<=[;|\t])\s*{_NUMBER}\s*(?=[;|\t]|$)|(?<=\s\s){_NUMBER}(?=\s*$)")
_LIST_WORDS = word_set(
    "code codes dtc dtcs fault faults fehler fehlercodes defaut defauts codigo codigos fallo fallos trouble list liste "
    "lista diagnostic message nachricht trame mensaje"
)
_EDGE = " \t:=#*-_[]()<>.,;"
_MARKS = " \t:=#*-_<>.,;"
_LONGEST_HEAD = 60


def told(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those that name such a list with words for its status in the place of the name."""
    truck = any("dm" in line.low for line in found) and any("spn" in line.low for line in found)
    kept: list[Line] | None = None
    for at, line in enumerate(found):
        mended = line
        if "permanent" in line.low and any(sign in line.low for sign in _SIGNS):
            mended = _by_service(line)
        if truck and "dm" in line.low:
            mended = _by_message(mended)
        if mended is not line:
            kept = kept or list(found)
            kept[at] = mended
    return kept or found


def _by_service(line: Line) -> Line:
    """A line without the service beside "permanent"."""
    for match in reversed(list(_BY_SERVICE.finditer(line.low))):
        word = "permanent codes" if match[1] or match[2] else "permanent DTC"
        end = match.end()
        if line.text[end : end + 2] == "  ":
            # Columns stay where they are.
            word = word.ljust(end - match.start())
        line = reworded(line, match.start(), end, word)
    return line


def _by_message(line: Line) -> Line:
    """A line with words for its messages."""
    tag = _TAG.search(line.low) if len(line.low) <= _LONGEST_HEAD else None
    if tag is not None and tag[1] in _MESSAGES and _is_head(line.low[: tag.start()] + line.low[tag.end() :]):
        start = len(line.text) - len(line.text.lstrip(_MARKS))
        return reworded(line, start, len(line.text), f"{_MESSAGES[tag[1]].capitalize()} codes:")
    for match in reversed(list(_LEADS.finditer(line.low))):
        if match[1] in _MESSAGES:
            before = line.low[: match.start()].rstrip(" (-:,")
            hits = STATES.find(before)
            start = hits[-1].start if hits and hits[-1].end == len(before) else match.start()
            word = _MESSAGES[match[1]]
            line = reworded(line, start, match.end(), f"{word if line.text[:start].strip() else word.capitalize()}: ")
    for match in reversed(list(_BEHIND.finditer(line.low))):
        hits = STATES.find(line.low[: match.start()])
        if match[1] in _MESSAGES and hits and hits[-1].end == match.start():
            line = reworded(line, match.start(), match.end(), "")
    for match in reversed(list(_CELL.finditer(line.low))):
        number = match[1] or match[2]
        if number in _MESSAGES:
            line = reworded(line, match.start(), match.end(), _MESSAGES[number])
    return line


def _is_head(low: str) -> bool:
    """Whether what stands beside a message in its line says no more than that it is a list, and of what status."""
    rest = low.strip(_EDGE)
    if all(word in _LIST_WORDS for word, _, _ in words(rest)):
        return True
    return status_of_head(rest, False)[0] is not None or states.of_cell(rest, True) is not None


__all__ = ["told"]
