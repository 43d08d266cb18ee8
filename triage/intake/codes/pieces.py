"""Pieces of a code's line: a status, a failure type, a status byte, a count, a voltage, a stored value, or its text.

>>> details = Details()
>>> for text in ("16", "System voltage low", "stored", "3x", "11,2 V"):
...     take(details, text, text.lower(), following=True, has_type=details.failure_type is not None)
>>> details.failure_type, details.status, details.count, details.volts, details.text
('16', 'stored', 3, 11.2, 'System voltage low')
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import states, volts
from triage.intake.said.near import digits_for_letters
from triage.intake.words.answerwords import NOTHING_SAID
from triage.intake.words.vocabulary import TYPE_LABEL
from triage.model.snapshot import StatusWord
from triage.units import fahrenheit_to_celsius, miles_to_km

Legend = tuple[tuple[str, StatusWord], ...]

_HEX2 = lazily(r"(?:0x|\$)?([0-9A-Fa-f]{2})h?")
_SLIP2 = lazily(r"[0-9][OIl]|[OIl][013-9]")
_MARKED_BYTE = lazily(
    r"(?:0x|\$)([0-9a-f]{2})|([0-9a-f]{2})h|(?:status(?: ?byte)?|sb|st(?=\s*[:=]))\s*[:=]?\s*(?:0x|"
    r"\$)?([0-9a-f]{2})h?"
)
_TYPE = lazily(
    rf"(?:{TYPE_LABEL}|type|typ|art|tipo)\s*[:=#]?\s*(?:0x\s?|\$)?([0-9a-f]{{2}})h?"
)
_COUNT = lazily(
    r"(?:x\s?([0-9]{1,3})|([0-9]{1,3})\s?x|([0-9]{1,3})\s?(?:times|mal|fois|veces|occurrences?|hits|events)|"
    r"(?:count(?:er)?|occ(?:urrence)?s?(?: count)?|freq(?:uency)?|haufigkeit|zahler|occurences?|compteur|contador|"
    r"veces|"
    r"frecuencia|oc|times|seen|anzahl|n)\s?[:=]?\s?([0-9]{1,3})(?: times| mal)?)"
)
_VALUE = lazily(
    r"(-?[0-9]{1,7}(?:[.,][0-9]{1,3})?)\s?(km/h|kmh|kph|mph|km|mi|miles|mls|rpm|1/min|u/min|tr/min|"
    r"min-1|r/min|/min|"
    r"°\s?c|degc|deg c|c|°\s?f|degf|f)(?![a-z0-9/])"
)
_GROUPED = lazily(r"(?<![0-9])([0-9]{1,3})[ .,']([0-9]{3})(?=\s?(?:km|mi)(?![a-z/]))")
#: One class in front, so that a search passes over letters at once.
SOFT = lazily(
    r"[;|()\[\]{}>,:.\s](?:(?<=[;|\t()\[\]{}>])|(?<=[,:.])(?=\s)|(?<=[A-Za-z],)(?=[A-Za-z]{2})|(?<=\.)\.+|(?<=\s)(?:[-/]+(?=\s)|\s|-(?=[A-Za-z])))"
)
#: Words of names and of statuses that are cut short: their full stop ends nothing ("Pass. door", "n. vorhanden").
_SHORT = lazily(
    r"(?<![A-Za-z])(?:pass|psgr|drv|elec|electr|instr|beif|fahr|pasaj|acomp|izq|dcha|tras|cond|n|att|pte|pdte|pend|"
    r"not conf|non conf)$",
    re.IGNORECASE,
)
#: What stands behind the last word of a line: how often, when and at which odometer reading.
COUNTED = lazily(
    r"\s*[,;]?\s*[(\[]?(?:(?<![0-9a-z])x\s?[0-9]{1,3}|[0-9]{1,3}\s?(?:x|times|mal|fois|veces)|(?:count|counter|anzahl|zahler|compteur|"
    r"contador|occ(?:urrences?)?|freq(?:uency)?|haufigkeit|frequence|frecuencia|veces)\.?[ :=]{0,3}[0-9]{1,3}|"
    r"(?:@|at|bei|a|km)\s{0,2}[0-9][0-9 .,]{2,9}\s?(?:km|mi|miles|h)?|"
    r"[0-9][0-9 .,']{2,9}\s?(?:km|mi|miles)|[0-9]{1,2}[./-][0-9]{1,2}[./-][0-9]{2,4})[)\]]?\s*$"
)
#: Leads to what brings a fault on, in four languages.
_CONDITION = lazily(
    r" (?:only |nur |seulement |uniquement |solo )?(?:when|whenever|while|if|as soon as|beim?|wenn|sobald|w[aä]hrend|"
    r"quand|lorsque?|d[eè]s que|cuando|al|mientras) ")
_DIGIT = lazily(r"[0-9]")
_SOFT_SIGNS = frozenset("-/>;|\t,:()[]{}.")
_NUMBER = lazily(r"[0-9]{1,3}")
_EDGE = " \t,;:.-/|>*()[]\"'=\u2022"
_EDGE_OF_TEXT = _EDGE.replace(")", "")


@dataclass(slots=True)
class Details:
    """What stands beside one code."""

    failure_type: str | None = None
    status: StatusWord | None = None
    status_byte: int | None = None
    count: int | None = None
    volts: float | None = None
    freeze: dict[str, float] = field(default_factory=dict)
    texts: list[str] = field(default_factory=list)
    #: The words of the last status.
    said: str = ""

    def again(self) -> Details:
        """The same once more, to be changed."""
        return Details(
            self.failure_type, self.status, self.status_byte, self.count, self.volts, self.freeze, self.texts)

    @property
    def text(self) -> str | None:
        """The description as it stood, or None."""
        told = " ".join(self.texts).strip(_EDGE_OF_TEXT)
        # Of a bracket round the whole the end is left: "P0562 (Supply low)".
        return (told.rstrip(_EDGE) if "(" not in told else told) or None


def take(
    details: Details,
    text: str,
    low: str,
    following: bool,
    has_type: bool,
    translated: bool = False,
    legend: Legend = (),
) -> None:
    """Add one piece to ``details``. ``following`` says that it stands right after the code."""
    bare = low.strip(_EDGE)
    if not bare or bare in NOTHING_SAID:
        return
    if len(bare) > 100:
        details.texts.append(text)
        return
    status = states.of_cell(low, translated, legend)
    if status is not None:
        details.status = with_said(details, status, bare, translated)
    elif (led := under_condition(low, translated)) is not None:
        details.status = with_said(details, led.status, low[led.start:led.end], translated)
        details.texts.append(text[led.end:].strip(" ,;|"))
    elif len(bare) > 4:
        if _DIGIT.search(bare) is None or not _special(details, bare, has_type):
            details.texts.append(text.strip(" ,;|"))
    else:
        _short(details, text, bare, following, has_type)


def under_condition(low: str, translated: bool = False) -> states.State | None:
    """The status that a piece begins with, where what brings it on stands behind: "active when the wheel is turned".

    >>> under_condition("active when it is wet").status, under_condition("active grille"), under_condition("wet")
    ('current', None, None)
    """
    if _CONDITION.search(low) is None:
        return None
    first = next(iter(states.in_text(low, translated)), None)
    return first if first is not None and not low[:first.start].strip() and _CONDITION.match(low[first.end:]) else None


def with_said(details: Details, status: StatusWord, low: str, translated: bool) -> StatusWord:
    """The status of a code with one more that is told of it: "confirmed - not active" denies what "confirmed" leaves
    open."""
    said, details.said = details.said, low
    if details.status == "confirmed" and said and not details.freeze and not low.startswith("test"):
        return states.of_cell(f"{said}, {low}", translated) or beside(details, status)
    return beside(details, status)


def beside(details: Details, other: StatusWord) -> StatusWord:
    """The status of a code that two words tell one beside the other: what fails now does, whatever its memory holds.
    Behind a value of a frame a word is said of something else.

    >>> beside(Details(status="confirmed"), "current"), beside(Details(status="current"), "confirmed")
    ('current', 'current')
    >>> beside(Details(status="stored"), "confirmed"), beside(Details(status="stored", freeze={"rpm": 4500}), "current")
    ('stored', 'stored')
    """
    first = details.status
    return other if first is None or (other == "current" and first != "permanent" and not details.freeze) else first


def _short(details: Details, text: str, bare: str, following: bool, has_type: bool) -> None:
    """A piece of up to four characters: a failure type, a status byte, a count, or text."""
    own = text.strip(_EDGE)
    pair = _HEX2.fullmatch(own)
    if pair is not None or _SLIP2.fullmatch(own):
        value = pair[1] if pair is not None else digits_for_letters(own)
        if following and not has_type and details.failure_type is None and value is not None:
            details.failure_type = value.upper()
            return
        if (
            value is not None
            and details.status_byte is None
            and (not value.isdigit() or own[0] == "$" or own[:2] == "0x")
            and has_digit(value)
        ):
            details.status_byte = int(value, 16)
            return
    if _NUMBER.fullmatch(bare):
        details.count = int(bare) if details.count is None else details.count
        return
    if _DIGIT.search(bare) is None or not _special(details, bare, has_type):
        details.texts.append(text.strip(" ,;|"))


def _special(details: Details, bare: str, has_type: bool) -> bool:
    """A piece with a label or a unit; False where it is none."""
    named = _TYPE.fullmatch(bare)
    if named is not None:
        details.failure_type = details.failure_type or named[1].upper()
        return True
    byte = _MARKED_BYTE.fullmatch(bare)
    if byte is not None and details.status_byte is None:
        value = byte[1] or byte[2] or byte[3]
        if not has_type and details.failure_type is None and byte[3] is None:
            details.failure_type = value.upper()
        else:
            details.status_byte = int(value, 16)
        return True
    count = _COUNT.fullmatch(bare)
    if count is not None:
        details.count = next(int(value) for value in count.groups() if value)
        return True
    if bare[-1] in "vt" or "volt" in bare:
        found = volts.find(bare)
        if len(found) == 1 and len(bare) - (found[0].end - found[0].start) <= 22 and found[0].of != "other":
            details.volts = found[0].value
            return True
    values = stored_values(bare)
    if values and len(bare) <= 30:
        details.freeze.update(values)
        return True
    return False


def stored_values(low: str) -> dict[str, float]:
    """Values with a unit that a freeze frame holds: kilometres, km/h, 1/min, degrees Celsius (volts are read apart).

    >>> stored_values("84 213 km, 0 rpm, coolant 12 °c")
    {'distance_km': 84213.0, 'engine_rpm': 0.0, 'coolant_c': 12.0}
    """
    found: dict[str, float] = {}
    low = _GROUPED.sub(r"\1\2", low)
    for match in _VALUE.finditer(low):
        value, unit = float(match[1].replace(",", ".")), match[2].replace(" ", "")
        if unit in ("km/h", "kmh", "kph"):
            found.setdefault("speed_kmh", value)
        elif unit == "mph":
            found.setdefault("speed_kmh", round(miles_to_km(value), 1))
        elif unit == "km":
            found.setdefault("distance_km", value)
        elif unit in ("mi", "miles", "mls"):
            found.setdefault("distance_km", round(miles_to_km(value), 1))
        elif unit in ("rpm", "1/min", "u/min", "tr/min", "min-1", "r/min", "/min"):
            found.setdefault("engine_rpm", value)
        elif unit in ("°c", "degc", "c"):
            found.setdefault("coolant_c", value)
        else:
            found.setdefault("coolant_c", round(fahrenheit_to_celsius(value), 1))
    return found


def is_plain(text: str) -> bool:
    """Whether a text starts and ends with a letter and has no soft mark in it."""
    return text[:1].isalpha() and text[-1:].isalpha() and _SOFT_SIGNS.isdisjoint(text) and "  " not in text


def soft_pieces(text: str, offset: int = 0) -> list[tuple[int, str]]:
    """``text`` cut at soft marks: spaced hyphens, commas, colons, brackets, wide gaps. Places and pieces."""
    if _SOFT_SIGNS.isdisjoint(text) and "  " not in text:
        return [(offset, text)] if text and not text.isspace() else []
    found: list[tuple[int, str]] = []
    begin = 0
    for match in SOFT.finditer(text):
        start, end = match.span()
        if text[start] == "." and _SHORT.search(text, max(begin, start - 8), start) is not None:
            continue
        piece = text[begin:start]
        if piece and not piece.isspace():
            found.append((offset + begin, piece))
        begin = end
    piece = text[begin:]
    if piece and not piece.isspace():
        found.append((offset + begin, piece))
    return found


def _set_off(text: str, state: states.State) -> bool:
    """Whether a status before a description is written unlike it: "active Right rear sensor", "ACTIVE Lamp circuit"."""
    word, rest = text[state.start : state.end], text[state.end :].lstrip(_EDGE)
    if not rest or not word.isascii():
        return False
    return (word.islower() and rest[:1].isupper()) or (
        word.isupper() and len(word) > 1 and rest[1:2].islower()
    )


def _shouted(text: str, state: states.State) -> bool:
    """Whether a status behind a description is written in capitals unlike it: "Steering position signal HISTORY"."""
    word, before = text[state.start : state.end], text[: state.start]
    return len(word) > 2 and word.isupper() and any(map(str.islower, before))


def _opens_title(text: str, state: states.State) -> bool:
    """Whether a word that may be a status only opens a description: "Memory checksum error", "Active grille"."""
    word, rest = text[state.start : state.end], text[state.end : state.end + 2]
    return word[:1].isupper() and word[1:].islower() and rest[:1] == " " and rest[1:].islower()


def runs_on(low: str) -> bool:
    """Whether a description ends in the words of a status with no mark before them ("input current fault"): below the
    head of a list by status they are its own."""
    low = low.rstrip(_EDGE)
    said = states.in_text(low)
    before = low[: said[-1].start] if said and said[-1].end >= len(low) else ""
    return before[-1:] == " " and before[-2:-1].isalpha()


def take_running(
    details: Details, text: str, low: str, translated: bool, doubtful: bool, lead: bool = True
) -> str:
    """Take a status that stands at the end or (``lead``) the start of running text; what is left of the text.

    ``doubtful`` says whether words that descriptions use too ("current") may count here.
    """
    if details.status is not None or len(low) > 300 or not states.at_an_end(low):
        return text
    hits = states.in_text(low, translated)
    if not hits:
        return text
    stripped = len(low.rstrip(_EDGE))
    last = hits[-1]
    if last.end >= stripped and (last.sure or doubtful or _shouted(text, last)):
        first = last
        for hit in reversed(hits[:-1]):
            if low[hit.end : first.start].strip(_EDGE + "&+") in ("", "and", "und", "et", "y"):
                first = hit
        joined = states.of_cell(low[first.start : last.end], translated)
        details.status = joined or last.status
        return text[: first.start].rstrip(_EDGE)
    start = hits[0]
    may_lead = start.sure or (doubtful and not _opens_title(text, start)) or _set_off(text, start)
    if lead and may_lead and not low[: start.start].strip(_EDGE):
        details.status = start.status
        return text[start.end :].lstrip(_EDGE)
    return text
