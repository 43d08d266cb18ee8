"""What was measured at the connector of a module: "Measured at the ABS connector: pin 1 feed 0.3 V, ground 0.1 ohm".

Such a figure is neither the supply of the vehicle nor what the module says of its own; it is kept as a reading of the
module. What was found missing without a figure ("no power at the ABS plug") is kept as something noted of it.
"""

from __future__ import annotations

import re

from triage.intake.entries import scanned
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import buslines, pins
from triage.intake.said.answers import spoken
from triage.intake.scan.context import Connector, Context
from triage.model.connector_words import BESIDE, load_of, missing, places
from triage.model.measured_words import between_points
from triage.model.session import Event
from triage.model.snapshot import Reading

_FIGURE = lazily(r"(?<![\w.,])([0-9]{1,4}(?:[.,][0-9]{1,3})?) ?(mv|v|volts?|ohms?|ω)(?![\w/])")
_PARTS = lazily(r"[;,](?=\s)|\.(?=\s)|\s(?:and|und|et|y|but|aber|mais|pero|then)\s")
_NOT_TAKEN = lazily(r"(?<![a-z])(?:limit|max(?:imum)?|should|spec|expected|less than|not measured|soll|measure|check|"
                    r"to be)(?![a-z])")
_UNITS = {"v": "V", "o": "ohm", "\u03c9": "ohm"}
#: A line that heads what was measured, and what stands before the figures of a line.
_HEADS = lazily(r":\s*$|(?<![a-z])(?:measure(?:d|ments?)|readings|gemessen|messung(?:en)?|mesures?|medid[oa]s?|"
                r"mediciones)(?![a-z])")
_LEAD = lazily(r"[^:]{3,60}:\s")
#: So many lines below it a connector's pins may go on.
_NEAR = 3
#: Between a module and its connector: "ABS plug", "plug of the ABS unit", "Am Stecker ABS:", "ABS: pin 1".
_BETWEEN = lazily(r"[\s:,'\u2019-]*(?:(?:of|the|at|on|to|for|main|harness|unit|module|control|ecu|s|its|der|des|dem|am|"
                  r"big|large|small|round|black|grey|gray|white|brown|green|blue|multi[ -]?pin|pump|motor|valve|"
                  r"heater|pumpen|"
                    r"pumpe|pompe|bomba|vom|beim|du|de|la|le|"
                  r"del|al|l|d)[\s:,'\u2019-]+)*(?:(?:unit|module|control|ecu)[\s:,'\u2019-]*)?")
#: "Des Getriebesteuergeräts", "des Türmoduls": the module, in its genitive.
_GENITIVE = lazily(r"(?<=ger[a\u00e4]t)(?:es|s)(?![a-z])|(?<=modul)s(?![a-z])")
#: The words of a scan with its supply, in which a connector is only mentioned.
_OF_A_SCAN = lazily(r"(?<![a-z])(?:engine running|lowest|after (?:the )?(?:run|clear|repair)|nothing connected|"
                    r"battery|batterie|bater[ií]a)(?![a-z])")
#: A feed is a place to put a meter on as a connector is: "EPS feed 0.1 V", "ignition feed to the ECM 12.6 V".
_FED = lazily(r"(?<![a-z])(?:(?:ignition|battery|permanent|switched|main|b\+) )?feeds?(?![a-z])(?! ?drop)")
#: How a pin was read stays in the reading's name.
_STATES = {"open": ", open circuit", "loaded": ", under load"}
#: What the battery had at the same moment, at the end of such a line or before it.
_BATTERY = r"(?:at |the |an der |a la |en la |bei |avec |con |with |mit )*(?:batter(?:y|ie)|bateria|batt)"
_AT_BATTERY = lazily(
    rf"[,;(]\s?(?:while |and |und |et |y )?{_BATTERY}(?: (?:is|was|has|posts?|voltage|then|itself|a|at|hat|selbst))*"
    rf"[ :=]{{1,3}}(?P<behind>[0-9]{{1,2}}[.,][0-9]{{1,2}}) ?v(?:olts?)?(?![a-z])[^;,0-9]{{0,50}}$|"
    rf"^\s*{_BATTERY}[ :=]{{1,3}}(?P<before>[0-9]{{1,2}}[.,][0-9]{{1,2}}) ?v(?:olts?)?(?![a-z])\s?[,;]\s")
#: A terminal of the supply: what a module tells of its own, unless there is none.
_TERMINAL = lazily(r"(?<![a-z])(?:terminal|term|kl|klemme|borne|borna)\.? ?(?:15|30|87)(?![0-9])")
_LONGEST = 220


def read(context: Context, row: Row) -> bool:
    """A line that tells what was measured at the connector of one module, as readings of it: of the module that it
    names, or of the one whose connector a line above heads."""
    beside = _AT_BATTERY.search(row.low) if len(row.low) <= _LONGEST else None
    if beside is not None:
        return _beside_battery(context, row, beside)
    if len(row.low) > _LONGEST or not _may_tell(row.low) or (
            " drop" in row.low and between_points(row.low)):
        return False
    figures = list(_FIGURE.finditer(row.low))
    spots = places(pins.without_far(row.low)) or (
        [hit.span() for hit in _FED.finditer(row.low)] if len(figures) == 1 else [])
    if not spots and len(figures) == 1 and figures[0][2][0] == "v" and (
            float(figures[0][1].replace(",", ".")) < pins.FED):
        # No module that is fed by so little tells it: somebody put a meter there.
        spots = [hit.span() for hit in _TERMINAL.finditer(row.low)]
    lost = None if figures else missing(row.low)
    module = _module(context, row, spots) if spots else None
    if module is None:
        return bool(figures) and _below(context, row, figures)
    if lost is not None:
        context.builder.events.append(Event(what="other", module=module, note=row.text.strip()))
        return True
    if not figures:
        if not _HEADS.search(row.low) or spoken(row.low):
            return False
        context.connector = Connector(module, context.at)
        return True
    if context.connector is None or context.connector.module != module:
        context.connector = Connector(module, context.at)
    _keep(context, context.connector, row, figures)
    return True


def _beside_battery(context: Context, row: Row, told: re.Match[str]) -> bool:
    """A line that gives a feed and what the battery had meanwhile: both are readings."""
    part = row.part(told.end()) if told["before"] else row.part(0, told.start())
    readings = context.builder.snapshot.readings
    if not read(context, part):
        return False
    battery = float((told["before"] or told["behind"]).replace(",", "."))
    readings.append(Reading(name=BESIDE, value=battery, unit="V"))
    return True


@remembered
def _may_tell(low: str) -> bool:
    """Whether a line has a word for a connector or a figure in it, and nothing that speaks against a measurement."""
    near = pins.without_far(low)
    if not places(near) and _FIGURE.search(low) is None:
        return False
    return _OF_A_SCAN.search(near) is None and _NOT_TAKEN.search(low) is None


def _module(context: Context, row: Row, spots: list[tuple[int, int]]) -> str | None:
    """The one module that a line names beside the word for a connector."""
    named, low = scanned.named(context, row), row.low
    if not named and _GENITIVE.search(low):
        low = _GENITIVE.sub(lambda ending: " " * len(ending[0]), low)
        named = [scanned.Place(start, end, context.names.match(low[start:end]).canonical)
                 for start, end, *_ in context.names.find(low)]
    modules = {module for start, end, module in named
               if any(_BETWEEN.fullmatch(low, min(end, last), max(start, first)) for first, last in spots)}
    return modules.pop() if len(modules) == 1 else None


def _below(context: Context, row: Row, figures: list[re.Match[str]]) -> bool:
    """Whether a line below the one that names a connector goes on with its pins; they are kept."""
    connector = context.connector
    if connector is None or not connector.at < context.at <= connector.at + _NEAR:
        return False
    if any(not any(figure.start() <= start < figure.end() for figure in figures)  # "0.3 OHM" names no module
           for start, *_ in context.names.find(row.low)):
        return False
    told = _readings(row.low, figures, connector)
    if any(path.number is None and path.pin is None for _, path in told if path is not None):
        return False
    _keep(context, connector, row, figures)
    return True


def _keep(context: Context, connector: Connector, row: Row, figures: list[re.Match[str]]) -> None:
    """Keep the figures of a line as readings of the connector's module."""
    readings = context.builder.snapshot.readings
    told = _readings(row.low, figures, connector)
    named = [name for name, _ in told]
    for name, value, unit in (*named, *_lost(named)):
        readings.append(Reading(module=connector.module, name=name, value=value, unit=unit))
    connector.at = context.at
    for (name, value, unit), path in told:
        if path is None:
            continue
        if path.number is not None and (pin := path.judged(value, unit)) is not None:
            connector.roles.setdefault(path.number, pin)
            if path.far == "minus" and pin == "feed" and value >= pins.FED:
                connector.fed.add(path.number)
        elif path.far == "pin":
            connector.across.append((Reading(module=connector.module, name=name, value=value, unit=unit), path))
    for reading, path in connector.across:
        path = path.with_roles(connector.roles)
        if reading in readings and path.pin == "feed" and path.far_pin == "ground" and path.number in connector.fed:
            # The feed is good to battery minus: what is missing between both is lost on the ground.
            name = f"ground at its connector, pin {path.far_number}, from feed pin {path.number}"
            readings[readings.index(reading)] = Reading(
                module=reading.module, name=name + _STATES.get(path.load or "", ""), value=reading.value,
                unit=reading.unit)


def _lost(found: list[tuple[str, float, str]]) -> list[tuple[str, float, str]]:
    """What a feed loses that was read without a load and with one, as a voltage drop."""
    feeds = [(name, value) for name, value, unit in found if unit == "V" and name.startswith("feed")]
    open_ones = {name.removesuffix(_STATES["open"]): value for name, value in feeds if name.endswith(_STATES["open"])}
    pairs = [(bare, open_ones[bare], value) for name, value in feeds
             if name.endswith(_STATES["loaded"]) and (bare := name.removesuffix(_STATES["loaded"])) in open_ones]
    return [(f"feed drop{name[4:]}, {before:g} V without and {after:g} V with its load", round(before - after, 3), "V")
            for name, before, after in pairs if before >= after]


def _readings(low: str, figures: list[re.Match[str]],
              connector: Connector) -> list[tuple[tuple[str, float, str], pins.PinPath | None]]:
    """Name, value and unit of each figure, by the words of its own part of the line, and its pin; None of a bus."""
    out: list[tuple[tuple[str, float, str], pins.PinPath | None]] = []
    begin = 0
    buses = {line.start: line for line in buslines.find(low)}
    lead = _LEAD.match(low)
    last: pins.PinPath | None = None
    carried = load_of(lead[0]) if lead is not None and lead.end() <= figures[0].start() else None
    for figure, after in zip(figures, [*(figure.start() for figure in figures[1:]), len(low)], strict=True):
        cut = _PARTS.search(low, figure.end(), after)
        end = cut.start() if cut is not None else after if after == len(low) else figure.end()
        path = pins.of(low[begin : figure.start()], low[figure.end() : end])
        begin = end
        unit, value = _UNITS[figure[2][0]] if figure[2] != "mv" else "mV", float(figure[1].replace(",", "."))
        line = buses.get(figure.start())
        if line is not None:
            out.append(((f"{line.name} at its connector", value, unit), None))
            continue
        path = path._replace(load=path.load or carried)
        if path.number is None and path.pin is None and path.load == "loaded" and last is not None and (
                last.load == "open"):
            path = last._replace(load="loaded")  # "12.5 V no load, with a lamp 7.1 V": of one pin
        path = path if path.number is None else path.with_roles(connector.roles)
        pin = path.judged(value, unit)
        last = path._replace(pin=pin) if path.number is not None or pin is not None else last
        state = _STATES.get(path.load or "", "")
        number = f", pin {path.number}" if path.number is not None else ""
        name = f"{pin} at its connector{number}" if pin else f"at its connector{number}"
        if path.far == "pin" and path.number is not None:
            name = f"across pins {path.number} and {path.far_number} of its connector"
        out.append(((name + state, value, unit), path))
    return out


__all__ = ["read"]
