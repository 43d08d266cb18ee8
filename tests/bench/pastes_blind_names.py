"""Names of modules as technicians and printouts write them, for invented texts.

One line a group: ``group | abbreviations | long names | names in talk | German | French | Spanish``. The groups are
this bench's own and no list of the program.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

_LINES = """
engine|ECM;PCM;ECU;EMS|Engine control module;Engine electronics;Engine management;Powertrain control module|engine;\
engine ecu;motor ecu|Motorelektronik;Motorsteuergerät|Calculateur moteur;Gestion moteur|\
Control de motor;Gestión del motor
transmission|TCM;TCU|Transmission control module;Gearbox electronics;Automatic transmission|gearbox;transmission;trans|\
Getriebeelektronik;Getriebesteuergerät|Boîte de vitesses automatique|Caja de cambios automática;Módulo de transmisión
abs|ABS;ABS/ESP;ESP|Anti-lock brake module;Brake electronics;ABS/ESP control module;Brake control module|brakes;abs|\
Bremsenelektronik;ABS-Steuergerät|Calculateur ABS;Freinage ABS|Frenos ABS;Módulo ABS
airbag|SRS;ACM;RCM|Airbag control module;Restraint control module;Supplemental restraint system|airbag;airbags;srs|\
Airbag;Airbagsteuergerät|Calculateur airbag;Airbags|Módulo airbag;Airbag
bcm|BCM|Body control module;Central electronics;Body computer|body module;bcm;body controller|\
Zentralelektronik;Bordnetzsteuergerät|Boîtier habitacle;Calculateur habitacle|Módulo de carrocería;Unidad de carrocería
cluster|IPC;IC;ICM|Instrument cluster;Instrument panel cluster;Instruments|cluster;dash;instrument cluster|\
Kombiinstrument;Schalttafeleinsatz|Combiné d'instruments;Tableau de bord|Cuadro de instrumentos
gateway|GWM;CGW;GW|Gateway;Central gateway;Gateway module|gateway|Gateway;Diagnoseinterface|Passerelle|Gateway;Pasarela
hvac|HVAC;CCM;ATC|Climate control;Air conditioning;HVAC control module|climate;a/c;heater panel|\
Klimaanlage;Klimabedienteil|Climatisation|Climatizador;Aire acondicionado
eps|EPS;PSCM|Power steering;Electric power steering;Steering assistance|power steering;steering|\
Lenkhilfe;Servolenkung|Direction assistée|Dirección asistida
epb|EPB;PBM|Electric parking brake;Parking brake module|handbrake;park brake;parking brake|\
Feststellbremse;Elektrische Parkbremse|Frein de stationnement|Freno de estacionamiento
sas|SAS|Steering angle sensor|steering angle sensor|Lenkwinkelsensor|Capteur d'angle volant|\
Sensor de ángulo de dirección
column|SCM;SCCM|Steering column module;Steering column electronics|column switch module;steering column|\
Lenksäulenelektronik|Module colonne de direction|Módulo de columna de dirección
tpms|TPMS;TPM|Tyre pressure monitor;Tire pressure monitoring|tyre pressure;tpms|\
Reifendruckkontrolle|Pression des pneus|Presión de neumáticos
frontdoor|DDM;PDM|Driver door module;Passenger door module|driver door;passenger door|\
Türelektronik Fahrer;Türelektronik Beifahrer|Porte conducteur;Porte passager|Puerta conductor;Puerta acompañante
reardoor|RLDM;RRDM|Rear left door module;Rear right door module|left rear door;right rear door|\
Türelektronik hinten links;Türelektronik hinten rechts|Porte arrière gauche;Porte arrière droite|\
Puerta trasera izquierda;Puerta trasera derecha
seat|DSM|Driver seat module;Seat memory driver|driver seat;seat memory|Sitzverstellung Fahrer|Siège conducteur|\
Asiento conductor
radio|ACU;AHU|Audio unit;Radio;Head unit|radio;head unit|Radio|Autoradio;Radio|Radio
telematics|TEL;TBM|Telematics;Telematics module;Emergency call module|telematics box;telematics|\
Telematik;Notrufmodul|Télématique|Telemática
amp|AMP;DSP|Audio amplifier;Digital sound amplifier|amp;amplifier|Audioverstärker|Amplificateur audio|\
Amplificador de audio
display|CID;FDM|Central display;Front display|centre screen;display|Zentraldisplay|Écran central|Pantalla central
parkaid|PAM;PDC|Parking aid;Park assist module;Park distance control|parking sensors;parking aid|\
Einparkhilfe|Aide au stationnement|Ayuda al aparcamiento
rearcam|RVC|Rear view camera;Reversing camera|reversing camera;rear camera|Rückfahrkamera|Caméra de recul|Cámara trasera
frontcam|FCM|Front camera;Front camera module|front camera|Frontkamera|Caméra avant|Cámara delantera
radar|ACC;FRM|Front radar;Distance control;Adaptive cruise control|front radar;acc|Abstandsregelung|Radar avant|\
Radar delantero
blind|BSML;BSMR|Blind spot module left;Blind spot module right|left blind spot;right blind spot|\
Spurwechselassistent links;Spurwechselassistent rechts|Angle mort gauche;Angle mort droit|\
Ángulo muerto izquierdo;Ángulo muerto derecho
lamp|HLL;HLR|Headlamp left;Headlamp right|left headlamp;right headlamp|Scheinwerfer links;Scheinwerfer rechts|\
Projecteur gauche;Projecteur droit|Faro izquierdo;Faro derecho
levelling|HLM;AFS|Headlamp levelling;Adaptive front lighting|headlamp levelling|Leuchtweitenregelung|\
Correction des projecteurs|Regulación de faros
tailgate|PLG;LGM|Power liftgate;Tailgate module|tailgate;power tailgate|Heckklappe;Heckdeckelelektronik|\
Hayon électrique|Portón trasero
sunroof|SRM|Sunroof;Roof module|sunroof|Schiebedach|Toit ouvrant|Techo solar
trailer|TRM;TIM|Trailer module;Towing module|trailer module;tow bar module|Anhängerfunktion;Anhängersteuergerät|\
Module d'attelage|Módulo de remolque
heater|AHM;FFH|Auxiliary heater;Parking heater|aux heater;parking heater|Standheizung;Zusatzheizung|\
Chauffage additionnel|Calefacción auxiliar
immo|IMMO|Immobiliser;Immobilizer|immobiliser;immo|Wegfahrsperre|Antidémarrage|Inmovilizador
keyless|KVM;RFA;PEPS|Keyless entry;Passive entry module;Remote function module|keyless module;keyless|\
Komfortzugang;Zugangs- und Startsystem|Accès sans clé|Acceso sin llave
bms|BMS;IBS|Battery monitoring;Battery sensor;Intelligent battery sensor|battery sensor;battery monitor|\
Batterieüberwachung;Batteriesensor|Capteur de batterie|Sensor de batería
obc|OBC|On-board charger;Onboard charger|onboard charger;charger|Ladegerät;Bordladegerät|Chargeur embarqué|\
Cargador de a bordo
dcdc|DCDC;LDC|DC/DC converter;Low voltage converter|dc-dc;dc/dc converter|Spannungswandler DC/DC|\
Convertisseur DC/DC|Convertidor DC/DC
inverter|MCU;INV|Motor inverter;Drive motor control;Traction inverter|inverter;traction inverter|\
Antriebsumrichter;Elektroantrieb|Onduleur de traction|Inversor de tracción
hvbattery|BECM;BMC|Battery energy control module;High voltage battery;Traction battery control|\
hv battery;traction battery|\
Hochvoltbatterie;Batterieregelung|Batterie de traction|Batería de alta tensión
glow|GPCM;GCU|Glow plug control;Glow plug module|glow plug module;glow plugs|Glühzeitsteuergerät|\
Préchauffage|Módulo de precalentamiento
fuelpump|FPCM;FPDM|Fuel pump control module;Fuel pump module|fuel pump module|\
Kraftstoffpumpe;Kraftstoffpumpensteuerung|\
Pompe à carburant|Bomba de combustible
transfer|TCCM;ATCM|Transfer case control module;Transfer case|transfer case;transfer box|\
Verteilergetriebe|Boîte de transfert|Caja de transferencia
awd|AWD;RDM|All-wheel drive module;Rear differential module|awd module;rear diff|Allradelektronik|\
Transmission intégrale|Tracción total
suspension|ASM;SUM|Air suspension;Level control;Suspension control|air suspension;suspension|\
Niveauregelung;Luftfederung|Suspension pneumatique|Suspensión neumática
scr|RCU;DCU|Reductant control;SCR module;Dosing control unit|urea unit;scr unit|Abgasnachbehandlung|\
Dosage réducteur|Dosificación de reductor
wiper|WWM|Wiper module;Windscreen wiper module|wiper module;wipers|Wischermotor|Essuie-glace|Limpiaparabrisas
rain|RLS|Rain light sensor;Rain sensor|rain sensor|Regensensor;Regen-Licht-Sensor|Capteur de pluie|Sensor de lluvia
hud|HUD|Head-up display|head up display|Head-up-Display|Affichage tête haute|Head-up display
ocs|OCS;OWS|Occupant classification;Seat weight sensing|seat occupancy module|Sitzbelegungserkennung|\
Détection d'occupant|Detección de ocupante
fusebox|PDM2;BJB|Power distribution module;Battery junction box|power distribution box;junction box|\
Stromverteiler|Boîtier fusibles|Caja de distribución
rearhvac|RHVAC|Rear climate control;Rear air conditioning|rear climate|Klimaanlage hinten|Climatisation arrière|\
Climatizador trasero
"""
_TRUCK = """
truckengine|EECU;EDC;ECM|Engine #1;Engine control unit;Engine ECU|engine|Motorregelung|Calculateur moteur|\
Unidad de motor
truckbrake|EBS;ABS|Brakes - system controller;Electronic brake system;EBS brake control|brakes;ebs|\
Elektronisches Bremssystem|Système de freinage EBS|Sistema de frenos EBS
trucktrans|TECU;TCU|Transmission #1;Gearbox control unit|gearbox|Getriebesteuerung|Boîte de vitesses|Caja de cambios
truckcluster|ICL;ICU|Instrument cluster #1;Instrument cluster|cluster;dash|Instrument|Tableau de bord|\
Cuadro de instrumentos
retarder|RET;RECU|Retarder - driveline;Retarder control|retarder|Retarder|Ralentisseur|Retardador
tacho|TCO;TACHO|Tachograph;Digital tachograph|tacho;tachograph|Fahrtenschreiber|Tachygraphe|Tacógrafo
ecas|ECAS;ASU|Suspension - system controller #1;Air suspension control|air suspension|Niveauregelung|\
Suspension pneumatique|Suspensión neumática
cab|CECU;CCU|Cab controller - primary;Cab control unit|cab controller|Fahrerhaus|Contrôleur de cabine|\
Controlador de cabina
acm|ACM;EATS|Aftertreatment #1 gas outlet;Aftertreatment control module|aftertreatment|Abgasnachbehandlung|\
Post-traitement|Postratamiento
vcu|VECU;VCU|Vehicle control unit;Chassis controller #1|vehicle control unit|Fahrzeugrechner|\
Calculateur véhicule|Unidad de vehículo
body|BBM;BECU|Body controller;Body builder module|body builder module|Aufbausteuergerät|\
Module carrossier|Módulo carrocero
lights|LCM|Lighting - operator controls;Light control module|light control module|Lichtsteuerung|\
Module d'éclairage|Módulo de luces
truckheater|AHT;HTR|Auxiliary heater #1;Cab heater|cab heater|Standheizung|Chauffage autonome|Calefacción autónoma
"""
FAMILIES = {"abbr": 1, "long": 2, "talk": 3, "de": 4, "fr": 5, "es": 6}
ADDRESSES = {"engine": 1, "transmission": 2, "abs": 3, "airbag": 15, "cluster": 17, "gateway": 19, "bcm": 9, "hvac": 8}


def _read(lines: str) -> dict[str, list[list[str]]]:
    out = {}
    for line in lines.strip().splitlines():
        fields = line.split("|")
        out[fields[0]] = [[fields[0]], *[[n.strip() for n in field.split(";")] for field in fields[1:]]]
    return out


CARS, TRUCKS = _read(_LINES), _read(_TRUCK)
PAIRED = {"frontdoor", "reardoor", "blind", "lamp"}
ELECTRIC = {"obc", "dcdc", "inverter", "hvbattery"}
COMBUSTION = {"engine", "transmission", "glow", "fuelpump", "transfer", "scr"}


@dataclass(frozen=True)
class Name:
    """One module of one vehicle: its group, the name as printed, and a number printed before or after it."""

    group: str
    printed: str
    short: str
    number: str = ""


def fleet(rng: random.Random, kind: str, family: str, count: int) -> list[Name]:
    """``count`` modules of one vehicle, in the order a printout would give them, all names in one family."""
    source = TRUCKS if kind == "truck" else CARS
    drop = {"electric": COMBUSTION, "van": ELECTRIC, "car": ELECTRIC, "truck": set()}[kind]
    groups = [g for g in source if g not in drop]
    weights = [4.0 if index < 12 else 1.0 for index in range(len(groups))]
    chosen: list[str] = []
    while len(chosen) < min(count, len(groups)):
        group = rng.choices(groups, weights)[0]
        if group not in chosen:
            chosen.append(group)
    if rng.random() < 0.6:
        chosen.sort(key=groups.index)
    out: list[Name] = []
    for group in chosen:
        names, shorts = source[group][FAMILIES[family]], source[group][1]
        if group in PAIRED:
            sides = (0, 1) if rng.random() < 0.4 else (rng.randrange(2),)
        else:
            sides = (rng.randrange(len(names)),)
        for side in sides:
            side = min(side, len(names) - 1)
            out.append(Name(group, names[side], shorts[min(side, len(shorts) - 1)], f"{len(out) + 1:02d}"))
    return _distinct(out)


def _distinct(names: list[Name]) -> list[Name]:
    """Without a name that repeats another one of the same vehicle."""
    seen: set[str] = set()
    out = []
    for name in names:
        if name.printed.casefold() not in seen:
            seen.add(name.printed.casefold())
            out.append(name)
    return out
