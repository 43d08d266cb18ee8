"""Lists whose lines begin with their codes and name the module in a piece behind it, and codes that stand in other ways
where the lines around show how. All invented.

Source: common practice of lists typed or exported by hand.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed

from code_tables import load
from triage.intake.read import read_text

BACK = ("SPN:158 FMI:4 {} KEY: Key switch feed low\nU0131-87 {} KEY: Steering not heard\n"
        "SPN:639 FMI:9 {} EBS: Bus line slow\nB1342-49 {} EBS: Unit fault\n")


@pytest.mark.parametrize("arrow", ["<-", "<--", "<=", "->", "=>", "\u2192", ">"])
@pytest.mark.parametrize("tail", ["", "   stored", " | stored"])
def test_an_arrow_of_any_kind_leads_to_the_module(arrow: str, tail: str) -> None:
    text = BACK.replace("{}", arrow).replace("\n", f"{tail}\n")
    status = " stored" if tail else ""
    assert list(modules_of(text).values()) == [
        [f"SPN 158 FMI 4{status}", f"U0131-87{status}"], [f"SPN 639 FMI 9{status}", f"B1342-49{status}"]]
    assert printed(text).startswith("KEY: ")


def test_an_arrow_back_to_a_remark_names_no_module() -> None:
    text = "ABS\nC0035 sensor <- look at this first\nC0040 sensor <- came with the rain\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035", "C0040"]}


def test_two_lines_are_enough_where_an_arrow_and_a_colon_set_a_listed_name_off() -> None:
    text = ("Workshop list\n\nSPN 791 / FMI 5 \u2192 Retarder: Valve 2, current low | stored\n"
            "SPN 639 / FMI 19 \u2192 Retarder: Bus data in error | Current fault\n")
    assert modules_of(text) == {"retarder": ["SPN 791 FMI 5 stored", "SPN 639 FMI 19 current"]}


@pytest.mark.parametrize("form", ["[{}] -> {}: {}", "{} => {}: {}", "{} -> {} -> {}", "{} \u2192 {} \u2014 {}"])
def test_two_short_names_behind_arrows_may_both_be_unknown(form: str) -> None:
    told = (("U0131", "HRK", "Steering lost"), ("U0121", "WNC", "Brakes lost"), ("P0562", "EBS", "Supply low"))
    assert printed("\n".join(form.format(*each) for each in told)) == "HRK: U0131; WNC: U0121; EBS: P0562"
    if ":" in form:
        assert printed("\n".join(form.format(*each) for each in told[:2])) == "HRK: U0131; WNC: U0121"


@pytest.mark.parametrize("word", ["FIX", "Cause", "check"])
def test_one_word_behind_all_arrows_is_no_module(word: str) -> None:
    assert printed(f"ABS\nP0562 -> {word}: battery flat\nU0121 -> {word}: fuse blown\n") == "ABS: P0562 U0121"


@pytest.mark.parametrize("line", [
    "{} -> Retarder (Supply low)", "Retarder: {} (Supply low)", "{} <- Retarder: Supply low"])
def test_nothing_is_left_of_a_bracket_round_the_description(line: str) -> None:
    text = f"{line.format('P0562')}\n{line.format('U3003')}\n"
    assert [code.text for code in read_text(text, load()).snapshots[0].modules[0].codes] == ["Supply low"] * 2


@pytest.mark.parametrize("gap", ["   ", " "])
def test_a_status_in_brackets_stands_before_the_arrow(gap: str) -> None:
    text = "\n".join(("Lift pin greased", f"B 1342 [pending code] -> EBS{gap}(Unit fault)",
                      f"U 0131 [Current fault] -> QLV{gap}(Steering lost)",
                      f"U 0121 [not present] -> XBM{gap}(Brakes lost)",
                      f"C 0562 [not present] -> RQU / XBM{gap}(Supply low)"))
    assert printed(text) == "EBS: B1342; QLV: U0131; XBM: U0121 C0562; RQU: C0562"
    assert [held[0].split()[-1] for held in modules_of(text).values()] == ["pending", "current", "stored", "stored"]


def test_a_stroke_joins_one_name_where_no_part_of_it_stands_alone() -> None:
    assert printed("U0131 -> EBS (not heard)\nU0121 -> RQU / XBM (not heard)\n") == "EBS: U0131; RQU / XBM: U0121"


@pytest.mark.parametrize("mark", ["\t", ";", "|", " - ", "   "])
def test_a_column_of_short_names_and_listed_ones(mark: str) -> None:
    rows = (("c0900", "stored", "QRP", "Supply below limit"), ("u0101", "pending", "QRP", "Gearbox not heard"),
            ("u0151", "stored", "Retarder", "Airbag not heard"), ("p0560", "active", "Hay press", "Voltage odd"),
            ("u0126", "stored", "Hay press", "Steering angle missing"), ("b1000", "stored", "DXZ", "Unit fault"))
    text = "\n".join(mark.join(row) for row in rows)
    assert printed(text) == "QRP: C0900 U0101; Retarder: U0151; Hay press: P0560 U0126; DXZ: B1000"


def test_short_words_below_a_heading_and_parts_that_come_again_are_no_modules() -> None:
    rows = "B1342;stored;LF;Speaker open\nB1343;stored;RF;Speaker open\nB1344;active;LR;Speaker short\n"
    assert list(modules_of(f"Radio\n{rows}")) == ["radio"]
    rows = "B1342\tstored\tHi beam\tLamp open\nB1343\tstored\tHi beam\tLamp short\nB1344\tactive\tEBS\tLamp lost\n"
    assert "Hi beam" not in modules_of(rows)


def test_a_short_name_may_be_a_word_for_a_status_elsewhere() -> None:
    rows = (("C0900", "mémorisé", "TPX", "Tension trop basse"), ("U0101", "actuel", "HAY", "Boîte muette"),
            ("U0126", "confirmé", "HAY", "Angle volant manquant"))
    assert printed("\n".join("\t".join(row) for row in rows)) == "TPX: C0900; HAY: U0101 U0126"


@pytest.mark.parametrize("lead", ["Silent, no reply:", "No communication:", "No codes:", "No reply -", "No codes ="])
def test_names_in_capitals_that_nobody_knows_in_the_list_of_an_answer(lead: str) -> None:
    text = f"P0562 (EBS) Supply low // stored\n{lead} HOPPER GATE, ROOF HATCH REAR\n"
    said = "clean" if "codes" in lead else "silent"
    assert printed(text) == f"EBS: P0562; HOPPER GATE: {said}; ROOF HATCH REAR: {said}"


@pytest.mark.parametrize("mark", [" | ", " - "])
def test_a_description_glued_to_a_code_with_a_space_in_it(mark: str) -> None:
    text = (f"[EBS]\n   U 0131{mark}Steering lost\n   U 0I21Brakes not heard\n   b 1000{mark}Unit fault\n"
            f"[Retarder]\n   U OA2CLocal line held low\n   C 0900{mark}Supply low\n   P 0562-16Battery low\n")
    assert printed(text) == "EBS: U0131 U0121 B1000; Retarder: U0A2C C0900 P0562-16"


def test_glued_words_make_no_code_where_none_is_so_written() -> None:
    text = "EBS: no codes\nRetarder: U0100\nP 2200ml bottle\nB 1000Miles since\n"
    assert printed(text) == "EBS: clean; Retarder: U0100"


@pytest.mark.parametrize("number", ["9BC8", "8E88", "8F67", "10457"])
def test_a_makers_number_in_a_row_of_a_key_and_its_value(number: str) -> None:
    text = (f"[Dash]\ncode1={number}|High draw|still present\ncode2=P0562-16|Supply low|not confirmed\n---\n"
            "[Retarder]\ncode1=U0100|Engine lost|stored\n")
    assert modules_of(text) == {
        "instrument cluster": [f"{number} current", "P0562-16 pending"], "retarder": ["U0100 stored"]}


def test_a_sender_in_the_cell_of_the_code_names_no_module_below_a_merged_one() -> None:
    head = '"Module";"Code";"Text";"Status"\n"Tailgate (TGM)";"P0A8D";"Net low";"stored"\n'
    assert printed(f'{head}"";"SA 85 SPN 2003 FMI 9";"Gearbox missing";"active"\n'
                   '"";"SA 3 SPN 639 FMI 9";"Bus";"active"\n') == (
        "Tailgate (TGM): P0A8D SPN 2003 FMI 9 SPN 639 FMI 9")


@pytest.mark.parametrize("said", ["memory clear", "memory empty"])
def test_an_answer_of_two_words_behind_an_angle(said: str) -> None:
    text = f"[29] EBS Brakes > {said}\n[18] RTD Retarder\n    * stored  U0131 Steering lost\n"
    assert printed(text) == "EBS Brakes: clean; RTD Retarder: U0131"


def test_a_slip_in_the_status_of_a_makers_own_number() -> None:
    text = ("<dl>\n<dt>Retarder</dt>\n<dd>61424 Load shed <i>storred</i></dd>\n"
            "<dd>49174 Terminal low <i>pending</i></dd>\n"
            "<dd>U0100 Engine lost <i>stored</i></dd>\n</dl>\n")
    assert modules_of(text) == {"retarder": ["61424 stored", "49174 pending", "U0100 stored"]}
