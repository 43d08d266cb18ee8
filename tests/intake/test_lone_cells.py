"""Sheets whose lines above the head and between the scans have one cell, the empty ones behind it marked as in all
rows; dots and a colon between keys and values. All texts are invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

MARKS = {";": ";;", "\t": "\t\t", ",": ",,"}


@pytest.mark.parametrize("mark", MARKS)
@pytest.mark.parametrize("titles", [
    ("Before clearing", "After clearing"), ("vor dem L\u00f6schen", "nach dem L\u00f6schen"),
    ("avant effacement", "apr\u00e8s effacement"), ("antes de borrar", "despu\u00e9s de borrar"),
])
def test_titles_of_scans(mark: str, titles: tuple[str, str]) -> None:
    end, head = MARKS[mark], mark.join(("Module", "Code", "State"))
    text = "\n".join([
        f"Workshop list{end}", f"Connector C7 pin 4 cleaned{end}", f"{titles[0]}{end}", f"supply 11.6 V{end}", head,
        mark.join(("ABS", "C0035", "stored")), mark.join(("Radio", "", "no codes")),
        f"{titles[1]}{end}", f"supply 12.8 V{end}", head, mark.join(("ABS", "", "no codes")),
        mark.join(("Radio", "U0140", "active"))])
    assert scans(text) == ["before-clear 11.6 V | ABS: C0035 stored; Radio: clean",
                           "after-clear 12.8 V | ABS: clean; Radio: U0140 current"]


def test_days_part_scans_of_two_columns() -> None:
    text = ("Date: 3 May 2024;\nUnit;Fault\nABS;\"C0035 sensor open\nC0040 sensor low\"\nRadio;no codes\n"
            "Date: 4 May 2024;\nUnit;Fault\nABS;no codes\nRadio;U0140 body lost\n")
    assert scans(text) == [" | ABS: C0035 C0040; Radio: clean", " | ABS: clean; Radio: U0140"]


def test_a_module_with_its_codes_in_the_rows_below_keeps_its_row() -> None:
    text = "Unit;Code;State\nABS;;\n;C0035;stored\n;C0040;active\nKxq unit;;\n;B1000;stored\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "C0040 current"], "Kxq unit": ["B1000 stored"]}


@pytest.mark.parametrize("dots", [".....: ", "..... ", " . . . : "])
@pytest.mark.parametrize("keys", [
    ("Unit", "Code", "FTB", "Text"), ("Steuerger\u00e4t", "Fehlercode", "Fehlerart", "Text"),
    ("Calculateur", "Code", "Type de panne", "Texte"), ("Sistema", "C\u00f3digo", "Tipo de fallo", "Texto"),
])
def test_a_colon_behind_dots(dots: str, keys: tuple[str, ...]) -> None:
    blocks = (("ABS", "C0035", "1C", "Sensor open"), ("Radio", "B1318", "16", "Supply low"))
    text = "\n\n".join("\n".join(f"{key}{dots}{value}" for key, value in zip(keys, block, strict=True))
                       for block in blocks)
    assert modules_of(text) == {"anti-lock brakes": ["C0035-1C"], "radio": ["B1318-16"]}


@pytest.mark.parametrize("mark", [";", ",", " /"])
def test_a_wrapped_list_of_names_is_no_sheet(mark: str) -> None:
    text = f"ABS\n  C0035 stored\n\nWithout codes: Radio{mark}\nGateway{mark} Gearbox{mark}\nWinch{mark} Heater\n"
    assert list(modules_of(text).values()) == [["C0035 stored"], *[["clean"]] * 5]


@pytest.mark.parametrize("first", ["", "15 | "])
def test_rows_without_a_name_go_on_with_the_module_above(first: str) -> None:
    empty = " " * (len(first) - 2) + "| " if first else ""
    text = (f"{first}Radio    | stored | B131816  | Supply low\n{empty}         | active | U014087  | Body lost\n"
            f"{empty}         | active | U010087  | Engine lost\n{first}Gearbox  | active | P070009  | Ratio\n"
            f"{empty}         | stored | P071500  | Speed\n{first}ABS      |        | no codes |\n")
    assert modules_of(text) == {
        "radio": ["B1318-16 stored", "U0140-87 current", "U0100-87 current"],
        "transmission control": ["P0700-09 current", "P0715-00 stored"], "anti-lock brakes": ["clean"]}


@pytest.mark.parametrize("line", [
    "Without codes: Radio; Gateway; Winch; Kxq unit", "Ohne Fehler: Radio; Gateway; Winde; Kxq",
    "Sans d\u00e9faut : Radio; Passerelle; Treuil; Kxq", "Sin aver\u00edas: Radio; Pasarela; Cabrestante; Kxq"])
def test_semicolons_part_names_that_nobody_knows_as_well(line: str) -> None:
    assert list(modules_of(f"ABS\n  C0035 stored\n\n{line}\n").values()) == [["C0035 stored"], *[["clean"]] * 4]
