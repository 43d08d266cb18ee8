"""What programs put around all lines of a text: quote marks, boxes, line numbers, times, an indent, the tags of a page.

Source: common practice of mail programs, editors, terminals, chats and browsers.
"""

from __future__ import annotations

from collections.abc import Callable
from html import escape

import pytest

from code_tables import load
from tests.intake.reads import modules_of, scans, told
from triage.intake.plain.characters import lines
from triage.intake.read import read_text
from triage.intake.tidying.frames import taken_off

ABS, ECM = "anti-lock brakes", "engine control"
LISTS = (
    "Battery 11.9 V\nABS:\n    C0035   Wheel speed   stored\n    C0040   Valve   current\n\nEngine: no codes",
    "Batterie 11,9 V\nABS:\n    C0035   Drehzahl   gespeichert\n    C0040   Ventil   vorhanden\n\n"
    "Motorsteuergerät: keine Fehler",
    "Batterie 11,9 V\nABS:\n    C0035   Capteur   mémorisé\n    C0040   Vanne   présent\n\n"
    "Calculateur moteur: aucun défaut",
    "Batería 11,9 V\nABS:\n    C0035   Sensor   memorizado\n    C0040   Válvula   presente\n\n"
    "Unidad motor: sin averías",
)


def _each(text: str, dress: Callable[[int, str], str]) -> str:
    return "\n".join(dress(at, line) for at, line in enumerate(text.split("\n")))


FRAMES: dict[str, Callable[[str], str]] = {
    "quote": lambda text: _each(text, lambda _, line: f"> {line}"),
    "box": lambda text: _each(text, lambda _, line: f"| {line:60} |"),
    "rules": lambda text: "+----+\n" + _each(text, lambda _, line: f"| {line:60} |") + "\n+----+",
    "number": lambda text: _each(text, lambda at, line: f"{at + 1:4d}  {line}"),
    "number to the left": lambda text: _each(text, lambda at, line: f"{at + 7:<4d}{line}"),
    "number with a tab": lambda text: _each(text, lambda at, line: f"{at + 1:6d}\t{line}"),
    "number of filled lines": lambda text: _each(text, lambda at, line: line and f"{at + 5 - (at > 4)}: {line}"),
    "time in brackets": lambda text: _each(text, lambda at, line: line and f"[14:{at:02d}:07] {line}"),
    "time": lambda text: _each(text, lambda at, line: line and f"14:{at:02d} {line}"),
    "date and time": lambda text: _each(text, lambda at, line: line and f"2024-05-03 14:02:{at:02d}.114 INFO {line}"),
    "indent": lambda text: _each(text, lambda _, line: line and f"\t{line}"),
    "page": lambda text: f"<html><body><pre>{escape(text)}</pre></body></html>",
    "blocks": lambda text: _each(text, lambda _, line: f"<div>{escape(line)}</div>"),
    "blocks of a mail": lambda text: _each(
        text, lambda _, line: f"<p>{escape(line).replace('  ', '&nbsp;&nbsp;') or '<br>'}</p>"),
    "breaks": lambda text: "<p>" + _each(text, lambda _, line: f"{escape(line)}<br>") + "<b></b></p>",
}


@pytest.mark.parametrize("frame", FRAMES)
@pytest.mark.parametrize("text", LISTS)
def test_a_frame_around_a_text_changes_nothing(text: str, frame: str) -> None:
    expected = f"11.9 V | {ABS}: C0035 stored, C0040 current; {ECM}: clean"
    assert told(text) == expected
    assert told(FRAMES[frame](text)) == expected


@pytest.mark.parametrize("outer", ["quote", "box", "number", "time in brackets", "indent", "page"])
@pytest.mark.parametrize("inner", ["quote", "box", "number", "time", "page"])
def test_frames_stand_around_one_another(outer: str, inner: str) -> None:
    for text in LISTS[:2]:
        assert told(FRAMES[outer](FRAMES[inner](text))) == told(text)


TABLE = ("<p>12.3 V</p><table><tr><th>Unit</th><th>Code</th><th>State</th></tr>\n"
         "<tr><td>ABS</td><td>C0035</td><td>stored</td></tr>\n"
         "<tr><td>Engine</td><td></td><td>no codes</td></tr></table>")


@pytest.mark.parametrize("frame", ["quote", "number", "time in brackets", "page", "blocks"])
def test_the_source_of_a_page_is_read_as_the_page(frame: str) -> None:
    assert told(FRAMES[frame](TABLE)) == told(TABLE) == told(escape(TABLE)) == (
        f"12.3 V | {ABS}: C0035 stored; {ECM}: clean")


def test_what_was_framed_is_still_told_at_its_place() -> None:
    text = "hello\n\n  1  ABS: C0035\n  2    (see note)\n  3\n  4  Engine: P01I8 stored\n\nthanks"
    notice = next(each for each in read_text(text, load()).notices if "P0118" in each.message)
    assert (notice.line, notice.start, notice.end) == (6, 13, 18)


def test_a_frame_may_stand_around_a_part_alone() -> None:
    text = "See the log:\n\n 11 | ABS:\n 12 |   C0035 stored\n 13 |\n 14 | Engine: no codes\n\nRegards, Ann"
    assert modules_of(text) == {ABS: ["C0035 stored"], ECM: ["clean"]}


@pytest.mark.parametrize("text", [
    # The items of a list have a number each, and the rows of a table a column of them, which its head names.
    "Modules read:\n1. ABS: C0035\n2. Engine: no codes\n3. Airbag: no answer\n4. Radio: no codes\nthanks",
    "No  Unit    Code\n1   ABS     C0035\n2   Engine  P0118\n3   Airbag  B0001\n4           B0002",
    # Cells with nothing in them at the edges of a table.
    "| Unit | Code | State |\n|---|---|---|\n| ABS | C0035 | |\n| | C0040 | stored |\n| Lists |",
    # Times that part scans, and those of a chat.
    "10:02 ABS C0035\n10:02 Engine P0118\n10:41 ABS no codes\n10:41 Engine no codes",
    # Amounts, addresses, codes of four digits, and numbers that do not run on.
    "12 V supply\n13 V later", "01 Engine\n02 Gearbox\n03 ABS", "4096 ABS\n4099 Engine\n4101 Radio\n4102 Airbag",
    "> ABS\nC0035\n> Engine\nP0118\n> Radio",
    "ABS:\n    C0035\n  Engine:\n    P0118",
])
def test_what_tells_something_is_no_frame(text: str) -> None:
    kept = [line.text for line in taken_off(lines(text))]
    assert kept == text.replace("| Lists |", "Lists ").split("\n")


def test_times_that_part_scans_part_them_still() -> None:
    text = "10:02 ABS: C0035 stored\n10:03 Engine: P0118 stored\n10:41 ABS: no codes\n10:42 Engine: no codes"
    assert scans(text) == [" | ABS: C0035 stored; Engine: P0118 stored", " | ABS: clean; Engine: clean"]


def test_the_first_date_of_a_log_is_that_of_the_scan() -> None:
    text = "\n".join(f"2024-05-03 14:02:{at:02d} {line}" for at, line in enumerate(["ABS:", "  C0035", "Engine: ok"]))
    scan = read_text(text, load()).snapshots[0]
    assert (scan.at is not None and scan.at.isoformat()[:16]) == "2024-05-03T14:02"


def test_empty_lines_of_a_page_part_what_they_part_in_a_text() -> None:
    page = "<div>Radio:</div><div>&nbsp;&nbsp;B0028</div><div><br></div><div>Engine:</div><div>&nbsp;&nbsp;P0118</div>"
    assert modules_of(page) == {"radio": ["B0028"], ECM: ["P0118"]}
    # What a source is set in by shows nowhere.
    assert modules_of("<div>\n   <p>ABS:\n      C0035</p>\n   <p>Engine:\n     P0118</p></div>") == {
        ABS: ["C0035"], ECM: ["P0118"]}


def test_a_page_of_one_block_is_one() -> None:
    assert modules_of("<div>P0118 in the engine. The ABS has C0035.</div>") == {ECM: ["P0118"], ABS: ["C0035"]}
    assert modules_of(TABLE.replace("<td>", "<td\u00a0class='a'>").replace("<td\u00a0class='a'>ABS", (
        "<td\u00a0rowspan='2'>ABS</td><td>C0040</td><td>current</td></tr><tr>"), 1).replace(
        "<tr></td>", "<tr>")) == {ABS: ["C0040 current", "C0035 stored"], ECM: ["clean"]}


def test_a_chat_in_a_page_keeps_its_times() -> None:
    text = "08:03 Ben: what does it say?\n08:05 Ann: ABS: C0035 active\n08:07 Ann: Engine: P0118 stored"
    assert modules_of(FRAMES["page"](text)) == modules_of(text) == {ABS: ["C0035 current"], ECM: ["P0118 stored"]}


@pytest.mark.parametrize(("code", "state", "clean"), [
    ("Code", "stored", "no codes"), ("Fehlercode", "gespeichert", "keine Fehler"),
    ("Code défaut", "mémorisé", "aucun défaut"), ("Código", "memorizado", "sin averías"),
])
def test_a_full_stop_behind_each_line_of_a_list_says_nothing(code: str, state: str, clean: str) -> None:
    text = f"11,9 V\nABS\n{code}: C0035\nStatus: {state}\n{code}: A48E\nStatus: {state}\n\nRadio\n{clean}"
    assert told(text) == f"11.9 V | {ABS}: C0035 stored, A48E stored; radio: clean"
    assert told(_each(text, lambda _, line: line and f"{line}.")) == told(text)


def test_sentences_keep_their_full_stops() -> None:
    text = "I read all of it twice.\nABS is fine. Engine has P0118.\nThe radio did not answer.\nOk.\nThanks."
    assert [line.text for line in taken_off(lines(text))] == [
        "I read all of it twice", "ABS is fine. Engine has P0118.", "The radio did not answer", "Ok", "Thanks"]
    text = "The ABS was read twice before lunch and it has\nC0035. Then the engine was read and there is nothing."
    assert [line.text for line in taken_off(lines(text))] == text.split("\n")


@pytest.mark.parametrize(("silent", "skipped"), [
    ("No answer:", "Not read:"), ("Keine Antwort:", "Nicht gelesen:"), ("Pas de réponse :", "Non lus :"),
    ("No responden:", "Sin leer:"),
])
def test_a_name_above_its_codes_ends_a_list_whose_items_have_marks(silent: str, skipped: str) -> None:
    ruled = f"{silent}\n- Radio\n{skipped}\n- Gateway\n\nABS\n-----\n- C0035 wheel\nEngine\n-------\n- P0118 low"
    assert modules_of(ruled) == {"radio": ["silent"], ABS: ["C0035"], ECM: ["P0118"]}
    bare = f"{silent}\n- Radio\n- Gateway\n\nABS\nC0035 wheel\nEngine\nP0118 low"
    assert modules_of(bare) == {"radio": ["silent"], "gateway": ["silent"], ABS: ["C0035"], ECM: ["P0118"]}
    # A name that stands as those of the list do is one more of it.
    assert modules_of(f"{silent}\nRadio\nGateway\n\nABS: C0035") == {
        "radio": ["silent"], "gateway": ["silent"], ABS: ["C0035"]}


@pytest.mark.parametrize(("said", "clean", "items"), [
    ("stored and present now", "OK, no codes (2):", ("Radio", "Engine")),
    ("gespeichert", "OK, keine Fehler (2):", ("Radio", "Motorsteuergerät")),
])
def test_a_list_of_clean_modules_begins_anew_behind_a_status(said: str, clean: str, items: tuple[str, str]) -> None:
    text = f"ABS : C0035 {said}\n{clean}\n  - {items[0]}\n  - {items[1]}"
    assert [held for name, held in modules_of(text).items() if name != ABS] == [["clean"], ["clean"]]
