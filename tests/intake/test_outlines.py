"""Lists of one shape all through a text: its lines are read one way, whatever their words are elsewhere.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed

DESCRIBED = [
    # Several names of modules are words of descriptions, below a heading that is one too.
    ("--- Roof : 2 faults found\n   * Lost messages from radio (U0184) - active\n"
     "   * Motor blocked (B1317) - active\n--- Steering angle sensor : 2 faults found\n"
     "   * Brake pressure sensor A (C0044) - active\n   * Steering torque input sensor (C0545) - active\n"
     "--- Wipers - 1 faults\n   * Motor blocked (B1200) - active\n--- Radio\n   * no answer\n",
     "Roof: U0184 B1317; Steering angle sensor: C0044 C0545; Wipers: B1200; Radio: silent"),
    # A description that holds the name of a module, below a name in short and in long.
    ("KVM: Acceso sin llave\n - Bus averiado (B1057-87) - presente\n - Sensor izquierdo (U3012-88) - presente\n"
     "BCM: Unidad de carrocería\n - Bus averiado (B1342-09) - presente\n"
     " - Datos recibidos de módulo airbag (B1A01-54) - presente\nPLG: Portón trasero\n"
     " - Datos no válidos recibidos de control de motor (U0420-04) - presente\n"
     " - Circuito abierto (B2477-68) - presente\n",
     "KVM: Acceso sin llave: B1057-87 U3012-88; BCM: Unidad de carrocería: B1342-09 B1A01-54; "
     "PLG: Portón trasero: U0420-04 B2477-68"),
    # A mark of the same indent parts the headings from their entries.
    ("■ Caja de cambios -> no contesta\n■ Cuadro de instrumentos\n"
     "• Sensor supply voltage (SPN 1043 FMI 14) - actual\n• Engine speed (SPN 190 FMI 6) - actual\n"
     "■ Unidad de vehículo\n• Source address 11, brake controller (SPN 2011 FMI 0) - histórico\n"
     "• Source address, unspecified (SPN 1481 FMI 18) - histórico\n■ Retardador\n"
     "• Wheel-based vehicle speed (SPN 84 FMI 14) - histórico\n■ Tacógrafo\n"
     "• Power supply (SPN 627 FMI 14) - histórico\n",
     "Caja de cambios: silent; Cuadro de instrumentos: SPN 1043 FMI 14 SPN 190 FMI 6; "
     "Unidad de vehículo: SPN 2011 FMI 0 SPN 1481 FMI 18; Retardador: SPN 84 FMI 14; Tacógrafo: SPN 627 FMI 14"),
    # Pieces between marks, below a name that nobody knows.
    ("EPS - 2 faults\nPLG - 2 faults\nRDM - 1 faults\n\n--- EPS\n"
     "    U0164; Lost messages with HVAC control module; pending fault\n        Freeze frame:\n"
     "        Vehicle speed: 0 km/h\n    U0073-81; Control module bus A off; past fault\n\n--- PLG\n"
     "    B152A-68; Rain sensor optics; is active\n"
     "    U0132-F0; Lost communication with suspension; pending fault\n\n--- RDM\n"
     "    C0051-17; Steering wheel position sensor; is active\n",
     "EPS: U0164 U0073-81; PLG: B152A-68 U0132-F0; RDM: C0051-17"),
    ("SA19h Auxiliary heater #1:\n  SPN2023 FMI4; Source address 23, instrument cluster; active fault\n"
     "  SPN639 FMI19; Network 1; active fault\n\nSA27h Vehicle control unit:\n"
     "  SPN110 FMI7; Engine coolant temperature; active fault\n\nSA0Bh EBS brake control:\n"
     "  SPN1624 FMI14; Tachograph vehicle speed; active fault\n"
     "  SPN91 FMI3; Accelerator pedal position 1; active fault\n",
     "Auxiliary heater #1: SPN 2023 FMI 4 SPN 639 FMI 19; Vehicle control unit: SPN 110 FMI 7; "
     "EBS brake control: SPN 1624 FMI 14 SPN 91 FMI 3"),
    # Part numbers stand between them.
    ("Powertrain control module\n     PN 4619-542-154\n   * Fuel level sender low (U193B) - CURRENT\n"
     "   * Coolant pump circuit low (P2602) - CURRENT\nSteering angle sensor\n     Part no.: 1381 625 807 L\n"
     "   * Low tyre pressure (C0077) - permanent\n   * Microphone mechanical fault (C23D0) - stored\n"
     "Battery sensor\n   * High speed CAN bus (U0001) - stored\n",
     "Powertrain control module: U193B P2602; Steering angle sensor: C0077 C23D0; Battery sensor: U0001"),
    # The entries have no mark, their headings have one.
    ("Workshop\n--- Engine ECU\n5 volts supply (SPN 620 FMI 1)\n--- Transmission #1\n"
     "Wheel sensor ABS axle 1 left (SPN 789 FMI 0)\n--- Retarder - driveline\n"
     "Tachograph vehicle speed (SPN 1624 FMI 9)\nKeyswitch battery potential (SPN 158 FMI 18)\n--- Tachograph\n"
     "Source address, unspecified (SPN 1481 FMI 16)\n",
     "Engine ECU: SPN 620 FMI 1; Transmission #1: SPN 789 FMI 0; "
     "Retarder - driveline: SPN 1624 FMI 9 SPN 158 FMI 18; Tachograph: SPN 1481 FMI 16"),
    # A name that nobody knows stands in the place of the headings.
    ("* PCM engine ecu [1 DTC]\n   Coding: 0474683\n  Current DTCs\n - P0301 Misfire\n* IBS battery monitor (2)\n"
     "   Hardware: H42\n  Current DTCs\n - U22D9 Pump relay short to battery\n  Pending DTCs\n"
     " - U0101 Lost communication with transmission control module\n* SUM suspension : 2 fault(s) found\n"
     "   PN 9768-877-124\n  Current DTCs\n - U113D Mirror heater open circuit\n  Stored DTCs\n"
     " - C1000 Level sensor front left implausible\n",
     "PCM engine ecu: P0301; IBS battery monitor: U22D9 U0101; SUM suspension: U113D C1000"),
]


@pytest.mark.parametrize(("text", "read"), DESCRIBED)
def test_no_entry_of_an_outline_names_a_module(text: str, read: str) -> None:
    assert printed(text) == read


def test_lines_that_name_their_modules_below_a_title_are_no_outline() -> None:
    text = "Front network\n - ABS: C0035\n - Airbag: B0010\nRear network\n - Radio: U0184\n - Gateway: U0100\n"
    assert printed(text) == "ABS: C0035; Airbag: B0010; Radio: U0184; Gateway: U0100"


NUMBERS = [
    # A single number has the letters of an address.
    ("=== DSM ===\n- E4820: Aerial not adapted\n=== EPB ===\n  PN 7255-561-824\n- SG746: Level sensor open\n"
     "- 955781: Supply stuck\n=== IPC ===\n- 904DDA: Door contact\n", "DSM: E4820; EPB: SG746 955781; IPC: 904DDA"),
    # Numbers alone in their lines, their words further right below them.
    ("■ ACM: Airbag\n\t09054\n      Coolant valve low\n\tSG919\n      Lamp not adapted\n\n■ BCM: Body control module\n"
     "\tDF652\n      Fan signal low\n\n■ EPB: Parking brake\n\tHK857\n      Bus stuck\n",
     "ACM: Airbag: 09054 SG919; BCM: Body control module: DF652; EPB: Parking brake: HK857"),
    # Some of them with a status below.
    ("Radio\n• DB25A3\n      Microphone short\n• 18369\n      Lamp not adapted\n      Fault status: past\n\nRoof\n"
     "• SG172\n      Sensor stuck\n• 00505\n      Light dim\n      Fault status: active\n",
     "Radio: DB25A3 18369; Roof: SG172 00505"),
    # A name that nobody knows before a mark, as known ones stand in other lines.
    ("• Radio: no faults\n• Roof: no faults\n• Wobble sensing: T7598 Microphone low; E7605 Relay stuck\n"
     "• Gateway: no answer\n", "Radio: clean; Roof: clean; Wobble sensing: T7598 E7605; Gateway: silent"),
    ("E4820 :: ABS :: Aerial open :: stored\n12345 :: BCM :: Supply stuck :: stored\n"
     "K9144 :: KQM :: Door open :: stored\n"
     "DF670 :: EPS :: Line low :: stored\n", "ABS: E4820; BCM: 12345; KQM: K9144; EPS: DF670"),
    # A letter of a number of six is no end of a name.
    ("Climate control     SG233    Fan signal low   active\nClimate control     AB2884   Fan open         stored\n"
     "Climate control     17453    Fan stuck        active\n", "Climate control: SG233 AB2884 17453"),
]


@pytest.mark.parametrize(("text", "read"), NUMBERS)
def test_makers_own_numbers_in_lines_of_one_shape(text: str, read: str) -> None:
    assert printed(text) == read


def test_rows_of_a_table_head_no_other_rows() -> None:
    text = ("-|Gateway module|OK|-\n-|Instrument cluster|OK|-\nU0001|Trailer module|CAN bus|active\n"
            "-|Air suspension|OK|-\nB1603|Seat module|Heater mat low|stored\n-|Radio|no response|-\n")
    assert printed(text) == (
        "Gateway module: clean; Instrument cluster: clean; Trailer module: U0001; Air suspension: clean; "
        "Seat module: B1603; Radio: silent")


@pytest.mark.parametrize("mark", [" - ", " / "])
def test_a_gap_within_a_status_makes_no_table_of_lines_that_a_mark_cuts(mark: str) -> None:
    rows = [("B1342", "Body control module", "unit defective", "active"), ("U1ABD", "Roof", "sender low", "active"),
            ("B124D", "Battery monitor", "sensor battery", "stored   not current")]
    text = "\n".join(mark.join(row) for row in rows)
    assert printed(text) == "Body control module: B1342; Roof: U1ABD; Battery monitor: B124D"


ONE_BY_ONE = [
    # A bracket is closed, and what stands before it is the name.
    ("Calculateur ABS [ABS] = C0040 (mémorisé)\nCalculateur moteur [ECM] = P060B (présent)\n",
     "Calculateur ABS [ABS]: C0040; Calculateur moteur [ECM]: P060B"),
    ("Módulo ABS / 0x71C\tU1123-17 (activo)\nRadio / 0x708\tU0184-17 (activo)\n",
     "Módulo ABS: U1123-17; Radio: U0184-17"),
    # A status of two parts stands before the code.
    ("Year: 2008\n\nCodes as found\nin memory, not active - B1057 - dash - Interior fan speed signal\n"
     "in memory, not active - U1B0B - radio - Window motor short to ground\nOK: gateway\n",
     "dash: B1057; radio: U1B0B; gateway: clean"),
    # Only words for a control unit are a description, and the last piece is the module all the same.
    ("B1305, Sunload sensor, 42 - Roof, active\nU3000, Control module, 09 - Radio\nU0028, Bus A, 42 - Roof\n",
     "Roof: B1305 U0028; Radio: U3000"),
    ("U0428 in KQM: Data of steering angle, active\nC0131 in ESP: Pressure circuit, active\n"
     "P0562 in ECM: Voltage low, active\n", "KQM: U0428; ESP: C0131; ECM: P0562"),
    # Rows that end with an empty cell.
    ("code,unit,text,status\nU3000-08,02. Radio,Lost messages from engine,\n"
     "B0028-13,02. Radio,Lost messages with ABS,\n"
     "U0151-21,03. Roof,Bus,\n", "Radio: U3000-08 B0028-13; Roof: U0151-21"),
    # What it is shorted to is no label of the code behind it.
    ("Radio\n• Aerial short to ground (B16DF:49) - stored\n• Aerial open (B1A01:13) - stored\n",
     "Radio: B16DF-49 B1A01-13"),
    ("Radio,B1684,Terminal 15 input short,stored\n,B1A01,Speaker open,active\n", "Radio: B1684 B1A01"),
]


@pytest.mark.parametrize(("text", "read"), ONE_BY_ONE)
def test_the_place_of_a_name_or_a_code_in_lines_of_one_shape(text: str, read: str) -> None:
    assert printed(text) == read


STATUSES = [
    # Whole lines are not put together: the last word is that of a verb, a key begins the next.
    ("* Radio\nUnplausibles Signal von Airbag (B1000) - liegt aktuell an\n"
     "Steuergerät defekt (B1001) - liegt aktuell an\n"
     "Datenbus gestört (U0001) - nicht mehr vorhanden\n",
     {"radio": ["B1000 current", "B1001 current", "U0001 stored"]}),
    ("ECU: Radio\nDTC: B0051-13\nStatus:not yet confirmed - pending\nFault:Deployment commanded\n\n"
     "DTC: B1126\nStatus:fault present\nFault:Heater mat\n", {"radio": ["B0051-13 pending", "B1126 current"]}),
    # "Plus" is what it is shorted to.
    ("Radio\n - U0121  Circuit ouvert ou court-circuit au plus  actuel\n - B2A1B  Signal invalide  mémorisé\n"
     " - B1000  Tension trop basse  actuel\n", {"radio": ["U0121 current", "B2A1B stored", "B1000 current"]}),
]


@pytest.mark.parametrize(("text", "read"), STATUSES)
def test_the_status_that_ends_its_line(text: str, read: dict[str, list[str]]) -> None:
    assert modules_of(text) == read


def test_numbers_before_the_last_headings_alone_leave_the_others_headings() -> None:
    # The first modules stand without a number: not all headings of the text have one.
    text = ("Gateway\n  no answer\nBrakes\n  C0045: Wheel speed sensor: stored\nCluster\n"
            "  U0100: Engine lost: current\n  B1318: Supply low: stored\n"
            "[14] Radio\n  not fitted\n[15] Roof\n  B2094: Heater open: stored\n")
    assert modules_of(text) == {
        "gateway": ["silent"], "anti-lock brakes": ["C0045 stored"],
        "instrument cluster": ["U0100 current", "B1318 stored"], "sunroof": ["B2094 stored"]}


@pytest.mark.parametrize("name", ["- **{} ({})**", "## {1} - {0}", "* {} [{}]"])
def test_abbreviations_beside_them_tell_that_unlisted_names_head_lists(name: str) -> None:
    heads = [name.format(*pair) for pair in (("Valley modem", "VMX"), ("Tahcograph", "TCO"), ("Crane link", "CLK"))]
    text = (f"Diagnostic protocol\n\n{heads[0]}\n  - `SPN 5246 FMI 16` Reductant inducement (stored)\n{heads[1]}\n"
            f"  - `SPN 2003 FMI 9` Gearbox messages missing (stored)\n  - `SPN 1231 FMI 9` Network 2 lost (active)\n"
            f"{heads[2]}\n  - `SPN 2071 FMI 9` Body controller messages missing (stored)\n"
            f"  - `SPN 1624 FMI 19` Tachograph data in error (stored)\n")
    read = modules_of(text)
    assert [*read.values()] == [
        ["SPN 5246 FMI 16 stored"], ["SPN 2003 FMI 9 stored", "SPN 1231 FMI 9 current"],
        ["SPN 2071 FMI 9 stored", "SPN 1624 FMI 19 stored"]]
