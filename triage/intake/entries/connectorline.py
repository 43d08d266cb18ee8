"""What was measured at the connector of a module: "Measured at the ABS connector: pin 1 feed 0.3 V, ground 0.1 ohm".

Such a figure is neither the supply of the vehicle nor what the module says of its own; it is kept as a reading of the
module. What was found missing without a figure ("no power at the ABS plug") is kept as something noted of it.
"""

from __future__ import annotations

import re

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import buslines
from triage.intake.scan.context import Context
from triage.model.connector_words import load_of, missing, pin_of, places
from triage.model.session import Event
from triage.model.snapshot import Reading

_FIGURE = lazily(r"(?<![\w.,])([0-9]{1,4}(?:[.,][0-9]{1,3})?) ?(mv|v|volts?|ohms?|ω)(?![\w/])")
_PARTS = lazily(r"[;,](?=\s)|\.(?=\s)|\s(?:and|und|et|y|but|aber|mais|pero|then)\s")
_NOT_TAKEN = lazily(r"(?<![a-z])(?:limit|max(?:imum)?|should|spec|expected|less than|not measured|soll|measure|check|"
                    r"to be)(?![a-z])")
_UNITS = {"v": "V", "o": "ohm", "\u03c9": "ohm"}
#: A pin with so many volts is one of the feeds, whatever it is called: no bus or signal line shows as much.
_FED = 9.0
_NUMBER = lazily(r"(?<![a-z])(?:pins?|broches?|clavijas?) ?\.?#? ?([0-9]{1,3}[a-z]?)\b")
#: Between a module and its connector: "ABS plug", "plug of the ABS unit", "Am Stecker ABS:", "ABS: pin 1".
_BETWEEN = lazily(r"[\s:,'\u2019-]*(?:(?:of|the|at|on|for|main|harness|unit|module|control|ecu|s|its|der|des|dem|am|"
                  r"vom|beim|du|de|la|le|del|al|l|d)[\s:,'\u2019-]+)*(?:(?:unit|module|control|ecu)[\s:,'\u2019-]*)?")
#: The words of a scan with its supply, in which a connector is only mentioned.
_OF_A_SCAN = lazily(r"(?<![a-z])(?:engine running|lowest|after (?:the )?(?:run|clear|repair)|nothing connected|"
                    r"battery|batterie|bater[ií]a)(?![a-z])")
#: How a pin was read stays in the reading's name.
_STATES = {"open": ", open circuit", "loaded": ", under load"}
_LONGEST = 220


def read(context: Context, row: Row) -> bool:
    """A line that tells what was measured at the connector of one module, as readings of it."""
    if len(row.low) > _LONGEST or not (spots := places(row.low)) or _OF_A_SCAN.search(row.low) is not None:
        return False
    figures = list(_FIGURE.finditer(row.low))
    lost = None if figures else missing(row.low)
    if not figures and lost is None:
        return False
    modules = {context.names.match(row.text[start:end]).canonical for start, end, *_ in context.names.find(row.low)
               if any(_BETWEEN.fullmatch(row.low, min(end, last), max(start, first)) for first, last in spots)}
    if len(modules) != 1 or _NOT_TAKEN.search(row.low) is not None:
        return False
    module = modules.pop()
    if lost is not None:
        context.builder.events.append(Event(what="other", module=module, note=row.text.strip()))
        return True
    found = _readings(row.low, figures)
    context.builder.snapshot.readings += [Reading(module=module, name=name, value=value, unit=unit)
                                          for name, value, unit in (*found, *_lost(found))]
    return True


def _lost(found: list[tuple[str, float, str]]) -> list[tuple[str, float, str]]:
    """What a feed loses that was read without a load and with one, as a voltage drop."""
    feeds = [(name, value) for name, value, unit in found if unit == "V" and name.startswith("feed")]
    open_ones = {name.removesuffix(_STATES["open"]): value for name, value in feeds if name.endswith(_STATES["open"])}
    pairs = [(bare, open_ones[bare], value) for name, value in feeds
             if name.endswith(_STATES["loaded"]) and (bare := name.removesuffix(_STATES["loaded"])) in open_ones]
    return [(f"feed drop{name[4:]}, {before:g} V without and {after:g} V with its load", round(before - after, 3), "V")
            for name, before, after in pairs if before >= after]


def _readings(low: str, figures: list[re.Match[str]]) -> list[tuple[str, float, str]]:
    """Name, value and unit of each figure, by the words of its own part of the line."""
    out: list[tuple[str, float, str]] = []
    begin = 0
    buses = {line.start: line for line in buslines.find(low)}
    for figure, after in zip(figures, [*(figure.start() for figure in figures[1:]), len(low)], strict=True):
        cut = _PARTS.search(low, figure.end(), after)
        end = cut.start() if cut is not None else after if after == len(low) else figure.end()
        piece = f"{low[begin : figure.start()]} {low[figure.end() : end]}"
        begin = end
        unit, value = _UNITS[figure[2][0]] if figure[2] != "mv" else "mV", float(figure[1].replace(",", "."))
        line = buses.get(figure.start())
        if line is not None:
            out.append((f"{line.name} at its connector", value, unit))
            continue
        pin = pin_of(piece) or ("ground" if unit == "ohm" else "feed" if unit == "V" and value >= _FED else None)
        number = _NUMBER.search(piece)
        what = f"{pin} at its connector" if pin else "at its connector"
        state = _STATES.get(load_of(piece) or "", "")
        out.append((what + (f", pin {number[1]}" if number else "") + state, value, unit))
    return out


__all__ = ["read"]
