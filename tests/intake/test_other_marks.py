"""Marks, keys, numbers and lead-ins of lists that other writers use. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans, told

ABS, CLOCK, BODY = "anti-lock brakes", "clock", "body control"
LISTS = [
    # SPN and FMI with no gap.
    ("EBS: spn1231fmi2 stored, FMI3SPN168\n", {ABS: ["SPN 1231 FMI 2 stored", "SPN 168 FMI 3"]}),
    # Keys for what a module answered, in blocks that hold codes as well.
    ("Unit: clocks\nFinding: silent\nUnit: ABS\nFinding: no faults\nUnit: BCM\nFinding: 1 fault\nDTC: U0140\n"
     "Fault state: static\n", {CLOCK: ["silent"], ABS: ["clean"], BODY: ["U0140 current"]}),
    ("Steuergerät = ABS\nBefund = antwortet nicht\n\nSteuergerät = BCM\nBefund = kein Eintrag\n",
     {ABS: ["silent"], BODY: ["clean"]}),
    ("Système : ABS\nConstat : délai dépassé\n\nSystème : BSI\nConstat : 1 défaut\nCode défaut : U0131\n"
     "État : encore actif\n", {ABS: ["silent"], BODY: ["U0131 current"]}),
    # Words for the place of a line before its number.
    ("no 1: abs | silent\nno 2: bcm | U0142 | (there now) | lost communication\nno 3: bcm | U0100 | (static) | lost\n",
     {ABS: ["silent"], BODY: ["U0142 current", "U0100 current"]}),
    ("[1] == ABS ==\nC0040 - sensor\n[2] == BCM ==\nU0140 - bus\n", {ABS: ["C0040"], BODY: ["U0140"]}),
    # Two strokes part cells.
    ("1. ABS // C0040 // [stored] // pump\n2. BCM // no codes\n", {ABS: ["C0040 stored"], BODY: ["clean"]}),
    ("Code // Unit // State\n1) ABS // 0 faults\n2) U0140 // BCM // confirmed\n3) U0131 // BCM\n",
     {ABS: ["clean"], BODY: ["U0140 confirmed", "U0131"]}),
    ("ABS: C0035 stored // seen last week\nBCM: ok\n", {ABS: ["C0035 stored"], BODY: ["clean"]}),
    # A row of one more code, set in, lacks the first cell.
    ("ecu | code | state | text\n1) abs | C0121 | active | valve\n2) bcm | U0140 | memory only | bus\n"
     "      U0131 | active | steering\n",
     {ABS: ["C0121 current"], BODY: ["U0140 stored", "U0131 current"]}),
    ("Unit ; State ; DTC\nABS ; [live] ; C0040\n      [not active any more] ; C0035\nBCM ; [live] ; U0140\n",
     {ABS: ["C0040 current", "C0035 stored"], BODY: ["U0140 current"]}),
    # A number in quotation marks before the name.
    ('"1"\t"-"\t"no DTCs found"\t"ABS"\t""\t"-"\n"2"\t"-"\t"no communication"\t"BCM"\t""\t"-"\n',
     {ABS: ["clean"], BODY: ["silent"]}),
    # A status with a colon heads the list below it, whatever it would make of the line above.
    ("ABS\n  live fault:\n    C0040 - Lost communication with steering angle sensor\n  stored, no longer present:\n"
     "    C0035 - Pump\n", {ABS: ["C0040 current", "C0035 stored"]}),
    ("ABS:\n  was active, not any more:\n    C0040 - Pump\n", {ABS: ["C0040 stored"]}),
    # Descriptions that name modules, in the list of one.
    ("door: B1026 - Steering lock not released (stored), B1317 - Supply voltage too high (live)\n",
     {"door": ["B1026 stored", "B1317 current"]}),
    ("PSM = B2799 - IMMOBILISER SYSTEM (LIVE), U0073 - BUS OFF (STORED)\n",
     {"seat": ["B2799 current", "U0073 stored"]}),
    # Letters of another alphabet.
    ("ABS - \u0441 0044-00; BCM - \u0432 1318-87\n", {ABS: ["C0044-00"], BODY: ["B1318-87"]}),
    # A lift is a module, and a place of the workshop with its number.
    ("Hebebühne: U0100\nABS: ok\nHebebühne 3\n", {"tail lift": ["U0100"], ABS: ["clean"]}),
    # A count of systems is none.
    ("ABS: C0040\n6 systems listed, 0 codes in all\n", {ABS: ["C0040"]}),
]


@pytest.mark.parametrize(("text", "read"), LISTS)
def test_lists_with_other_marks(text: str, read: dict[str, list[str]]) -> None:
    assert modules_of(text) == read


STATUSES = [
    ("not live", "stored"), ("no longer live", "stored"), ("(conf'd)", "confirmed"), ("- conf'd", "confirmed"),
    ("[logged but not active any more]", "stored"), ("[mémorisé, disparu]", "stored"),
    ("[was active, not any more]", "stored"), ("[gespeichert, nicht akut]", "stored"),
    ("[almacenado, desaparecido]", "stored"),
]


@pytest.mark.parametrize(("said", "status"), STATUSES)
def test_statuses(said: str, status: str) -> None:
    assert modules_of(f"ABS\nC0040 {said}\n") == {ABS: [f"C0040 {status}"]}


ANSWERS = [
    "imposible comunicar", "no fue posible comunicar", "nicht ansteuerbar", "kein Verbindungsaufbau",
    "no hubo respuesta", "n'a pas donné de réponse",
]


@pytest.mark.parametrize("said", ANSWERS)
def test_answers(said: str) -> None:
    assert modules_of(f"ABS: {said}; BCM U0100\n") == {ABS: ["silent"], BODY: ["U0100"]}


HEADED = [
    ("ok BEFORE CLEARING CODES:\nABS - C0040 stored\n", "before-clear | anti-lock brakes: C0040 stored"),
    ("ok after clear:\nABS: C0040\n", "after-clear | anti-lock brakes: C0040"),
]


@pytest.mark.parametrize(("text", "read"), HEADED)
def test_a_filling_word_before_a_phase(text: str, read: str) -> None:
    assert told(text) == read


def test_scans_by_their_number_within_a_paragraph() -> None:
    text = ("Note vocale. Lecture 1, 16/09/2025. Puis ABS C0040. BSI sans défaut. Lecture 2, 17/09/2025 09:07. "
            "Ensuite, ABS aucun défaut. BSI: U0101.\n")
    assert scans(text) == [" | ABS: C0040; BSI: clean", " | ABS: clean; BSI: U0101"]
