"""Where one scan ends and the next begins in texts of keys, and what keys tell of a code above it. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans


@pytest.mark.parametrize("head", ["[ Run 2024-03-05 {} ]", "[Scan 2024-03-05 {}]", "<Reading 2024-03-05 {}>"])
def test_a_date_in_brackets_heads_a_scan(head: str) -> None:
    block = "Unit: ABS\nFault code: C0035\nActive: {}\n"
    text = "\n".join((head.format("08:10"), block.format("no"), head.format("11:40"), block.format("yes")))
    assert [scan.partition(" | ")[2] for scan in scans(text)] == ["ABS: C0035 stored", "ABS: C0035 current"]
    assert scans("[Mirror]\ncode = B1318\nstate = stored\n[Loader arm]\nresult = no answer") == [
        " | Mirror: B1318 stored; Loader arm: silent"]


def test_a_scan_at_the_head_of_a_page() -> None:
    block = "Unit: {}\nFault code: {}\nActive: {}\n"
    text = ("[ Run 2024-03-05 08:10 ]\n" + block.format("ECM", "P0562", "no") + block.format("ABS", "C0035", "yes")
            + "Page 1 of 2\nHealth report\n[ Run 2024-03-05 11:40 ]\n" + block.format("ECM", "P0562", "yes")
            + block.format("ABS", "C0035", "yes") + "Page 2 of 2\n")
    assert [scan.partition(" | ")[2] for scan in scans(text)] == [
        "ECM: P0562 stored; ABS: C0035 current", "ECM: P0562 current; ABS: C0035 current"]
    # When it was printed is no other scan.
    again = text.replace("[ Run 2024-03-05 08:10 ]", "Printed 2024-03-05 11:40").replace("[ Run 2024", "Printed 2024")
    assert len(scans(again.replace(" ]\nUnit: ECM", "\nUnit: TCM"))) == 1


@pytest.mark.parametrize(("one", "two", "phases"), [
    ("before clearing", "after clearing", ("before-clear", "after-clear")),
    ("vor dem L\u00f6schen", "nach dem L\u00f6schen", ("before-clear", "after-clear")),
    ("Messung 05.03.2024 08:10", "Messung 05.03.2024 11:40", ("", "")),
    ("lecture 05/03/2024 08:10", "lecture 15/03/2024 11:40", ("", "")),
    ("escaneo 05/03/2024 08:10", "escaneo 15/03/2024 11:40", ("", "")),
])
def test_a_note_that_tells_which_scan(one: str, two: str, phases: tuple[str, str]) -> None:
    text = ('{"scans": [\n {\n  "note": "ONE",\n  "units": [\n   {\n    "unit": "ABS",\n    "dtcs": [\n     {\n'
            '      "code": "C0035",\n      "status": "stored"\n     }\n    ]\n   }\n  ]\n }')
    whole = f"{text.replace('ONE', one)},{text[text.index('[') + 1:].replace('ONE', two)}\n]}}"
    found = scans(whole)
    assert [scan.partition(" | ")[2] for scan in found] == ["ABS: C0035 stored", "ABS: C0035 stored"]
    assert all(phase in scan for phase, scan in zip(phases, found, strict=True))


def test_a_note_of_a_module_parts_no_scans() -> None:
    text = "Unit: ABS\n  Code: C0035\n  Status: stored\n  Note: read after clearing\nUnit: Radio\n  Result: no codes\n"
    assert len(scans(text)) == 1


@pytest.mark.parametrize(("key", "code", "said"), [
    ("Text", "DTC", "no communication with engine control"), ("Beschreibung", "Code", "Keine Kommunikation mit Radio"),
    ("Libell\u00e9", "Code", "pas de communication avec le calculateur ABS"),
    ("Descripci\u00f3n", "C\u00f3digo", "sin comunicaci\u00f3n con la radio"),
])
def test_the_text_above_its_code_is_no_answer(key: str, code: str, said: str) -> None:
    text = (f"+-- Mirror addr 1C\n  {key} = {said}\n  {code} = U0100\n+-- Sunroof addr 2D\n  {key} = motor\n"
            f"  {code} = B1318\n")
    assert scans(text) == [" | Mirror: U0100; Sunroof: B1318"]


def test_a_number_before_a_line_of_braces() -> None:
    text = ('   1  {"units":[{"unit":"ABS","dtcs":[{"code":"C0035","state":"stored"}]},'
            '{"unit":"Radio","result":"no answer"}]}')
    assert scans(text) == [" | ABS: C0035 stored; Radio: silent"]


def test_a_stroke_before_keys_below_a_name() -> None:
    text = ("ENGINE #44\n| Result:  no codes\n\nQUUX HORN #52\n| Result:  no codes\n\n"
            "ABS #07\n| Code:  C0035\n| State:  stored\n")
    assert "QUUX HORN" in scans(text)[0]
    assert scans(text)[0].count("clean") == 2
