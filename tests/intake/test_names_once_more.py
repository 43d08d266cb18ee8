"""A name once more in short, and makers' own numbers in the place of others of a list. Common practice."""

from __future__ import annotations

from code_tables import load
from triage.intake.read import Reading, read_text


def read(text: str) -> Reading:
    return read_text(text, load())


def _codes(text: str) -> dict[str, list[tuple[str, str | None]]]:
    return {scan.printed or scan.module: [(code.code, code.status) for code in scan.codes]
            for snapshot in read(text).snapshots for scan in snapshot.modules}


def test_a_short_name_below_a_name_is_no_other_module() -> None:
    text = "Module: Engine control\nShort name: EFI\nFault: P0118\nStatus: current\n"
    assert _codes(text) == {"Engine control": [("P0118", "current")]}


def test_a_short_name_alone_is_the_name() -> None:
    assert _codes("Short,DTC,State\nABS,C0035,stored\nEPS,C0545,active\n") == {
        "ABS": [("C0035", "stored")], "EPS": [("C0545", "current")]}


def test_heads_of_two_lists_in_any_word_for_a_status() -> None:
    text = "Node\tShort\tLive codes\tHistoric codes\nBrakes\tABS\tC0035\tU0121, U0140\n"
    assert _codes(text) == {"Brakes": [("C0035", "current"), ("U0121", "stored"), ("U0140", "stored")]}


def test_a_name_nobody_knows_in_the_column_of_the_others() -> None:
    text = ("DME     2A87   valve: control fault       currently present\n"
            "EGS     4F8F   gear monitoring            not currently present\n"
            "QRX     9CB6   dome switch                currently present\n")
    assert _codes(text)["QRX"] == [("9CB6", "current")]


def test_a_name_in_capitals_before_a_number_with_its_status() -> None:
    text = "ABS    C0035 wheel sensor ACTIVE\nPACKER     E204 hopper switch ACTIVE\nBIN LIFT   E117 comb stored\n"
    assert _codes(text) == {"ABS": [("C0035", "current")], "PACKER": [("E204", "current")],
                            "BIN LIFT": [("E117", "stored")]}


def test_a_number_below_another_of_the_same_module() -> None:
    text = ("engine: P0191 now, P0088 stored\ndash: U0140 stored\n"
            "converter body (ours): 20417 siren relay sticking stored\n"
            "                       20422 shoreline charger missing active\n")
    assert _codes(text)["converter body (ours)"] == [("20417", "stored"), ("20422", "current")]
