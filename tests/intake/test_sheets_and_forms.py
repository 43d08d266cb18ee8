"""Sheets and forms: headings of scans with empty cells beside them, keys parted by tabs, addresses behind names, rows
for voltages, signs that lead to a module.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import printed, scans


@pytest.mark.parametrize(("first", "second", "phases"), [
    ("Before clear", "After clear", ("before-clear", "after-clear")),
    ("Vor dem Löschen", "Nach dem Löschen", ("before-clear", "after-clear")),
    ("Lecture du 13/01/2025 09:55", "Lecture du 16/01/2025 09:55", ("", "")),
    ("13.01.2025", "16.01.2025", ("", "")),
])
@pytest.mark.parametrize("mark", [";", "|", "\t"])
@pytest.mark.parametrize("quote", ["", '"'])
def test_headings_of_scans_in_a_padded_sheet(
    first: str, second: str, phases: tuple[str, str], mark: str, quote: str
) -> None:
    rows = ((first, "", ""), ("Module", "Code", "Status"), ("ABS", "C0035", "stored"), ("ECM", "P0562", "stored"),
            ("", "", ""), (second, "", ""), ("Module", "Code", "Status"), ("ABS", "C0035", "active"),
            ("ECM", "no codes", ""))
    text = "\n".join(mark.join(f"{quote}{cell}{quote}" for cell in row) for row in rows)
    assert scans(text) == [f"{phases[0]} | ABS: C0035 stored; ECM: P0562 stored",
                           f"{phases[1]} | ABS: C0035 current; ECM: clean"]


def test_a_module_with_empty_cells_heads_nothing() -> None:
    assert len(scans("Module;Code;Status\nABS;C0035;stored\nECM;;\nSRS;B0001;stored\n")) == 1


@pytest.mark.parametrize(("unit", "address", "code", "state", "result"), [
    ("Unit", "Address", "Fault code", "State", "Result"),
    ("Steuergerät", "Adresse", "Fehlercode", "Zustand", "Ergebnis"),
    ("Calculateur", "Adresse", "Code défaut", "Statut", "Résultat"),
    ("Unidad", "Dirección", "Código", "Estado", "Resultado"),
])
def test_keys_parted_by_tabs(unit: str, address: str, code: str, state: str, result: str) -> None:
    text = (f"{unit}\tABS\n{address}\t722\n{code}\tC0035\n{state}\tpending\n\n{unit}\tKran (QX)\n{address}\t7DB\n"
            f"{result}\tno communication\n\n{unit}\tAirbag\n{address}\t753\n{result}\tno faults\n")
    assert printed(text) == "ABS: C0035; Kran (QX): silent; Airbag: clean"


@pytest.mark.parametrize("form", ["{0}, addr. {1}", "{0} (address {1})", "{0}, adr {1}", "{0}, Adresse {1}"])
def test_addresses_with_a_word_for_them(form: str) -> None:
    text = "\n".join([form.format("QNX-D", "47") + " ..... no faults", form.format("ABS", "3F") + " - no response",
                      form.format("Airbag", "10"), "B0001  Igniter  stored"])
    assert printed(text) == "QNX-D: clean; ABS: silent; Airbag: B0001"


def test_two_addresses_are_two_modules() -> None:
    assert printed("Door, addr. 1: B1000\nDoor, addr. 2: B1001").count(";") == 1


@pytest.mark.parametrize("name", ["ECU-E", "SG-2"])
def test_a_name_of_a_word_for_a_module_and_a_letter(name: str) -> None:
    assert printed(f"{name}: no faults\nABS: no faults") == f"{name}: clean; ABS: clean"
    assert printed(f"ABS: no faults\nNo answer from {name}\n") == f"ABS: clean; {name}: silent"


@pytest.mark.parametrize("label", ["Lowest voltage", "Tension minimale", "Tensión mínima", "Minimale Spannung"])
def test_a_voltage_that_was_not_measured_is_no_clean_module(label: str) -> None:
    text = (f"| Module | Before clear | After clear |\n|---|---|---|\n| Battery voltage | 9.8 V | 11.7 V |\n"
            f"| {label} | 7.9 V |  |\n| Airbag | B0081 [stored] | no codes |\n")
    assert scans(text) == ["before-clear 9.8/7.9 V | Airbag: B0081 stored", "after-clear 11.7 V | Airbag: clean"]


@pytest.mark.parametrize("form", ["{0} {1} @ {2} ({3})", "- {0} <- {2} / {3} / {1}"])
def test_signs_that_lead_to_the_module_of_each_code(form: str) -> None:
    rows = (("C0035", "wheel sensor left open", "brakes", "stored"),
            ("B1318", "supply low", "Lampenmodul LED 1", "INACT"),
            ("P0562", "supply of the system low", "engine control", "active"),
            ("U0100", "no data", "airbag", "pending"))
    text = "\n".join(form.format(*row) for row in rows)
    assert scans(text) == [" | brakes: C0035 stored; Lampenmodul LED 1: B1318 stored; engine control: P0562 current; "
                           "airbag: U0100 pending"]


def test_an_arrow_to_a_remark_is_none() -> None:
    assert printed("ABS\nC0035 <- look here first\nC0040\nC0051") == "ABS: C0035 C0040 C0051"


@pytest.mark.parametrize(("clean", "silent"), [
    ("No codes", "Did not answer"), ("Ohne Fehler", "Nicht erreichbar"), ("Sans défaut", "Muets"),
    ("Sin fallos", "No responden"),
])
@pytest.mark.parametrize("dots", [" ......... ", " ... ", "....."])
def test_dots_between_an_answer_and_its_modules(clean: str, silent: str, dots: str) -> None:
    text = f"Codes:\n  ESP: C0040 / C0110\n{clean}{dots}ABS, Radio\n{silent}{dots}Airbag"
    assert printed(text) == "ESP: C0040 C0110; ABS: clean; Radio: clean; Airbag: silent"


@pytest.mark.parametrize("rest", ["none", "---"])
def test_a_blank_of_a_form_that_names_no_module(rest: str) -> None:
    assert printed(f"ESP .......... C0040\nNot fitted ... {rest}\nRadio ........ no reply") == (
        "ESP: C0040; Radio: silent")
