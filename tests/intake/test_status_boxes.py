"""Boxes, questions and keys that tell the status of a code, and others that do not; counts above and below."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed, told

ABS, ECM = "anti-lock brakes", "engine control"


@pytest.mark.parametrize(("below", "status"), [
    ("[x] Confirmed  [ ] Pending", "confirmed"), ("[ ] Confirmed  [x] Pending", "pending"),
    ("[X] Stored [ ] Present", "stored"), ("[ ] Stored [X] Present", "current"), ("( ) stored  (x) active", "current"),
    ("\u2611 Confirmed  \u2610 Pending", "confirmed"), ("\u2610 Confirmed  \u2611 Pending", "pending"),
    ("Confirmed [x]  Pending [ ]", "confirmed"), ("- [x] Stored\n- [ ] Present", "stored"),
    ("- [ ] Stored\n- [x] Present", "current"), ("[ ] Confirmed  [ ] Pending", ""), ("[ ] Present", "stored"),
    ("Present? Yes", "current"), ("Present? No", "stored"), ("Present? No\n  Stored? Yes", "stored"),
    ("Stored? Yes\n  Present? Yes", "current"), ("Present? Yes\n  Stored? Yes", "current"), ("Pending? No", ""),
    ("Stored: yes\n  Present: yes", "current"), ("Memory: stored   Now: not present", "stored"),
    ("Memory: stored   Now: present", "current"), ("Now: no, memory: confirmed", "confirmed"),
])
def test_what_is_ticked_or_answered_below_a_code(below: str, status: str) -> None:
    text = f"ECM\n  P0562 supply low\n  {below}\nABS\n  no codes\n"
    assert modules_of(text) == {ECM: [f"P0562 {status}".strip()], ABS: ["clean"]}


@pytest.mark.parametrize(("behind", "status"), [
    ("[ ] stored [x] current", "current"), ("\u2610 Confirmed \u2611 Pending", "pending"),
    ("Memory: stored   Now: present", "current"), ("stored [x] current [ ]", "stored"),
])
def test_the_same_in_the_line_of_the_code(behind: str, status: str) -> None:
    assert modules_of(f"ECM P0562 {behind}\nABS ok\n") == {ECM: [f"P0562 {status}"], ABS: ["clean"]}


@pytest.mark.parametrize(("ask", "active", "gone", "confirmed"), [
    ("Codes", "active", "not currently present", "confirmed"),
    ("Fehler", "liegt an", "liegt nicht an", "best\u00e4tigt"),
    ("D\u00e9fauts", "d\u00e9faut pr\u00e9sent", "pas pr\u00e9sent actuellement", "confirm\u00e9"),
    ("Aver\u00edas", "aver\u00eda presente", "ya no est\u00e1 activa", "confirmada"),
])
def test_boxes_before_a_code_and_behind_its_text(ask: str, active: str, gone: str, confirmed: str) -> None:
    text = (f"ECM    (X) {ask}   ( ) OK   ( ) timeout\n"
            f"   (X) {active}  ( ) {gone}  ( ) {confirmed}   P0562\n"
            f"   ( ) {active}  (X) {gone}  ( ) {confirmed}   P0335 xyz\n"
            f"ABS    (X) {ask}   ( ) OK   ( ) timeout\n"
            f"   C0035 xyz: zyx   ( ) {active}  ( ) {gone}  (X) {confirmed}\n"
            f"TCM    ( ) {ask}   (X) OK   ( ) timeout\n")
    assert modules_of(text) == {
        ECM: ["P0562 current", "P0335 stored"], ABS: ["C0035 confirmed"], "transmission control": ["clean"]}


def test_boxes_beside_makers_own_numbers() -> None:
    text = ("ECM\n  \u2610 present \u2611 stored   04711 Valve stuck\n"
            "  \u2611 present \u2610 stored   00815 Valve stuck\nABS\n  no codes\n")
    assert modules_of(text) == {ECM: ["04711 stored", "00815 current"], ABS: ["clean"]}


def test_boxes_of_other_things_stay() -> None:
    assert modules_of("ECM P0562\n[x] Battery charged  [ ] Tyres\nABS ok\n") == {ECM: ["P0562"], ABS: ["clean"]}
    # Whether a module is there tells nothing of the codes above it.
    text = "Controller: ECM\nDTC: P0562\n\nController: ABS\nPresent? Yes\nDTC: none\n"
    assert modules_of(text) == {ECM: ["P0562"], ABS: ["clean"]}


@pytest.mark.parametrize(("count", "below", "status"), [
    ("Faults stored   1", "State   pending", "pending"), ("Faults stored: 1", "Status: confirmed", "confirmed"),
    ("Faults stored   1", "State   active", "current"), ("Faults stored   1", "Count   3", "stored"),
    # That it was there now is not taken back.
    ("Active faults: 1", "State: stored", "current"), ("Permanent codes: 1", "State: confirmed", "permanent"),
])
def test_the_status_of_a_code_outweighs_the_count_above(count: str, below: str, status: str) -> None:
    text = f"ENGINE\n  {count}\n  P0562 System voltage low\n    {below}\nABS\n  no codes\n"
    assert modules_of(text) == {ECM: [f"P0562 {status}"], ABS: ["clean"]}


@pytest.mark.parametrize("value", ["not readable, unit silent", "no answer", "timeout"])
def test_a_list_without_an_answer_is_the_silence_of_its_module(value: str) -> None:
    text = (f"ENGINE\n  Faults stored   1\n  P0562 low\nTELEMATICS\n  Faults stored   {value}\n"
            "ENVIRONMENT\n  Voltage   11.9 V\n")
    assert told(text) == "11.9 V | engine control: P0562 stored; telematics: silent"


def test_a_voltage_below_a_line_of_its_own_is_no_modules() -> None:
    head = "ENGINE\n  P0562\nABS\n  no codes\n"
    assert printed(f"{head}AMBIENCE\n  Voltage 11.9 V\n") == "11.9 V; ENGINE: P0562; ABS: clean"
    assert printed("ENGINE\n  P0562\nABS\n  Supply 11.4 V\n  no codes\n") == "ENGINE: P0562; ABS 11.4 V: clean"


@pytest.mark.parametrize("line", ["7.5 amp fuse good", "(10 amp dlc fuse ok)", "15 amp ecu fuse fine", "fuse 10 amp ok",
                                  "30-amp breaker ok", "2.5 amps ok"])
def test_a_rated_current_is_no_amplifier(line: str) -> None:
    text = f"ECM P0562 stored\nABS ok\n11.2 V at the dlc, {line}\n"
    assert modules_of(text) == {ECM: ["P0562 stored"], ABS: ["clean"]}


@pytest.mark.parametrize("line", ["amp: ok", "2 amp ok", "amp no codes", "Amp - ok"])
def test_the_amplifier_stays(line: str) -> None:
    assert modules_of(f"1 ECM P0562\n{line}\n")["amplifier"] == ["clean"]


@pytest.mark.parametrize("line", ["ABS; ok no dtcs", "ABS;ok no codes", "ABS; ras, aucun d\u00e9faut",
                                  "ABS; ok, no codes"])
def test_an_answer_in_several_words_behind_a_mark(line: str) -> None:
    assert modules_of(f"ECM; P0562\n{line}\n")[ABS] == ["clean"]


@pytest.mark.parametrize("day", ["15/02/25", "05/02/25"])
def test_a_name_below_the_facts_of_a_scan(day: str) -> None:
    text = f"abs\nU0415 donnees memorise\ndate {day}   km 178 400\ntableau de bord\naucun\ndefaut\n"
    assert modules_of(text)["instrument cluster"] == ["clean"]


@pytest.mark.parametrize(("text", "read"), [
    ("P0606/04 PCM--processor--pend.\nU0126/00 PSCM ; same ;pend.",
     {ECM: ["P0606-04 pending"], "power steering": ["U0126-00 pending"]}),
    ("ABS--no response\nECM--P0562--stored", {ABS: ["silent"], ECM: ["P0562 stored"]}),
    ("Engine = P0562 current,P0122 history.Trans= nothing. ABS= U0100",
     {ECM: ["P0562 current", "P0122 stored"], "transmission control": ["clean"], ABS: ["U0100"]}),
    ("labs ne r\u00e9pond pas. P0562 dans lecm.", {ABS: ["silent"], ECM: ["P0562"]}),
    ("P0562 | Engine #1 | Battery low - most severe | active\nC0035 | ABS | low | stored",
     {ECM: ["P0562 current"], ABS: ["C0035 stored"]}),
    ("P0562 in engine. ABS #2 did not answer.", {ECM: ["P0562"], "anti-lock brakes 2": ["silent"]}),
    ("ABS: C0035.\nBodymodule doesnt answer. Engine = P0562.",
     {ABS: ["C0035"], "body control": ["silent"], ECM: ["P0562"]}),
])
def test_marks_and_names_between(text: str, read: dict[str, list[str]]) -> None:
    assert modules_of(text) == read


def test_what_somebody_wrote_behind_a_code_is_still_left_out() -> None:
    assert modules_of("ECM P0562 stored  # seen last week too\nABS C0035 # 2 times now\n") == {
        ECM: ["P0562 stored"], ABS: ["C0035"]}
