"""Makers' own numbers that have the form of nothing else, or a description and a status in brackets behind them, are
codes wherever codes stand; numbers of parts, programs, orders and places are not. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

RADIO, ABS, ECM = "radio", "anti-lock brakes", "engine control"


@pytest.mark.parametrize(("first", "second", "third"), [
    ("K20417", "R11473", "E30028"), ("DA41E7", "91C0B2", "8F03A4"), ("30417", "08112", "61503"),
])
def test_in_sentences(first: str, second: str, third: str) -> None:
    text = (f"All done. Radio {first} (aerial input open) (active now), {second} (no data from clock) (stored, not "
            f"present); ABS: {third} (pump relay stuck) (pending); engine clean.\n")
    assert modules_of(text) == {
        RADIO: [f"{first} current", f"{second} stored"], ABS: [f"{third} pending"], ECM: ["clean"]}


@pytest.mark.parametrize(("first", "second"), [("K20417", "R11473"), ("DA41E7", "91C0B2"), ("30417", "08112")])
def test_a_status_of_both(first: str, second: str) -> None:
    text = f"Radio: {first} (aerial input open) and {second} (clock lost) (both active)\nABS: no codes\n"
    assert modules_of(text) == {RADIO: [f"{first} current", f"{second} current"], ABS: ["clean"]}


def test_counted_by_status() -> None:
    text = ("Radio: 1 current: A31278 (aerial input open); 1 not present any more: A077EB "
            "(system voltage high)\nABS: 1 stored: 9C11D2 (pump relay stuck)\n")
    assert modules_of(text) == {
        RADIO: ["A31278 current", "A077EB stored"], ABS: ["9C11D2 stored"]}


def test_in_a_sentence_that_goes_on_in_the_next_line() -> None:
    text = ("Checked the lot today and this is what it had. Radio: K20417 (aerial input open) and R11473 (no data from "
            "the\nclock) (both active). ABS has no codes.\n")
    assert modules_of(text) == {RADIO: ["K20417 current", "R11473 current"], ABS: ["clean"]}


def test_before_the_name() -> None:
    text = ("Hello\nK20417 (aerial input open) (active) in the radio\nR11473 (pump relay stuck) (in memory) in the "
            "ABS\nEngine has no codes\n")
    assert modules_of(text) == {RADIO: ["K20417 current"], ABS: ["R11473 stored"], ECM: ["clean"]}


@pytest.mark.parametrize("form", [
    "- {} / aerial open / stored", "- `{}` / aerial open / stored", "* {} - aerial open (stored)",
    "  -{}  aerial open - stored", "{} [stored] aerial open", "stored: {} aerial open",
])
@pytest.mark.parametrize("number", ["K20417", "DA41E7"])
def test_one_bullet_below_a_name(form: str, number: str) -> None:
    text = f"- **Radio**\n  {form.format(number)}\n- **ABS**\n  no codes\n"
    assert modules_of(text) == {RADIO: [f"{number} stored"], ABS: ["clean"]}


def test_below_the_heads_of_lists_in_small_letters() -> None:
    text = "1. radio\n  active:\n    k20417 lost data from clock\n2. abs\n  stored:\n    da41e7 pump relay stuck\n"
    assert modules_of(text) == {RADIO: ["K20417 current"], ABS: ["DA41E7 stored"]}


@pytest.mark.parametrize("form", [
    "{code}  {text}  [{name}]", "{code}  {text}  from {name}", "{code} ; {text} ; {name}", "{code}\t{text}\t@ {name}",
    "{code} - stored - {{{name}}} - {text}", "{code} .. {text} .. {name}",
])
def test_the_name_behind(form: str) -> None:
    text = "\n".join(form.format(code=code, text=told, name=name) for code, told, name in (
        ("K20417", "aerial open", "Radio"), ("R11473", "pump relay stuck", "ABS"), ("E30028", "clock stuck", "Radio")))
    assert [code.split()[0] for code in modules_of(text)[RADIO]] == ["K20417", "E30028"]
    assert [code.split()[0] for code in modules_of(text)[ABS]] == ["R11473"]


def test_values_between_quotes_without_a_head() -> None:
    text = '"Radio","K20417","STORED","aerial open"\n"ABS","R11473","ACTIVE","pump relay stuck"\n'
    assert modules_of(text) == {RADIO: ["K20417 stored"], ABS: ["R11473 current"]}


@pytest.mark.parametrize("line", [
    "part no. R11473", "part R11473 (left side) (stored)", "serial K27809", "software 9A24E1 (boot loader)",
    "Order R11473 (noise when cold) (open)", "Job A12345 - customer complaint: lamp on", "fitted pump R27606 (rear)",
    "bay 30403 (left side) (active)", "Odometer 39108 (as told by him) (current)", "Tel. 30403 55512",
    "calibration A04B7E, 9A24E1", "plate K12345 (front one missing)", "invoice 30403 (see the sheet) (pending)",
    "R11473 km", "recall R12345 (inflator replaced) - completed",
])
def test_numbers_of_other_things(line: str) -> None:
    below = f"Radio\n  P0562 stored\n  {line}\nABS\n  no codes\n"
    for text in (below, f"{line}\nRadio: P0562 stored\nABS: no codes\n"):
        read = modules_of(text)
        assert (read[RADIO], read[ABS]) == (["P0562 stored"], ["clean"])


def test_the_number_of_a_part_before_codes() -> None:
    text = "Engine control unit  9A24E1  P0562 stored\nABS  8F3A21  C0040 stored\n"
    assert modules_of(text) == {ECM: ["P0562 stored"], ABS: ["C0040 stored"]}


def test_the_same_number_as_that_of_a_part() -> None:
    text = "Radio: K20417 (aerial input open) (stored)\nFitted part no. K20417\nABS: no codes\n"
    assert modules_of(text) == {RADIO: ["K20417 stored"], ABS: ["clean"]}


def test_shorter_numbers_beside_them() -> None:
    text = ("* radio (address 35) - k9042 aerial open (in memory, not active); 98d2ca clock stuck (pending)\n"
            "* abs - m1291 relay stuck (fault present); sg225 pump stuck (confirmed)\n* engine - no dtcs\n")
    assert modules_of(text) == {
        RADIO: ["K9042 stored", "98D2CA pending"], ABS: ["M1291 current", "SG225 confirmed"], ECM: ["clean"]}


def test_shorter_numbers_behind_one() -> None:
    text = ("- Radio [RAD] = D7468F aerial open (stored); 08501 clock low (confirmed); K7635 no data (stored)\n"
            "- ABS [ABS] = DB95ED relay stuck (stored)\n- Engine [ECM] = no codes\n")
    assert modules_of(text) == {
        RADIO: ["D7468F stored", "08501 confirmed", "K7635 stored"], ABS: ["DB95ED stored"], ECM: ["clean"]}


def test_the_mileage_in_a_table() -> None:
    text = ("| code | status | text | mileage | unit |\n| DB4AF5 | stored | aerial open | 253856 | radio |\n"
            "| C0040 | stored | relay stuck | 123646 | abs |\n")
    assert modules_of(text) == {RADIO: ["DB4AF5 stored"], ABS: ["C0040 stored"]}


@pytest.mark.parametrize(("first", "second"), [("K20417", "R11473"), ("P1278", "P1743")])
@pytest.mark.parametrize("joint", [" and", ","])
def test_a_status_before_both_with_descriptions_that_speak_of_modules(first: str, second: str, joint: str) -> None:
    text = f"Radio: 2 current: {first} (aerial input open){joint} {second} (clock lost); 1 stored: P0562 (low)\n"
    assert modules_of(text)[RADIO] == [f"{first} current", f"{second} current", "P0562 stored"]


@pytest.mark.parametrize(("first", "second", "third"), [
    ("20417", "08112", "61503"), ("DF214", "DF077", "DF360"), ("9C41", "4471", "A09E"),
])
@pytest.mark.parametrize("form", [
    "The Radio gives {} (aerial input open, stored) and {} (clock lost, active). The ABS has {} (pump stuck, pending).",
    "The Radio shows {} aerial input open (stored), {} clock lost (active). In the ABS I get {} pump stuck, pending.",
    "Radio - {} aerial input open (stored) & {} clock lost (active). {} pump stuck (pending) in the ABS.",
    "Faults: The Radio gives {} (aerial input open, stored) and {} clock lost (active). The ABS throws {} pump stuck, "
    "pending.",
    "Looked at it twice. {} (aerial input open, stored) and {} clock lost (active) in the Radio. ABS has\n{} pump "
    "stuck (pending).",
])
def test_with_a_status_in_the_sentence(form: str, first: str, second: str, third: str) -> None:
    assert modules_of(form.format(first, second, third) + " Engine is clean.\n") == {
        RADIO: [f"{first} stored", f"{second} current"], ABS: [f"{third} pending"], ECM: ["clean"]}


@pytest.mark.parametrize("numbers", [
    ("20417", "08112", "61503"), ("9C41", "4471", "A09E"), ("K20417", "R11473", "E30028"),
])
def test_a_status_of_all_in_a_sentence(numbers: tuple[str, str, str]) -> None:
    text = "The Radio came up with {} aerial input open, {} clock lost and {} battery low, all stored. ABS is clean.\n"
    assert modules_of(text.format(*numbers)) == {RADIO: [f"{number} stored" for number in numbers], ABS: ["clean"]}


@pytest.mark.parametrize("number", ["20417", "9C41"])
def test_in_sentences_that_go_on_in_the_next_line(number: str) -> None:
    text = (f"Had a look at it this morning. The ABS came up with {number} pump\nrelay stuck (pending). The engine has "
            f"no codes. The Radio gives\n{number} aerial input open (stored).\n")
    assert modules_of(text) == {ABS: [f"{number} pending"], RADIO: [f"{number} stored"], ECM: ["clean"]}


@pytest.mark.parametrize("line", [
    "We fitted 4471 new clips (the old ones broken).", "The radio has 4471 songs in it, stored on a card.",
    "The ABS has 61503 km on its pump, active since then.", "The ECM has 1250 rpm at idle, stored value.",
    "Invoice 4471 (clutch and labour, pending).", "The radio came in 2014 (second owner, current).",
])
def test_no_codes_in_sentences(line: str) -> None:
    assert not any(any(code[:1].isdigit() for code in codes) for codes in modules_of(f"ABS: C0035\n{line}\n").values())


@pytest.mark.parametrize("key", ["Codes", "DTCs", "Fault codes"])
def test_a_key_for_codes_before_a_sentence(key: str) -> None:
    text = f"{key}: The ABS gives C0035 (sensor open, stored). The radio has U0100 (no data, active).\n"
    assert modules_of(text) == {ABS: ["C0035 stored"], RADIO: ["U0100 current"]}


@pytest.mark.parametrize(("first", "second", "third"), [("20417", "08112", "61503"), ("B1304", "U0115", "C0046")])
def test_behind_a_status_below_a_heading(first: str, second: str, third: str) -> None:
    text = (f"[Radio]\nfaults present now: {first} Aerial amplifier open; {second} Clock lost\n"
            f"stored codes: {third} Battery low\n\n[ABS]\nstored codes: {third} Battery low\n")
    assert modules_of(text) == {
        RADIO: [f"{first} current", f"{second} current", f"{third} stored"], ABS: [f"{third} stored"]}


POINTED = ["KX.{}", "G.{}", "DZ-{}", "R-{}"]


@pytest.mark.parametrize("form", POINTED)
@pytest.mark.parametrize("text", [
    "Unit,Result,Code,Text,State\nRadio,NOK,{0},Input open,stored\nRadio,NOK,{1},Relay stuck,current\nABS,OK,,,\n",
    "Unit = Radio\n  History = {0} Input open\n  Active = {1} Relay stuck\n\nUnit = ABS\n  Result = no codes\n",
    "Unit ....... Radio\n  History ... {0} Input open\n  Active .... {1} Relay stuck\nUnit ....... ABS\n"
    "  Result .... no codes\n",
    "Radio (Address 56): 2 codes\n   {0}\n      Input open\n      State: stored\n   {1}\n      Relay stuck\n"
    "      State: current\n\nABS (Address 03)\n   no codes\n",
    "Radio\n   {0}  Input open - stored\n   {1}  Relay stuck - current\n\nABS\n   no codes\n",
])
def test_letters_parted_from_three_digits(text: str, form: str) -> None:
    """A manufacturer's short prefix before a number, as in service manuals (common practice)."""
    first, second = form.format("204"), form.format("077")
    assert modules_of(text.format(first, second)) == {RADIO: [f"{first} stored", f"{second} current"], ABS: ["clean"]}


@pytest.mark.parametrize("line", [
    "HW.204 (left side)", "order KX.204.77 (stored)", "E-450 van, P0562 stored", "supply SA-040 (rear)",
])
def test_letters_parted_from_digits_that_are_no_code(line: str) -> None:
    """Versions, parts and vehicles are written so as well."""
    assert not [code for codes in modules_of(f"{line}\nABS: no codes\n").values() for code in codes
                if code.startswith(("HW", "KX", "E-", "SA"))]
