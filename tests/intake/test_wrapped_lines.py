"""Lines that a mail program wrapped at one width: put together where a full line breaks off within something.

Source: common practice of mail programs (RFC 3676 recommends 78 columns at most; many wrap at 72 or less).
"""

from __future__ import annotations

import textwrap

import pytest

from tests.intake.reads import modules_of, scans

ABS, ECM, EPS, SRS = "anti-lock brakes", "engine control", "power steering", "restraints"
ROWS = (
    "U2101:01; Control module configuration not compatible; Electric power steering; Pending DTC\n"
    "C0045; Left rear wheel speed sensor circuit; Anti-lock brake module; no longer present\n"
    "P143D; Terminal 30 supply mechanical fault; Engine control module; stored\n"
    "U0415; Invalid data received from the other module; Electric power steering; active"
)
LISTS = (
    "Electric power steering = C1BEA Heated thing undervoltage (still active); C0110 Pump motor circuit (historic); "
    "C1214 Relay contact open (permanent)\n"
    "Engine control module = P0562 System voltage low (intermittent fault, verify wiring); P0563 (still active)\n"
    "Airbag control module = no faults stored"
)
SPOKEN = (
    "voltage on the battery ten point seven. electric power steering u0155 as pending, and u0402 stored. engine "
    "control module b1b2d active, b1b2e stored, not current. airbag control module is clean. anti-lock brake module "
    "stays silent."
)


def wrapped(text: str, width: int, lead: str = "") -> str:
    """A text as a mail program wraps it."""
    lines = (textwrap.wrap(line, width, break_long_words=False, break_on_hyphens=False) for line in text.split("\n"))
    return "\n".join(lead + line for several in lines for line in several)


@pytest.mark.parametrize("width", range(52, 80, 4))
@pytest.mark.parametrize("lead", ["", "> "])
@pytest.mark.parametrize("text", [ROWS, LISTS, SPOKEN])
def test_a_wrapped_text_is_read_as_it_was(text: str, width: int, lead: str) -> None:
    assert modules_of(wrapped(text, width, lead)) == modules_of(text)


def test_the_texts_are_read_whole() -> None:
    assert modules_of(ROWS) == {
        EPS: ["U2101-01 pending", "U0415 current"], ABS: ["C0045 stored"], ECM: ["P143D stored"]}
    assert modules_of(LISTS) == {
        EPS: ["C1BEA current", "C0110 stored", "C1214 permanent"],
        ECM: ["P0562 stored", "P0563 current"],
        SRS: ["clean"],
    }
    assert modules_of(SPOKEN) == {
        EPS: ["U0155 pending", "U0402 stored"],
        ECM: ["B1B2D current", "B1B2E stored"],
        SRS: ["clean"],
        ABS: ["silent"],
    }


@pytest.mark.parametrize(
    "rows",
    [
        # Nothing is wrapped here, though lines are as long as the longest.
        ["ECU;DTC;Meaning;State", "Engine;P0562;Terminal 15 input short to battery;",
         "Airbag;B1001;Terminal 30 input not adapted;"],
        ["Engine", "  P0562 Invalid data received from electric power", "Steering",
         "  C0545 Torque sensor not learned, left"],
        ["Engine", " - P0562 Terminal 15 input short to the battery", " - P0563 Terminal 15 input open circuit, engine",
         "ABS", " - C0035"],
        ["P0562 Engine Terminal 15 input short to battery (stored)",
         "C0035 ABS Wheel speed sensor, front left (current)"],
        ["engine,P0562,Unterbrechung oder Kurzschluss nach Plus,liegt an",
         ",P0563,Unterspannung am Eingang,nicht aktiv"],
        ["| stored |  | P0562 | Terminal 15 input short to battery | Engine |", "Earth cable corroded."],
        ["[08] Engine control module: P0562 P0563 P0300 P0301 P0302", "[09] Airbag: B1001 B1002"],
        ["Engine P0562 Terminal 15 input short to battery", "Airbag B1001 Stage one circuit open or shorted"],
    ],
)
def test_rows_of_one_length_stay_apart(rows: list[str]) -> None:
    short = {name: [code[:5] for code in codes] for name, codes in modules_of("\n".join(rows)).items()}
    # A longer line makes none of them full.
    wide = modules_of("\n".join([*rows, "Radio: no codes stored, the unit was updated by the dealer last autumn"]))
    assert {name: [code[:5] for code in codes] for name, codes in wide.items() if name != "radio"} == short


def test_lists_of_codes_wrapped_anywhere() -> None:
    text = (
        "U0131-88 Lost communication with left rear\nsensor (Sunroof) present now\n"
        "U1B2E-29 Pump relay contact (Sunroof) stored\nB1000-88 Control unit internal memory\n"
        "(Gateway) present now\nU2100-11 Coding missing or invalid in the\nunit (Gateway) stored\n"
        "B2100-11 Aerial of the radio lower limit low\n(Radio) stored\n\nABS -> no codes\n"
    )
    assert modules_of(text) == {"sunroof": ["U0131-88 current", "U1B2E-29 stored"],
                                "gateway": ["B1000-88 current", "U2100-11 stored"],
                                "radio": ["B2100-11 stored"], "anti-lock brakes": ["clean"]}


def test_lines_below_short_ones_are_no_rests() -> None:
    text = (
        "P0562-88 Terminal 15 input short to the battery supply line\nGateway\n"
        "U1B2E-29 Pump relay contact\nRadio\nB1000-88 Control unit internal hardware fault of memory\nSunroof\n"
    )
    found = modules_of(text)
    assert [code for codes in found.values() for code in codes if code not in ("clean", "silent")] == [
        "P0562-88", "U1B2E-29", "B1000-88"]
    assert {"gateway", "radio"} <= set(found)


@pytest.mark.parametrize("count", ["", " (1 fault)", ": 1 fault"])
def test_headings_with_an_address_below_full_lines(count: str) -> None:
    heads = ("3D - ABS", "5F - Gateway", "A3 - Sunroof", "71 - Radio")
    codes = ("C0035 ACTIVE - Wheel speed sensor front left open", "U0101 STORED - Lost communication with gear unit",
             "B2100 STORED - Roof motor travel never was learned", "B1318 ACTIVE - Supply voltage of the unit too low")
    text = "".join(f"{head}{count}\n- {code}\n" for head, code in zip(heads, codes, strict=True))
    assert modules_of(text) == {
        "anti-lock brakes": ["C0035 current"], "gateway": ["U0101 stored"], "sunroof": ["B2100 stored"],
        "radio": ["B1318 current"]}


@pytest.mark.parametrize(("text", "told"), [
    ("ABS - no codes\nInstrument cluster (2)\nU0151 Lost communication with\nrestraints control module - ACTIVE\n"
     "U0001 High speed communication bus\nGateway - no codes\n", {
         "anti-lock brakes": ["clean"], "instrument cluster": ["U0151 current", "U0001"], "gateway": ["clean"]}),
    ("Airbag: non testé\nRadio\nU0140 perte de communication avec le\ncalculateur habitacle - en attente\n"
     "ABS: ne répond pas\n", {"radio": ["U0140 pending"], "anti-lock brakes": ["silent"]}),
    ("Radio\nU0140 perte de communication avec le\ncalculateur habitacle - absent\nactuellement\n"
     "B1271 antenne coupée - présent\nU0073 bus coupé - présent\nABS: ne répond pas\n", {
         "radio": ["U0140 stored", "B1271 current", "U0073 current"], "anti-lock brakes": ["silent"]}),
])
def test_a_name_with_the_status_behind_a_line_that_breaks_off(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


def test_a_status_in_brackets_below_its_code_in_a_narrow_mail() -> None:
    text = ("before clear:\nengine ecu: u0121 (confirmed), p0101\n(confirmed)\ntransmission control module: p0882\n"
            "(pending - not yet confirmed), p0700\n(permanent), u0401 (pending - not yet\nconfirmed)\n")
    assert modules_of(text) == {
        "engine control": ["U0121 confirmed", "P0101 confirmed"],
        "transmission control": ["P0882 pending", "P0700 permanent", "U0401 pending"]}


def test_a_description_that_sounds_like_an_answer_goes_on_below_its_code() -> None:
    text = ("radio\nb10a4-62 spannung zu niedrig -\nbestätigt\nabs-steuergerät\np0700-62 drehzahlfühler hinten links\n"
            "kein signal - bestätigt\nu0155-62 keine kommunikation mit\nkombiinstrument - gespeichert\n")
    assert modules_of(text) == {
        "radio": ["B10A4-62 confirmed"], "anti-lock brakes": ["P0700-62 confirmed", "U0155-62 stored"]}


@pytest.mark.parametrize("mark", "~-=")
def test_what_is_underlined_is_a_heading_and_no_end_of_the_line_above(mark: str) -> None:
    text = (f"## Erste Abfrage\nWegfahrsperre (WFS) ........ Steuergerät antwortet nicht\nKombiinstrument (KI)\n"
            f"{mark * 20}\n   * U0140 - gespeichert\nServolenkung (SL)\n{mark * 17}\n   * C0051 - aktiv\n")
    assert modules_of(text) == {"immobiliser": ["silent"], "instrument cluster": ["U0140 stored"],
                                "power steering": ["C0051 current"]}


def test_a_status_below_a_line_that_breaks_off() -> None:
    for mark in (",", " -", " /"):
        text = (f"ABS\n  C0035 - wheel speed low{mark}\nINACTIVE\n  C0040 - pump motor{mark}\nCURRENTLY PRESENT\n"
                f"Radio\n  U0140 - no message{mark}\nGESPEICHERT\n  B1318 - supply\n")
        assert scans(text) == [" | ABS: C0035 stored C0040 current; Radio: U0140 stored B1318"]
