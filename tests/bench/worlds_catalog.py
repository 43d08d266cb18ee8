"""What the invented vehicles are made of: modules with the names people write, and the codes each can set.

Lost-communication and invalid-data codes are those of SAE J2012DA (second-hand). The monitor letter of each code
and how easily a low supply sets it are common practice: open and short circuits are checked with the key on,
misfire with the engine running, catalysts over a drive cycle, evaporative leaks after a cold soak, signals of
wheel speed while moving.
"""

from __future__ import annotations

from dataclasses import dataclass

#: Monitor letters: key on, commanded output, network, running, warm, speed, drive cycle, cold soak, event,
#: high voltage.
MONITORS = "KONRWSDCEH"


@dataclass(frozen=True, slots=True)
class CodeKind:
    """One code a module can set. ``ease``: s supply, e electronic, x module itself, m mechanical, n network."""

    code: str
    monitor: str
    ease: str
    trips: int = 1


@dataclass(frozen=True, slots=True)
class ModuleKind:
    """One kind of module. ``level``: letter A-D of ISO 16750-2 (the lowest supply at which it must work)."""

    name: str
    names: tuple[str, ...]
    lost: str | None
    invalid: str | None
    safety: str | None
    letter: str
    level: str
    fitted: float
    drives: str
    codes: tuple[CodeKind, ...]
    emission: bool = False


# name | names as written | lost | invalid | safety | letter | level | share fitted | drives by first letter
_MODULES = """
engine control|ECM;Engine control;PCM;Engine;engine control module|U0100|U0401||P|A|1|pdh
transmission control|TCM;Transmission;Transmission control;gearbox control|U0101|U0402||P|A|.8|pdh
anti-lock brakes|ABS;ABS module;Brakes (ABS);ABS/ESC|U0121|U0415|brakes|C|B|1|pdhe
restraints|Airbag;SRS;Restraints;Airbag module|U0151|U0452|restraints|B|B|1|pdhe
power steering|EPS;Power steering;Steering assist;electric power steering|U0131|U0420|steering|C|C|.95|pdhe
steering angle sensor|SAS;Steering angle sensor|U0126|U0428|steering|C|C|.5|pdhe
steering column|Steering column module;SCCM;Column electronics|U0212|U0429|steering|B|C|.6|pdhe
parking brake|EPB;Parking brake;Electric parking brake|U0128|U0417|brakes|C|B|.5|pdhe
brake system|Brake booster;brake system control;Electronic brake booster|U0129|U0418|brakes|C|B|.2|he
instrument cluster|Cluster;IPC;Instrument cluster;Dash|U0155|U0423||B|B|1|pdhe
body control|BCM;Body control;Body control module;Body|U0140|U0422||B|B|1|pdhe
gateway|Gateway;CGW;Central gateway|U0146|U0447||U|B|.75|pdhe
climate control|HVAC;Climate;Climate control;A/C control|U0164|U0424||B|C|.95|pdhe
immobiliser|Immobiliser;Immobilizer;IMMO|U0167|U0426||B|B|.5|pdhe
radio|Radio;Audio;Head unit|U0184|U0485||B|D|.9|pdhe
telematics|Telematics;TCU;Telematic module|U0198|U0499||B|D|.55|pdhe
audio amplifier|Amplifier;AMP;Audio amplifier|U0186|U0487||B|D|.4|pdhe
navigation|Navigation;Nav|U0163|U0464||B|D|.3|pdhe
door, front left|Driver door;Door module front left;LF door|U0199|U049A||B|C|.75|pdhe
door, front right|Passenger door;Door module front right;RF door|U0200|U0501||B|C|.75|pdhe
door, rear left|Rear left door;LR door|U0201|||B|C|.4|pdhe
door, rear right|Rear right door;RR door|U0202|||B|C|.4|pdhe
seat, driver|Seat module;Driver seat;Seat memory|U0208|U0509||B|D|.35|pdhe
parking assist|Parking assist;Park sensors;PDC|U0159|U045A||B|C|.7|pdhe
front camera|Front camera;Lane camera|U0265|||B|C|.45|pdhe
rear camera|Rear camera;Camera rear|U0264|U0565||B|D|.4|pdhe
front radar|Front radar;Distance radar;ACC sensor|U0235|U0433||C|C|.4|pdhe
side obstacle detection, left|Blind spot left;Side radar left|U0232|||B|C|.3|pdhe
side obstacle detection, right|Blind spot right;Side radar right|U0233|||B|C|.3|pdhe
occupant classification|OCS;Occupant classification;Seat weight sensor|U0154|U0455|restraints|B|C|.35|pdhe
tyre pressure|TPMS;Tyre pressure;Tire pressure monitor|U0127|U0430||C|C|.7|pdhe
headlamp levelling|Headlamp levelling;Headlight leveling|U0181|||B|C|.35|pdhe
headlamp, left|Headlamp left;Left headlight|U0241|||B|C|.3|pdhe
headlamp, right|Headlamp right;Right headlight|U0242|||B|C|.3|pdhe
fuel pump control|Fuel pump module;FPCM;Fuel pump control|U0109|U0410||P|B|.35|pdh
gear shift|Gear selector;Shifter;Gear shift module|U0103|U0404||P|B|.4|pdhe
transfer case|Transfer case;4x4 control|U0102|U0403||P|C|.15|pd
all-wheel drive|AWD;All-wheel drive|U011D|U041E||C|C|.2|pdhe
suspension|Suspension;Ride height;Air suspension|U0132|U0421||C|C|.2|pdhe
glow plug control|Glow plug module;GPCM|U0106|U0407||P|B|.8|d
reductant control|DCU;SCR module;Reductant control|U010E|U040F||P|B|.6|d
NOx sensor 1|NOx sensor 1;NOx sensor upstream|U029D|U059E||P|B|.6|d
NOx sensor 2|NOx sensor 2;NOx sensor downstream|U029E|U059F||P|B|.55|d
hybrid powertrain|Hybrid control;HCU;Hybrid powertrain;VCU|U0293|U0594|high voltage|P|B|1|he
battery energy control|BECM;HV battery;Battery energy control|U0111|U0412|high voltage|P|B|1|he
drive motor control|Motor inverter;Drive motor control;MCU|U0110|U0411|high voltage|P|B|1|he
DC/DC converter|DC/DC;DC-DC converter|U0298|U0599|high voltage|P|B|.8|he
battery charger|On-board charger;OBC;Battery charger|U019B|U049C|high voltage|P|B|.95|e
rain sensor|Rain sensor;Rain/light sensor|U0231|||B|C|.4|pdhe
rear gate|Tailgate;Power liftgate;Rear gate module|U0230|||B|D|.3|pdhe
trailer|Trailer module;Trailer;Tow module||||B|C|.25|pdhe
battery monitor|Battery sensor;IBS;Battery monitor|U01B0|U04B1||B|A|.4|pdhe
"""

# Codes by module: CODE:monitor+ease, and 2 at the end for two trips.
_CODES = {
    "engine": (
        "P0562:Ks P0560:Ks P0601:Kx P0606:Kx P0603:Kx P0607:Kx P0642:Ke P0652:Ke P0685:Ke P0118:Ke "
        "P0117:Ke P0113:Ke P0112:Ke P0102:Re P0103:Ke P0107:Ke P0108:Ke P0122:Ke P0123:Ke P0222:Ke "
        "P0223:Ke P2122:Ke P2123:Ke P2127:Ke P2128:Ke P2138:Ke P2135:Ke P0335:Re P0340:Re P0299:Wm2 "
        "P0087:Rm P0193:Ke P0192:Ke P0480:Ke P0500:Se P0504:Em P0522:Ke P0523:Ke P0532:Ke P0533:Ke "
        "P0571:Em P0615:Oe P0620:Re P0625:Re P0626:Re P0645:Ke P0401:Wm2 P0128:Dm2 P0016:Rm P2101:Oe "
        "P0688:Ks P0130:We2 P0506:Rm2 P0463:Ke P0462:Ke"
    ),
    "petrol": (
        "P0300:Rm2 P0301:Rm2 P0302:Rm2 P0303:Rm2 P0304:Rm2 P0171:Wm2 P0172:Wm2 P0420:Dm2 P0430:Dm2 "
        "P0442:Cm2 P0455:Cm2 P0456:Cm2 P0133:Wm2 P0135:Re2 P0141:Re2 P0131:Re2 P0137:Re2 P0201:Ke "
        "P0202:Ke P0203:Ke P0204:Ke P0351:Re P0352:Re P0353:Re P0354:Re P0443:Ke P0230:Ke P0628:Ke "
        "P0011:Wm2 P2187:Wm2 P0458:Ke P0446:Cm2"
    ),
    "diesel": (
        "P0380:Re P0671:Re P0672:Re P0673:Re P0674:Re P2002:Dm2 P20EE:Dm2 P2463:Dm P242F:Dm P0201:Ke "
        "P0202:Ke P0203:Ke P0204:Ke P0404:Oe P0405:Ke P0406:Ke P2080:Ke P2084:Ke P2453:Wm2 P2455:Ke "
        "P0546:Ke P0234:Wm P2263:Wm2 P0088:Rm"
    ),
    "transmission control": (
        "P0882:Ks P0613:Kx P0705:Ke P0706:Se P0712:Ke P0713:Ke P0715:Re P0717:Re P0720:Se P0722:Se "
        "P0730:Sm P0741:Wm2 P0750:Oe P0753:Ke P0758:Ke P0763:Ke P0768:Ke P0842:Ke P0843:Ke P0973:Ke "
        "P0976:Ke P0962:Ke P0963:Ke P0711:Wm2 P0776:Sm2 P0604:Kx P0562:Ks"
    ),
    "anti-lock brakes": (
        "C0031:Ke C0034:Ke C0037:Ke C003A:Ke C0031:Se C0034:Se C0037:Se C003A:Se C0030:Sm C0033:Sm "
        "C0036:Sm C0039:Sm C0020:Oe C0040:Em C0044:Ke C0046:Se C0061:Se C0063:Se C0010:Ke C0014:Ke "
        "C0018:Ke C001C:Ke C0800:Ks C0899:Ks U3003:Ks C0021:Rm C006A:Se U3000:Kx C0051:Se"
    ),
    "restraints": (
        "B0001:Ke B0002:Ke B0010:Ke B0011:Ke B0020:Ke B0021:Ke B0028:Ke B0050:Ke B0051:Ke B0052:Ke "
        "B0081:Ke U3003:Ks U3000:Kx B0004:Ke"
    ),
    "power steering": "C0051:Se C0545:Ke C0460:Se U3003:Ks C0800:Ks U3000:Kx C0000:Sm",
    "steering angle sensor": "C0051:Se C0053:Se U3003:Ks U3000:Kx",
    "parking brake": "C0040:Em U3003:Ks C0800:Ks U3000:Kx",
    "brake system": "C0021:Rm C0044:Ke C0042:Ke U3003:Ks U3000:Kx",
    "hybrid powertrain": "P0A0D:Hm P0A1D:Kx P0A94:He P0A8D:Ks P0A95:Hm P0AA6:Hm P0562:Ks P0A78:He P0A0A:Hm",
    "battery energy control": (
        "P0A80:Dm P0A7F:Dm P0AA6:Hm P0AA1:Hm P0AFA:Hm P0A9C:Ke P0A9D:Ke P0ABC:Ke P0A82:Oe P0562:Ks P0A1F:Kx"
    ),
    "drive motor control": "P0A3F:Ke P0A2B:Ke P0A78:He P0A1B:Kx P0562:Ks P0A2F:Hm",
    "DC/DC converter": "P0A94:He P0A8D:Ks U3000:Kx",
    "battery charger": "P0D80:He U3003:Ks U3000:Kx P0D21:Ee",
    "fuel pump control": "P0230:Ke P0562:Ks P0627:Ke P0087:Rm",
    "glow plug control": "P0671:Re P0672:Re P0673:Re P0674:Re P0562:Ks",
    "reductant control": "P203B:Ke P204B:Ke P20EE:Dm2 P207F:Dm2 P0562:Ks P205B:Ke P20A1:Oe",
    "NOx sensor 1": "P2200:Re P2202:Re P220A:Ks",
    "NOx sensor 2": "P229E:Re P22A0:Re P220B:Ks",
    "gear shift": "P0705:Ke P0562:Ks U3000:Kx",
    "tyre pressure": "C0077:Sm U3003:Ks",
    "front radar": "C0000:Sm U3003:Ks U3000:Kx",
    "climate control": "P0532:Ke P0645:Ke U3003:Ks",
    "gateway": "U3003:Ks U3006:Ks U3000:Kx U0073:Nn U0001:Nn U0010:Nn",
    "body control": "U3003:Ks U3006:Ks U3007:Ks U3000:Kx U0073:Nn",
}
_OTHERS = "U3003:Ks U3000:Kx"
_EMISSION = {
    "engine control",
    "transmission control",
    "hybrid powertrain",
    "battery energy control",
    "reductant control",
}

#: Codes that only ask for the lamp on another module's behalf: reporting code, reporting module, target.
POINTERS = (("P0700", "engine control", "transmission control"), ("P0AC4", "engine control", "hybrid powertrain"))


def _codes(text: str) -> tuple[CodeKind, ...]:
    """The code kinds in a line of ``CODE:monitor ease [2]``."""
    found = []
    for item in text.split():
        code, marks = item.split(":")
        found.append(CodeKind(code, marks[0], marks[1], 2 if marks.endswith("2") else 1))
    return tuple(found)


def module_kinds(drive: str) -> list[ModuleKind]:
    """All module kinds of a vehicle with this drive (petrol, diesel, hybrid or electric)."""
    kinds = []
    for line in _MODULES.strip().splitlines():
        name, names, lost, invalid, safety, letter, level, fitted, drives = line.split("|")
        if drive[0] not in drives:
            continue
        text = _CODES.get(name, _OTHERS)
        if name == "engine control":
            text = f"{_CODES['engine']} {_CODES['diesel' if drive == 'diesel' else 'petrol']}"
        kinds.append(
            ModuleKind(
                name,
                tuple(names.split(";")),
                lost or None,
                invalid or None,
                safety or None,
                letter,
                level,
                float(fitted),
                drives,
                _codes(text),
                name in _EMISSION,
            )
        )
    return kinds


#: Lowest supply, volts, at which a module of this letter must work (ISO 16750-2).
LEVELS = {"A": 6.0, "B": 8.0, "C": 9.0, "D": 10.5}

#: Failure types (SAE J2012DA) that fit a monitor letter and an ease letter.
FAILURE_TYPES = {
    "Ke": ("11", "12", "13", "14", "15", "1B", "1C", "17"),
    "Ks": ("16",),
    "Kx": ("41", "42", "44", "46", "47", "49"),
    "Oe": ("92", "93", "71", "77"),
    "Om": ("71", "77", "92"),
    "Re": ("29", "31", "38", "13"),
    "Rm": ("00", "92"),
    "Se": ("62", "64", "29", "2F", "31"),
    "Sm": ("64", "62", "38"),
    "Em": ("68", "64", "67"),
    "Ee": ("68", "67"),
    "Hm": ("00", "92"),
    "He": ("92", "93"),
    "We": ("26", "29"),
    "Nn": ("88",),
    "lost": ("87", "00"),
    "invalid": ("81", "86", "82"),
    "work": ("54", "55", "56", "51"),
}
#: Kinds of a maker-defined code: weights of monitor and ease letters by letter of the code.
MAKER_KINDS = {
    "P": "Ke Ke Ke Kx Oe Re Rm Wm Ks",
    "C": "Ke Ke Se Se Sm Kx Oe Ks",
    "B": "Ke Ke Ke Ke Kx Oe Om Em Ks",
    "U": "Nn",
}
MAKER_RANGES = {"P": (0x1000, 0x19FF), "C": (0x1000, 0x2FFF), "B": (0x1000, 0x2FFF), "U": (0x1000, 0x1FFF)}
