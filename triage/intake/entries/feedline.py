"""What a meter showed at the feed and the ground of one module, told in a line of its own: "ESP feed 4.2 V at its plug,
ground 0.02 V". Each figure is one by the words of its own piece of the line; the line tells of one module and no code.

What a module says of its own supply ("ABS supply 11.9 V") is no such line: it needs a word that only who holds a meter
uses, a place to put it on, or a figure of the ground beside that of the feed (common practice).
"""

from __future__ import annotations

from typing import NamedTuple

from triage.intake.entries import scanned
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import phases, pins
from triage.intake.said.answers import spoken
from triage.intake.scan.context import Connector, Context
from triage.model.connector_words import load_of, pin_of, places
from triage.model.measured_words import between_points
from triage.model.snapshot import Reading

_FIGURE = lazily(r"(?<![\w.,])(?P<value>[0-9]{1,3}(?:[.,][0-9]{1,3})?) ?(?P<unit>mv|v(?:olts?)?)(?![\w/])|"
                 r"(?<![\w.,])(?P<bare>[0-9]{1,2}[.,][0-9]{1,3})(?![\w.,%/:]|\s?(?:a|ma|amps?|k?ohms?|h|hours?|min|km|"
                 r"bar|s|m|mm)(?![a-z]))")
_PARTS = lazily(r"[;,(](?=\s|[a-z])|\.(?=\s)|\s(?:and|und|et|y|but|aber|mais|pero|then|with|mit|avec|con)\s")
#: Words of who holds a meter: a scan tool tells of a supply, not of a feed.
_METER = lazily(
    r"(?<![a-z])(?:feeds?|lives?|b ?\+|\+ ?b|(?:perm(?:anent)?|ign(?:ition)?|switched|battery) "
    r"(?:feed|live|power|supply)|"
    r"power (?:at|to|on)|(?:terminal|term|kl|klemme|borne|borna)\.? ?(?:15|30|87)|plus(?:pol)? (?:am|an|beim)|"
    r"dauerplus|zundplus|klemmenspannung|positive (?:at|wire|side|lead|pin)|"
    r"\+ ?(?:permanent|apres contact|avant contact)|"
    r"positif (?:a|au|de)|positivo (?:en|de)|power wire|supply wire|(?:multi)?meter|measured|gemessen|mesuree?|"
    r"medid[oa]|back-?probed?)(?![a-z])")
#: What is no measurement, speaks of the vehicle, or of parts that are fed by a module.
_NOT = lazily(
    r"(?<![a-z])(?:limit|max(?:imum)?|should|spec|expected|less than|not measured|soll|measure|check|to be|"
    r"engine running|lowest|batt(?:ery|erie)?(?! (?:feed|live|supply|power))|bateria|nothing connected|"
    r"charger|ladegerat|chargeur|"
    r"cargador|sensors?|reference|signal|can|lin|bus|ripple|draw|fuses?|sicherung\w*|fusibles?|relays?|relais|rele|"
    r"alternator|generator|lichtmaschine|alternateur|alternador|starter|crank\w*|trailer|anhanger|remorque|remolque|"
    r"diag\w*|obd\w*|dlc|min(?:imum)?|average|volt(?:age)? drops?|spannungsabfall|chute|caida|between|zwischen|entre|"
    r"wackel\w*|wiggl\w*|moved|shak\w*)(?![a-z])")
#: The feed that comes with the key: of two feeds each is kept by its own name.
_SWITCHED = lazily(r"(?<![a-z])(?:ign(?:ition)?|switched|(?:terminal|term|kl|klemme|borne|borna)\.? ?(?:15|87)|zund\w*|"
                   r"apres contact|contacto)(?![a-z])")
#: The most that is lost on a ground, V; more there was read against the plus.
_MOST_LOST = 5.0
#: What sensors are fed with, V (common practice): no module is.
_REFERENCE = (4.6, 5.4)
_LONGEST, _STATES = 180, {"open": ", open circuit", "loaded": ", under load"}


class _Told(NamedTuple):
    name: str
    value: float
    unit: str


def read(context: Context, row: Row) -> bool:
    """Whether a row tells of the feed of one module; its figures are kept as readings of that module."""
    low = row.low
    if not _may_tell(low) or row.finds.codes or spoken(low) or phases.find(low) is not None:
        return False
    modules = {_of(context, row, place) for place in scanned.named(context, row)}
    if len(modules) != 1 or modules.isdisjoint(_scanned(context)):
        # What no scan has read may be a part: "tail lamp left feed at the connector 9.8 V".
        return False
    told = _figures(low)
    if told is None or not _is_measured(low, told):
        return False
    module = modules.pop()
    context.connector = Connector(module, context.at)
    context.builder.snapshot.readings += [
        Reading(module=module, name=one.name, value=one.value, unit=one.unit) for one in told]
    return True


def _scanned(context: Context) -> set[str]:
    """The modules that the scans of the text have told of."""
    return {context.names.match(module.printed).canonical
            for scan in context.builder.snapshots for module in scan.modules.values()}


def _of(context: Context, row: Row, place: scanned.Place) -> str:
    """The module at a place; the letter before a plus sign ("ESP B+") is none of its name."""
    if row.low[place.start : place.end + 1].endswith(" b+"):
        return context.names.match(row.text[place.start : place.end - 2]).canonical
    return place.module


@remembered
def _may_tell(low: str) -> bool:
    """Whether a line has a figure and a word for a feed, and nothing that speaks against a measurement of one."""
    return (len(low) <= _LONGEST and pin_of(low) is not None and _FIGURE.search(low) is not None
            and _NOT.search(low) is None and not between_points(low))


def _figures(low: str) -> list[_Told] | None:
    """Each figure with the pin that its piece of the line names; None where one has none, or can't be of that pin."""
    figures = list(_FIGURE.finditer(low))
    out: list[_Told] = []
    begin = 0
    for figure, after in zip(figures, [*(figure.start() for figure in figures[1:]), len(low)], strict=True):
        cut = _PARTS.search(low, figure.end(), after)
        end = cut.start() if cut is not None else after if after == len(low) else figure.end()
        path = pins.of(low[begin : figure.start()], low[figure.end() : end])
        piece = f"{low[begin : figure.start()]} {low[figure.end() : end]}"
        begin = end if cut is None else cut.end()
        value = float((figure["value"] or figure["bare"]).replace(",", "."))
        unit = "mV" if figure["unit"] == "mv" else "V"
        pin = path.pin
        if pin is None or path.far or (figure["bare"] and out == [] and pin == "ground"):
            return None
        volts = value / 1000.0 if unit == "mV" else value
        if (pin == "ground" and volts > _MOST_LOST) or _REFERENCE[0] <= volts <= _REFERENCE[1]:
            return None
        number = f", pin {path.number}" if path.number is not None else ""
        another = any("feed" in one.name for one in out)
        switched = "ignition " if another and pin == "feed" and _SWITCHED.search(piece) is not None else ""
        state = _STATES.get(path.load or load_of(low[begin:after]) or "", "")
        out.append(_Told(f"{switched}{pin} at its connector{number}{state}", value, unit))
    return out or None


def _is_measured(low: str, told: list[_Told]) -> bool:
    """Whether the figures of a line are those of a meter: by its words, by a place, or by a ground beside a feed."""
    feeds = [one for one in told if "feed" in one.name]
    return bool(feeds) and (_METER.search(low) is not None or bool(places(low)) or len(feeds) < len(told))


__all__ = ["read"]
