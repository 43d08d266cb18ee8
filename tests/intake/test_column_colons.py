"""Tables whose columns colons part, columns that ask after a status, makers' own numbers in cells, and rows of a table
far below its head. All invented; layouts: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

WANT = {"brake system": ["91C4 current", "9A0E stored"], "radio": ["8D21 current"], "column lock": ["silent"]}


@pytest.mark.parametrize("ditto", ["Brake servo", '"', ""])
@pytest.mark.parametrize("asked", ["Active now?", "Currently present", "Still present", "Present now"])
@pytest.mark.parametrize(("yes", "no"), [("Y", "N"), ("yes", "no"), ("YES", "NO")])
def test_columns_that_colons_part(ditto: str, asked: str, yes: str, no: str) -> None:
    text = (f"Unit        : No.  : {asked:18} : Fault text\n"
            f"Brake servo : 91C4 : {yes:18} : Pump supply\n{ditto:11} : 9A0E : {no:18} : Terminal 15 implausible\n"
            f"Radio       : 8D21 : {yes:18} : Aerial\nColumn lock :      : no answer          :\n")
    assert modules_of(text.replace("No. ", "Code")) == WANT


def test_keys_and_values_are_no_columns() -> None:
    text = "Module : ABS   Code : C0035   Status : stored\nModule : Radio   Code : B1000   Status : present\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored"], "radio": ["B1000 current"]}


@pytest.mark.parametrize("between", [" + ", " / ", "; ", ", "])
def test_makers_numbers_with_their_texts_in_one_cell(between: str) -> None:
    text = (f"ECU|Result|DTC\nRadio|2 codes|C41A Aerial supply low{between}9A07 Bus wake-up\nABS|no codes|\n"
            "Gateway|1 code|5F0E30 Quiescent current\n")
    assert modules_of(text) == {"radio": ["C41A", "9A07"], "anti-lock brakes": ["clean"], "gateway": ["5F0E30"]}


@pytest.mark.parametrize("mark", [";", "|", "\t"])
def test_rows_behind_the_heading_of_a_scan(mark: str) -> None:
    text = ("ECU;SPN;FMI;Text;State\n\nScan before the clear\nBattery 24.1 V\nRetarder;168;2;Battery;not present\n"
            "Cluster;639;9;Network 1;present\n\nScan after the clear\nRetarder;-;-;no answer;-\n"
            "Cluster;639;9;Network 1;present\n").replace(";", mark)
    assert scans(text) == [
        "before-clear 24.1 V | Retarder: SPN 168 FMI 2 stored; Cluster: SPN 639 FMI 9 current",
        "after-clear | Retarder: silent; Cluster: SPN 639 FMI 9 current"]


def test_pairs_of_numbers_in_the_column_of_codes() -> None:
    text = ("All codes are SPN/FMI\nUnit        Code      Text               State\n"
            "Retarder    168/4     Supply low         stored\n            1231/9    Network 2          present\n"
            "Cluster     96/3      Fuel level         stored\n")
    assert modules_of(text) == {"retarder": ["SPN 168 FMI 4 stored", "SPN 1231 FMI 9 current"],
                                "instrument cluster": ["SPN 96 FMI 3 stored"]}


@pytest.mark.parametrize("cell", ["pending this cycle", "pending, first trip", "pending (1 trip)", "pending this trip"])
def test_the_trip_beside_a_pending_code(cell: str) -> None:
    held = modules_of(f"Unit|Code|St.\nABS|C0035|{cell}\nRadio|B1000|stored\n")
    assert held["anti-lock brakes"] == ["C0035 pending"]


def test_rows_with_and_without_a_space_behind_their_marks() -> None:
    """The longest row is no full line of a mail."""
    text = ("Phase; Unit; Code; Text; Active?\nbefore clear; Retarder; SPN 3597 FMI 4; Output supply of the module; Y\n"
            "before clear; Retarder; SPN 1485 FMI 4; Main relay; N\nbefore clear;Cluster;SPN 96 FMI 3;Fuel level;Y\n"
            "before clear;Tachograph;SPN 84 FMI 9;Road speed;N\n")
    assert scans(text) == ["before-clear | Retarder: SPN 3597 FMI 4 current SPN 1485 FMI 4 stored; "
                           "Cluster: SPN 96 FMI 3 current; Tachograph: SPN 84 FMI 9 stored"]


def test_a_supply_in_the_text_of_a_code() -> None:
    text = ("Unit | Text | SPN | FMI | Status | Count\nRetarder | Main relay | 1485 | 4 | S | 8\n"
            " | Module supply voltage | 627 | 4 | A | 22\nS = stored, A = active\n")
    assert modules_of(text) == {"retarder": ["SPN 1485 FMI 4 stored", "SPN 627 FMI 4 current"]}
