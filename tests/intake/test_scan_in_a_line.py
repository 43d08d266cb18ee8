"""A scan that begins in the line of its first modules, and one told in a word. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def scans(text: str) -> list[tuple[str | None, dict[str, str]]]:
    """By scan: its phase, and each module with its codes, "clean" or "silent"."""
    return [
        (scan.phase, {module.module: " ".join(code.code for code in module.codes)
                      or ("clean" if module.responds else "silent") for module in scan.modules})
        for scan in read_text(text, load()).snapshots
    ]


E, T, B = "engine control", "transmission control", "anti-lock brakes"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("As found: ECM P0562, TCM ok\nAfter clear: ECM ok, TCM ok",
         [("before-clear", {E: "P0562", T: "clean"}), ("after-clear", {E: "clean", T: "clean"})]),
        ("Before: ECM P0562 stored, ABS no answer\nAfter: ECM ok; ABS C0035 active",
         [("before-clear", {E: "P0562", B: "silent"}), ("after-clear", {E: "clean", B: "C0035"})]),
        ("Scan 1 - as found - ECM P0562\nScan 2 - after clear - ECM ok",
         [("before-clear", {E: "P0562"}), ("after-clear", {E: "clean"})]),
        ("Scan 1: ECM P0562 stored\nScan 2: ECM no codes", [(None, {E: "P0562"}), (None, {E: "clean"})]),
        ("Before clear - P0562 in the ECM\nAfter clear no codes in ECM and TCM",
         [("before-clear", {E: "P0562"}), ("after-clear", {E: "clean", T: "clean"})]),
        ("After the road test the engine ECU has P0562 pending, the ABS no codes",
         [("after-run", {E: "P0562", B: "clean"})]),
        ("After a 10 km test drive engine ECU has P0562", [("after-run", {E: "P0562"})]),
        ("After clearing the codes the ABS was clean.", [("after-clear", {B: "clean"})]),
        ("Nach dem Löschen: Kabine meldet U0401 (gespeichert).", [("after-clear", {"cab control": "U0401"})]),
        ("Antes de borrar: motor P0562, ABS sin fallos\nDespués de borrar: motor sin fallos, ABS sin fallos",
         [("before-clear", {E: "P0562", B: "clean"}), ("after-clear", {E: "clean", B: "clean"})]),
        ("Avant effacement, 11,9 V : ECM P0562\nAprès réparation de la masse : ECM ok",
         [("before-clear", {E: "P0562"}), ("after-repair", {E: "clean"})]),
        # All that answered before.
        ("Before clear: ECM P0562, ABS no answer\nAfter clear: all ok",
         [("before-clear", {E: "P0562", B: "silent"}), ("after-clear", {E: "clean"})]),
        ("Before clear\nECM P0562\nABS C0035\n\nAfter clear\nNo codes\n\nAfter run\nECM P0562",
         [("before-clear", {E: "P0562", B: "C0035"}), ("after-clear", {E: "clean", B: "clean"}),
          ("after-run", {E: "P0562"})]),
        # No scan of its own.
        ("ECM\n  Before: P0562\n  After: none\nABS\n  Before: C0035\n  After: C0035",
         [(None, {E: "P0562", B: "C0035"})]),
        ("After clear ECM ok, TCM P0700 stored", [("after-clear", {E: "clean", T: "P0700"})]),
        ("Before clear\nECM P0562\nABS C0035\n\nAfter clear\nNo pending codes\nABS C0035",
         [("before-clear", {E: "P0562", B: "C0035"}), ("after-clear", {B: "C0035"})]),
    ],
)
def test_the_scans_of_a_text(text: str, expected: list[tuple[str | None, dict[str, str]]]) -> None:
    assert scans(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ECM had P0562, the ABS was silent. I hooked up a charger and cleared everything. After that the ECM was "
         "clean and the ABS had C0035.",
         [("before-clear", {E: "P0562", B: "silent"}), ("after-clear", {E: "clean", B: "C0035"})]),
        ("ECM had P0562, ABS silent. Cleared. ECM ok, ABS C0035. Drove 10 km. ECM P0562, ABS ok.",
         [("before-clear", {E: "P0562", B: "silent"}), ("after-clear", {E: "clean", B: "C0035"}),
          ("after-run", {E: "P0562", B: "clean"})]),
        ("Das Motorsteuergerät hatte P0562, ABS keine Antwort. Dann alles gelöscht. "
         "Jetzt ECM ohne Fehler, ABS mit C0035.",
         [("before-clear", {E: "P0562", B: "silent"}), ("after-clear", {E: "clean", B: "C0035"})]),
        ("The ECM had P0562. I could not clear it. The ABS has C0035.",
         [("before-clear", {E: "P0562", B: "C0035"})]),
        ("The ECM has P0562. The codes were cleared last week. The ABS has C0035.", [(None, {E: "P0562", B: "C0035"})]),
        ("ECM P0562, TCM no reply\ncleared\nECM ok, TCM P0700\n10 min idle\nECM ok, TCM ok",
         [("before-clear", {E: "P0562", T: "silent"}), ("after-clear", {E: "clean", T: "P0700"}),
          ("after-run", {E: "clean", T: "clean"})]),
    ],
)
def test_what_was_done_parts_two_scans(text: str, expected: list[tuple[str | None, dict[str, str]]]) -> None:
    assert scans(text) == expected
