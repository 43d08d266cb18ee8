"""Several modules in one line, with strokes or bars between them. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import modules_of, scans

MIXED = " | pcm: clean; bcm: B1517; rfa: clean"


@pytest.mark.parametrize("line", [
    "pcm ok / bcm b1517 / rfa ok", "pcm ok/bcm b1517/rfa ok", "pcm ok | bcm b1517 | rfa ok",
    "pcm: ok / bcm: b1517 / rfa: ok", "pcm - no codes / bcm - b1517 / rfa - clean",
])
def test_modules_with_codes_and_without(line: str) -> None:
    assert scans(line) == [MIXED]
    assert scans(f"after clear 12.5\n{line}") == [f"after-clear 12.5 V{MIXED}"]
    assert scans(f"After clear: {line}") == [f"after-clear{MIXED}"]


@pytest.mark.parametrize(("line", "expected"), [
    ("ecm none / tcm none / abs c0035", "ecm: clean; tcm: clean; abs: C0035"),
    ("ecm p0562 / tcm no codes / abs no answer", "ecm: P0562; tcm: clean; abs: silent"),
    ("engine ok / gearbox p0700 stored / airbag silent", "engine: clean; gearbox: P0700 stored; airbag: silent"),
    ("Engine control: P0562 stored | Gearbox: no codes | ABS: no answer",
     "Engine control: P0562 stored; Gearbox: clean; ABS: silent"),
    ("front left door ok / front right door b1234 / rear left door no answer",
     "front left door: clean; front right door: B1234; rear left door: silent"),
    ("ECM U0121 lost comms ABS / ABS no answer", "ECM: U0121; ABS: silent"),
    ("Cluster U0100 no comms / ECM silent, rest ok", "Cluster: U0100; ECM: silent"),
    # A description with a stroke in it, and what is no module.
    ("ABS C0035 stored / wheel speed ok", "ABS: C0035 stored"), ("ECM P0118 short / open", "ECM: P0118"),
    ("ECM P0562 stored / battery ok", "ECM: P0562 stored"), ("ECM P0480 stored / fan ok", "ECM: P0480 stored"),
    ("ECM P0562 / battery ok / fuses ok", "ECM: P0562"), ("ABS / ESP c0035", "ABS / ESP: C0035"),
    ("Engine P0562 ok / not ok", "Engine: P0562"),
])
def test_one_line(line: str, expected: str) -> None:
    assert scans(line) == [f" | {expected}"]


@pytest.mark.parametrize(("line", "expected"), [
    ("ECM none TCM none ABS C0035 stored", "ECM: clean; TCM: clean; ABS: C0035 stored"),
    ("ECM no codes  TCM no answer  ABS C0035", "ECM: clean; TCM: silent; ABS: C0035"),
    ("XQCU none  TCM none ABS C0035 stored", "XQCU: clean; TCM: clean; ABS: C0035 stored"),
    ("ECM P0335 confirmed TCM none ABS none", "ECM: P0335 confirmed; TCM: clean; ABS: clean"),
    ("ECM P0335 lost signal from ABS no answer", "ECM: P0335"),
    ("ABS C0051 steering sensor no codes", "ABS: C0051"),
])
def test_nothing_but_their_answers_between_the_modules_of_a_line(line: str, expected: str) -> None:
    assert scans(line) == [f" | {expected}"]


def test_the_others_behind_the_codes_of_one() -> None:
    assert scans("ECM P0335\nBCM U0100\nafter clear 12.6 V\nECM P0335 confirmed  others none\n")[1] == (
        "after-clear 12.6 V | ECM: P0335 confirmed; BCM: clean")


def test_a_status_behind_a_name_with_a_stroke_is_no_answer_of_a_second_module() -> None:
    text = ("Module           DTC    Text                               State\n"
            "Gateway          U0401  Invalid data received from ECM/PCM A   Stored, not present\n"
            "Horn box         B1A05  Horn relay                          Current\n")
    assert modules_of(text) == {"gateway": ["U0401 stored"], "Horn box": ["B1A05 current"]}


STROKES = [
    ("After clear: supply 12.4 V // EPS: U0100 stored // No codes: radio, dash, ABS // No answer: gateway",
     "after-clear 12.4 V | EPS: U0100 stored; radio: clean; dash: clean; ABS: clean; gateway: silent"),
    ("Nach dem Löschen: Bordspannung 12,4 V // EPS: U0100 gespeichert // Nicht verbaut: Anhänger // "
     "Ohne Fehler: Radio, Kombi, ABS",
     "after-clear 12.4 V | EPS: U0100 stored; Radio: clean; Kombi: clean; ABS: clean"),
    ("Après effacement : tension batterie 12,4 V // ABS : U0100 mémorisé // Sans défaut : radio, combiné, EPS",
     "after-clear 12.4 V | ABS: U0100 stored; radio: clean; combiné: clean; EPS: clean"),
    ("Después de borrar: tensión de batería 12,4 V // EPS: U0100 memorizado // Sin fallos: radio, cuadro, ABS",
     "after-clear 12.4 V | EPS: U0100 stored; radio: clean; cuadro: clean; ABS: clean"),
]


@pytest.mark.parametrize(("line", "expected"), STROKES)
def test_two_strokes_around_the_supply_and_lists_of_names(line: str, expected: str) -> None:
    assert scans(line) == [expected]
    # The supply may stand behind them, too.
    lead, _, rest = line.partition(" // ")
    phase, _, supply = lead.partition(": ")
    assert scans(f"{phase}: {rest} // {supply}") == [expected]


def test_a_day_before_modules_that_two_strokes_part() -> None:
    assert scans("06.07.2024: ABS C0035 stored // radio: no codes\n08.07.2024: ABS: no codes // radio: no answer") == [
        " | ABS: C0035 stored; radio: clean", " | ABS: clean; radio: silent"]


def test_a_remark_behind_two_strokes_is_no_supply() -> None:
    assert scans("ABS: C0035 stored // 12 V earth strap cleaned") == [" | ABS: C0035 stored"]


@pytest.mark.parametrize(("line", "expected"), [
    ("TCM: U0073. No faults in: power steering / body module / ECM.",
     "TCM: U0073; power steering: clean; body module: clean; ECM: clean"),
    ("TCM: U0073 (stored). Ohne Fehler: Lenkung / Radio / ABS.",
     "TCM: U0073 stored; Lenkung: clean; Radio: clean; ABS: clean"),
    ("TCM : U0073 actif. Pas de réponse : direction / radio.", "TCM: U0073 current; direction: silent; radio: silent"),
    ("TCM: U0073 activo. Sin respuesta: dirección / radio.", "TCM: U0073 current; dirección: silent; radio: silent"),
    ("TCM: U0073 stored. No codes: ABS/ESP, radio.", "TCM: U0073 stored; ABS/ESP: clean; radio: clean"),
])
def test_strokes_between_the_names_of_an_answer_behind_codes(line: str, expected: str) -> None:
    assert scans(line) == [f" | {expected}"]
