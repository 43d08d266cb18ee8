"""A name once more in short, and makers' own numbers in the place of others of a list. Common practice."""

from __future__ import annotations

from code_tables import load
from triage.intake.read import Reading, read_text


def read(text: str) -> Reading:
    return read_text(text, load())


def _codes(text: str) -> dict[str, list[tuple[str, str | None]]]:
    return {scan.printed or scan.module: [(code.code, code.status) for code in scan.codes]
            for snapshot in read(text).snapshots for scan in snapshot.modules}


def test_a_short_name_below_a_name_is_no_other_module() -> None:
    text = "Module: Engine control\nShort name: EFI\nFault: P0118\nStatus: current\n"
    assert _codes(text) == {"Engine control": [("P0118", "current")]}


def test_a_short_name_alone_is_the_name() -> None:
    assert _codes("Short,DTC,State\nABS,C0035,stored\nEPS,C0545,active\n") == {
        "ABS": [("C0035", "stored")], "EPS": [("C0545", "current")]}


def test_heads_of_two_lists_in_any_word_for_a_status() -> None:
    text = "Node\tShort\tLive codes\tHistoric codes\nBrakes\tABS\tC0035\tU0121, U0140\n"
    assert _codes(text) == {"Brakes": [("C0035", "current"), ("U0121", "stored"), ("U0140", "stored")]}


def test_a_name_nobody_knows_in_the_column_of_the_others() -> None:
    text = ("DME     2A87   valve: control fault       currently present\n"
            "EGS     4F8F   gear monitoring            not currently present\n"
            "QRX     9CB6   dome switch                currently present\n")
    assert _codes(text)["QRX"] == [("9CB6", "current")]


def test_a_name_in_capitals_before_a_number_with_its_status() -> None:
    text = "ABS    C0035 wheel sensor ACTIVE\nPACKER     E204 hopper switch ACTIVE\nBIN LIFT   E117 comb stored\n"
    assert _codes(text) == {"ABS": [("C0035", "current")], "PACKER": [("E204", "current")],
                            "BIN LIFT": [("E117", "stored")]}


def test_a_number_below_another_of_the_same_module() -> None:
    text = ("engine: P0191 now, P0088 stored\ndash: U0140 stored\n"
            "converter body (ours): 20417 siren relay sticking stored\n"
            "                       20422 shoreline charger missing active\n")
    assert _codes(text)["converter body (ours)"] == [("20417", "stored"), ("20422", "current")]


def test_the_end_of_a_text_is_no_name() -> None:
    text = ("engine ecu - P0122 pedal sensor A low, P0222 sensor B\nlow, P2135 they dont agree\n"
            "abs ecu - C0265 motor relay\n")
    assert _codes(text) == {"engine ecu": [("P0122", None), ("P0222", None), ("P2135", None)],
                            "abs ecu": [("C0265", None)]}


def test_no_answer_from_this_address_is_of_the_module_above() -> None:
    reading = read("Retarder (source address 16)\n   no answer from this address\nBrakes\n   C0035 active\n")
    assert [(scan.printed, scan.responds) for scan in reading.snapshots[0].modules] == [
        ("Retarder", False), ("Brakes", True)]


def test_a_column_of_two_hexadecimal_digits_behind_the_codes_is_the_failure_type() -> None:
    def types(text: str) -> list[str | None]:
        return [code.failure_type for scan in read(text).snapshots[0].modules for code in scan.codes]

    assert types("Module,Code,XQ,Text\nEngine,P1256,00,trim\nABS,C1131,2F,height\n") == ["00", "2F"]
    assert types("Module,Code,XQ,Text\nEngine,P1256,10,trim\nABS,C1131,12,height\n") == [None, None]
    assert types("Module,Code,Count,Text\nEngine,P1256,00,trim\nABS,C1131,02,height\n") == [None, None]


def test_short_and_long_names_in_two_columns_are_one_module() -> None:
    text = ("HS-CAN 1\n   PCM    Powertrain Control Module        pass\n"
            "   ABS    Anti-Lock Brake System           fail  2\n"
            "              C0051:64  angle implausible         Confirmed\n"
            "              C1991:54  calibration missing       Pending\n"
            "   CCM    Cruise Control Module            no response\n")
    assert _codes(text) == {"PCM Powertrain Control Module": [], "CCM Cruise Control Module": [],
                            "ABS Anti-Lock Brake System": [("C0051", "confirmed"), ("C1991", "pending")]}


def test_numbers_of_a_module_that_nobody_read_are_no_name() -> None:
    text = "Headlamp levelling\nSoftware ---   Part number ---\nModule not responding\n"
    (scan,) = read(text).snapshots[0].modules
    assert (scan.printed, scan.responds) == ("Headlamp levelling", False)


def test_headings_with_idents_behind_a_gap() -> None:
    text = ("> Comfort system      ident R7-231.107.12 / config 014211\n    00955  Key 1, limit  state: not present\n"
            "> Navigation          ident ---\n    cannot be reached\n")
    assert _codes(text) == {"Comfort system": [("00955", "stored")], "Navigation": []}


def test_pairs_of_json_in_one_line() -> None:
    text = ('{"modules": [{"name": "Brakes", "response": "ok", "dtcs": [{"code": "C0035", "status": "stored"}, '
            '{"code": "C0040", "status": "active"}]}, {"name": "Radio", "response": "none", "dtcs": []}]}')
    assert _codes(text) == {"Brakes": [("C0035", "stored"), ("C0040", "current")], "Radio": []}


def test_a_list_with_headings_at_its_left_edge_is_not_wrapped() -> None:
    text = ("Motorsteuergerät                       2 Fehler\n"
            "  P0380 00   Glühkerzenkreis A                    statisch\n"
            "  U0101 00   Getriebesteuergerät antwortet nicht  statisch\n"
            "Getriebesteuergerät                    keine Antwort\n"
            "Kombiinstrument                        1 Fehler\n"
            "  U0101 00   Getriebe, keine Kommunikation        statisch\n"
            "Klimaanlage                            kein Fehler\n"
            "Tür vorne links                        1 Fehler\n"
            "  B1234 13   Spiegelheizung, Unterbrechung        gespeichert\n")
    for form in (text, text.replace("\n  ", "\n")):
        assert _codes(form) == {"Motorsteuergerät": [("P0380", "current"), ("U0101", "current")],
                                "Getriebesteuergerät": [], "Kombiinstrument": [("U0101", "current")], "Klimaanlage": [],
                                "Tür vorne links": [("B1234", "stored")]}


def test_a_module_that_is_connected_has_its_codes_below() -> None:
    text = ("10:02:12.018  -> Engine ... connected\n10:02:13.552     P0496  high purge flow    (not failing now)\n"
            "10:02:13.801  -> Gearbox ... connected\n10:02:14.290     no DTC\n"
            "10:02:15.377  -> Night vision ... TIMEOUT after 3 tries\n")
    assert _codes(text) == {"Engine": [("P0496", "stored")], "Gearbox": [], "Night vision": []}
    assert _codes("Jump pack: connected\nABS: C0035 stored\n") == {"ABS": [("C0035", "stored")]}


def test_labels_of_a_page_are_neither_modules_nor_deeds() -> None:
    text = ("Brakes\n2 codes\nC0110 04\nPump motor circuit\nActive\nShow details\nC0267 00\nPump motor open\nHistory\n"
            "Show details\n\nCluster\n1 code\nU0121 00\nLost communication\nHistory\nShow details\n"
            "Clear all codes   Export   Help\n")
    reading = read(text)
    assert _codes(text) == {"Brakes": [("C0110", "current"), ("C0267", "stored")], "Cluster": [("U0121", "stored")]}
    assert reading.snapshots[0].phase is None
    assert reading.events == []
    assert read("ABS  C0035  stored\nF1 Back     F2 Clear all     F3 Save\n").events == []


def test_a_name_with_its_abbreviation_behind_a_dash_is_one() -> None:
    text = ("* Instrument cluster: no faults\n* Body control module - BCM: no answer (timeout)\n"
            "* Mirror: B2318 open (stored)\n")
    modules = read_text(text, load()).snapshots[0].modules
    assert [(module.printed, module.responds) for module in modules] == [
        ("Instrument cluster", True), ("Body control module - BCM", False), ("Mirror", True)]
