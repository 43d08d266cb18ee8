"""Facts of the vehicle that a text states: VIN, label, model year, nominal voltage, drive, battery, complaint.

>>> facts = Facts()
>>> for line in ("Vehicle: delivery van, diesel, 24 V", "VIN: 1M8GDM9AXKP042788", "Complaint: will not start"):
...     _ = facts.take(line, line.lower())
>>> facts.values["drive"], facts.values["vin"], facts.values["complaint"]
('diesel', '1M8GDM9AXKP042788', 'will not start')
>>> told = Facts()
>>> line = "Job 12 - panel van, diesel. Customer says: dead this morning"
>>> told.take(line, line.lower()), told.values["complaint"], told.values["drive"]
('complaint', 'dead this morning', 'diesel')
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import complaints, nominal, tellers, vehiclekind

_VIN = lazily(r"(?<![A-Z0-9])([A-HJ-NPR-Z0-9]{17})(?![A-Z0-9])")
_VIN_LABEL = lazily(
    r"(?<![a-z])(?:vin|fin|fahrgestell(?:nummer)?|fg\.?-?nr|chassis(?: no| number)?|bastidor|"
    r"numero de serie|"
    r"vehicle identification(?: number)?|n° de chassis)(?![a-z])"
)
#: Behind one that names modules as well ("Chassis leveling: no codes"): the number itself.
_NUMBER = lazily(
    r"[\s:=#.\u00b0-]{0,8}(?:(?:no|nr|number|num|numero|nummer|serial|id|n)(?![a-z])[\s:=#.\u00b0-]{0,8}){0,3}"
    r"(?=[a-z0-9-]{4})[a-z-]{0,8}[0-9]"
)
_KEY = lazily(
    r"(?P<complaint>customer (?:complaint|states|says|concern)|complaint|concern|reported|beanstandung|"
    r"kundenbeanstandung|beschwerde|"
    r"plainte(?: client)?|motif|symptome client|queja|motivo|problem|reason for (?:the )?call|symptom reported|"
    r"called for)"
    r"|(?P<label>vehicle|fahrzeug|vehicule|vehiculo|car|van|truck|unit|machine|model|modell|modele|modelo)"
    r"|(?P<model_year>model ?year|year|modelljahr|baujahr|annee(?: modele)?|ano(?: modelo)?|my)"
    r"|(?P<nominal>nominal (?:voltage|volts)|nennspannung|tension nominale|tension nominal|electrical system)"
    r"|(?P<battery>battery type|batterietyp|type de batterie|tipo de bateria)"
    r"|(?P<batteries>batteries|number of batteries|anzahl batterien)"
    r"|(?P<drive>drive|powertrain type|fuel|kraftstoff|antrieb|carburant|motorisation|combustible|propulsion)"
    r"|(?P<aside>odometer|mileage|kilometerstand|km-stand|kilometrage|kilometraje|km|technician|tech|workshop|"
    r"garage|customer|kunde|client|cliente|"
    r"phone|tel|telefon|telephone|telefono|address|adresse|direccion|plate|registration|reg|kennzeichen|"
    r"immatriculation|matricula|"
    r"licence plate|license plate|job|order|ro|invoice|auftrag|auftragsnummer|ticket|tyres?|tires?|reifen|pneus|"
    r"neumaticos|colou?r|farbe|bay|"
    r"location|place|ort|lieu|lugar|report|printed|printed on|print date|gedruckt|imprime|impreso|operator|"
    r"bearbeiter|engine (?:code|type|no)|"
    r"part(?: no| number)s?|software(?: version| number)?|hardware(?: version| number)?|calibration(?: id)?|"
    r"connector|fuse|serial(?: number)?|"
    r"teilenummer|softwarestand|reference|numero de pieza|coding|weather|ambient|outside temperature|"
    r"aussentemperatur|user|email|mail|"
    r"from|to|subject|sent|betreff|von|an|objet|asunto|page|cal id|cvn|interface|adapter|protocol|duration|"
    r"scan duration|scan time taken|"
    r"tool|version|file|hours|engine hours|betriebsstunden|equipment|build date|production date|first registration|"
    r"erstzulassung|warranty)"
)
_KEYED = lazily(rf"\s*(?:{_KEY.pattern})\s*(?:[:=]|\.{{2,}}|\t|\s{{2,}})\s*(?P<value>\S.*)", re.DOTALL)
#: The complaint behind another sentence of its line ("Job 12, van, diesel. Customer says: dead this morning").
_COMPLAINT_LATER = lazily(
    r"[.;,|–-] ?(?:customer (?:complaint|states|says|concern)|complaint|kundenbeanstandung|beanstandung|plainte client|"
    r"plainte|queja)\s*:\s*(?=\S)"
)
#: In such a line a sentence that is no customer's: the battery's voltage, as it was read.
_READ = lazily(
    r"(?<=[.;] )(?:batt(?:ery|erie|\.)?|bateria|supply|voltage|koeo|koer|bordspannung|klemme 30|tension|tensione)"
    r"(?: (?:voltage|volts|is|now|at|terminal|actual))*[ :=]{1,3}[0-9]{1,2}(?:[.,][0-9]{1,2})? ?v(?:olts?)?(?![a-z])"
)
#: What a vehicle is called at the start of its own line, perhaps behind a job's number.
_VEHICLE = lazily(
    r"\s*(?:(?:job|(?:work |repair )?order|auftrag|ticket|ro|wo)\s?(?:no\.?|nr\.?|#)?\s?"
    r"[0-9-]{1,12}(?:\s*[-,:./|]\s*|\s+))?"
    r"(?P<label>(?:(?:an?|the|our|my|her|his|ein|eine|un|une)\s)?(?:(?:small|large|delivery|panel|box|electric|hybrid|"
    r"diesel|petrol|refrigerated|tipper|city|school|rental|crew|camper|old|new|blue|white|red|black|silver|grey|gray|"
    r"green|family|work|company|compact|executive)\s){0,3}"
    r"(?:van|minivan|supermini|city car|people carrier|mpv|coupe|convertible|cabriolet|(?<=diesel |petrol )hatch|"
    r"(?<=electric )hatch|berline|citadine|monospace|berlina|monovolumen|utilitario|"
    r"estate(?: car)?|car|truck|lorry|tractor|bus|minibus|coach|pick-?up(?: truck)?|saloon|sedan|"
    r"hatchback|suv|motorhome|camper(?: van)?|wagon|[a-z]{0,12}wagen|[a-z]{0,8}transporter|kombi|limousine|pkw|lkw|"
    r"wohnmobil|fourgon|fourgonnette|utilitaire|voiture|camion|camionnette|furgoneta|furgon|coche|turismo|"
    r"combine harvester|combine(?=,? (?:har|dead|flat|batt|jump|would|will|wont|no start|not start|dies|cranks))|"
    r"forage harvester|harvester|sprayer|baler|excavator|"
    r"digger|backhoe|wheel loader|telehandler|forklift|bulldozer|dozer|dumper|mahdrescher|maehdrescher|hacksler|"
    r"traktor|schlepper|bagger|radlader|gabelstapler|stapler|omnibus|reisebus|linienbus|sattelzug|zugmaschine|tracteur|"
    r"moissonneuse(?:-batteuse)?|pelleteuse|pelle|tractopelle|chargeuse|autobus|autocar|car scolaire|poids lourd|"
    r"cosechadora|excavadora|retroexcavadora|cargadora|tractocamion|carretilla)(?: (?:4x[24]|6x[246]|8x[48]|4wd|awd))?)"
    rf"(?={complaints.ENGINE}\s*(?:[,.;(]|[-/]\s|$))(?! ?\.[0-9])"
)
_DRIVE = (
    ("hybrid", r"(?<![a-z])(?:hybrid|hybride|hibrid[oa]|phev|hev)(?![a-z])"),
    ("diesel", r"(?<![a-z])(?:diesel|gasoil|gazole|tdi)(?![a-z])"),
    ("petrol", r"(?<![a-z])(?:petrol|gasoline|benzin(?:er)?|essence|gasolina)(?![a-z])"),
)
_BATTERY = (
    ("AGM", r"(?<![a-z])agm(?![a-z])"),
    ("lithium", r"(?<![a-z])(?:lithium|lifepo4?|li-?ion|lfp)(?![a-z])"),
    ("flooded", r"(?<![a-z])(?:flooded|wet cell|efb|nassbatterie|plomb ouvert|lead[- ]acid)(?![a-z])"),
)
#: A number of a phone, an order, a version: a line of its own that names no module ("Tel. 0171 555").
_ASIDE_NUMBER = lazily(
    r"\s*(?:tel(?:efon|ephone|efono)?|phone|mobile|handy|fax|order|auftrag(?:snummer)?|job|invoice|ticket|ro|software|"
    r"softwarestand|sw|firmware|fw|hardware|hw|version|calibration|part|teile|odometer|mileage|kilometerstand|"
    r"km-?stand|kilometrage|kilometraje|serial|registration|plate|customer|kunden|page|protocol|report|build)"
    r"(?:[ -]?(?:version|no|nr|number|nummer|id|level|stand|release))?[.:#=\s]*[+(]?[0-9][0-9 ()/.,-]{2,}"
    r"(?:[a-z]{0,4}|miles)\s*"
)
#: No part of a date.
_YEAR = lazily(r"(?<![0-9])(?<![0-9][./-])(?:19[8-9][0-9]|20[0-4][0-9])(?![0-9]|[./-][0-9])")
_DAY_BEFORE = lazily(
    r"(?<![0-9])[0-9]{1,2}(?:st|nd|rd|th|er|\.)?(?: (?:of|de))? ?[a-z]{3,9}\.?(?:,| de)? $|"
    r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]* [0-9]{1,2}(?:st|nd|rd|th)?,? $")
_NOMINAL = lazily(r"(?<![0-9.,a-z])(6|12|24|48)\s?-?v(?:olts?)?(?![a-z0-9])")


@remembered
def is_aside(low: str) -> bool:
    """Whether a line in small letters is a number that is no code, with the word for what it is before it.

    >>> is_aside("tel. 0171 5556251"), is_aside("software version 4.12.69"), is_aside("hardware 0")
    (True, True, False)
    """
    return len(low) <= 60 and _ASIDE_NUMBER.fullmatch(low) is not None


def beside_complaint(low: str) -> list[tuple[int, int]]:
    """What a line in small letters tells before the key of a complaint, and from the battery's voltage on behind it.

    >>> beside_complaint("batt 12.4v, no charger. complaint: limp mode")
    [(0, 22)]
    >>> beside_complaint("complaint: noise. batt 12.4 v")
    [(18, 29)]
    """
    later = _COMPLAINT_LATER.search(low)
    told = (later.start(), later.end()) if later is not None else tellers.find(low)
    read = _READ.search(low, told[1] if told is not None else 0)
    found = [(0, told[0])] if told is not None and (later is not None or told[0]) else []
    return found + ([(read.start(), len(low))] if read is not None else [])


@dataclass(slots=True)
class Facts:
    """What was said of the vehicle; ``vins`` are all seen, in order."""

    values: dict[str, Any] = field(default_factory=dict)
    vins: list[str] = field(default_factory=list)

    def take(self, text: str, low: str) -> str | None:
        """Read one line: what kind of fact it was ("complaint", "label", "aside", "vin", ...), or None."""
        if len(text) > 1000 or not (
            ":" in text or "=" in text or "\t" in text or "  " in text or ".." in text or len(text) >= 17
            or complaints.alone(low)
        ):
            return None
        kind = None
        if self._vin(text, low):
            kind = "vin"
        if "bat" in low:
            self._battery(low)
        match = _KEYED.match(low) if any(mark in low for mark in (":", "=", "  ", "\t", "..")) else None
        later = _COMPLAINT_LATER.search(low)
        if later is not None and (match is None or match["complaint"] is None):
            self._keyed("complaint", text[later.end() :].strip(), low[later.end() :].strip())
            self._described(low[: later.start()])
            return "complaint"
        if (teller := tellers.find(low)) is not None and (match is None or match["complaint"] is None):
            if teller[0]:
                self._unkeyed(text[: teller[0]], low[: teller[0]])
            # What the head line says is wrong, and what is told behind it.
            before = [self.values.pop("complaint")] if teller[0] and "complaint" in self.values else []
            self._keyed("complaint", ", ".join([*before, text[teller[1] :].strip(" .")]), low[teller[1] :])
            return "complaint"
        if match is None:
            return self._unkeyed(text, low) or kind
        key = match.lastgroup if match.lastgroup != "value" else None
        key = next((name for name, value in match.groupdict().items() if name != "value" and value is not None), key)
        start = match.start("value")
        if key is not None and key not in ("aside",):
            self._keyed(key, text[start:].strip(), low[start:].strip())
        return key or kind

    def _unkeyed(self, text: str, low: str) -> str:
        """A line that begins with what the vehicle is ("Estate car, petrol, 2016"): "label", or "" for none; "told" for
        one that says what is wrong with it."""
        match = _VEHICLE.match(low) if len(low) <= 120 else None
        complaint = complaints.told(text, low)
        if complaint is not None:
            self.values.setdefault("complaint", complaint)
        if match is None:
            if complaint is not None:
                self._described(low)
            return "told" if complaint is not None else ""
        self.values.setdefault("label", text[match.start("label") : match.end("label")].strip())
        self._described(low)
        return "label"

    def _vin(self, text: str, low: str) -> bool:
        """A vehicle identification number: 17 letters and digits without I, O and Q (ISO 3779)."""
        if len(text) < 17:
            return False
        seen = False
        for match in _VIN.finditer(text.upper()):
            vin = match[1]
            digits = sum(c.isdigit() for c in vin)
            if (digits >= 3 and digits < 17 and vin[-3:].isdigit()) or _VIN_LABEL.search(low):
                seen = True
                if vin not in self.vins:
                    self.vins.append(vin)
                self.values.setdefault("vin", vin)
        label = _VIN_LABEL.match(low) if len(low) < 60 else None
        if label is not None and label[0] == "chassis":
            return seen or _NUMBER.match(low, label.end()) is not None
        return seen or label is not None

    def _keyed(self, key: str, value: str, low: str) -> None:
        """One key with its value."""
        if key == "complaint":
            self.values.setdefault("complaint", value)
        elif key == "label":
            self.values.setdefault("label", value)
            self._described(low)
        elif key == "model_year":
            year = _YEAR.search(low)
            if year is not None:
                self.values.setdefault("model_year", int(year[0]))
        elif key == "nominal":
            volts = _NOMINAL.search(low)
            if volts is not None:
                self.values.setdefault("nominal_volts", float(volts[1]))
        elif key == "batteries" and low[:2].strip().isdigit():
            self.values.setdefault("batteries", int(low[:2]))
        elif key in ("battery", "drive"):
            self._described(low)

    def _battery(self, low: str) -> None:
        """The type of a battery named anywhere in a line about the battery."""
        for value, pattern in _BATTERY:
            if re.search(pattern, low):
                self.values.setdefault("battery", value)
                return

    def _described(self, low: str) -> None:
        """Drive, battery, year and nominal voltage named in a description of the vehicle."""
        for name, table in (("drive", _DRIVE), ("battery", _BATTERY)):
            for value, pattern in table:
                if re.search(pattern, low):
                    self.values.setdefault(name, value)
                    break
        if vehiclekind.is_described_electric(low):
            self.values.setdefault("drive", "electric")
        year = _YEAR.search(low)
        if year is not None and _DAY_BEFORE.search(low[max(0, year.start() - 24) : year.start()]) is None:
            self.values.setdefault("model_year", int(year[0]))
        for volts in _NOMINAL.finditer(low):
            if nominal.is_meant(low, *volts.span()):
                self.values.setdefault("nominal_volts", float(volts[1]))
