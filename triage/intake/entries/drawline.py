"""A test of what the vehicle draws with the key off, told in lines of its own: "Draw test, locked 12:00", and below it
"after 20 min 0.92 A", "pulled F12 0.90, F18 0.90, F31 (trailer) -> 0.03 A, F31 back 0.91"."""

from __future__ import annotations

import re

from triage.intake.entries import ownlines
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import phases
from triage.intake.said.answers import spoken
from triage.intake.scan.context import Context
from triage.model.snapshot import Reading

_HEAD = lazily(
    r"(?<![a-z])(?:(?:key[ -]?off |parasitic |quiescent |sleep |standby |battery )?(?:draw|drain)(?: test| measured|"
    r" measurement|(?= ?:| [0-9]|$))|parasitic draw|key[ -]?off (?:draw|drain|current)|quiescent current|sleep current|"
    r"standby current|ruhestrom\w*|courant de (?:repos|veille|fuite)|consommation au repos|consumo en reposo|"
    r"corriente (?:de|en) reposo|fuga de corriente)(?![a-z])")
_FIGURE = lazily(r"(?<![\w.,:])([0-9]{0,3}[.,][0-9]{1,3}|[0-9]{1,4})(?: ?(ma|milliamps?|amps?|a)(?![a-z0-9]))?"
                 r"(?![\w/:%]|[.,][0-9]| ?(?:v|h|hrs?|hours?|min\w*|s|sec\w*|km|ohms?|uhr|am|pm)(?![a-z]))")
#: What is pulled one after the other.
_FUSE = r"(?:f ?[0-9]{1,3}[a-z]?|(?:fuse|relay|sicherung|relais|fusible|rele) ?(?:no\.? ?)?[a-z]?[0-9]{1,3})"
_NAMES_FUSE = lazily(rf"(?<![a-z0-9]){_FUSE}(?![0-9a-z])")
_PULL = lazily(r"(?<![a-z])(?:pull(?:ed|ing)?|unplug(?:ged|ging)?|remov(?:ed|ing)|disconnect(?:ed|ing)?|took out|"
               r"without|gezogen|abgesteckt|ohne|ziehen|retire|debranche|sans|sacado|quitado|sin)(?![a-z])"
               r"(?: (?:the )?(?:fuses?|relays?)(?= ?:| [a-z]))?")
_BACK = lazily(r"(?<![a-z])(?:back|refitted|in again|wieder|remis|repuesto)(?![a-z])")
_STILL = lazily(r" ?(?:still|noch|toujours|todavia)$")
_TIMED = lazily(r"(?<![a-z])(?:after|nach|apres|tras|despues de) [0-9]{1,3} ?"
                r"(?:h|hrs?|hours?|min\w*|std|heures?|horas?)(?![a-z])")
_KEY_ENDS = lazily(r"[:=]")
_MARKS = " \t,;:=!-<>|*()"
_UNITS = {"m": "mA", "a": "A"}
#: So many lines below it a test may go on; a larger current is no vehicle's that sleeps, A.
_NEAR, _MOST, _LONGEST = 3, 60.0, 220
_LONGEST_NAME = 100


def read(context: Context, row: Row) -> bool:
    """A line of such a test: its currents are readings of the scan. Whether nothing else is told in it."""
    # "DTC 5206: quiescent current, wrong step", "Description: quiescent current too high" are said of a code.
    begun = _begins(row.low) and ownlines.begins(row) is None and (
        role_of(_KEY_ENDS.split(row.low, maxsplit=1)[0]) != "description")
    goes_on = context.drawing is not None and context.drawing < context.at <= context.drawing + _NEAR
    if not (begun or goes_on) or len(row.low) > _LONGEST or phases.scan_head(row.low):
        return False
    context.drawing = context.at
    figures = _figures(row.low)
    fuses = len(_NAMES_FUSE.findall(row.low))
    if begun and not (figures and fuses > 1):
        return not (figures or spoken(row.low) or context.names.find(row.low))
    for name, value, unit in _told(row, figures):
        context.builder.snapshot.readings.append(Reading(name=name, value=value, unit=unit))
    return bool(figures)


@remembered
def _begins(low: str) -> bool:
    """Whether a line heads such a test."""
    return len(low) <= _LONGEST and _HEAD.search(low) is not None


def _figures(low: str) -> list[re.Match[str]]:
    """The currents of a line: with a unit, or with a decimal right behind a fuse, a time or a state."""
    found = []
    last = 0
    for figure in _FIGURE.finditer(low):
        words = low[last : figure.start()]
        sure = figure[2] is not None or (not figure[1].isdigit() and (
            _NAMES_FUSE.search(words) or _TIMED.search(words) or _PULL.search(words) or _BACK.search(words)))
        if sure and float(figure[1].replace(",", ".")) <= (_MOST if (figure[2] or "a")[0] == "a" else 1000 * _MOST):
            found.append(figure)
            last = figure.end()
    return found


def _told(row: Row, figures: list[re.Match[str]]) -> list[tuple[str, float, str]]:
    """Name, value and unit of each current; what is pulled is said once for the fuses that follow."""
    out = []
    last, pulling = 0, False
    for figure in figures:
        words = " ".join(row.text[last : figure.start()].split()).strip(_MARKS)
        words += ")" * (words.count("(") - words.count(")"))
        low, last = words.lower(), figure.end()
        back = _BACK.search(low) is not None
        verb = _PULL.search(low)
        pulling = not back and (pulling or verb is not None)
        if pulling and _NAMES_FUSE.search(low) is not None and not low.startswith("unplug"):
            what = words if verb is None else words[verb.end() :].strip(" :") or words[: verb.start()].strip()
            words = f"with {what} pulled"
        words = "key-off draw" if low in ("draw", "drain") else words
        words = words if _HEAD.match(low) else f"key-off draw {words}"
        name = _STILL.sub("", words).strip()[:_LONGEST_NAME]
        unit = _UNITS[(figure[2] or "a")[0]]
        out.append((name, float(figure[1].replace(",", ".")), unit))
    return out


__all__ = ["read"]
