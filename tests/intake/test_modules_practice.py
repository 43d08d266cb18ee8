"""Module names as workshop printouts write them, and what must not be taken for a module. Source: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.naming.modules import is_module_name, resolve

TABLES = load()

# canonical < written ; written ; ...
WRITTEN = """
engine control < DME ; DDE - Digital diesel electronics ; UCE motor ; Calculateur moteur (ECM) ; 01-Engine Electronics
engine control < 0x7E0 ECM ; 7E8 - Engine ; ECM 3 codes: ; Engine ...... 2 ; ENGINE CM ; Address 01: Engine
engine control < Centralita de motor ; Steuergerät Motor ; Motor-Elektronik ; ECM - 2 faults ; ECU moteur ; 11 PCM
engine control < Motorsteuerungsmodul ; Unité de commande moteur ; Einspritzung ; Engine controller ; Moteur 4 défauts
transmission control < EGS ; Getriebeelektronik ; UCE boîte de vitesses ; 02-Auto Trans ; Trans. control unit ; A/T
transmission control < Automatic Trans. CM ; Unidad de control del cambio ; TCM: 1 DTC ; Elektronische Getriebesteuerung
transfer case < VTG ; Xfer case ; Verteilergetriebe-Steuergerät ; Transfer case CM
all-wheel drive < AWD coupling ; 22-AWD ; Allradelektronik ; 4WD control unit ; Tracción 4x4
gear shift A < Schaltmodul ; Gear selector ; 81-Gear Shift ; Wählhebelmodul
anti-lock brakes < 03-ABS Brakes ; ABS CM ; Bremsenelektronik ; UCE ABS ; Bloc ABS ; ABS (2 codes) ; Skid control ECU
anti-lock brakes < Calculateur de freinage ; Módulo ABS ; Frenos antibloqueo ; ABS/EDS ; Anti Lock Brake System
anti-lock brakes < EBCM - ABS ; ABS box ; ABS pump ; abs block ; ABS brain
restraints < airbag box ; restraints box
vehicle dynamics < DSTC ; Fahrstabilitätsregelung ; ESP unit control ; Contrôle de trajectoire ; Programa de estabilidad
brake system < E-booster ; Brake servo ; Elektromechanischer Bremskraftverstärker
park brake < E-brake ; EPB 1 fault ; 53-Parking Brake ; Feststellbremsenelektronik ; Frein de parking automatique
park brake < Freno de mano eléctrico
suspension < Niveauregelung ; 34-Level Control ; Luftfahrwerk ; Correcteur d'assiette ; Regulación de nivel
tyre pressure < RDKS ; 65-Tire Pressure ; RDC ....... 1 ; Reifendruckregelung ; Presión de los neumáticos
tyre pressure < Sous-gonflage
power steering < 44-Steering assist ; EPS CM ; Lenkungselektronik ; Direction électrique ; Dirección electromecánica
active steering < AFS - Active Steering ; Active front steering (AFS) ; Aktivlenkung
steering angle sensor < LWS ; Lenkwinkel ; Angle volant ; Sensor del volante
steering column < Schaltzentrum Lenksäule ; SZL ; 16-Steering Wheel ; Commodos ; Haut de colonne ; Lenkstockmodul
restraints < 15-Airbags ; UCE airbag ; Airbagelektronik ; Airbag - 3 Fehler ; SRS CM ; Sécurité passive ; ACSM
occupant classification < Passenger detection ; PODS ; Sitzbelegungsmatte ; Occupant sensor ; Détection passager
hybrid powertrain < EVCU ; VCU ; Hybridelektronik ; Calculateur hybride ; HV ECU ; EV-ECU
drive motor A < E-machine electronics ; Motor inverter ; Leistungselektronik ; Machine électrique ; E-motor
drive motor B < Rear e-axle ; E-Maschine 2 ; Rear inverter
battery energy control < Batería HV ; HV-Speicher ; BMS batterie de traction ; Traction battery ; BECM ; EV battery ECU
DC/DC converter < 14V DC/DC ; 12 V DC/DC converter ; DC/DC-Wandler ; Convertisseur de tension
battery charger < Bordladegerät ; HV charger ; OBC module ; Chargeur embarqué ; Cargador interno ; On-Board-Ladegerät
charge port < Ladedose ; Port de charge ; EVCC ; DC fast charge
electric compressor < HV A/C compressor ; eAC compressor ; E-compressor ; Elektrischer Klimakompressor ; EKK ; A/C comp.
high voltage heater < HVCH ; PTC-Zuheizer ; High voltage coolant heater
battery monitor < Elektronischer Batteriesensor ; IBS - Battery sensor ; Gestion énergie ; Monitor de batería
starter/generator < 48-V starter generator ; Riemenstartergenerator ; BSG
power distribution < Underhood fuse box module ; Stromverteilung ; IPDM ; Sicherungs- und Relaismodul ; Caja de relés
gateway < 19-CAN Gateway ; Zentrales Gateway ; Puerta de enlace ; ZGW ; Passerelle centrale ; CAN-Gateway
body control < BSI ; Boîtier de servitude ; Bordnetzsteuergerät ; Body domain controller ; 09-Cent. Elect. ; UCH
body control < 09 - Central electrics ; Karosserieelektronik ; Central body electronics ; UCE habitacle
instrument cluster < 17-Instruments ; Kombi-Instrument ; Tableau de bord numérique ; Cuadro de instrumentos ; IPC 0x720
immobiliser < 25-Immobilizer ; EWS ; Antidémarrage codé ; Wegfahrsperren-Steuergerät ; Inmovilizador motor
keyless entry < Zugang/Start ; Entrée sans clé ; Smart entry ; Access and start ; Comfort access ; Keyless entry CM
door, driver < 42-Door Elect, Driver ; Türmodul Fahrer ; Módulo puerta conductor ; Porte côté conducteur
door, passenger < 52-Door Elect, Pass. ; pass door ; Türelektronik Beifahrer ; Puerta acompañante
door, front left < Tür VL ; Tür vo. li. ; Door module LF ; porte AVG ; Puerta delantera izq. ; Türmodul vorn links
door, front left < Door NSF
door, rear right < Tür HR ; Tür hi. re. ; RR door ; porte ARD ; Puerta trasera dcha
door, left < Door L/H ; LH door module
seat, driver < 36-Seat Mem, Drvr ; Sitzmemory ; Sitzmodul Fahrer ; Siège à mémoire
seat, passenger < Seat Mem, Pass ; Sitzmodul Beifahrer
power tailgate < Heckklappenelektronik ; Boot lid control ; Hayon motorisé ; Portón trasero eléctrico
folding top < Roof (convertible) ; 26-Auto Roof ; Verdeckelektronik ; Soft top ; Capote
headlamp, left < Frontscheinwerfer links ; LED-Modul links ; Phare gauche ; Headlamp LH ; Headlight nearside
headlamp, right < Frontscheinwerfer rechts ; Projecteur avant droit ; Faro dcho
headlamp levelling < 55-Xenon Range ; Correcteur de site ; Leuchtweite ; Alcance de faros ; Headlight leveling control
cruise control < Tempomat ; Régulateur de vitesse ; Control de crucero
front distance sensor < 13-Distance Reg ; Abstandsradar ; Capteur de distance avant ; ACC radar ; Sensor de distancia
side obstacle, left < Toter Winkel links ; Left BSM radar ; Blind spot sensor, left ; Radar d'angle mort gauche
side obstacle, right < Toter Winkel rechts ; SOD right
parking assist < Reverse sensing ; Ayuda de aparcamiento ; Parksensoren ; Aide au stationnement arrière ; PDC CM
camera, rear < 6C-Back-up Cam. ; Rückfahrkamera ; Caméra de recul ; Reversing cam
surround view < Umfeldkamera ; Rundumsicht ; 360 camera ; Caméra 360
climate control < 08-Auto HVAC ; Heater/climate ; Klimaelektronik ; IHKA ; Klimabedienteil ; HVAC ECU ; Calculateur clim
auxiliary heater < 18-Aux. Heat ; Standheizung ; Parking heater ; Chauffage additionnel
reductant < SCR/DEF ; DEF module
glow plug < Vorglühsteuergerät ; Glow plug relay module ; Boîtier préchauffage
trailer < 69-Trailer ; Anhängerfunktion ; Towbar module ; Boîtier attelage ; Módulo de remolque
radio < 56-Radio ; Autoradio ; Head unit ; Radiosteuergerät ; Équipo audio
telephone < 77-Telephone ; Bluetooth phone ; Freisprechanlage
navigation < 37-Navigation ; Navigationsrechner
amplifier < Digital sound amplifier ; Soundverstärker ; Ampli audio
telematics < eCall ; Notrufmodul ; Boîtier télématique ; Telematik-Steuergerät
central locking < Zentralverriegelung ; Central locking ; Verrouillage centralisé ; Cierre centralizado
engine control < Motore ; Centralina motore ; Motorregeling ; Motorregelapparaat ; Gestão do motor ; Sterownik silnika
engine control < Motorstyrenhet ; Engine mgmt ; Eng mgt ; Elektronika silnika ; Unidade de controle do motor
transmission control < Centralina cambio ; Versnellingsbak ; Caixa de câmbio ; Skrzynia biegów ; Växellåda
anti-lock brakes < Freni ; Remmen ; Freios ; Układ hamulcowy ; uklad hamulcowy ; Bromsar
power steering < Servosterzo ; Stuurbekrachtiging ; Direção assistida ; Wspomaganie kierownicy ; Servostyrning
instrument cluster < Quadro strumenti ; Instrumentenpaneel ; Painel de instrumentos ; Zestaw wskaźników ; Instr clstr
trailer < Trekhaak ; Rimorchio ; Reboque ; Hak holowniczy ; Dragkrok
hybrid powertrain < Vehicle control ; Vehicle controller
restraints < Restrnts ; Poduszki powietrzne ; Krockkudde ; Airbagsysteem
door, front left < Porta anteriore sinistra ; Deur linksvoor ; Porta dianteira esquerda ; Dörr vänster fram
gateway < gtwy ; Gtwy mod
parking assist < prkng assist ; Parkeerhulp ; Sensori di parcheggio
"""
PAIRS = [(name.strip(), line.partition(" < ")[0])
         for line in WRITTEN.strip().splitlines() for name in line.partition(" < ")[2].split(" ; ")]


@pytest.mark.parametrize(("name", "module"), PAIRS)
def test_written_name(name: str, module: str) -> None:
    assert resolve(name, TABLES).canonical == module


@pytest.mark.parametrize("text", [
    "Sam", "etc", "RAS", "Cabrio", "Limpia", "Schaltung",
    "Monday", "Montag", "lundi", "martes", "January", "März", "Detected", "possible", "telephone number", "Distance",
    "Mileage", "Trip", "Boot", "Alarm history", "Traction", "Weight", "central", "digital", "Leistung",
    "Drehzahlregelung", "Zentral", "2 ECUs", "3 codes", "12-Monkeys", "00-Total", "Order 5613", "Customer", "Heck",
    "Software version", "Switches", "Controls", "Instruments cleaned", "Start of test", "Low voltage", "Stop-lamp fuse",
])
def test_an_ordinary_word_is_no_module(text: str) -> None:
    assert is_module_name(text, TABLES) == 0.0


@pytest.mark.parametrize(("name", "first", "second"), [
    ("Engine (2)", "engine control", "engine control B"), ("BCM (2)", "body control", "body module B"),
    ("ABS (3)", "anti-lock brakes", "anti-lock brakes 3"), ("AFS", "headlamp", "active steering"),
    ("RPA", "parking assist", "tyre pressure"), ("DCM", "door", "telematics"),
])
def test_doubt_shows_both(name: str, first: str, second: str) -> None:
    match = resolve(name, TABLES)
    assert (match.canonical, match.second) == (first, second)


@pytest.mark.parametrize(("name", "module"), [
    ("Camera (2)", "camera 2"), ("Door (2)", "door B"), ("NOx sensor (2)", "NOx sensor B"),
    ("Gateway (2)", "gateway B"), ("Camera 2 (3 codes)", "camera 2"), ("ECM 2 ...... 4", "engine control B"),
    ("ECM (1)", "engine control"),
])
def test_a_number_in_brackets_is_an_instance_where_there_are_several(name: str, module: str) -> None:
    assert resolve(name, TABLES).canonical == module


@pytest.mark.parametrize("text", ["strd", "actv", "strt", "prnt", "mtr", "Engine strd"])
def test_a_word_without_vowels_is_written_out_where_only_one_has_its_consonants(text: str) -> None:
    assert resolve("clstr", TABLES).canonical == "instrument cluster"
    assert resolve("battery chrgr", TABLES).canonical == "battery charger"
    assert not resolve(text, TABLES).known
