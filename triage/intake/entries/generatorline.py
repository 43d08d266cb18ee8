"""What the generator gives, told with the speed or the load it was read at: "Generator 14,3 V bei 2000/min mit allen
Verbrauchern". Below a scan whose supply was read already it is a measurement of its own, with the engine running.
"""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.scan.context import Context
from triage.model.snapshot import Reading

_GENERATOR = (r"(?:generator|alternator|lichtmaschine|lima|drehstromgenerator|alternateur|generateur|alternador|"
              r"generador)")
#: The engine's speed, or what was switched on meanwhile: no generator gives anything with the engine off.
_RUNS = (
    r"(?:(?:engine )?running|(?:motor )?lauft|(?:moteur )?tournant|(?:motor )?en marcha|no load|unloaded|"
    r"ohne last|sans charge|sin carga|"
    r"[0-9]{3,4} ?(?:r\.?p\.?m|/ ?min|u/min|1/min|tr/min|revs?)|(?:fast |high )?idle|idling|leerlauf|ralenti|"
    r"(?:with |mit |avec |con )?(?:all |full |the |alle[nr]? |tous les |todos los )?(?:consumers|loads|lamps|lights|"
    r"verbrauchern?|licht|consommateurs|phares|consumidores|luces))")
_TOLD = lazily(
    rf"(?:^|[.;] )\s*(?P<name>{_GENERATOR})(?: (?:b ?\+|output|voltage|gives|makes|charges|charging|is|at|reads|bringt|"
    r"liefert|ladt|lade\w*|mit|donne|debite|da|carga)){0,3} ?[:=]? ?(?P<value>[0-9]{1,2}[.,][0-9]{1,2}) ?v(?:olts?)?"
    rf"(?P<how>,? (?:at |bei |im |in |a |au |en |with |mit |avec |con )?{_RUNS}(?![a-z])[^.;]{{0,60}}?)!{{0,4}}"
    r"(?=[.;!] |[.;!]?$| [a-z ]{0,24}[.;]?$)")
_SIGN = lazily(rf"(?<![a-z]){_GENERATOR}(?![a-z])")


def read(context: Context, row: Row) -> list[Row] | None:
    """Keep what the generator gave as a reading; what else stands in the line, None where it tells of none."""
    scan = context.builder.snapshot
    if len(row.low) > 200 or row.finds.codes or _SIGN.search(row.low) is None:
        return None
    told = _TOLD.search(row.low)
    if told is None or (scan.volts is None and not told.start("name")):
        return None  # at the head of a scan it is the supply of that
    name = f"generator output, {' '.join(row.text[slice(*told.span('how'))].split()).strip(' ,')}"
    name += ", nothing connected" if _taken_off(context) else ""
    scan.readings.append(Reading(name=name, value=float(told["value"].replace(",", ".")), unit="V"))
    spans = ((0, told.start("name")), (told.end(), len(row.text)))
    return [row.part(first, last) for first, last in spans if row.text[first:last].strip(" .;")]


def _taken_off(context: Context) -> bool:
    """Whether what fed the vehicle was taken off after the scan that the line stands below, by their times."""
    told = [event for event in context.builder.events if event.what.startswith("outside supply")]
    at = context.builder.snapshot.at
    return bool(told) and told[-1].what == "outside supply off" and (
        told[-1].at is not None and at is not None and told[-1].at.replace(tzinfo=None) >= at.replace(tzinfo=None))


__all__ = ["read"]
