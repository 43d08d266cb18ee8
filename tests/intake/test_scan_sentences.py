"""Sentences that bring a scan or say the status of all its codes, and names that nobody knows in sentences of codes.
Invented texts; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed, scans
from triage.intake.said.ofall import told

ABS, ECM, RADIO = "anti-lock brakes", "engine control", "radio"


@pytest.mark.parametrize(("first", "second", "phase"), [
    ("Ahead of the clear it showed:", "Once it was back from a road test we found:", "after-run"),
    ("Before clearing, 11.2 V, this came up:", "When it came back from its test drive the list was this:", "after-run"),
    ("Before the clear I got:", "After the strap was replaced (13.1 V) the tester gave:", "after-repair"),
])
def test_a_sentence_with_a_colon_brings_the_next_scan(first: str, second: str, phase: str) -> None:
    text = f"{first} The ABS has C0035. Nothing stored in the radio. {second} No codes in the ABS and the radio."
    told = [scan.split(" | ") for scan in scans(text)]
    assert [head.split()[0] for head, _ in told] == ["before-clear", phase]
    assert [held for _, held in told] == ["ABS: C0035; radio: clean", "ABS: clean; radio: clean"]


def test_scans_that_a_sentence_counts() -> None:
    text = ("On scan 1 (10.4 V) the tester gave: the ABS has C0035, the radio no codes.\n"
            "On scan 2 (12.6 V) the tester gave: nothing stored in the ABS, the radio has B1000.")
    assert scans(text) == ["10.4 V | ABS: C0035; radio: clean", "12.6 V | ABS: clean; radio: B1000"]


@pytest.mark.parametrize(("said", "status"), [
    ("All of these are passive, not one is active.", "stored"),
    ("Every code in this scan is pending.", "pending"),
    ("All of them current at the time of the scan.", "current"),
    ("All codes below are stored, none active:", "stored"),
    ("Alle Fehler sind gespeichert.", "stored"),
])
def test_a_sentence_before_the_codes_says_the_status_of_all(said: str, status: str) -> None:
    text = f"After the clear: {said} The ABS has C0035 and C0040. The radio shows B1000 (confirmed)."
    assert modules_of(text) == {ABS: [f"C0035 {status}", f"C0040 {status}"], RADIO: ["B1000 confirmed"]}


def test_no_such_sentence() -> None:
    for low in ("all modules are present", "these are old", "everything is clear", "all fuses are present",
                "all stored codes were cleared"):
        assert told(low, True) is None, low
    # Behind the codes of a scan it says nothing of those of the next.
    text = "ABS: C0035\nAll codes are fixed.\nRadio: B1000"
    assert modules_of(text) == {ABS: ["C0035"], RADIO: ["B1000"]}


@pytest.mark.parametrize(("told", "read"), [
    ("The ABS has C0035. From the Tail node unit came U0100 and U0101.", "ABS: C0035; Tail node unit: U0100 U0101"),
    ("the abs has c0035. from the mast box came u0100 (stored).", "abs: C0035; mast box: U0100"),
    ("The ABS has C0035. U0100 (stored) in the Mast gantry. The radio has B1000.",
     "ABS: C0035; Mast gantry: U0100; radio: B1000"),
    ("The Mast unit did not answer. The ABS has C0035. No reply from the Crane module B at all.",
     "Mast unit: silent; ABS: C0035; Crane module B: silent"),
    ("The Plough panel, the radio and the ABS have no codes. The ECM has P0562.",
     "Plough panel: clean; radio: clean; ABS: clean; ECM: P0562"),
    ("The ABS is clean.\nGot U0100 stored in Mast gantry\nThe radio gave B1000.",
     "ABS: clean; Mast gantry: U0100; radio: B1000"),
    ("The ABS is clean. There is U0100 active in the Mast gantry.", "ABS: clean; Mast gantry: U0100"),
    ("Got U0100 stored. The radio gave B1000.", "None: U0100; radio: B1000"),
    ("Airbag est muet ; Grue de levage a U0100 ; ABS a C0035 actif.",
     "Airbag: silent; Grue de levage: U0100; ABS: C0035"),
    ("Only these came: U0100 and U0101. ABS has C0035.", "None: U0100 U0101; ABS: C0035"),
])
def test_names_that_nobody_knows_in_sentences(told: str, read: str) -> None:
    assert printed(told) == read


def test_a_vehicle_is_no_module() -> None:
    assert "Delivery Van" not in printed("P0562 (stored) in the Delivery Van. The ABS has C0035.")


@pytest.mark.parametrize("told", [
    "Couldn't get the ABS to answer.", "I could not get a reply out of the ABS.",
    "Failed to get the ABS to communicate.",
    "No luck getting the ABS to talk.",
])
def test_a_module_that_nobody_got_to_answer(told: str) -> None:
    assert modules_of(f"The ECM has P0562. {told} No codes in the radio.") == {
        ECM: ["P0562"], ABS: ["silent"], RADIO: ["clean"]}


def test_what_else_a_module_is_called_stands_in_brackets() -> None:
    text = ("P0562 (stored) in the engine (ECM). The KVM (cooling fan module), the Immobiliser (Immo), the Sunroof "
            "module (Roof) and the Seat module driver (Driver seat) have no codes.")
    assert printed(text) == ("engine (ECM): P0562; KVM (cooling fan module): clean; Immobiliser (Immo): clean; "
                             "Sunroof module (Roof): clean; Seat module driver (Driver seat): clean")


@pytest.mark.parametrize(("told", "read"), [
    ("ABS: C0035 wheel sensor left, present now.", ["C0035 current"]),
    ("The ABS has C0035 wheel sensor left, stored, and C0040 pump motor, still present.",
     ["C0035 stored", "C0040 current"]),
    ("The ABS shows C0035 (wheel sensor), C0040 and C0045 no signal from pump, all currently present.",
     ["C0035 current", "C0040 current", "C0045 current"]),
    ("The ABS has C0035 wheel sensor and C0040 pump motor, both intermittent.", ["C0035 stored", "C0040 stored"]),
    ("ABS: SPN 639 FMI 9 J1939 network 2, old, not present.", ["SPN 639 FMI 9 stored"]),
    ("ABS: SPN-639 FMI-9 (present)", ["SPN 639 FMI 9 current"]),
    ("Freins : C0035 (à conf), C0040 (att. confirmation), C0045 (présent à la lecture), C0050 (mémo)",
     ["C0035 pending", "C0040 pending", "C0045 current", "C0050 stored"]),
])
def test_a_status_behind_a_description(told: str, read: list[str]) -> None:
    assert next(iter(modules_of(told).values())) == read


def test_a_code_that_somebody_had_read_long_ago() -> None:
    text = ("ABS: C0035\nThe owner had P0420 read out at a parts shop two years ago, it is not in the ECM today.\n"
            "ECM: no codes")
    assert modules_of(text) == {ABS: ["C0035"], ECM: ["clean"]}


def test_a_scan_after_what_was_put_in_with_its_supply() -> None:
    text = ("Before the clear: the ABS has C0035.\nScan after the new starter battery went in, supply 12.7 volts: "
            "nothing in ABS, radio and dash.")
    assert scans(text)[1] == "after-repair 12.7 V | ABS: clean; radio: clean; dash: clean"


@pytest.mark.parametrize("last", ["Steering column", "Main crane module"])
def test_the_last_name_of_a_list_stands_alone_in_the_next_line(last: str) -> None:
    text = f"ECM has P0562\nno codes in ABS, radio and\n{last}\ndash has U0100\n"
    assert printed(text) == f"ECM: P0562; ABS: clean; radio: clean; {last}: clean; dash: U0100"


@pytest.mark.parametrize(("told", "read"), [
    ("The salt spreader unit is clean.", "clean"), ("The salt spreader unit scanned clean.", "clean"),
    ("Nothing in the salt spreader unit.", "clean"), ("No codes in the salt spreader unit.", "clean"),
    ("Salt spreader unit did not respond.", "silent"), ("Could not reach the salt spreader unit.", "silent"),
    ("Could not get into the salt spreader unit, no reply.", "silent"),
])
def test_a_name_with_a_word_for_a_module_that_nobody_knows(told: str, read: str) -> None:
    for low in (False, True):
        text = f"The ABS is clean. {told} The radio has B1000."
        modules = modules_of(text.lower() if low else text)
        assert [codes for name, codes in modules.items() if name.lower() == "salt spreader unit"] == [[read]]
        assert len(modules) == 3


@pytest.mark.parametrize("told", ["The whole unit is fine.", "Nothing in that unit.", "No codes in any other module."])
def test_what_names_no_module_of_its_own(told: str) -> None:
    assert set(modules_of(f"The ABS is clean. {told} The radio has B1000.")) == {ABS, RADIO}


@pytest.mark.parametrize("list_head", ["Clean", "OK", "No codes", "No codes in"])
def test_one_name_that_nobody_knows_behind_the_head_of_a_list(list_head: str) -> None:
    assert modules_of(f"ABS\n  C0035 stored\n{list_head}: Salt spreader unit\n") == {
        ABS: ["C0035 stored"], "Salt spreader unit": ["clean"]}


def test_modules_that_are_counted_in_round_brackets() -> None:
    text = "(1/3) EPS (1 code)\n > U0121 Lost contact - active\n\n(2/3) Winch: no codes\n\n(3/3) ABS ... no reply\n"
    assert modules_of(text) == {"power steering": ["U0121 current"], "Winch": ["clean"], ABS: ["silent"]}


@pytest.mark.parametrize(("first", "second"), [
    ("The ABS has C0035. No answer from the radio.", "The ABS is clean. The radio has B1000."),
    ("ABS hat C0035. Keine Antwort vom Radio.", "ABS fehlerfrei. Radio hat B1000."),
    ("ABS a C0035. Pas de réponse de radio.", "ABS sans défaut. Radio affiche B1000."),
    ("ABS tiene C0035. Sin respuesta de radio.", "ABS sin averías. Radio tiene B1000."),
])
@pytest.mark.parametrize("dates", [("14.03.2024 07:40", "15.03.2024 09:05"), ("2024-03-14", "2024-03-15 09:05")])
def test_a_date_with_a_full_stop_begins_a_scan(first: str, second: str, dates: tuple[str, str]) -> None:
    told = [scan.partition("| ")[2].lower() for scan in scans(f"{dates[0]}. {first}\n{dates[1]}. {second}")]
    assert told == ["abs: c0035; radio: silent", "abs: clean; radio: b1000"]


def test_a_date_at_the_end_of_a_line_begins_none() -> None:
    assert len(scans("14.03.2024 07:40. The ABS has C0035. The radio is clean.\nBattery fitted 15.03.2024.\n")) == 1
