"""Makers' own numbers between marks, in lines that tell what only a fault has; no standard code need stand in the text.
All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

RADIO, ABS, ECM = "radio", "anti-lock brakes", "engine control"
TOLD = (("Radio", "K4729"), ("ABS", "10812"), ("ABS", "9A376E"), ("Engine control", "DF513"))
OWN = {RADIO: ["K4729 stored"], ABS: ["10812 stored", "9A376E stored"], ECM: ["DF513 stored"]}


@pytest.mark.parametrize("form", [
    "stored :: {code} :: 04. {name} :: circuit open", "stored | {code} | {name} | circuit open",
    "{code}\tcircuit open\t{name}\tstored", "{code}; circuit open; {name}; stored", "{name}; {code}; open; stored",
    "{code} / {name} / circuit open / stored", "{code} circuit open ({name}) stored",
    "{code} - {name} - stored - circuit open", "stored, {code}, {name}, circuit open"])
def test_without_a_standard_code(form: str) -> None:
    text = "\n".join(form.format(code=code, name=name) for name, code in TOLD)
    assert modules_of(f"{text}\n\nCamera: no codes\n") == {**OWN, "camera": ["clean"]}


@pytest.mark.parametrize("form", ["stored; {}; circuit open", "1. stored, {}, circuit open", "- stored | {} | open"])
def test_one_behind_a_status_below_a_name(form: str) -> None:
    text = f"Radio:\n  {form.format('10812')}\nABS:\n  {form.format('HK892')}\nCamera: no codes\n"
    assert modules_of(text) == {RADIO: ["10812 stored"], ABS: ["HK892 stored"], "camera": ["clean"]}


def test_in_another_language() -> None:
    text = ("K8041\tSignal invalide\tABS\tnon pr\u00e9sent\nE3506\tSignal invalide\tABS\tm\u00e9moris\u00e9\n"
            "Radio\taucun d\u00e9faut\n")
    assert modules_of(text)[ABS] == ["K8041 stored", "E3506 stored"]


def test_alone_above_a_key_that_tells_its_status() -> None:
    text = "Radio\n  K4729\n    aerial open\n    State: stored\n  10812\n    speaker\n    State: active\nABS\n  clean\n"
    assert modules_of(text) == {RADIO: ["K4729 stored", "10812 current"], ABS: ["clean"]}


@pytest.mark.parametrize("lines", [
    "ready; 45210; brake pads\n  ready; 45211; discs", "Fuse 45210; ABS; stored\n  Fuse 45211; ABS; stored",
    "Mileage; 45210; ABS; stored\n  Mileage; 45211; ABS; stored", "45210\n  brake pads\n  45211\n  discs",
    "45210 km; ABS; active since\n  45310 km; ABS; stored since", "2019; stored; in the barn\n  2021; active; again"])
def test_numbers_of_other_things(lines: str) -> None:
    text = f"ABS\n  C0040 stored\n  {lines}\nRadio\n  no codes\n"
    assert "45" not in str(modules_of(text))
    assert modules_of(text)[RADIO] == ["clean"]


def test_some_lines_without_a_status() -> None:
    text = "\n".join(f"{code} circuit open ({name}){' stored' * (at % 2)}" for at, (name, code) in enumerate(TOLD))
    assert modules_of(f"{text}\n") == {
        name: [code.replace(" stored", "") if code[:5] in ("K4729", "9A376") else code for code in codes]
        for name, codes in OWN.items()}


def test_numbers_of_lines_that_all_end_with_a_module_behind_a_hyphen() -> None:
    text = ("*Current*\nH71F Terminal 30 voltage low - Trailer module\nX93A Memory checksum - Radio\n"
            "E218  Message counter - Radio\nU0155-87 Lost communication with dash - Seat heater\n\n*Stored*\n"
            "F44A Data bus timeout - Seat heater\n")
    assert modules_of(text) == {
        "trailer": ["H71F current"], "radio": ["X93A current", "E218 current"],
        "seat heating": ["U0155-87 current", "F44A stored"]}


@pytest.mark.parametrize("sign", ["@", "-"])
def test_numbers_with_a_hyphen_before_their_words_and_a_module_behind_a_sign(sign: str) -> None:
    text = (f"K61F - Wake-up line to ground {sign} Immobiliser [Inactive]\n"
            f"E78F - No response in time {sign} Radio [Confirmed]\n"
            f"X385 - Terminal 30 low {sign} Parking brake [Pending]\n")
    assert modules_of(text) == {
        "immobiliser": ["K61F stored"], "radio": ["E78F confirmed"], "park brake": ["X385 pending"]}


@pytest.mark.parametrize("key", [
    "Key: A = active; H = history", "Legende: A = aktiv; H = gespeichert", "Légende : A = présent; H = mémorisé",
    "Leyenda: A = presente; H = memorizado"])
@pytest.mark.parametrize("form", ["{}\t{}\tJ-4471\topen", "{} | {} | J-4471 | open"])
def test_a_letter_that_the_text_explains_is_a_status(form: str, key: str) -> None:
    text = f"{form.format('Radio', 'A')}\n{form.format('Zugverteiler', 'H').replace('4471', '2930')}\n"
    assert modules_of(f"{text}\n{key}\n") == {RADIO: ["J-4471 current"], "Zugverteiler": ["J-2930 stored"]}


def test_a_letter_that_nothing_explains_is_none() -> None:
    text = "Radio | A | J-4471 | open\nZugverteiler | H | J-2930 | open\nABS: C0545\n"
    assert modules_of(text) == {ABS: ["C0545"]}


def test_words_cut_short_between_stars_below_names() -> None:
    text = ("ECU: Radio\nJ-4471, *ACT*, aerial open\nECU: ABS\nJ-2930, *INA*, pump stuck\nJ-2931, *INA*, stuck\n\n"
            "(ACT = active  INA = inactive)\n")
    assert modules_of(text) == {RADIO: ["J-4471 current"], ABS: ["J-2930 stored", "J-2931 stored"]}
