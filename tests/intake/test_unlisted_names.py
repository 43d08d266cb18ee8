"""Lines that name no module though they look like it, and modules that no table knows. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest
from reads import printed

from code_tables import load
from triage.intake.read import Reading, read_text


def read(text: str) -> Reading:
    return read_text(text, load())


def modules(text: str) -> list[tuple[str, bool | None, list[str]]]:
    """Module, answer and codes of the only scan of a text."""
    (snapshot,) = read(text).snapshots
    return [(scan.module, scan.responds, [code.code for code in scan.codes]) for scan in snapshot.modules]


@pytest.mark.parametrize(
    "line",
    [
        "Tel. 0171 5556251",
        "Phone: +49 171 5556251",
        "Software version 4.12.69",
        "SW 0815.4711",
        "Order no. 56134",
        "Odometer 84213 km",
    ],
)
def test_a_number_with_its_word_is_neither_a_module_nor_a_date(line: str) -> None:
    reading = read(f"{line}\n2025-03-03 08:00\nECM: P0562 stored\n")
    assert [len(snapshot.modules) for snapshot in reading.snapshots] == [1]
    assert str(reading.snapshots[0].at) == "2025-03-03 08:00:00"
    assert not reading.notices


@pytest.mark.parametrize(
    ("line", "engine"),
    [("Engine: off", "off"), ("engine on", "running"), ("Key on, engine off", "off"), ("Motor läuft", "running")],
)
def test_the_state_of_the_engine_opens_no_module(line: str, engine: str) -> None:
    (snapshot,) = read(f"{line}\nBattery 12.1 V\nABS: no codes\n").snapshots
    assert (snapshot.engine, snapshot.volts) == (engine, 12.1)
    assert [(scan.module, scan.volts) for scan in snapshot.modules] == [("anti-lock brakes", None)]


def test_an_unlisted_heading_ends_the_codes_of_a_module_named_in_its_own_line() -> None:
    text = "Dash: P0562-16 stored\nCrane interface\nP2503-51 Charging system voltage low\nABS: no codes\n"
    assert modules(text) == [
        ("instrument cluster", True, ["P0562"]),
        ("Crane interface", True, ["P2503"]),
        ("anti-lock brakes", True, []),
    ]


@pytest.mark.parametrize(("answer", "responds"), [("no codes", True), ("no response", False)])
def test_codes_below_a_line_of_words_are_not_those_of_a_module_that_has_none(answer: str, responds: bool) -> None:
    text = f"EPS\n{answer}\nCrane interface\nP2503-51 Charging\n"
    assert modules(text) == [("power steering", responds, []), ("Crane interface", True, ["P2503"])]


def test_words_that_go_on_with_a_sentence_are_no_heading() -> None:
    text = "Dash: P0562-16 stored\nin the crane there are\nP2503-51 Charging system voltage low\n"
    assert "in the crane there are" not in [name for name, _, _ in modules(text)]


def test_the_address_of_a_heavy_vehicle_stands_before_the_name() -> None:
    assert modules("SA 0 Engine #1\n SPN 168 FMI 4 active\nSA 11 Brakes\n no codes\n") == [
        ("engine control", True, ["SPN 168 FMI 4"]),
        ("anti-lock brakes", True, []),
    ]


def test_hundreds_of_names_with_a_slip_are_each_looked_up() -> None:
    """More than a vehicle has, so that lines that only look like names do not use up the look-ups of those that are."""
    lines = [f"unknown thing {chr(97 + at % 26)}{chr(97 + at // 26)}x: P0562 stored" for at in range(400)]
    text = "\n".join([*lines, "Anti-lokc brakes: U0100 stored"])
    assert modules(text)[-1][0] == "anti-lock brakes"


def test_a_silent_gearbox_in_the_workshop_s_short_hand_is_the_transmission_control() -> None:
    assert modules("WO 8841 / school bus, diesel / lights left on\n[ENG] P0562 stored\n[GBX] >>> nothing back\n") == [
        ("engine control", True, ["P0562"]),
        ("transmission control", False, []),
    ]


@pytest.mark.parametrize("number", ["WO 8841 / ", "Work order 8841: ", "Job 12, ", ""])
def test_the_vehicle_stands_behind_the_number_of_the_order(number: str) -> None:
    reading = read(f"{number}school bus, diesel\nECM: P0562 stored\n")
    assert reading.vehicle.label == "school bus"


BESIDE_A_LISTED_ONE = [
    ("ABS C0035. Tailgate and the VDM are clean.\n", "ABS: C0035; Tailgate: clean; VDM: clean"),
    ("The VDM and the tailgate are clean. ABS has C0035.\n", "VDM: clean; tailgate: clean; ABS: C0035"),
    ("Le VDM et le hayon sont sans défaut. ABS C0035.\n", "VDM: clean; hayon: clean; ABS: C0035"),
    ("ABS, VDM: no response\nECM: P0562\n", "ABS: silent; VDM: silent; ECM: P0562"),
    ("VDM -> Pass\nABS -> C0035\n", "VDM: clean; ABS: C0035"),
    ("In the cluster I found U0140. From the VDM I get P242F and P0563.\n", "cluster: U0140; VDM: P242F P0563"),
    ("ABS has C0035. Then the VDM gave me P0563.\n", "ABS: C0035; VDM: P0563"),
    ("ABS has C0035. This morning I found P0301 in the ECM.\n", "ABS: C0035; ECM: P0301"),
    ("ABS and MIL are ok, radio has B1000.\n", "ABS: clean; radio: B1000"),
]


@pytest.mark.parametrize(("text", "read"), BESIDE_A_LISTED_ONE)
def test_capital_letters_beside_a_listed_name_are_a_module(text: str, read: str) -> None:
    assert printed(text) == read


@pytest.mark.parametrize("mark", [": ", " - ", " -- "])
def test_what_is_not_understood_of_a_module_is_told_behind_any_usual_mark(mark: str) -> None:
    reading = read(f"ECM{mark}P0562\nABS{mark}whatever\nSRS{mark}ok\nBCM{mark}ok\n")
    assert [scan.module for scan in reading.snapshots[0].modules] == ["engine control", "restraints", "body control"]
    assert [notice.line for notice in reading.notices] == [2]


@pytest.mark.parametrize("mark", ["    ", ": ", " ", ";", " | ", " - "])
@pytest.mark.parametrize("name", ["NR", "AT", "IM", "DA"])
def test_two_capitals_that_are_a_word_elsewhere_name_a_module(mark: str, name: str) -> None:
    behind = ";" if mark == ";" else "   "
    text = "".join(
        f"{module}{mark}{code}{behind}gespeichert\n"
        for module, code in (("MR", "SPN 168 FMI 3"), ("EBS", "SPN 789 FMI 5"), (name, "SPN 1087 FMI 18"))
    )
    assert [(scan.printed, [code.code for code in scan.codes]) for scan in read(text).snapshots[0].modules] == [
        ("MR", ["SPN 168 FMI 3"]), ("EBS", ["SPN 789 FMI 5"]), (name, ["SPN 1087 FMI 18"]),
    ]


@pytest.mark.parametrize("name", ["AT", "IM", "SE"])
def test_two_capitals_may_be_silent(name: str) -> None:
    assert modules(f"EBS    SPN 789 FMI 5\n{name}    keine Antwort\n")[1][1:] == (False, [])


@pytest.mark.parametrize("word", ["Nr", "NR.", "DTC", "NO.", "CODE NR"])
def test_a_word_for_number_names_no_module(word: str) -> None:
    assert [name for name, _, _ in modules(f"ENGINE\n{word} P0562\n{word} P0563\n")] == ["engine control"]


@pytest.mark.parametrize(("before", "after"), [
    ("The tail board node gave me U0001 pending.", "After the clear no codes in the tail board node, ABS was clean."),
    ("tail board node: U0001 pending, ABS no reply", "after clear - tail board node no codes, ABS clean"),
    ("Before the clear ABS was clean, the tail board node shows U0001 pending.",
     "After the clear the tail board node and ABS were clean."),
])
def test_a_name_that_stood_before_codes_is_one_in_the_next_scan(before: str, after: str) -> None:
    last = read_text(f"{before}\n{after}\n", load()).snapshots[-1]
    assert {module.module.lower(): (module.codes, module.responds) for module in last.modules} == {
        "tail board node": ([], True), "anti-lock brakes": ([], True)}


@pytest.mark.parametrize("said", ["The bottle rack module did not answer.", "the bottle rack module not responding."])
def test_words_that_end_as_names_do_are_one_behind_the(said: str) -> None:
    assert modules(f"Radio has U0100 stored. Then {said}\n") == [
        ("radio", True, ["U0100"]), ("bottle rack module", False, [])]


@pytest.mark.parametrize("said", ["04711 step motor", "step motor jams"])
def test_a_row_of_another_module_is_no_description_of_the_code_above(said: str) -> None:
    reading = read_text(f"Engine ECU: U0101\nSliding step: {said}\nABS: U0121\n", load())
    (snapshot,) = reading.snapshots
    assert [(module.printed, [code.text for code in module.codes]) for module in snapshot.modules] == [
        ("Engine ECU", [None]), ("ABS", [None])]
    assert any(notice.message.startswith("Sliding step: what is said of it") for notice in reading.notices)
