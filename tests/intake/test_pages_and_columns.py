"""Feet of pages with a date, descriptions that go on in their column or before the key of a status, codes in the first
column of a table without a column for codes, and the number of a code before it. All texts are invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def read(text: str) -> list[dict[str, list[tuple[str, str | None]]]]:
    """By scan and module: the codes with their statuses."""
    return [{module.printed or "": [(code.code, code.status) for code in module.codes] for module in scan.modules}
            for scan in read_text(text, load()).snapshots]


def test_dates_in_the_feet_of_pages_begin_no_scan() -> None:
    pages = "\n".join(
        f"Code U300{page}: Battery voltage\nStatus: active\n\n07.05.2024   Order 40711   Page {page}/3\n\nTest report\n"
        for page in (1, 2, 3))
    found, = read(f"Test report\n\nScan: 07.05.2024 10:29\n\nABS\n{pages}Code B2477: Configuration\nStatus: stored\n")
    assert [code for code, _ in found["ABS"]] == ["U3001", "U3002", "U3003", "B2477"]


def test_a_name_at_the_left_edge_heads_codes_where_descriptions_go_on_in_their_column() -> None:
    found, = read(
        "ABS\nU0140      Lost communication with    Inactive\n           body control module\n"
        "C0051      Camera not calibrated      Active\n"
        "Lane Assist Camera\nC1001      Not calibrated             Active\n"
        "U0121      Lost communication with    Active\n"
        "           ABS module\n")
    assert found == {"ABS": [("U0140", "stored"), ("C0051", "current")],
                     "Lane Assist Camera": [("C1001", "current"), ("U0121", "current")]}


def test_the_rest_of_a_description_before_the_key_of_the_status_names_no_module() -> None:
    found, = read("Engine\nCode U0121: Lost communication with the\nABS\nState: active\n"
                  "Code P0300: Misfire\nState: stored\n\nGearbox\nResult: no codes\n")
    assert found == {"Engine": [("U0121", "current"), ("P0300", "stored")], "Gearbox": []}
    found, = read("Moteur\nCode U0121: Perte de communication avec le calculateur\nABS\n\u00c9tat: pr\u00e9sent\n")
    assert found == {"Moteur": [("U0121", "current")]}


def test_codes_in_the_column_of_names_are_read() -> None:
    found, = read(
        "+---------+--------+------+\n| Unit    | Result |      |\n+---------+--------+------+\n"
        "| Engine  | 2 DTC  |      |\n|   P0562 16  Supply low      confirmed |\n"
        "|   P0340 11  Cam sensor      pending   |\n"
        "| Radio   | no answer     |\n+---------+--------+------+\n")
    assert found == {"Engine": [("P0562", "confirmed"), ("P0340", "pending")], "Radio": []}


def test_the_number_of_a_code_names_no_module() -> None:
    found, = read("SYSTEM: Engine\nFault 1   P2463   Soot above limit\nCondition: present\n"
                  "Fault 2   P0401   Flow\nCondition: not present\n\nSYSTEM: Steering\nFault no. 1 C0460 Angle\n"
                  "Condition: present\n")
    assert found == {"Engine": [("P2463", "current"), ("P0401", "stored")], "Steering": [("C0460", "current")]}


@pytest.mark.parametrize("said", [
    "The dash has B2A03 (odometer), U0422 (data from the engine) and B1201 (fuel level) stored.",
    "Dash: B2A03 (odometer), U0422 (data) and B1201 (fuel level) stored"])
def test_a_status_behind_described_codes_is_of_all_where_a_word_joins_the_last_two(said: str) -> None:
    found, = read(said)
    assert {status for codes in found.values() for _, status in codes} == {"stored"}


def test_in_a_list_of_commas_a_status_is_of_its_code_alone() -> None:
    found, = read("Dash: B2A03 (odometer), U0422 (data), B1201 (fuel level) stored")
    assert [status for _, status in found["Dash"]] == [None, None, "stored"]


def test_a_network_by_its_standard_is_no_code() -> None:
    """SAE J1939 and its like are networks that descriptions name (the numbers are those of the standards)."""
    found, = read("Brakes\n  SPN 231 FMI 2\n    J1939 data link, data erratic\n    Status: active\n"
                  "  SPN 639 FMI 9\n    J1939 network 1\n    Status: stored\n")
    assert found == {"Brakes": [("SPN 231 FMI 2", "current"), ("SPN 639 FMI 9", "stored")]}


def test_a_fault_of_the_memory_is_no_status() -> None:
    found, = read("Body\tB1201\tControl module memory fault\nABS\tno codes\t\n")
    assert found["Body"] == [("B1201", None)]


@pytest.mark.parametrize("mark", [":", " -"])
@pytest.mark.parametrize("days", [("2023-02-08 12:16", "2023-02-12 07:25"), ("2023-02-08", "2023-02-12")])
def test_a_date_before_a_sentence_of_several_modules_begins_a_scan(days: tuple[str, str], mark: str) -> None:
    one, two = days
    assert read(f"{one}{mark} The gearbox has P0700 stored. ABS is clean.\n\n"
                f"{two}{mark} The gearbox has no codes. ABS has C0035 active.\n") == [
        {"gearbox": [("P0700", "stored")], "ABS": []}, {"gearbox": [], "ABS": [("C0035", "current")]}]


def test_a_date_before_each_code_of_a_log_begins_none() -> None:
    found, = read("12.02.2023 07:25: P0700 gearbox stored\n12.02.2023 07:26: P0562 engine stored\n"
                  "14.02.2023 08:00: C0035 ABS active\n")
    assert list(found) == ["gearbox", "engine", "ABS"]


def test_a_number_behind_the_key_of_an_entry_with_its_text_below_is_a_code() -> None:
    found, = read("ECU NAME ........ Body\nRESULT .......... 2 fault entries\n"
                  "ENTRY ........... 41207\nTEXT ............ Radio, no signal\nPRESENT ......... no\n"
                  "ENTRY ........... 52071\nTEXT ............ Local data bus\nPRESENT ......... yes\n\n"
                  "ECU NAME ........ Radio\nRESULT .......... no reply\nENTRY ........... 40711\n")
    assert found == {"Body": [("41207", "stored"), ("52071", "current")], "Radio": []}


def test_a_dead_supply_is_no_answer_of_a_module() -> None:
    found, = read("Hybrid saloon, dead 12v. First the engine ECU: P0A0D is current, P0AA1 is in history.")
    assert list(found) == ["engine ECU"]


def test_letters_for_digits_in_an_fmi_are_read_with_a_notice() -> None:
    reading = read_text("Air supply: SPN 1087 FMI l8 active, SPN 168 FMI 12 lo supply", load())
    module, = reading.snapshots[0].modules
    assert [code.code for code in module.codes] == ["SPN 1087 FMI 18", "SPN 168 FMI 12"]
    assert [notice.message for notice in reading.notices] == ["SPN 1087 FMI l8 read as SPN 1087 FMI 18"]


def test_the_bracket_behind_a_code_is_no_part_of_a_name() -> None:
    found, = read("[P0562]    Radio     supply low        inactive\n[P0563]  Engine      supply high       active\n"
                  "[P1569] Engine        torque limited    active\n")
    assert found == {"Radio": [("P0562", "stored")], "Engine": [("P0563", "current"), ("P1569", "current")]}


def test_a_column_for_the_voltage_with_its_unit_behind_a_stroke() -> None:
    reading = read_text("ecu|code|batt_v\nEngine|P0562|11,9\nABS|C0035|11,9\n", load())
    assert reading.snapshots[0].volts == 11.9


def test_a_letter_o_before_a_space_in_a_code_and_in_an_order() -> None:
    found, = read("Engine: PO 562 active, U O100 stored\nABS: no codes")
    assert found == {"Engine": [("P0562", "current"), ("U0100", "stored")], "ABS": []}
    found, = read("see PO 562 for the parts, CO 120 g/km\nEngine: P0300")
    assert found == {"Engine": [("P0300", None)]}


def test_the_rest_of_a_description_with_its_status_is_no_module() -> None:
    found, = read("Dosing\n  P20EE [00] Efficiency of the catalyst below threshold,\n"
                  "  bank 1                                                 Confirmed\n"
                  "  P204F [00] Reductant system performance                Permanent\nDoor left\n  No codes found\n")
    assert found == {"Dosing": [("P20EE", "confirmed"), ("P204F", "permanent")], "Door left": []}


def test_rows_of_a_numbered_table_with_empty_names_are_not_put_together() -> None:
    found, = read(
        "# Unit                     Fault Status      Mileage\n- ------------------------ ----- ----------- -------\n"
        "1 ENGINE MANAGEMENT        U0146 stored      92053\n2 BRAKES                   U0073 current     89017\n"
        "3                          C0550 stored      94669\n4 SEAT MEMORY              U0164 stored      59748\n"
        "5 RADIO                    B1A94 current     88666\n6                          B1055 stored      66257\n"
        "7 CLIMATE                  U0151 current     43563\n8                          B2425 unconfirmed 95646\n")
    assert {name: [code for code, _ in codes] for name, codes in found.items()} == {
        "ENGINE MANAGEMENT": ["U0146"], "BRAKES": ["U0073", "C0550"], "SEAT MEMORY": ["U0164"],
        "RADIO": ["B1A94", "B1055"], "CLIMATE": ["U0151", "B2425"]}


def test_empty_lines_of_a_quote_are_passed_over() -> None:
    found, = read("P0A28  contribution out of balance, cylinder 7\n> \n> Radio\n>   no faults\n> \n> Outlet\n>   > \n"
                  "> Radio\n>   no faults\n")
    assert "Radio" in found


@pytest.mark.parametrize("head", ["-- all erased --", "== everything wiped ==", "** codes deleted **", "all cleared"])
def test_a_clear_in_a_heading_between_marks_parts_two_scans(head: str) -> None:
    reading = read_text("ABS: C0035 stored\nEngine: P0562 stored, P0335 stored\nAirbag: nil\n\n"
                        f"{head}\nABS: C0035 stored\nEngine: P0335 stored\nAirbag: nil\n", load())
    assert [scan.phase for scan in reading.snapshots] == ["before-clear", "after-clear"]


@pytest.mark.parametrize(("first", "second"), [
    # It did not answer, and holds codes now.
    ("BCM: P0562\nABS: C0051 stored\nCluster: no answer", "BCM: P0562 stored\nABS: C0051 stored\nCluster: U0140"),
    # A code has gone, another is there again.
    ("BCM: P0562 stored, B1318 stored\nABS: C0051 stored\nEPS: C0545 stored",
     "BCM: P0562 stored\nABS: C0051 stored\nEPS: C0545 stored"),
])
def test_a_second_list_of_the_same_modules_is_another_scan(first: str, second: str) -> None:
    reading = read_text(f"{first}\n\n{second}\n", load())
    assert [len(scan.modules) for scan in reading.snapshots] == [3, 3]
    assert any("another scan" in notice.message for notice in reading.notices)


def test_a_list_and_its_details_are_one_scan() -> None:
    reading = read_text("BCM: P0562, B1318\nABS: C0051\n\nBCM: P0562 supply low, stored\n     B1318 supply, stored\n"
                        "ABS: C0051 angle sensor, stored\n", load())
    assert len(reading.snapshots) == 1
