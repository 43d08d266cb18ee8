"""A code with a list of modules, each with a status of its own. Invented texts; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

_LISTS = [
    ("U0100: TCM (stored), BCM (active), EPS (pending)",
     {"transmission control": ["U0100 stored"], "body control": ["U0100 current"],
      "power steering": ["U0100 pending"]}),
    ("U0100: Transfer case (stored), Driver seat module (active), BCM (pending)",
     {"transfer case": ["U0100 stored"], "seat, driver": ["U0100 current"], "body control": ["U0100 pending"]}),
    ("U3003: Surveillance pression pneus (actif), Calculateur airbag (mémorisé)",
     {"tyre pressure": ["U3003 current"], "restraints": ["U3003 stored"]}),
    ("P0562 - ECM stored, BCM active and EPS pending",
     {"engine control": ["P0562 stored"], "body control": ["P0562 current"], "power steering": ["P0562 pending"]}),
    ("U0100, U0101-31: TCM [stored], BCM: active",
     {"transmission control": ["U0100 stored", "U0101-31 stored"],
      "body control": ["U0100 current", "U0101-31 current"]}),
    ("U0100-87: TCM (stored) BCM (active) EPS (pending)",
     {"transmission control": ["U0100-87 stored"], "body control": ["U0100-87 current"],
      "power steering": ["U0100-87 pending"]}),
    ("U0140: TCM (transmission) (stored), BCM, EPS (pending)",
     {"transmission control": ["U0140 stored"], "body control": ["U0140"], "power steering": ["U0140 pending"]}),
    ("U0100 | TCM (stored), BCM (active)\nU0101 | EPS (stored)",
     {"transmission control": ["U0100 stored"], "body control": ["U0100 current"], "power steering": ["U0101 stored"]}),
]


@pytest.mark.parametrize(("text", "want"), _LISTS)
def test_each_module_of_a_code_has_its_own_status(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


def test_a_module_that_nobody_knows_is_one_of_the_list() -> None:
    assert modules_of("U0100: TCM (stored), Winch (active)") == {
        "transmission control": ["U0100 stored"], "Winch": ["U0100 current"]}


_NO_LISTS = [
    ("P0300: misfire (stored), cylinder 1 (active)", {"module not stated"}),
    ("ABS\nU0100: lost comms ECM (stored), TCM (active)", {"anti-lock brakes"}),
    ("ABS: C0031 (stored), C0040 (active)", {"anti-lock brakes"}),
    ("U0100 (stored): TCM, BCM\nU0101: TCM, BCM (active)", {"transmission control", "body control"}),
]


@pytest.mark.parametrize(("text", "want"), _NO_LISTS)
def test_descriptions_with_a_status_in_brackets_name_no_module(text: str, want: set[str]) -> None:
    assert set(modules_of(text)) == want


@pytest.mark.parametrize(("sentence", "held"), [
    ("The ABS has C0040 wheel speed sensor, present.", ["C0040 current"]),
    ("ABS: C0040 wheel speed sensor, history. ", ["C0040 stored"]),
    ("The ABS shows C0040 pump relay, C0041 pump motor and U0121 no data on J1939 network 1, all live.",
     ["C0040 current", "C0041 current", "U0121 current"]),
    ("The ABS has C0040 pump relay and C0041 pump motor, neither of them active.", ["C0040 stored", "C0041 stored"]),
])
def test_a_status_set_off_behind_a_description(sentence: str, held: list[str]) -> None:
    text = f"Scan after the clear, 11.9 V: {sentence} The radio holds B1015 (pending)."
    assert modules_of(text) == {"anti-lock brakes": held, "radio": ["B1015 pending"]}


def test_a_status_that_leads_to_codes_whose_descriptions_name_modules() -> None:
    text = ("Radio:\n  Stored codes: B1676 battery monitor circuit + U0199 lost door module A + U0155 lost cluster\n"
            "  Current codes: B1015 lamp circuit; U0140 no message from BCM; U0100 lost ECM\n")
    assert modules_of(text) == {"radio": [
        "B1676 stored", "U0199 stored", "U0155 stored", "B1015 current", "U0140 current", "U0100 current"]}


@pytest.mark.parametrize(("line", "status"), [
    ("Status now: sporadic", "stored"), ("Current status: not present", "stored"), ("Present state: active", "current"),
])
def test_a_key_for_the_status_below_a_stored_value(line: str, status: str) -> None:
    text = f"Radio\n  B1015\n    antenna (8.5 V when it set)\n    {line}\nABS\n  no codes\n"
    assert modules_of(text) == {"radio": [f"B1015 {status}"], "anti-lock brakes": ["clean"]}


def test_own_numbers_in_columns_named_by_their_status() -> None:
    text = ("| Unit | Present | Pending | Stored | Remark |\n| --- | --- | --- | --- | --- |\n"
            "| ABS | KA-12 | MX204 |  |  |\n| Radio | ZD3310 |  | Q4-17 |  |\n| TCM |  |  |  | no answer |\n")
    assert modules_of(text) == {"anti-lock brakes": ["KA-12 current", "MX204 pending"],
                                "radio": ["ZD3310 current", "Q4-17 stored"], "transmission control": ["silent"]}


@pytest.mark.parametrize(("status", "meaning"), [
    ("[Test failed now]", "current"), ("(test failed now)", "current"), ("[still failing]", "current"),
    ("[stored fault]", "stored"),
])
def test_a_status_of_several_words_in_brackets_leads_to_the_number(status: str, meaning: str) -> None:
    text = f"Brakes [12]\n    {status} 14093 - pump motor stuck\nGateway [13]\n    All OK\n"
    assert modules_of(text) == {"anti-lock brakes": [f"14093 {meaning}"], "gateway": ["clean"]}


def test_other_words_in_brackets_lead_to_no_number() -> None:
    assert "anti-lock brakes" not in modules_of("Brakes [12]\n    [stored in bay] 14093 - pump\nGateway\n    OK\n")
