"""Names that no table lists, told by the place in which they stand: the column of the modules, the frame of the
headings, the list of an answer, one kind of place in several sentences. All invented."""

from __future__ import annotations

import pytest
from reads import printed

from triage.intake.lines import unlistednames

COLUMNS = [
    # The name comes again beside other codes; a description does not.
    ("U0121; brake data lost; Wankomat; stored\nP0562; supply too low; Wankomat; active\n"
     "U0100; engine data lost; Quersperre; stored\n", "Wankomat: U0121 P0562; Quersperre: U0100"),
    ("U0121 | Fnordmatic | STORED | lost messages\nP0562 | Fnordmatic | ACTIVE | voltage too low\n"
     "U0155 | Snurfer | ACTIVE | lost messages from dash\nGrubbel | no faults\n",
     "Fnordmatic: U0121 P0562; Snurfer: U0155; Grubbel: clean"),
    ("U0121, confirmed, Balancín, datos de freno no válidos\nP0562, memorizado, Balancín, tensión baja\n"
     "C0899, memorizado, Trompo, tensión baja\n", "Balancín: U0121 P0562; Trompo: C0899"),
    ("U0121-87 - Wankomat - NICHT AKTIV\nB1676-16 - Wankomat - AKTIV\nP0562-16 - Quersperre - AKTIV\n"
     "U0073-88 - Quersperre - GESPEICHERT\n", "Wankomat: U0121-87 B1676-16; Quersperre: P0562-16 U0073-88"),
    ("U0121 @ Fnordmatic (actif)\nP0562 @ Fnordmatic (mémorisé)\nC0035 @ Fnordmatic (mémorisé)\n",
     "Fnordmatic: U0121 P0562 C0035"),
    ("U0121: Wankomat\nU0073: Quersperre\nU3000: Quersperre\nU3006: Wankomat\n",
     "Wankomat: U0121 U3006; Quersperre: U0073 U3000"),
    # Below each code.
    ("U0121 brakes lost\n   Snurfer\nP0562 voltage low\n   Snurfer\nU0100 engine lost\n   Grubbel\n",
     "Snurfer: U0121 P0562; Grubbel: U0100"),
]


@pytest.mark.parametrize(("text", "read"), COLUMNS)
def test_the_column_of_the_modules_holds_names(text: str, read: str) -> None:
    assert printed(text) == read


OTHER_COLUMNS = [
    # Below the name of a module, whatever comes again tells of its codes.
    "ABS\nC0035; front left; wheel sensor open\nC0040; front right; wheel sensor open\nC0045; front left; ring\n",
    # So does the text of a code.
    "ABS\nU0121 | lost messages | stored\nU0140 | lost messages | stored\nU0100 | lost messages | stored\n",
    "ABS\nU0121 | powertrain | stored\nU0140 | powertrain | stored\nC0035 | chassis | stored\n",
]


@pytest.mark.parametrize("text", OTHER_COLUMNS)
def test_what_comes_again_below_a_module_is_no_other(text: str) -> None:
    read = printed(text)
    assert read.startswith("ABS: ")
    assert ";" not in read


FRAMES = [
    ("* ABS *\nC0035  stored\n  Wheel sensor\n* Wankomat *\nU0155  stored\n  Lost contact with\n  dash\n"
     "* Radio *\nU0100  stored\n", "ABS: C0035; Wankomat: U0155; Radio: U0100"),
    ("D3 - Radio (1 fault)\n- U0100 stored - no contact\n3C - Ober-Snurfer (2 faults)\n- U3003 stored - supply\n"
     "- U0101 stored - no contact\n63 - ABS (1 fault)\n- C0035 stored\n",
     "Radio: U0100; Ober-Snurfer: U3003 U0101; ABS: C0035"),
    ("1. Wankomat\n   1.1 B1231 lamp open\n2. Grubbel\n   2.1 U3003 supply low\n   2.2 U0100 engine lost\n",
     "Wankomat: B1231; Grubbel: U3003 U0100"),
    ("Sin respuesta: Balancín\nNo DTCs - Trompo / Radio\nABS: C0035\n",
     "Balancín: silent; Trompo: clean; Radio: clean; ABS: C0035"),
]


@pytest.mark.parametrize(("text", "read"), FRAMES)
def test_the_frame_of_the_headings_holds_names(text: str, read: str) -> None:
    assert printed(text) == read


def test_the_head_of_a_page_is_no_name() -> None:
    text = "Radio\nU0100 stored\nABS\nC0035 stored\n\nPage 1 of 2\nRapport de diagnostic\nC0040 stored\nEPS\nC0051\n"
    assert "Rapport" not in printed(text)


SENTENCES = [
    ("Wankomat keine Kommunikation, Quersperre ohne Fehler, Radio ohne Fehler, ABS hat C0035.",
     "Wankomat: silent; Quersperre: clean; Radio: clean; ABS: C0035"),
    ("Fnordmatic has U0100 stored. Snurfer has P0562 pending. Grubbel has U0121.",
     "Fnordmatic: U0100; Snurfer: P0562; Grubbel: U0121"),
]


@pytest.mark.parametrize(("text", "read"), SENTENCES)
def test_several_in_one_kind_of_place_are_names(text: str, read: str) -> None:
    assert printed(text) == read


def test_units_that_a_list_counts_are_clean_but_those_told_below() -> None:
    text = ("Units called up: Wankomat, Grubbel, Snurfer, Balancín\n\nNo codes in any of them, apart from these:\n"
            "* Grubbel: U0100 (stored)\n* Snurfer: no answer\n")
    read = printed(text)
    assert [name for name in ("Wankomat: clean", "Balancín: clean", "Grubbel: U0100") if name not in read] == []


@pytest.mark.parametrize("text", [
    "Page 2", "not present", "lost messages", "Ref. 4471", "Caja de", "sunroof shows", "(2"])
def test_what_is_no_name(text: str) -> None:
    assert not unlistednames.is_name(text)


def test_makers_numbers_behind_letters_and_roman_numbers() -> None:
    text = "Radio\n  (i) A12881 speaker\n  (ii) 8B6067 aerial\n  (iii) 8B6068 aerial\n"
    assert printed(text) == "Radio: A12881 8B6067 8B6068"


def test_a_list_under_headings_with_the_marks_of_a_quote() -> None:
    text = ">> ABS\n\tCode 28995  Valve slow, stored\n>> Radio\n\tCode 11111  Speaker, stored\n>> EPS: no codes\n"
    assert printed(text) == "ABS: 28995; Radio: 11111; EPS: clean"


def test_six_hexadecimal_digits_that_begin_as_a_standard_code_does() -> None:
    assert printed("Radio\n87CDD8, speaker open, stored\nB94876, aerial open, stored\nC96067, bus, active\n") == (
        "Radio: 87CDD8 B94876 C96067")
