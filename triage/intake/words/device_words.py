"""What the last word of a noun phrase tells that may be the name of a module which no table lists: a device that may
have a control unit of its own, or somebody or something that answers no tester. In small letters without accents.

Sources: common practice in English, German, French and Spanish.
"""

from __future__ import annotations

from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.words.answerwords import UNIT
from triage.intake.words.module_words import FILLERS, SIDES
from triage.intake.words.work_words import PARTS

#: Names of modules end, or begin, with one of these.
KINDS = FILLERS | word_set("electronics electronic controller computer box elektronik electronique electronica")
_DEVICES = KINDS | UNIT - word_set("address adresse") | word_set("""
    motor motors drive drives actuator actuators pump pumps heater heaters cooler coolers lift lifts winch winches
    hoist camera cameras screen screens display displays monitor board boards gauge gauges meter meters tracker
    trackers logger loggers recorder counter counters array sensor sensors hub hubs node nodes reader readers printer
    panel panels pad keypad joystick console terminal transmitter receiver transceiver antenna beacon router modem
    bridge gateway switchboard dispenser compressor blower fan valve valves feeder conveyor crane ramp platform awning
    scale scales weigher inverter converter radar lidar clock timer server dock interface amplifier retractor
    tensioner pretensioner projector projectors fridge freezer refrigerator acquisition immobiliser immobilizer
    siren tachograph regulator
    antrieb stellantrieb steller stellmotor aktor aktuator pumpe heizung winde kamera bildschirm anzeige platine
    zahler zaehler schreiber leser lesegerat waage geber sensoren knoten verteiler drucker sender empfanger empfaenger
    projektor kuhlschrank kuehlschrank kuhlbox kuehlbox kippung wegfahrsperre
    konsole bedienteil regler rechner geblase kompressor lufter ventil wandler schnittstelle
    moteur entrainement actionneur verin pompe chauffage rechauffeur treuil ecran carte jauge compteur traceur
    enregistreur lecteur capteur capteurs noeud afficheur tableau pupitre imprimante emetteur recepteur balance
    projecteur refrigerateur glaciere regulateur maintien
    peseuse ventilateur vanne compresseur convertisseur boitier passerelle horloge
    accionamiento actuador bomba calefactor calefaccion elevador cabrestante torno camara pantalla placa indicador
    contador rastreador registrador lector nodo concentrador caja sensores captador impresora consola emisor receptor
    proyector nevera frigorifico regulador
    bascula ventilador valvula compresor convertidor pasarela reloj
""")
#: The same at the end of a German word with more before it.
_DEVICE_ENDS = (
    "motor", "antrieb", "steller", "aktor", "aktuator", "pumpe", "heizung", "winde", "lift", "kamera", "schirm",
    "anzeige", "display", "platine", "zahler", "zaehler", "schreiber", "leser", "waage", "geber", "sensor", "sensorik",
    "knoten", "verteiler", "drucker", "sender", "empfanger", "empfaenger", "konsole", "regler", "rechner", "geblase",
    "kompressor", "lufter", "ventil", "wandler", "tracker", "logger", "radar", "monitor", "elektronik", "steuerung",
    "modul", "einheit", "box", "kasten",
)
#: What is looked at or reached with a hand. It has no codes, but a module may be called after it.
_THINGS = PARTS | word_set("""
    battery batteries batt akku batterie batterien bateria baterias booster pack donor strap bolt bolts screw screws
    nut clip clips bracket hose pipe rope housing cover filter belt belts glass handle pedal pedals lever key keys
    keyfob ignition starter socket post posts tray seal tank tyre tyres wheel wheels voltage volts current load draw
    power signal data line lines bus can network side end way point points
""") - word_set("feed terminal terminals")
#: Who may not answer, what is reached with a tester as a whole, and what is told of besides.
_OTHERS = _THINGS | word_set("""
    scan scans rescan read reading readout test tests check run time try attempt attempts code codes fault faults dtc
    dtcs total sum list lists report result results rest all everything everyone anyone anybody anything someone
    somebody nobody none update software hardware app tool tools tester testers scanner scantool phone mobile
    telephone call mail email internet wifi cloud
    it them him her us me you other others now then again today yesterday tomorrow morning evening night
    van car truck lorry vehicle vehicles coach minibus tractor pickup trailer machine camper caravan auto wagen
    fahrzeug fahrzeuge traktor anhanger voiture vehicule camion tracteur remorque coche vehiculo remolque
    customer customers owner owners driver drivers
    client clients operator operators keeper buyer seller dealer dealers dealership garage workshop shop office desk
    department boss manager foreman mechanic mechanics technician technicians tech colleague colleagues apprentice guy
    guys man woman lady wife husband son father neighbour fitter sparky electrician supplier suppliers manufacturer
    maker hotline helpline helpdesk support service company firm insurance insurer breakdown recovery shift team crew
    people person user reception receptionist dispatcher dispatch headquarters agent expert builder bodybuilder
    coachbuilder
    kunde kunden kundin fahrer fahrern fahrerin halter halters besitzer vorbesitzer eigentumer werkstatt meister chef
    kollege kollegen monteur mechaniker lehrling handler handlers haendler lieferant hersteller zentrale disponent
    kundendienst verkaufer niemand keiner diagnosegerat ladegerat starthilfe schlussel zundung spannung strom handy
    telefon leitstelle buro schicht schrauben schraube keilriemen schlauch rad rader
    cliente proprietaire chauffeur conducteur garagiste atelier patron collegue mecanicien technicien fournisseur
    constructeur concessionnaire vendeur assistance personne valise testeur chargeur cle contact tension courant
    bureau equipe vis courroie durite roue pedale clientes dueno duena propietario propietaria conductor chofer taller
    jefe companero mecanico tecnico proveedor fabricante concesionario vendedor asistencia nadie persona cargador
    llave contacto corriente telefono oficina turno equipo tornillo correa manguera rueda maquina
""")
_PERSONS = _OTHERS - _THINGS
_OTHER_ENDS = (
    "stecker", "kabel", "kabelbaum", "batterie", "akku", "lampe", "leuchte", "sicherung", "relais", "leitung", "punkt",
    "kunde", "fahrer", "halter", "besitzer", "werkstatt", "schlussel", "spannung", "masse", "meister", "kollege",
    "schraube", "klemme", "wagen", "fahrzeug", "riemen", "schlauch", "schalter", "taster", "service", "dienst",
    "lieferant", "handler", "hersteller", "bearbeiter", "leiter",
)
#: Behind what a thing is in French and in Spanish, before what it is of.
_OF = word_set("de du del des d a au aux pour para of for en")
_LONGEST_END = 4


def _heads(parts: tuple[str, ...]) -> tuple[str, ...]:
    """The word that says what a phrase is, behind or before those that say which, and before its side."""
    while len(parts) > 1 and parts[-1] in SIDES:
        parts = parts[:-1]
    at = next((at for at, word in enumerate(parts) if at and word in _OF), len(parts))
    return (parts[at - 1], parts[0]) if at < len(parts) else parts[-1:]


def is_device(low: str) -> bool:
    """Whether a noun phrase is a device that may have a control unit of its own.

    >>> [is_device(low) for low in ("awning motor", "markisenmotor", "moteur de store", "motor relay", "modul led 2")]
    [True, True, True, False, True]
    """
    parts = plain_words(low.rstrip("0123456789 "))
    if len(parts) > 1 and low[-1:].isdigit() and len(parts[-1]) < _LONGEST_END:
        # "Leistungsmodul LED 2"
        parts = parts[:-1]
    heads = _heads(parts) if parts else ("",)
    return any(word in _DEVICES or (len(word) > _LONGEST_END and word.endswith(_DEVICE_ENDS)) for word in heads) and (
        heads[0] not in _OTHERS)


#: Alone somebody, or the vehicle; with what it makes or drives before it a device: "ice machine", "LED driver".
_MADE = word_set("machine machines maker makers maquina")
_DRIVERS = word_set("driver drivers")
_DRIVEN = word_set("led leds belt light lights lamp headlamp headlight injector motor display relay valve coil screen "
                   "output stage")


def _makes(parts: tuple[str, ...]) -> bool:
    """Whether a phrase of several words ends, or begins in French and Spanish, as such a device is called."""
    return len(parts) > 1 and (_heads(parts)[0] in _MADE or (parts[-1] in _DRIVERS and parts[-2] in _DRIVEN))


def is_other(low: str, coded: bool = False) -> bool:
    """Whether a noun phrase is of somebody, or of a thing, that answers no tester. ``coded``: it is told to have codes,
    as a module called after some thing may.

    >>> [is_other(low) for low in ("rear connector", "previous owner", "battery monitor", "battery flat", "tow arm")]
    [True, True, False, True, False]
    >>> [is_other(low) for low in ("coffee maker", "led driver", "machine", "truck driver", "machine a cafe")]
    [False, False, True, True, False]
    """
    parts = plain_words(low)
    if _makes(parts):
        return False
    if coded and len(parts) > 1 and _heads(parts)[0] not in _PERSONS:
        return not _PERSONS.isdisjoint(parts)
    if not parts or "test" in parts or (head := _heads(parts)[0]) in _OTHERS or head.endswith(_OTHER_ENDS):
        return True
    return not is_device(low) and not _OTHERS.isdisjoint(parts)


__all__ = ["KINDS", "is_device", "is_other"]
