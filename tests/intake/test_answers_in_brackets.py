"""A name with its answer in brackets behind it, with an address or without. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import printed


@pytest.mark.parametrize("name", ["BCM", "BCM / 0x708", "BCM (0x708)", "Gearbox electronics", "TPM"])
@pytest.mark.parametrize(("said", "read"), [
    ("fault memory empty", "clean"), ("clear", "clean"), ("no codes", "clean"), ("no answer", "silent")])
@pytest.mark.parametrize("form", ["{} ({})", "**{}** ({})", "{} [{}]", "1. {} ({})"])
def test_what_stands_in_brackets_is_the_answer(name: str, said: str, read: str, form: str) -> None:
    text = f"ABS\n C0035 stored\n{form.format(name, said)}\nECM: P0562 stored\n"
    assert printed(text) == f"ABS: C0035; {name.partition(' (0x')[0].partition(' / 0x')[0]}: {read}; ECM: P0562"


@pytest.mark.parametrize("said", ["cleared", "clear coat", "left", "not fitted yet"])
def test_what_is_no_answer_is_none(said: str) -> None:
    text = f"ABS\n C0035 stored\nGearbox electronics ({said})\nECM: P0562 stored\n"
    assert "clean" not in printed(text)


@pytest.mark.parametrize("form", [
    "{}\tn/a\tn/a\t{}", "{}; n/a; n/a; {}", "| {} | N/A | N/A | {} |", "{}   n/a   {}   n/a"])
def test_empty_cells_beside_an_answer_say_nothing(form: str) -> None:
    told = (("Camera", "no answer"), ("Gateway", "no faults"), ("Radio", "no answer"))
    lines = "\n".join(form.format(*each) for each in told)
    assert printed(f"ABS\n C0035 stored\n\n{lines}\n") == (
        "ABS: C0035; Camera: silent; Gateway: clean; Radio: silent")


def test_a_row_of_nothing_else_is_no_answer() -> None:
    assert "clean" not in printed("ABS\n C0035 stored\n\nGateway\tn/a\tn/a\tn/a\nRadio\tn/a\tn/a\tn/a\n")


def test_a_name_nobody_knows_with_its_answer_among_others_explains_nothing() -> None:
    text = "Unit= GCU\nResult= memory empty\n\nAfter a drive:\nABS = no faults\nGCU = memory empty\nBCM = no faults\n"
    assert "GCU: clean" in printed(text)
    assert printed("ABS: P1\nECM: NR\nRadio: NR\nNR = no response\n") == "ECM: silent; Radio: silent"
