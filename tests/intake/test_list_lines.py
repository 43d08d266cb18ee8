"""A whole list in one line, and lists whose lines end with the names of their modules. All texts are invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

_HELD = {"anti-lock brakes": ["C0040 current", "U0121 stored"], "Loader boom": ["clean"], "radio": ["silent"],
         "transmission control": ["P0750-1C pending"]}
_PARTS = (("ABS", "C0040 wheel sensor (active); U0121 lost (stored)"), ("Loader boom", "no codes"),
          ("Radio", "no response"), ("Gearbox", "P0750-1C solenoid (pending)"))


@pytest.mark.parametrize("mark", [" ### ", " || ", " / ", " ;; ", " *** ", " + ", " // ", " ~ "])
@pytest.mark.parametrize("link", [" .. ", " -> ", " = ", ": ", ":", " - ", " => ", " :: "])
def test_a_mark_parts_modules_and_another_their_names(mark: str, link: str) -> None:
    assert modules_of(mark.join(f"{name}{link}{told}" for name, told in _PARTS)) == _HELD


@pytest.mark.parametrize(("mark", "link"), [(" ### ", " || "), (" || ", " <- "), (" / ", " <= "), (" ## ", " <-- ")])
def test_names_behind(mark: str, link: str) -> None:
    assert modules_of(mark.join(f"{told}{link}{name}" for name, told in _PARTS)) == _HELD
    assert modules_of("\n".join(f"{told}{link}{name}" for name, told in _PARTS)) == _HELD


def test_in_other_languages_and_quoted() -> None:
    assert modules_of("> Airbag .. keine Fehler ### Kipper .. B1000 Masse (aktiv) ### ABS .. keine Antwort") == {
        "restraints": ["clean"], "tipper": ["B1000 current"], "anti-lock brakes": ["silent"]}
    assert modules_of("pas de code || BSI ### P0562 masse (actif) || Grue ### aucune réponse || ABS") == {
        "body control": ["clean"], "boom": ["P0562 current"], "anti-lock brakes": ["silent"]}
    assert modules_of("airbag = sin códigos /// grúa = P0562 masa (activo) /// ABS = no responde") == {
        "restraints": ["clean"], "boom": ["P0562 current"], "anti-lock brakes": ["silent"]}


def test_with_the_time_of_each_message() -> None:
    text = ("[08:10] Ann: P0562 low (active) || Loader boom\n[08:12] Ann: C0040 open (stored) || ABS\n"
            "[08:13] Ann: no codes || Radio\n")
    assert modules_of(text) == {
        "Loader boom": ["P0562 current"], "anti-lock brakes": ["C0040 stored"], "radio": ["clean"]}


def test_a_place_in_the_paste_is_kept() -> None:
    from code_tables import load
    from triage.intake.read import read_text

    text = "no codes || Boom gear ### C0040 (active) || ABS ### P0700 || TCM"
    notice = next(each for each in read_text(text, load()).notices if "Boom gear" in each.message)
    assert (notice.line, text[notice.start : notice.end]) == (1, "Boom gear")


@pytest.mark.parametrize("text", [
    # An arrow to what somebody remarks.
    "C0040 active <- look here first\nU0121 stored <- ask the customer\nP0750 stored <- new today\n",
    # Pieces of one code's line, and the range of a description.
    "ABS: C0040 - wheel speed / range / performance - active\n",
])
def test_other_marks_are_left(text: str) -> None:
    codes = [code for held in modules_of(text).values() for code in held]
    assert codes[0] == "C0040 current"
    assert not {"range", "performance", "look here first"} & set(modules_of(text))


def test_statuses_before_their_codes() -> None:
    """To take each for that of the code in front would hide what fails now."""
    told = "RADIO: stored U1072 mic fault; active U0155 contact lost; stored U2C62 voltage"
    assert modules_of(told)["radio"] == ["U1072 stored", "U0155 current", "U2C62 stored"]
    told = "RADIO: nicht aktiv U1072 Mikrofon; aktiv U0155 Kontakt fehlt; nicht aktiv U2C62 Spannung"
    assert modules_of(told)["radio"] == ["U1072 stored", "U0155 current", "U2C62 stored"]
    behind = "RADIO: U1072 mic fault stored; U0155 contact lost active; U2C62 amplifier stored"
    assert modules_of(behind)["radio"] == ["U1072 stored", "U0155 current", "U2C62 stored"]


@pytest.mark.parametrize(("text", "codes"), [
    ("[active] B1A3E-1F, B0028 | [stored] U0140, B1D3F", ["B1A3E-1F current", "B0028 current", "U0140 stored",
                                                            "B1D3F stored"]),
    ("(aktiv) B1A3E; (passiv) U0140, B1D3F", ["B1A3E current", "U0140 stored", "B1D3F stored"]),
    ("B1A3E (active), B0028 (stored); U0140 (active)", ["B1A3E current", "B0028 stored", "U0140 current"]),
])
def test_statuses_in_brackets_before_groups(text: str, codes: list[str]) -> None:
    assert modules_of(f"Radio: {text}\nABS: no codes\n")["radio"] == codes


def test_counts_behind_statuses() -> None:
    text = ("Gateway -> previously active (3): U1432, U2100, U163C\n"
            "Loader boom -> prev. active (1): B2A76 // pending (1): U0131\nRadio -> no codes\n")
    assert modules_of(text) == {"gateway": ["U1432 stored", "U2100 stored", "U163C stored"],
                                "Loader boom": ["B2A76 stored", "U0131 pending"], "radio": ["clean"]}
    text = "Radio (26) - confirmé (2): SPN: 91 FMI: 17, U0101\nABS (18) - non confirmé (1): SPN: 167 FMI: 4\n"
    assert modules_of(text) == {"radio": ["SPN 91 FMI 17 confirmed", "U0101 confirmed"],
                                "anti-lock brakes": ["SPN 167 FMI 4 pending"]}


def test_messages_with_their_times_are_no_paragraph() -> None:
    text = ("01.02.2024 10:10\n[10:04] Ann: Lenkhilfe .. aktiv U0199 Keine Kommunikation mit Tür\n"
            "[10:05] Ann: Radio .. nicht mehr vorhanden B2589 Versorgung Klemme 30 unplausibel\n"
            "[10:06] Ann: Airbag .. ohne Fehler\n")
    assert modules_of(text) == {
        "power steering": ["U0199 current"], "radio": ["B2589 stored"], "restraints": ["clean"]}
    two = text + "\n01.02.2024 12:20\n[12:21] Ann: Lenkhilfe .. ohne Fehler\n[12:22] Ann: Radio .. ohne Fehler\n"
    assert scans(two)[1] == " | Lenkhilfe: clean; Radio: clean"


@pytest.mark.parametrize("joint", [" + ", " & ", ", ", " and ", " und ", " et ", " y "])
def test_several_names_behind_the_arrow_that_leads_back_to_them(joint: str) -> None:
    text = (f"U0140 [active] <- ABS{joint}Radio\nB1101 [active] <- Radio\nC0051 [stored] <- ABS\n"
            "P0700 [stored] <- Gearbox\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["U0140 current", "C0051 stored"], "radio": ["U0140 current", "B1101 current"],
        "transmission control": ["P0700 stored"]}


def test_a_name_with_a_joint_of_its_own_behind_the_arrow() -> None:
    text = "U0140 [active] <- Orbital Brush + Hopper\nB1101 [active] <- Radio\nC0051 [stored] <- ABS\n"
    assert modules_of(text) == {
        "Orbital Brush + Hopper": ["U0140 current"], "radio": ["B1101 current"], "anti-lock brakes": ["C0051 stored"]}
