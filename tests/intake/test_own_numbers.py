"""Makers' own numbers in lines below the name of a module, behind a word for a code or in a short form; and the numbers
of other things there. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, printed
from triage.intake.read import read_text

RADIO, ABS, ECM = "radio", "anti-lock brakes", "engine control"


@pytest.mark.parametrize(("lead", "number"), [
    ("Fault ", "5206"), ("Code ", "5206"), ("Fault code ", "52061"), ("Error ", "5F06"), ("DTC ", "5206"),
    ("Fehler ", "5206"), ("Fehlercode ", "5206"), ("Défaut ", "5206"), ("Código ", "5206"), ("Avería ", "5206"),
    ("Fault no. ", "5206"), ("", "D-2240B"), ("", "KX-52061"), ("Fault ", "D-2240B"),
])
@pytest.mark.parametrize("form", [
    "{}{}  Aerial circuit, signal too low - stored", "{}{}: Aerial circuit - stored", "{}{} - aerial (stored)"])
def test_a_number_behind_a_word_for_a_code(lead: str, number: str, form: str) -> None:
    line = form.format(lead, number)
    own = {RADIO: [f"{number} stored"], ECM: ["P0620 stored"], ABS: ["clean"]}
    for head in ("Radio", "Control unit: Radio", "Radio:"):
        text = f"{head}\n  {line}\nEngine\n  P0620 alternator - stored\nABS\n  No faults\n"
        assert modules_of(text) == own


def test_such_a_number_below_a_name_that_nobody_knows_and_alone() -> None:
    text = "Roof box\n  Fault 5206  Lost contact with radio - static\n  Stored fault 5207  Aerial\nABS\n  Fault 5208\n"
    assert printed(text) == "Roof box: 5206 5207; ABS: 5208"
    text = "ABS\n  Fault 5206  Radio: no answer\n  Status: stored   Count: 3\n  Fault 5207  Pump\nRadio no faults\n"
    assert modules_of(text) == {ABS: ["5206 stored", "5207"], RADIO: ["clean"]}


@pytest.mark.parametrize("text", [
    "Radio\n  5206  Aerial low - stored\n  5207  Speaker open - stored\nABS\n  no codes\n",
    "Radio, 2 faults\n  5206 Aerial low\n       Status: stored   Count: 3\n  5207 Speaker\n       Status: stored\n"
    "ABS, no faults\n",
    "Control unit: Radio\n  P0620 alternator\n  5206: Aerial low - stored\n  5207: Speaker - stored\nABS\n  no codes\n",
    "Radio\n  SW 0912\n  Fault codes:\n  5206 - Aerial low (stored)\nABS\n  no codes\n",
    "Radio (1 fault)\n  5206   Aerial low   stored\nABS\n  no codes\n",
])
def test_four_digits_beside_a_text(text: str) -> None:
    read = modules_of(text)
    own = [code for code in read[RADIO] if code != "P0620"]
    assert own == ["5206 stored", "5207 stored"][: text.count("520")]
    assert read[ABS] == ["clean"]


@pytest.mark.parametrize("lines", [
    "5206 km since the last service\n  4500 rpm when it shook", "2021 clutch replaced\n  2019 gearbox oil",
    "5206  brake pads  45.00\n  5207  discs  99.00", "5206  brake pads", "Fuse 5206  pump\n  Fuse 5207  lamp",
    "Order 5206  pads\n  Order 5207  discs", "Fault 5206 km ago", "Code 4500 rpm", "ISO-9141  line low",
    "C-5206A  connector under the dash", "Fault 5206 in the gateway", "Code 5206 entered by the owner", "Code 5206",
    "1450 mV supply\n  1460 mV ground",
])
def test_numbers_of_other_things(lines: str) -> None:
    text = f"ABS\n  C0040 stored\n  {lines}\nRadio\n  no codes\n"
    assert modules_of(text) == {ABS: ["C0040 stored"], RADIO: ["clean"]}


def test_a_list_of_parts_below_no_name() -> None:
    text = "ABS\n  C0040 stored\n\nParts fitted\n5206  brake pads\n5207  discs\n"
    assert modules_of(text)[ABS] == ["C0040 stored"]
    assert "520" not in str(modules_of(text))


OTHERS = ("B1341", "71203", "U0164")


@pytest.mark.parametrize("form", [
    "{}, stored, circuit open", "{} - circuit open - stored", "{}: circuit open (stored)", "{} [stored] circuit open",
    "{}  circuit open  stored", "{} stored circuit open", "{} | stored | circuit open",
])
@pytest.mark.parametrize("head", [">> Radio", "Radio (3 faults)", "# Radio"])
def test_four_digits_in_lines_like_those_of_the_other_codes(form: str, head: str) -> None:
    first, *rest = OTHERS
    lines = "\n  ".join(form.format(number) for number in (first, "6214", *rest))
    text = f"{head}\n  {lines}\nABS\n  {form.format('6380')}\n  {form.format('C0051')}\nCamera\n  no codes\n"
    assert modules_of(text) == {
        RADIO: [f"{code} stored" for code in ("B1341", "6214", "71203", "U0164")],
        ABS: ["6380 stored", "C0051 stored"], "camera": ["clean"]}


@pytest.mark.parametrize("form", [
    "{code}  {name}  active  circuit open", "{code} circuit open [{name}] active",
    "{code} ({name}) circuit open - active", "{code} active  {name}: circuit open",
    "{name}: {code} circuit open - active", "{name} - {code} - circuit open - active",
    "{name} {code} active circuit open", "{name} | {code} | circuit open | active",
])
def test_four_digits_beside_the_name_of_their_module(form: str) -> None:
    told = (("Radio", "B1341"), ("ABS", "6214"), ("ABS", "C0051"), ("Engine control", "P0620"), ("Radio", "3380"))
    text = "\n".join(form.format(code=code, name=name) for name, code in told) + "\n\nCamera: no codes\n"
    assert modules_of(text) == {
        RADIO: ["B1341 current", "3380 current"], ABS: ["6214 current", "C0051 current"], ECM: ["P0620 current"],
        "camera": ["clean"]}


def test_four_digits_below_a_name_that_nobody_knows() -> None:
    text = "ABS\n C0051, stored, open\n>> roof box fr\n 6214, pending, open\n U0164, stored, lost\n"
    assert printed(text) == "ABS: C0051; roof box fr: 6214 U0164"


@pytest.mark.parametrize("line", [
    "2017, active since the repair", "4500 rpm, active", "6214 km, stored", "6214, brake pads, 45.00",
    "6214, radio code", "6214 Mill Lane, stored", "Tel. 6214, stored", "6214, part number",
])
def test_four_digits_of_other_things_among_codes(line: str) -> None:
    text = f"ABS\n  C0051, stored, open\n  C0045, stored, open\n  {line}\n  C0040, stored, open\nRadio\n  no codes\n"
    assert modules_of(text) == {ABS: ["C0051 stored", "C0045 stored", "C0040 stored"], RADIO: ["clean"]}


@pytest.mark.parametrize("line", ["6214 pump relay sticks", "6214, pump relay sticks", "6214  pump relay"])
def test_four_digits_that_were_not_read_are_told_and_no_part_of_the_code_above(line: str) -> None:
    reading = read_text(f"ABS\n  C0051 low\n  {line}\nRadio\n  no codes\n", load())
    [code] = reading.snapshots[0].modules[0].codes
    assert (code.code, code.text) == ("C0051", "low")
    assert [notice.line for notice in reading.notices if "6214" in notice.message] == [3]


@pytest.mark.parametrize("text", [
    "6214 (Radio) aerial open - stored\nABS: C0051 stored\n", "Radio: 6214 aerial open\nABS: C0051 open\n",
    "ABS\n C0051, stored, open\n 2019, stored, short\n", "ABS: C0051 open\n6214 open [Radio] not present\n"])
def test_such_a_line_anywhere_is_told_where_it_is_not_read(text: str) -> None:
    reading = read_text(text, load())
    assert [(code.code, code.text) for module in reading.snapshots[0].modules for code in module.codes] in (
        [("C0051", "open")], [("C0051", None)])
    assert any(notice.severity == "warning" for notice in reading.notices)


@pytest.mark.parametrize("form", [
    "{name} - {code} - open - stored", "{name} {code} stored", "{code}  {name}  open  stored",
    "{code} open [{name}] stored"])
def test_one_other_line_is_enough_where_a_name_and_a_status_are_told(form: str) -> None:
    text = "\n".join(form.format(name=name, code=code) for name, code in (("Radio", "6214"), ("ABS", "C0051")))
    assert modules_of(text) == {RADIO: ["6214 stored"], ABS: ["C0051 stored"]}


@pytest.mark.parametrize("text", [
    "Radio\n  6214 - aerial open - stored\nABS\n  no codes\n",
    "Radio\n  6214 aerial open (stored)\nABS: no codes\n"])
def test_one_line_with_a_status_told_apart_below_a_name(text: str) -> None:
    assert modules_of(text) == {RADIO: ["6214 stored"], ABS: ["clean"]}


def test_one_line_between_a_name_and_a_code_with_the_same_mark() -> None:
    text = "Radio\n  6214, aerial open\n  B1341, permanent, speaker open\nABS: no codes\n"
    assert modules_of(text) == {RADIO: ["6214", "B1341 permanent"], ABS: ["clean"]}


def test_times_below_codes_are_none() -> None:
    text = "ABS\nC0051, stored, open\nC0045, stored, open\n0915, car brought in\n1430, car fetched\nRadio: no codes\n"
    assert modules_of(text) == {ABS: ["C0051 stored", "C0045 stored"], RADIO: ["clean"]}


@pytest.mark.parametrize(("line", "code"), [
    ("ABS: fault 6214 relay", "6214"), ("ABS fault 62140 relay", "62140"), ("ABS - stored fault 6214", "6214 stored"),
    ("ABS: error 6214 relay (stored)", "6214 stored"), ("ABS: code 6214: relay, stored", "6214 stored"),
    ("ABS: Fehler 6214 Relais", "6214"),
])
def test_a_number_behind_a_name_and_a_word_for_a_code(line: str, code: str) -> None:
    assert modules_of(f"{line}\nRadio: no codes\n") == {ABS: [code], RADIO: ["clean"]}


@pytest.mark.parametrize("line", [
    "ABS: fault 6214 km ago", "ABS: code 6214", "ABS: code 6214 entered", "ABS: fault 2019", "ABS fault 3 of 5",
    "ABS fault 6214 in the gateway",
])
def test_other_numbers_behind_a_name_and_such_a_word(line: str) -> None:
    assert "6214" not in str(modules_of(f"{line}\nRadio: no codes\n"))


@pytest.mark.parametrize("lead", ["0x70{} ", "0{}-", "Addr 4{} "])
def test_a_number_behind_an_addressed_name(lead: str) -> None:
    names = ("Roof module", "Glow plug control", "Power steering", "QZML")
    lines = [f"{lead.format(at)}{name}: {code} {told}" for at, (name, code, told) in enumerate(zip(
        names, ("03610", "E6533", "DF503", "04623"), ("Mirror heater open", "Valve stuck", "Relay", "Wake-up line"),
        strict=True))]
    held = [code for module in read_text("\n".join(lines), load()).snapshots[0].modules for code in module.codes]
    assert [code.code for code in held] == ["03610", "E6533", "DF503", "04623"]


@pytest.mark.parametrize("mark", [": ", " -> ", " | "])
def test_a_number_between_its_status_and_its_description(mark: str) -> None:
    text = f"Radio:\n    1. stored{mark}905ED7{mark}Valve stuck\n    2. still active{mark}9549EB{mark}Bus open\n"
    assert modules_of(text) == {"radio": ["905ED7 stored", "9549EB current"]}


def test_values_behind_a_status_are_no_codes() -> None:
    assert printed("ABS\n  C0035\n  Stored: 23004 km ago\n  Current: 10451 km\n") == "ABS: C0035"


@pytest.mark.parametrize("form", ["{0}; {1} [0x71{2}]; {3}", "{0}; {1}; {3}", "{0} / {1} / {3}", "{0}, {1}, {3}"])
def test_numbers_alone_before_names_and_descriptions(form: str) -> None:
    told = (("M6957", "Instrument cluster", "Supply voltage low"), ("AF230B", "Power steering", "Bus fault"),
            ("18927", "Power steering", "Front sensor open"), ("E5919", "Air conditioning", "Internal fault"))
    text = "\n".join(form.format(code, name, at, title) for at, (code, name, title) in enumerate(told))
    assert modules_of(f"{text}\n") == {"instrument cluster": ["M6957"], "power steering": ["AF230B", "18927"],
                                       "air conditioning": ["E5919"]}


@pytest.mark.parametrize("form", ["{} (address 0{}) - {} {}", "{} [0x70{}] -> {} {}", "{} (address 0{})\t{} {}"])
def test_a_number_behind_a_name_with_its_address(form: str) -> None:
    text = "".join(form.format(*parts) + "\n" for parts in (
        ("Climate control", 1, "M1866", "Aerial stuck (history)"), ("Driver seat", 2, "930A6E", "No signal (pending)"),
        ("Power steering", 3, "19769", "Lamp short (stored); T347 Fan stage stuck (pending)")))
    assert modules_of(text) == {"climate control": ["M1866 stored"], "seat, driver": ["930A6E pending"],
                                "power steering": ["19769 stored", "T347 pending"]}


@pytest.mark.parametrize("mark", [" -> ", " => ", " - ", ": "])
def test_a_number_and_a_mark_before_its_description(mark: str) -> None:
    text = f"■ 01: ABS\n• K7152{mark}Aerial no signal\n• M9691{mark}Terminal 15 (present)\n\n■ 02: Radio (Pass)\n"
    assert modules_of(text) == {"anti-lock brakes": ["K7152", "M9691 current"], "radio": ["clean"]}


@pytest.mark.parametrize("mark", ["; ", ", ", " / "])
def test_a_second_number_behind_a_mark(mark: str) -> None:
    text = (f"Steering -> 19659 System supply{mark}19626 Assist limited\nDamper -> 19030 Rear valve\n"
            "ABS -> C0063 Yaw rate\n")
    assert modules_of(text) == {"power steering": ["19659", "19626"], "suspension": ["19030"],
                                "anti-lock brakes": ["C0063"]}


@pytest.mark.parametrize("form", ["- [x] **{}**: ", "- **{}**: ", "* [x] {}: ", "**{}:** ", "`{}`: "])
def test_behind_a_name_set_off_in_markdown(form: str) -> None:
    text = "".join(form.format(name) + told + "\n" for name, told in (
        ("Radio", "A6C1 aerial timeout"), ("Gateway", "93F2 quiescent current; E1943A message invalid"),
        ("Park brake", "A55B energy saving mode"), ("Airbag", "no codes")))
    (scan,) = read_text(text, load()).snapshots
    found = {module.module: [code.code for code in module.codes] for module in scan.modules}
    assert found == {"radio": ["A6C1"], "gateway": ["93F2", "E1943A"], "park brake": ["A55B"], "restraints": []}


@pytest.mark.parametrize("number", ["E-401A", "A1B-22", "5A-03", "H21", "S-17", "4-2-1", "X9F2", "MM-1102-3"])
@pytest.mark.parametrize("form", [
    "Module;Code;Text;Status\nRadio;{};aerial open;stored\nABS;;no codes;\n",
    "| Module | Code | Text | Status |\n|---|---|---|---|\n| Radio | {} | aerial open | stored |\n"
    "| ABS | - | no codes | |\n",
    "Module: Radio\nCode: {}\nText: aerial open\nStatus: stored\n\nModule: ABS\nResult: no codes\n"])
def test_what_fills_a_place_made_for_a_code_is_one(number: str, form: str) -> None:
    assert modules_of(form.format(number)) == {"radio": [f"{number} stored"], "anti-lock brakes": ["clean"]}


@pytest.mark.parametrize("other", ["12V", "2.3.24", "3", "P030", "HW-12", "250 km", "11.05"])
def test_a_measure_a_date_or_a_count_there_is_none(other: str) -> None:
    found = modules_of(f"Module;Code;Text\nRadio;{other};aerial open\nABS;C0035;low\n")
    assert found.get("radio", ["clean"]) == ["clean"]


@pytest.mark.parametrize(("now", "kept", "count"), [
    ("currently present:", "stored:", "{}: {} faults"), ("aktuell vorhanden:", "gespeichert:", "{}: {} Fehler"),
    ("présent:", "mémorisé:", "{}: {} défauts"), ("presente:", "memorizado:", "{}: {} fallos"),
])
def test_numbers_below_a_status_below_a_name(now: str, kept: str, count: str) -> None:
    text = "\n".join((
        count.format("ABS", 2), now, "17211", "   Pump relay open", kept, "C0035", "   Wheel sensor",
        count.format("Hay blower", 2), kept, "01466", "   Blower motor stuck", "02871", "   Coil open",
        count.format("BCM", 1), now, "09315", "   Horn relay low", ""))
    assert modules_of(text) == {
        "anti-lock brakes": ["17211 current", "C0035 stored"], "Hay blower": ["01466 stored", "02871 stored"],
        "body control": ["09315 current"]}


def test_numbers_below_other_words_are_no_codes() -> None:
    text = "ABS\nC0035\nOrders:\n17211\n   Pump for yard\n01466\n   Blower\n09315\n   Horn\n02871\n   Coil\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035"]}
