"""Signs and letters that a legend explains, in whatever place of a line they stand; statuses put together from their
words; and tables with an unusual mark between their cells. Common practice in all wordings; all data is invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of
from triage.intake.said.states import of_cell

ABS, ECM = "anti-lock brakes", "engine control"


@pytest.mark.parametrize("legend", [
    "Legend: ! = fault present; * = stored", "Key: !: currently active / *: past fault",
    "Status key: ! - live, * - hist",
    "Key to symbols:   ( ! ) happening now     ( * ) in memory", "Légende : !: en cours / *: mémorisé",
    "Legend: ! = active, ? = never heard of, * = stored"])
@pytest.mark.parametrize("rows", [
    "ABS\n  C0035 !\n  C0040 *\n", "ABS\n  C0035!  wheel sensor\n  C0040* pump\n",
    "ABS | C0035 | wheel sensor | !\nABS | C0040 | x | *\n",
    "ABS  C0035  !  wheel sensor\nABS  C0040  *  pump\n", "ABS,C0035,!,wheel sensor\nABS,C0040,*,pump\n",
    "ABS\n  ( ! ) C0035 wheel sensor\n  ( * ) C0040 pump\n", "ABS\n  C0035 [!] wheel sensor\n  C0040 [*] pump\n",
    "Module: ABS\nCode: C0035\nState: !\nCode: C0040\nState: *\n"])
def test_signs_of_a_legend(legend: str, rows: str) -> None:
    wanted = ["C0035 current", "C0040 stored"]
    assert modules_of(f"{rows}\n{legend}\n")[ABS] == wanted
    assert modules_of(f"{legend}\n\n{rows}\n")[ABS] == wanted


def test_a_letter_before_the_code_and_a_digit_behind() -> None:
    assert modules_of("Legend: A = present, S = stored\nABS\n  A C0035 wheel sensor\n  (S) C0040 pump\n") == {
        ABS: ["C0035 current", "C0040 stored"]}
    assert modules_of("Key: 1 = present; 2 = history\nABS\n  C0035 no comms with engine 2\n  C0040 pump 1\n") == {
        ABS: ["C0035 stored", "C0040 current"]}


def test_one_letter_alone_needs_a_word_for_a_legend() -> None:
    text = "U0100   ABS   M\nC0035   ABS   M\nStatus: M = memory\n"
    assert modules_of(text) == {ABS: ["U0100 stored", "C0035 stored"]}


def test_a_sign_that_no_line_explains_says_nothing() -> None:
    assert modules_of("ABS\n  C0035 !\n  C0040 *\n") == {ABS: ["C0035", "C0040"]}


@pytest.mark.parametrize(("said", "status"), [
    ("failed once", "pending"), ("failed once, not confirmed", "pending"), ("waiting for 2nd trip", "pending"),
    ("1st trip fault", "pending"), ("first trip failure", "pending"), ("confirmation pending", "pending"),
    ("confirmed (2 trips)", "confirmed"), ("confirmed 2 trip", "confirmed"), ("failed twice", "confirmed"),
    ("occurred earlier", "stored"), ("seen before", "stored"), ("past fault", "stored"), ("history only", "stored"),
    ("in memory, not failing", "stored"), ("fault not present", "stored"), ("malfunction no longer present", "stored"),
    ("happening now", "current"), ("occurring now", "current"), ("malfunction present", "current"),
    ("hard fault, present", "current"), ("failing at time of test", "current"), ("present on test", "current"),
    ("test run", None), ("failed sensor", None), ("trip computer", None), ("fault in memory module", None),
])
def test_a_status_put_together(said: str, status: str | None) -> None:
    assert of_cell(said) == status


@pytest.mark.parametrize("mark", ["^", "~", "#", "!", "§"])
def test_a_table_with_any_mark(mark: str) -> None:
    text = "Unit,Code,FTB,State,Text\nABS,C0035,14,stored,wheel sensor\n,C0040,,active,pump\nECM,,,no codes,\n"
    assert modules_of(text.replace(",", mark)) == {ABS: ["C0035-14 stored", "C0040 current"], ECM: ["clean"]}
    quoted = "\n".join(",".join(f'"{cell}"' for cell in line.split(",")) for line in text.splitlines())
    assert modules_of(quoted.replace(",", mark)) == {ABS: ["C0035-14 stored", "C0040 current"], ECM: ["clean"]}


@pytest.mark.parametrize(("text", "held"), [
    ("ABS: C0035, C0040 (both active), U0121 no longer active",
     ["C0035 current", "C0040 current", "U0121 stored"]),
    ("ABS: C0035 and C0040 (all active), U0121 and U0140 (both stored, not present)",
     ["C0035 current", "C0040 current", "U0121 stored", "U0140 stored"]),
    ("ABS: C0035 (wheel sensor) and C0040 (pump motor) (both confirmed), U0121 (lost contact) (active)",
     ["C0035 confirmed", "C0040 confirmed", "U0121 current"]),
    ("From the ABS I got C0035 confirmed, C0040 and U0121 (both pending, failed once), U0140 stored.",
     ["C0035 confirmed", "C0040 pending", "U0121 pending", "U0140 stored"]),
    ("In the ABS: 2 history only: C0035 and C0040; 1 pending: U0121; 1 active: U0140",
     ["C0035 stored", "C0040 stored", "U0121 pending", "U0140 current"]),
])
def test_a_status_of_several_codes_within_a_list(text: str, held: list[str]) -> None:
    assert modules_of(text) == {ABS: held}


def test_a_sign_behind_a_wrapped_description_and_in_a_cell_of_an_own_number() -> None:
    legend = "Key: # = conf., ! = occurring now, * = memory\n"
    assert modules_of(f"{legend}1. ABS\n  C0040 Pedal position sensor, signal\n    plausibility (#)\n"
                      "  C0035 Wheel sensor signal\n    implausible (!)\n") == {
        ABS: ["C0040 confirmed", "C0035 current"]}
    assert modules_of(f"{legend}No.,Code,System,State,Text\n1,K19538,ABS,*,pump\n2,E29072,ABS,#,valve\n") == {
        ABS: ["K19538 stored", "E29072 confirmed"]}


def test_digits_of_a_legend_in_any_order_and_behind_an_equals_sign() -> None:
    legend = "Key: 1: malfunction present / 3: pending / 2: not active\n"
    assert modules_of(f"{legend}ECU,Code,St\nABS,C0035,2\nABS,C0040,3\n") == {ABS: ["C0035 stored", "C0040 pending"]}
    assert modules_of("Key: ! - active, * - not present\nNode=ABS\nFault=C0035\nStatus=!\nFault=C0040\nStatus=*\n") == {
        ABS: ["C0035 current", "C0040 stored"]}


def test_a_word_that_a_wrap_tore_with_its_hyphen() -> None:
    assert modules_of("ABS\n  C0035 wheel sensor (confir-\n  med DTC)\n") == {ABS: ["C0035 confirmed"]}


def test_lists_of_codes_that_end_with_their_module() -> None:
    text = "C0110 pump motor circuit from ABS\nU0422 invalid data from BCM from ABS\nP0700 fault in the engine ecu\n"
    assert modules_of(text) == {ABS: ["C0110", "U0422"], ECM: ["P0700"]}


def test_a_short_name_that_is_a_word_for_modules_is_no_head_of_a_table() -> None:
    text = "Control unit   = Engine control\nAbbr           = ECU\nAddress        = 3\nCode           = P0131\n"
    assert modules_of(text) == {ECM: ["P0131"]}
