"""Words for a vehicle that has an electric drive and no engine, in four languages.

>>> [is_electric(line) for line in (
...     "electric delivery van, parcels", "fourgon electrique de livraison. batterie remplacee hier",
...     "furgoneta de reparto electrica", "e-transporter, 2021", "elektro-kastenwagen")]
[True, True, True, True, True]
>>> [is_electric(line) for line in (
...     "van, electric tail lift dead", "jumped from an electric van", "hybrid electric bus",
...     "camion, hayon electrique")]
[False, False, False, False]
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily

#: What vehicles are called, English and German, then French and Spanish, where the kind stands behind.
_NOUN = (
    r"(?:vehicles?|vans?|minivans?|cars?|trucks?|lorry|lorries|bus(?:es)?|minibus(?:es)?|coach(?:es)?|tractors?|"
    r"ambulances?|sweepers?|refuse (?:truck|lorry)|taxis?|pick-?ups?|hatchbacks?|saloon|sedan|estate|suv|mpv|"
    r"forklifts?|loaders?|excavators?|telehandlers?|dumpers?|tugs?|scooters?|motorcycles?|motorhomes?|campers?|buggy|"
    r"shuttles?|tippers?)")
_ADJECTIVE = (
    r"(?:delivery|panel|box|city|school|town|small|large|light|heavy|compact|family|company|parcel|postal|refuse|"
    r"street|road|rental|tipper|refrigerated|commercial|utility|passenger|emergency|battery|crew|urban|articulated|"
    r"low-?floor|medium|rigid|service|hire|airport|yard|farm)")
_GERMAN = (
    r"(?:fahrzeuge?|autos?|wagen|pkw|lkw|(?:klein|nieder|nutz|liefer|kasten|mull|rettungs|streifen|post|"
    r"kranken|personen|last)(?:wagen|fahrzeug|bus|transporter)|transporter|lieferwagen|kastenwagen|bus(?:se)?|"
    r"linienbus|kleinbus|stadtbus|reisebus|kombi|stapler|gabelstapler|schlepper|traktor|kehrmaschine|radlader|bagger|van|"
    r"taxi|limousine|kleinwagen|roller|zugmaschine)")
_ROMANCE = (
    r"(?:vehicules?|voitures?|fourgons?|fourgonnettes?|camions?|camionnettes?|utilitaires?|autobus|bus|minibus|"
    r"autocars?|balayeuses?|ambulances?|citadine|berline|monospace|break|tracteurs?|chariots? elevateurs?|chargeuse|"
    r"pelleteuse|benne a ordures|"
    r"vehiculos?|coches?|furgonetas?|furgon(?:es)?|camion(?:es)?|camionetas?|turismos?|microbus|autocar|autobuses|"
    r"ambulancias?|barredoras?|tractor(?:es)?|carretillas?|monovolumen|utilitarios?|berlina|taxi)")
_USE = (
    r"(?: (?:de|du|a|pour|para|d)(?: |')(?:la |el |le |l')?[a-z]{3,14}| (?:100 ?%|tout|toute|totalmente|entierement|"
    r"compact[eo]?|leger|legere|urbain|urbaine|urbano|urbana|frigorifique|frigorifico|frigorifica|utilitaire|"
    r"industrial|ligero|ligera|pequen[oa]|grand|grande|petit|petite|blanc|blanche|blanc[oa]|municipal))")
_KIND = lazily(
    rf"(?<![a-z-])(?:(?:(?:all|fully|full|pure(?:ly)?|battery)[- ])?electric (?:{_ADJECTIVE} ){{0,2}}{_NOUN}|"
    rf"(?:e-|b?ev[- ](?:{_ADJECTIVE} ){{0,2}}){_NOUN}|"
    rf"{_NOUN},? \(?(?:(?:battery|fully|all|pure(?:ly)?)[- ]electric|bev)|"
    rf"{_NOUN}(?:, | \(|/ ?)electric(?= ?(?:[,;.)/]|$))|"
    rf"battery[- ]electric|bev|(?:voll)?elektrisch(?:e[rsn]?)? (?:betriebene[rsn]? )?{_GERMAN}|"
    rf"(?:elektro[ -]?|e-)(?:{_GERMAN}|mobil)|{_GERMAN},? \(?(?:mit (?:elektroantrieb|e-antrieb)|"
    rf"(?:voll|rein |batterie)elektrisch|elektro(?= ?(?:[,;.)/]|$)))|"
    rf"{_ROMANCE}(?:{_USE}){{0,2}},? \(?(?:electriques?|electric[oa]s?|a batterie de traction))"
    r"(?![a-z])")
#: A part of such a vehicle's name is none: "electric truck tail lift", "electric vehicle inlet".
_PART = lazily(
    r"[- ](?:doors?|seats?|lifts?|ramps?|windows?|mirrors?|heater|heating|control|module|unit|controller|communication|"
    r"socket|steps?|tail|brakes?|horn|pumps?|kit|roof|bars?|fan|hoist|crane|winch|steering|charger|charging|"
    r"supply equipment|inlet|converter|compressor)(?![a-z])")
#: What stands before a vehicle that is another one, or none.
_OTHER = lazily(
    r"(?<![a-z])(?:from|by|off|with|behind|like|against|not|no|another|other|donor|von|mit|durch|kein|keine|keinem|par|"
    r"avec|depuis|pas|contre|por|con|desde|ningun|ninguna|otro|otra|autre)"
    r":?(?: (?:an?|the|our|my|einem|einen|einer|ein|eine|dem|un|une|una|el|la|le|"
    r"nuestr[oa]|otro|otra|autre|donor|other))? $")
_HYBRID = lazily(r"(?<![a-z])(?:plug-?in|p?hev|hybrid[a-z]{0,8}|hibrid[oa]s?)(?![a-z])")
#: The kind alone in a description of the vehicle, between its commas, or behind the key for it.
_WORD = (r"(?:(?:battery|fully|all|pure(?:ly)?)[- ])?(?:electric(?: drive)?|(?:voll|rein |batterie)?elektrisch|"
         r"elektro(?:antrieb)?|e-antrieb|electrique|electric[oa]|b?ev)")
_ALONE = lazily(rf"(?:^|[,;/(|:])\s{{0,2}}{_WORD}(?=\s{{0,2}}(?:[,;/)|]|$))")
#: Every text that is meant holds one of these.
_SIGNS = ("electri", "elektr", "bev", "ev ", "ev-", "e-", "batterie de traction")


def is_electric(low: str) -> bool:
    """Whether a line in small letters without accents says that the vehicle at hand is electric."""
    if not any(sign in low for sign in _SIGNS) or _HYBRID.search(low):
        return False
    return any(
        _PART.match(low, found.end()) is None and _OTHER.search(low, max(0, found.start() - 24), found.start()) is None
        for found in _KIND.finditer(low))


def is_described_electric(low: str) -> bool:
    """Whether a description of the vehicle in small letters says so, be it with the kind alone.

    >>> is_described_electric("transporter 35, elektrisch, 2021"), is_described_electric("camion, hayon electrique")
    (True, False)
    """
    return is_electric(low) or (_HYBRID.search(low) is None and _ALONE.search(low) is not None)


__all__ = ["is_described_electric", "is_electric"]
