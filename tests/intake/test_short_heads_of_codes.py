"""Short names that nobody knows before codes whose descriptions speak of other modules. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans


@pytest.mark.parametrize("mark", [":", " -", " =", " ->"])
@pytest.mark.parametrize("name", ["UCM", "PUE-DI"])
def test_descriptions_in_brackets(name: str, mark: str) -> None:
    text = (f"- ABS{mark} no codes\n- {name}{mark} P0563 (system voltage high); P0620-1A (generator control)\n"
            f"- LIM{mark} B1015 (belt tensioner); B1574 (motor circuit)\n")
    assert scans(text) == [f" | ABS: clean; {name}: P0563 P0620; LIM: B1015 B1574"]


def test_codes_below_a_short_name() -> None:
    text = ("> PUE-DI:\n    B1015 present (belt tensioner)\n    U0140 present (lost contact with body)\n"
            "    B0001 present (driver airbag)\n> PUE-DD: B1574 present (lock of the door)\n")
    assert scans(text) == [" | PUE-DI: B1015 current U0140 current B0001 current; PUE-DD: B1574 current"]


@pytest.mark.parametrize(("line", "name"), [
    ("XYZ: B1574 stored", "XYZ"), ("XYZ - B1574 stored (lock jammed)", "XYZ"), ("Foo box: B1574 stored", "Foo box"),
    ("DTC: B1574 stored", ""), ("New: B1574 stored", ""), ("Second code: B1574 stored", ""),
])
def test_a_line_below_the_codes_of_a_heading(line: str, name: str) -> None:
    read = f"; {name}: B1574 stored" if name else " B1574 stored"
    assert scans(f"ABS:\n    B1015 present (belt tensioner)\n{line}\n") == [f" | ABS: B1015 current{read}"]


def test_one_name_in_a_column_behind_the_codes() -> None:
    text = ("u0110:96\tCLU\tLost communication with drive motor\tnot active\n"
            "u0235\tCLU\tLost communication with cruise radar\tactive\nb1000\tCLU\tControl unit memory\tactive\n")
    assert scans(text) == [" | CLU: U0110 stored U0235 current B1000 current"]


def test_names_in_the_last_column_with_no_status() -> None:
    lines = "".join(f"{code} / {text} / {name}\n" for code, text, name in (
        ("U0100", "no message from engine", "QCI"), ("U3003", "supply out of range", "UCH"),
        ("B1801", "antenna open", "VMX"), ("B1318", "battery low", "QCI"), ("B1015", "belt tensioner", "UCH"),
        ("B1574", "lock motor circuit", "QCI")))
    assert scans(lines) == [" | QCI: U0100 B1318 B1574; UCH: U3003 B1015; VMX: B1801"]
