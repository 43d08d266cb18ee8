"""Signs for "at", answers said of one more module, and a French denial before its verb (common practice)."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text


def codes(text: str) -> set[tuple[str, str]]:
    return {(scan.printed or "", code.code) for shot in read_text(text, load()).snapshots for scan in shot.modules
            for code in scan.codes}


def test_a_sign_for_at_leads_to_the_module() -> None:
    text = "p0562 @ engine  stored\nP0 456 @engine pending\nU0100@abs   stored\nB0022-1A @ airbag CURRENT\n"
    assert codes(text) == {("engine", "P0562"), ("engine", "P0456"), ("abs", "U0100"), ("airbag", "B0022")}


def test_an_address_of_mail_is_none() -> None:
    assert codes("Mail: shop@abs.example\nECM P0562 stored") == {("ECM", "P0562")}


@pytest.mark.parametrize("text", [
    "The airbag module is clean and so is the steering module. The body module has B1133 stored.",
    "The airbag module is clean, so is the steering module.",
])
def test_what_is_so_too_is_clean_too(text: str) -> None:
    read = {scan.printed: (scan.responds, len(scan.codes)) for scan in read_text(text, load()).snapshots[0].modules}
    assert read["steering module"] == read["airbag module"] == (True, 0)


def test_what_did_not_either_is_silent_too() -> None:
    read = {scan.printed: scan.responds for scan in read_text(
        "ABS did not answer and neither did the tacho. ECM P0562 stored", load()).snapshots[0].modules}
    assert read == {"ABS": False, "tacho": False, "ECM": True}


@pytest.mark.parametrize("said", ["n'a aucun défaut", "n\u2019a pas de défaut", "ne présente aucun défaut mémorisé"])
def test_a_denial_is_no_part_of_the_name(said: str) -> None:
    (scan,) = read_text(f"Le calculateur airbag {said}.", load()).snapshots[0].modules
    assert (scan.printed, scan.responds, scan.codes) == ("calculateur airbag", True, [])


def test_a_sign_before_both_letters_of_not() -> None:
    text = "cluster had u0100 stored .\nradio did'nt answer . fuses all ok"
    assert {scan.printed: scan.responds for scan in read_text(text, load()).snapshots[0].modules} == {
        "cluster": True, "radio": False}


@pytest.mark.parametrize("said", ["EPS: same as ABS", "EPS -> same codes as the ABS", "EPS = genauso wie ABS"])
def test_a_line_of_a_module_with_the_codes_of_one_above(said: str) -> None:
    text = f"ABS: C0035, C0040 - all stored, not current\n{said}\nRadio: no codes"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "C0040 stored"],
                                "power steering": ["C0035 stored", "C0040 stored"], "radio": ["clean"]}
