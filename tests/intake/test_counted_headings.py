"""Headings with a counter before them, and lines that name no module. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import printed

from code_tables import load
from triage.intake.naming.modules import resolve
from triage.intake.read import read_text


def modules(text: str) -> list[tuple[str, bool | None, list[str]]]:
    """Module, answer and codes of the only scan of a text."""
    (snapshot,) = read_text(text, load()).snapshots
    return [(scan.module, scan.responds, [code.code for code in scan.codes]) for scan in snapshot.modules]


RADIO_AND_BAGS = [("radio", True, ["B1004"]), ("restraints", True, ["B0040"]), ("anti-lock brakes", False, [])]


@pytest.mark.parametrize("counters", [("[1/3] ", "[2/3] ", "[3/3] "), ("[1 of 3]", "[2 of 3]", "[3 of 3]"),
                                      ("1.", "2.", "3."), ("1) ", "2) ", "3) ")])
def test_a_counter_before_a_heading_is_no_part_of_the_name(counters: tuple[str, str, str]) -> None:
    one, two, three = counters
    text = f"{one}Radio\n  B1004 active\n{two}Airbag\n  B0040 active\n{three}ABS: no response\n"
    assert modules(text) == RADIO_AND_BAGS


def test_the_next_scan_counts_anew() -> None:
    text = ("Scan before clear\n1.Radio\n  B1004 active\n2.Airbag\n  B0040 active\n"
            "Scan after clear\n1.Radio: no codes\n2.Airbag: no codes\n")
    first, second = read_text(text, load()).snapshots
    for snapshot in (first, second):
        assert [scan.module for scan in snapshot.modules] == ["radio", "restraints"]


def test_a_day_before_a_month_is_no_counter() -> None:
    (snapshot,) = read_text("26.Oktober 2025 11:15, vor dem L\u00f6schen\nABS: C0035 aktiv\n", load()).snapshots
    assert (snapshot.phase, len(snapshot.modules)) == ("before-clear", 1)


def test_who_says_i_is_no_number() -> None:
    assert modules("In the left door I found B1902 active and in the right door I found B1903 stored.") == [
        ("door, left", True, ["B1902"]), ("door, right", True, ["B1903"])]


def test_the_text_of_a_fault_is_no_module() -> None:
    text = "Module: Camera 2\nCode: B0148\nState: active\nFault: actuator stuck\nCode: B2424\nState: stored\n"
    assert modules(text)[0] == ("camera 2", True, ["B0148", "B2424"])


@pytest.mark.parametrize("line", ["Tel. 01632 960 417", "Phone 01632 960417"])
def test_a_telephone_number_is_neither_code_nor_module(line: str) -> None:
    assert modules(f"{line}\nRadio\tU1064\treference voltage low\nABS\tU0335\tnot present\n") == [
        ("radio", True, ["U1064"]), ("anti-lock brakes", True, ["U0335"])]
    assert modules(f"Radio\tU1064\treference voltage low\n{line}\n") == [("radio", True, ["U1064"])]


FORMS = [
    ("{}: {} - {}", "{}: 0"),
    ("{} ({}): {}", "{} (0)"),
    ("{} - {} - {}", "{} - 0"),
    ("{} = {} ({})", "{} = 0"),
    ("{}: {}: {}", "{}: 0"),
    ("{} [{}] {}", "{} [0]"),
    ("{}: {}x {}", "{}: 0"),
    ("{} {}: {}", "{} 0"),
]


@pytest.mark.parametrize(("form", "zero"), FORMS)
def test_a_number_between_a_name_and_its_codes_counts_these(form: str, zero: str) -> None:
    said = [form.format("ECM", 2, "P0562, P0301"), zero.format("TCM"), form.format("ABS", 1, "C0035")]
    text = "\n".join([*said, zero.format("EPS")])
    assert printed(text) == "ECM: P0562 P0301; TCM: clean; ABS: C0035; EPS: clean"


UNITS = [
    ("Door 1: U0100\nDoor 2: U0100, U0101\n", "Door 1: U0100; Door 2: U0100 U0101"),
    ("Engine - 1 - P0562\nEngine - 2 - P0301, P0302\n", "Engine - 1: P0562; Engine - 2: P0301 P0302"),
    ("ECM 1: P0562\nECM 2: P0301\n", "ECM 1: P0562; ECM 2: P0301"),
    ("Door module 2 - U0100\nRadio 1 - B1000, B1001\n", "Door module 2: U0100; Radio 1: B1000 B1001"),
    ("ECM: 2 - P0562 stored\n         P0301 pending\nTCM: 0\n", "ECM: P0562 P0301; TCM: clean"),
    (
        "Motor: 2 Fehler: P0562, P0301\nGetriebe: 0\nABS: 1 Fehler: C0035\n",
        "Motor: P0562 P0301; Getriebe: clean; ABS: C0035",
    ),
]


@pytest.mark.parametrize(("text", "read"), UNITS)
def test_a_number_that_tells_modules_apart_is_no_count(text: str, read: str) -> None:
    assert printed(text) == read


def test_a_count_of_codes_that_are_not_there_is_noted() -> None:
    reading = read_text("ECM: 2 - P0562\nABS: 1 - C0035\n", load())
    assert [module.printed for module in reading.snapshots[0].modules] == ["ECM", "ABS"]
    assert "the text says 2 codes, 1 code read" in reading.notices[0].message


@pytest.mark.parametrize("said", ["{} faults", "{} flt", "{} Fehler", "{} defauts", "{} dtc"])
@pytest.mark.parametrize("mark", [" / ", " - ", ", ", " | "])
def test_the_count_between_a_name_and_its_codes_is_no_number_of_the_module(said: str, mark: str) -> None:
    lines = (("Engine computer", said.format(2), "P0562 (hist), P2104 (act)"), ("Gearbox", "PASS"),
             ("Air bag", said.format(1), "B0081-1A (act)"))
    assert modules("\n".join(mark.join(line) for line in lines)) == [
        ("engine control", True, ["P0562", "P2104"]), ("transmission control", True, []),
        ("restraints", True, ["B0081"]),
    ]


@pytest.mark.parametrize("form", ["({} of 3)", "[{}/3]", "{} of 3", "- {} von 3", ", {} de 3"])
def test_which_of_how_many_modules_it_is_is_no_part_of_a_name(form: str) -> None:
    names = [f"{name} ECU {form.format(number)}" for number, name in enumerate(("Engine", "Gearbox", "Brake"), 1)]
    text = f"{names[0]} - 2 codes\n* P0380 Glow plug [current]\n* P0562 System voltage low [stored]\n{names[1]} - " \
           f"0 codes\n{names[2]} - 1 code\n* C0550 ECU internal [stored]\n"
    assert [(name, codes) for name, _, codes in modules(text)] == [
        ("engine control", ["P0380", "P0562"]), ("transmission control", []), ("anti-lock brakes", ["C0550"]),
    ]


def test_which_of_several_equal_modules_it_is_stays_in_its_name() -> None:
    assert [name for name, _, _ in modules("Camera (1 of 2): U0100\nCamera (2 of 2): U0121")] == [
        "camera 1", "camera 2",
    ]
    assert resolve("Camera (2 of 2)", load()).canonical == "camera 2"
    assert resolve("Brake ECU (3 of 6)", load()).canonical == "anti-lock brakes"


def test_two_counts_that_hold_make_headings_of_words_nobody_knows() -> None:
    text = "Flux drive - 1 code\n* P0380 Glow plug [current]\nMystery box - 0 codes\nStuff - 1 code\n" \
           "* C0550 ECU internal [stored]\n"
    assert [(name, codes) for name, _, codes in modules(text)] == [
        ("Flux drive", ["P0380"]), ("Mystery box", []), ("Stuff", ["C0550"]),
    ]


def test_the_title_of_a_list_with_its_count_is_no_module() -> None:
    text = "Vehicle scan - 2 codes\nP0380 - Glow plug\nC0550 - ABS\n"
    told = [(name, codes) for name, _, codes in modules(text)]
    assert told == [("glow plug", ["P0380"]), ("anti-lock brakes", ["C0550"])]


@pytest.mark.parametrize("form", ["{})", "({})", "{}.", "0{})", "{}]"])
def test_the_number_of_a_list_glued_to_a_name_is_no_part_of_it(form: str) -> None:
    lines = ["ecm  u0001,p0562 stored", "cent lock  b1420 current", "radio  none"]
    text = "\n".join(f"{form.format(number)}{line}" for number, line in enumerate(lines, 1))
    assert modules(text) == [
        ("engine control", True, ["U0001", "P0562"]), ("central locking", True, ["B1420"]), ("radio", True, []),
    ]


def test_numbers_left_out_make_no_difference_before_a_bracket() -> None:
    assert modules("2)ecm p0562\n7)radio none\n") == [("engine control", True, ["P0562"]), ("radio", True, [])]


COUNTED = [
    (
        "engine 4 stored p0562 p0113 p0118 p0123\nbrake 2 stored u0100 u0416\nsrs 1 current b0092\nclk spring 0\n",
        "engine: P0562 P0113 P0118 P0123; brake: U0100 U0416; srs: B0092; clk spring: clean",
    ),
    ("engine 2 codes p0562 p0113\nradio 0\n", "engine: P0562 P0113; radio: clean"),
    ("engine: 2 stored p0562 p0113\nbrake: 1 current u0100\n", "engine: P0562 P0113; brake: U0100"),
    ("2 in engine: p0562,p0685\nbrakes 0\n1 in cluster: u0100\n", "engine: P0562 P0685; brakes: clean; cluster: U0100"),
    ("2 in the engine:\np0562\np0113\n0 in the brakes\n", "engine: P0562 P0113; brakes: clean"),
    ("2x engine p0562 p0113\n1x cluster u0100\n0 brakes\n", "engine: P0562 P0113; cluster: U0100; brakes: clean"),
    ("engine 3\np0562\np0113\np0118\nbrake 1\nu0100\nradio 0\n",
     "engine: P0562 P0113 P0118; brake: U0100; radio: clean"),
    ("engine 2 p0562 p0113\nbrake 2 u0100 c0031\nradio 1 b1000\n",
     "engine: P0562 P0113; brake: U0100 C0031; radio: B1000"),
]
NUMBERED = [
    ("camera 1 stored u0100\ndoor 2 stored b1001 b1002\nradio none\n",
     "camera 1: U0100; door 2: B1001 B1002; radio: clean"),
    ("camera 1 u0100\ncamera 2 u0100\nradio 0 codes\n", "camera 1: U0100; camera 2: U0100; radio: clean"),
    ("camera 3 u0100 u0101 u0102\n", "camera 3: U0100 U0101 U0102"),
    ("engine 2 stored p0562 p0113\ndoor 2 stored b1000\n", "engine 2: P0562 P0113; door 2: B1000"),
    ("0 Engine\n P0562\n1 Gearbox\n P0700\n2 ABS\n no codes\n", "Engine: P0562; Gearbox: P0700; ABS: clean"),
]


@pytest.mark.parametrize(("text", "read"), COUNTED + NUMBERED)
def test_the_whole_text_tells_a_count_from_a_number(text: str, read: str) -> None:
    assert printed(text) == read


def test_a_count_before_the_name_is_held_against_the_codes() -> None:
    reading = read_text("3 in engine: p0562,p0685\n1 in cluster: u0100\n", load())
    assert [module.printed for module in reading.snapshots[0].modules] == ["engine", "cluster"]
    assert "the text says 3 codes, 2 codes read" in reading.notices[0].message


@pytest.mark.parametrize(("head", "none"), [
    ("<< {} >>      {} found", "<< {} >>      no comms"), ("== {} ==  {} stored", "== {} ==  no comms"),
    ("{}      {} found", "{}     no comms"), ("[{}]   {} gefunden", "[{}]   keine Antwort"),
    ("{} .... {} found", "{} .... no comms"),
])
def test_how_many_were_found_is_no_part_of_the_name(head: str, none: str) -> None:
    one, two = head.format("Radio", 1), head.format("Airbag", 2)
    text = (f"{one}\n    B1004   aerial open   active\n{two}\n    B0040   squib   active\n"
            f"    B0051   buckle   stored\n{none.format('ABS')}\n")
    assert printed(text) == "Radio: B1004; Airbag: B0040 B0051; ABS: silent"
