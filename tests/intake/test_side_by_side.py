"""Tables with a scan in every column, or one that names the scan. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

Told = list[tuple[str | None, list[tuple[str, bool | None, list[tuple[str, str | None]]]]]]


ECM, ABS = "engine control", "anti-lock brakes"


def told(text: str) -> Told:
    """By scan: phase, and module, answer, codes with their status."""
    return [(snapshot.phase, [(scan.module, scan.responds, [(code.code, code.status) for code in scan.codes])
                              for scan in snapshot.modules]) for snapshot in read_text(text, load()).snapshots]


@pytest.mark.parametrize("mark", [" | ", "\t", ";"])
def test_a_column_a_scan(mark: str) -> None:
    lines = (("Module", "Before clear", "After clear"), ("ECM", "P0562 active", "no codes"),
             ("ABS", "no response", "C0035 stored"), ("Radio", "-", "-"))
    assert told("\n".join(mark.join(line) for line in lines)) == [
        ("before-clear", [("engine control", True, [("P0562", "current")]), ("anti-lock brakes", False, []),
                          ("radio", True, [])]),
        ("after-clear", [("engine control", True, []), ("anti-lock brakes", True, [("C0035", "stored")]),
                         ("radio", True, [])])]


def test_a_code_a_row_and_its_status_in_each_scan() -> None:
    text = "Module;Code;Before;After\nECM;P0562;stored;-\nECM;P0118;stored;current\nABS;U0100;stored;-\n"
    assert told(text) == [
        ("before-clear", [("engine control", True, [("P0562", "stored"), ("P0118", "stored")]),
                          ("anti-lock brakes", True, [("U0100", "stored")])]),
        ("after-clear", [("engine control", True, [("P0118", "current")]), ("anti-lock brakes", True, [])])]


def test_a_column_that_names_the_scan_of_each_row() -> None:
    text = ("Scan\tUnit\tDTC\tState\npost-clear scan\tBrakes\tC0336\tactive\nafter road test\tBrakes\tnone\t\n"
            "after road test\tCamera 1\ttimed out\t\n")
    assert told(text) == [
        ("after-clear", [("anti-lock brakes", True, [("C0336", "current")])]),
        ("after-run", [("anti-lock brakes", True, []), ("camera 1", False, [])])]


def test_a_table_without_two_scans_stays_as_it_is() -> None:
    ((_, modules),) = told("Module | Code | After clear\nECM | P0562 | stored\n")
    assert modules == [("engine control", True, [("P0562", "stored")])]


def codes(text: str) -> list[tuple[str | None, dict[str, str]]]:
    """By scan: phase, and each module with its codes, "clean" or "silent"."""
    return [(phase, {name: " ".join(code for code, _ in held) or ("clean" if responds else "silent")
                     for name, responds, held in modules}) for phase, modules in told(text)]


@pytest.mark.parametrize("name", ["ran it 15 min, read again", "third go, whatever", ""])
def test_a_column_of_no_known_phase_is_a_scan_too(name: str) -> None:
    text = f'"System","before clear","{name}"\n"Retarder","no answer","C30F3"\n"Eng","U0146","P0AA6"'
    (first, before), (_, after) = codes(text)
    assert first == "before-clear"
    assert before == {"retarder": "silent", ECM: "U0146"}
    assert after == {"retarder": "C30F3", ECM: "P0AA6"}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Module | before clear | after 5 min run | after road test\nABS | C1234 | C0035 | ok\n"
         "Radio | - | - | no answer",
         [("before-clear", {ABS: "C1234", "radio": "clean"}),
          ("after-run", {ABS: "C0035", "radio": "clean"}),
          ("after-run", {ABS: "clean", "radio": "silent"})]),
        ("Module | Scan 1 | Scan 2\nABS | C1234 | ok\nRadio | no answer | ok",
         [(None, {ABS: "C1234", "radio": "silent"}), (None, {ABS: "clean", "radio": "clean"})]),
        ("| Module | 2025-03-01 08:10 | 2025-03-01 09:30 |\n| ECM | P0562 | ok |\n| ABS | no answer | C0035 |",
         [(None, {ECM: "P0562", ABS: "silent"}),
          (None, {ECM: "clean", ABS: "C0035"})]),
        ('"System","codes wiped, read again","after fixing earth strap"\n'
         '"ABS","C1234 (current), B1000 (stored)","none"\n'
         '"Camera","none","no reply"',
         [("after-clear", {ABS: "C1234 B1000", "camera": "clean"}),
          ("after-repair", {ABS: "clean", "camera": "silent"})]),
    ],
)
def test_what_names_the_scans_of_the_columns(text: str, expected: list[tuple[str | None, dict[str, str]]]) -> None:
    assert codes(text) == expected


def test_a_note_beside_the_scans_is_none() -> None:
    text = "Module | before clear | notes | after run\nABS | C1234 | fuse 12 | ok\nRadio | ok | look at U0100 | ok"
    assert [phase for phase, _ in codes(text)] == ["before-clear", "after-run"]
    assert codes(text)[0][1]["radio"] == "clean"


@pytest.mark.parametrize("lead", ["Module            ", "                  "])
def test_columns_cut_by_gaps(lead: str) -> None:
    text = (f"{lead}before clear      after clear       after road test\n"
            "ECM               P0562, P0118      none              none\n"
            "ABS               no answer         C0035 (active)    none\n"
            "Radio                               U0100\n"
            "Steering column   none              none              U0100  U0121\n"
            "Battery           11.9 V            12.4 V            13.9 V\n")
    assert [(phase, held.get(ECM), held.get(ABS), held.get("radio"),
             held.get("steering column")) for phase, held in codes(text)] == [
        ("before-clear", "P0562 P0118", "silent", None, "clean"),
        ("after-clear", "clean", "C0035", "U0100", "clean"),
        ("after-run", "clean", "clean", None, "U0100 U0121")]
    assert [scan.volts for scan in read_text(text, load()).snapshots] == [11.9, 12.4, 13.9]


@pytest.mark.parametrize("gone", [
    "not set", "not stored", "not seen", "absent", "clear", "none", "kein", "nicht gesetzt", "aucun", "no registrado",
    "not found", "gelöscht", "weg", "0", "-", "nein"])
def test_words_for_a_code_that_is_not_there(gone: str) -> None:
    text = ("Module;DTC;Before clearing;After clearing;After 10 km\n"
            f"brakes ABS;C0051;X;{gone};{gone}\nbrakes ABS;C0045 11;X;set;{gone}\nradio;U0100;X;X;not present\n")
    assert codes(text) == [
        ("before-clear", {ABS: "C0051 C0045", "radio": "U0100"}), ("after-clear", {ABS: "C0045", "radio": "U0100"}),
        ("after-run", {ABS: "clean", "radio": "U0100"})]
