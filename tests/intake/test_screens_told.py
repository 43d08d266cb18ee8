"""Screens and exports: a status above its code, a box around a list, keys with numbers in them, a column that says
which scan a row is of, a status with its counters below the code. All invented; common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans, told

ABS, RADIO = "anti-lock brakes", "radio"


def test_a_status_above_its_code() -> None:
    text = ("ABS\n● Active\nC0035 wheel sensor\n○ History\nC0040 pump\n\nRadio\n○ History\nB1000 internal fault\n\n"
            "Cluster\nno faults\n")
    assert modules_of(text) == {ABS: ["C0035 current", "C0040 stored"], RADIO: ["B1000 stored"],
                                "instrument cluster": ["clean"]}


def test_a_status_below_its_code_stays_there() -> None:
    assert modules_of("ABS\nC0035 wheel sensor\nActive\nC0040 pump\nHistory\n\nRadio\nB1000 fault\nHistory\n") == {
        ABS: ["C0035 current", "C0040 stored"], RADIO: ["B1000 stored"]}


def test_a_box_around_a_list() -> None:
    text = ("+------------------------------------------+\n│ ABS                              ABS     │\n"
            "│   C0035-00  wheel sensor fault           │\n│             status: present              │\n"
            "│   C0040-00  pump                         │\n│             status: not present          │\n"
            "│ Radio                            RAD     │\n│   no entries                             │\n"
            "+------------------------------------------+\n")
    assert modules_of(text) == {ABS: ["C0035-00 current", "C0040-00 stored"], RADIO: ["clean"]}


def test_keys_with_the_number_of_the_code_in_them() -> None:
    text = ("System: Anti-lock Brakes\nNumber of entries: 2\nDTC.1.Code: C0035\nDTC.1.State: Stored\n"
            "DTC.2.Code: C0040\nDTC.2.State: Current\n\nSystem: Radio\nNumber of entries: 0\n")
    assert modules_of(text) == {ABS: ["C0035 stored", "C0040 current"], RADIO: ["clean"]}


def test_a_column_that_says_which_scan_a_row_is_of() -> None:
    text = ("Run;ECU;Code;Status\nbefore clearing;ABS;C0035;stored\nbefore clearing;Radio;-;no faults\n"
            "after clearing;ABS;-;no faults\nafter clearing;Radio;-;no faults\n")
    assert scans(text) == ["before-clear | ABS: C0035 stored; Radio: clean", "after-clear | ABS: clean; Radio: clean"]


def test_a_status_with_its_counters_below_the_code() -> None:
    text = ("ABS\n  C0035-00 wheel sensor\n      confirmed, seen 6 times, 412 km ago\n  C0040-11 pump\n"
            "      pending, seen 1 time, 9 km ago\n")
    assert modules_of(text) == {ABS: ["C0035-00 confirmed", "C0040-11 pending"]}


def test_an_empty_list_of_json_is_a_clean_module() -> None:
    text = '{"nodes":[{"name":"ABS","dtcs":[{"id":"C0035","st":"active"}]},{"name":"Radio","dtcs":[]}]}'
    assert modules_of(text) == {ABS: ["C0035 current"], RADIO: ["clean"]}


def test_a_plain_ecu_behind_the_key_of_the_others() -> None:
    text = ("Control module ECU\n- did not answer\nControl module TCU\n- did not answer\nControl module ABS\n"
            "- C0561 (Active)\nControl module ICM\n- fault memory empty\n")
    assert modules_of(text) == {"engine control": ["silent"], "transmission control": ["silent"],
                                ABS: ["C0561 current"], "instrument cluster": ["clean"]}


def test_a_label_that_says_twice_that_modules_are_clean() -> None:
    assert modules_of("OK modules (no codes): Radio, Instrument cluster\nABS: C0035 stored\n") == {
        RADIO: ["clean"], "instrument cluster": ["clean"], ABS: ["C0035 stored"]}


@pytest.mark.parametrize("label", ["Timeout, no answer", "- No response (timeout)", "No communication / no response"])
def test_a_label_that_says_twice_that_modules_are_silent(label: str) -> None:
    assert modules_of(f"ABS: C0035 stored\n{label}: Radio, Instrument cluster\n") == {
        ABS: ["C0035 stored"], RADIO: ["silent"], "instrument cluster": ["silent"]}


def test_a_date_alone_heads_a_scan() -> None:
    # Which day it is cannot be told here, that a new scan begins can.
    text = ("02/03/2026\nABS: C0035 stored\nRadio: B1000 stored\n\n"
            "05/03/2026\nABS: C0035 current\nRadio: clean\n")
    assert scans(text) == [" | ABS: C0035 stored; Radio: B1000 stored", " | ABS: C0035 current; Radio: clean"]


def test_a_status_behind_descriptions_in_brackets_is_of_all_codes_before_it() -> None:
    assert modules_of("ABS: C0035 (wheel sensor) and C0040 (pump motor) stored\n") == {
        ABS: ["C0035 stored", "C0040 stored"]}


def test_where_the_scan_stands_beside_the_distance() -> None:
    text = "Mileage: 22140 km; Scan: before erasing\nABS;C0035;stored\nRadio;B1000;current\n"
    assert scans(text) == ["before-clear | ABS: C0035 stored; Radio: B1000 current"]


def test_none_in_the_code_column_beside_no_response_is_no_clean_module() -> None:
    text = ("Module;Code;Description;Status\nABS;C0035;wheel sensor;current\nRadio;none;no response from module;\n"
            "Cluster;none;no faults;\n")
    assert modules_of(text) == {ABS: ["C0035 current"], RADIO: ["silent"], "instrument cluster": ["clean"]}


def test_names_right_behind_the_codes_of_a_column() -> None:
    assert modules_of("P0016 ECM   crank correlation\nC0035 ABS   wheel speed\nB1000 Radio   internal fault\n") == {
        "engine control": ["P0016"], ABS: ["C0035"], RADIO: ["B1000"]}


def test_detected_now_and_previously_detected() -> None:
    assert modules_of("ABS\nC0035 wheel speed   detected now\nC0040 pump   previously detected\n") == {
        ABS: ["C0035 current", "C0040 stored"]}


def test_the_supply_beside_a_count_of_all_codes() -> None:
    assert scans("LV supply at scan: 13,8 V        1 DTC total\nABS: C0035 stored\n") == ["13.8 V | ABS: C0035 stored"]
    assert scans("ABS: clean\nTotal 0 codes, 12.6V\n") == ["12.6 V | ABS: clean"]


def test_empty_elements_of_xml_say_what_their_names_say() -> None:
    text = ('<scan>\n<unit name="ABS"><dtc code="C0035" state="stored"/></unit>\n<unit name="Radio"><noDtc/></unit>\n'
            '<unit name="Cluster"><faults count="0"/></unit>\n<unit name="HVAC"><noAnswer/><dtcs/></unit>\n</scan>\n')
    assert modules_of(text) == {ABS: ["C0035 stored"], RADIO: ["clean"], "instrument cluster": ["clean"],
                                "climate control": ["silent"]}


@pytest.mark.parametrize(("one", "two"), [
    ("Monday", "Tuesday"), ("2 March", "5 March"), ("08:15", "11:40"), ("Mo., 02.03.", "Do., 05.03."),
    ("-- 2. März --", "-- 3. März --"), ("Lundi 14h20", "Mardi 8h05"),
])
def test_moments_without_a_year_head_scans_of_the_same_modules(one: str, two: str) -> None:
    text = f"Van 17\n{one}\nABS: C0035 stored\nRadio: B1000 stored\n\n{two}\nABS: C0035 current\nRadio: clean\n"
    assert scans(text) == [" | ABS: C0035 stored; Radio: B1000 stored", " | ABS: C0035 current; Radio: clean"]


def test_moments_above_other_modules_each_head_no_scan() -> None:
    text = "08:15\nABS: C0035 stored\nRadio: B1000 stored\n08:16\nCluster: U0140 stored\nBCM: clean\n"
    assert len(scans(text)) == 1


@pytest.mark.parametrize("between", ["", "\n", "-----\n", "departure\n", "\nRoadside scan\n", "\nout\n\n"])
def test_a_list_that_denies_the_one_before_is_another_scan(between: str) -> None:
    one = "ABS: C0035 stored\nRadio: B1000 stored\nBCM: no codes\n"
    two = "ABS: C0035 current\nRadio: no codes\nBCM: no codes\n"
    parted = [" | ABS: C0035 stored; Radio: B1000 stored; BCM: clean",
              " | ABS: C0035 current; Radio: clean; BCM: clean"]
    assert (scans(one + between + two) == parted) is bool(between)


def test_names_above_their_codes_told_again() -> None:
    text = "ABS\n C0035 stored\nRadio\n B1000 stored\n\n\nABS\n C0035 current\nRadio\n no codes\n"
    assert scans(text) == [" | ABS: C0035 stored; Radio: B1000 stored", " | ABS: C0035 current; Radio: clean"]


@pytest.mark.parametrize("text", [
    "Stored:\nABS: C0035\nRadio: none\n\nPending:\nABS: none\nRadio: B1000\n",
    "Stored codes\n\nABS: C0035\nRadio: none\n\nPending codes\n\nABS: none\nRadio: B1000\n",
    "ABS: 1 fault\nRadio: no codes\n\nABS\n C0035 current\n\nRadio\n no codes\n",
    "ABS: C0035 stored\nRadio: no codes\n\nABS: C0040 stored\nBCM: B1000 current\n",
    "ABS: OK\nRadio: OK\nBCM: no answer\n\nDetails\n\nABS: C0035 stored\nRadio: B1000 stored\n",
    "Mode 03\nABS: C0035\nRadio: none\n\nMode 07\nABS: none\nRadio: none\n",
    "Freeze frames\nABS: C0035\nRadio: none\n\nReadiness\nABS: ok\nRadio: ok\n",
])
def test_lists_of_one_scan_stay_one(text: str) -> None:
    assert len(scans(text)) == 1


def test_a_numbered_list_that_denies_the_one_before_is_another_scan() -> None:
    text = ("1) Motor ECU ...... P0562 (hist)\n2) Brake unit ..... C0035 (hist)\n\nOn departure\n"
            "1) Motor ECU ...... nothing stored\n2) Brake unit ..... C0035 (hist)\n")
    assert scans(text) == [" | Motor ECU: P0562 stored; Brake unit: C0035 stored",
                           " | Motor ECU: clean; Brake unit: C0035 stored"]


@pytest.mark.parametrize("text", [
    "| Module | Code | Status |\n|---|---|---|\n| ABS | C0035 | stored |\n| Radio | B1000 | stored |\n\n"
    "| Module | Code | Status |\n|---|---|---|\n| ABS | C0035 | current |\n| Radio | - | no codes |\n",
    "### Visit one\n\n|Module|Code|Status|\n|---|---|---|\n| ABS | C0035 | stored |\n| Radio | B1000 | stored |\n"
    "\n### Visit two\n\n|Module|Code|Status|\n|---|---|---|\n| ABS | C0035 | current |\n| Radio | - | no codes |\n",
    "Module;Code;Status\nABS;C0035;stored\nRadio;B1000;stored\nModule;Code;Status\nABS;C0035;current\nRadio;;clean\n",
    "Module  Code   Status\nABS     C0035  stored\nRadio   B1000  stored\n\n"
    "Module  Code   Status\nABS     C0035  current\nRadio   -      no codes\n",
    "First visit\n\nModule: ABS\nCode: C0035\nStatus: stored\n\nModule: Radio\nCode: B1000\nStatus: stored\n\n"
    "Second visit\n\nModule: ABS\nCode: C0035\nStatus: current\n\nModule: Radio\nNo codes\n",
])
def test_a_table_that_denies_the_one_before_is_another_scan(text: str) -> None:
    assert scans(text) == [" | ABS: C0035 stored; Radio: B1000 stored", " | ABS: C0035 current; Radio: clean"]


def test_json_below_and_above_lines_of_text() -> None:
    text = ('{"scan": [{"module": "ABS", "dtcs": [{"code": "C0035.11", "text": "sensor", "status": "pending"}, {'
            '"code": "C0040.62", "text": "low", "status": "not present"}]}, {"module": "Radio", "dtcs": []}]}')
    assert told(f"Date: 2024-03-02 10:00\nBattery 12.1 V\n\n{text}\n\nVehicle: van") == (
        "12.1 V | anti-lock brakes: C0035-11 pending, C0040-62 stored; radio: clean")
