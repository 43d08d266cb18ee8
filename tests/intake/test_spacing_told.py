"""Codes, names and answers with a space too many or too few: read where they stand for one thing, told where they
could be two.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

ABS, ECM, SRS, BCM, TCM = (
    "anti-lock brakes", "engine control", "restraints", "body control", "transmission control")


def warnings_of(text: str) -> list[int | None]:
    """The lines that a warning points to."""
    return [notice.line for notice in read_text(text, load()).notices if notice.severity == "warning"]


@pytest.mark.parametrize(("written", "code"), [
    ("P22 63", "P2263"), ("P226 3", "P2263"), ("B10 02", "B1002"), ("C00 35", "C0035"), ("p07 30", "P0730"),
    ("U01 00", "U0100"), ("P 22 63", "P2263"), ("B1 A34", "B1A34"), ("B1A3 4", "B1A34"), ("PO5 62", "P0562"),
])
@pytest.mark.parametrize("form", [
    "ECM P0101 stored\nTCM {code} active\nABS C0035 stored",
    "ECM: P0101 stored\nTCM : {code} active\nABS: C0035 stored",
    "ECM,P0101,stored\nTCM,{code},active\nABS,C0035,stored",
    "ECM\nP0101 stored\nTCM\n{code} active\nABS\nC0035 stored",
    "| Module | Code | State |\n|---|---|---|\n| ECM | P0101 | stored |\n| TCM | {code} | active |\n"
    "| ABS | C0035 | stored |",
    "Module    Code     State\nECM       P0101    stored\nTCM       {code}   active\nABS       C0035    stored",
])
def test_a_split_code_is_read_in_the_place_of_a_code(written: str, code: str, form: str) -> None:
    text = form.format(code=written)
    assert modules_of(text) == {ECM: ["P0101 stored"], TCM: [f"{code} current"], ABS: ["C0035 stored"]}
    assert any(notice.severity == "note" and code in notice.message for notice in read_text(text, load()).notices)


@pytest.mark.parametrize(("text", "told"), [
    ("P05 62 eng\nP01 01 eng\nC00 35 abs", {ECM: ["P0562", "P0101"], ABS: ["C0035"]}),
    ("BCM B1001 B10 02 U0100\nECM P0562 P05 63 P0620",
     {BCM: ["B1001", "B1002", "U0100"], ECM: ["P0562", "P0563", "P0620"]}),
    ("ECM P05 62, P05 63 and P0620 stored", {ECM: ["P0562 stored", "P0563 stored", "P0620 stored"]}),
    ("ECM P05 62-16 stored\nECM P05 63 [16] stored\nABS C00 35 12 active",
     {ECM: ["P0562-16 stored", "P0563-16 stored"], ABS: ["C0035-12 current"]}),
    ("ECM: P0562\nTCM: P22 63", {ECM: ["P0562"], TCM: ["P2263"]}),
    ("Text;Code;Unit;State\nlow volts;P0562;ECM;stored\ntoo hot;P021 7;ECM;active\nno signal;C0035;ABS;stored",
     {ECM: ["P0562 stored", "P0217 current"], ABS: ["C0035 stored"]}),
    ("The ABS is clean. In the engine control there are P0562 (stored) and P05 63 (current).",
     {ABS: ["clean"], ECM: ["P0562 stored", "P0563 current"]}),
    ("ECM has P05 62\nStored codes: none", {ECM: ["P0562"]}),
    ("code P05 62 in ECM\ncode C00 35 in ABS", {ECM: ["P0562"], ABS: ["C0035"]}),
    ("Eng: P0562 st, P0401 st\nTrans : P07 30 curr\nAbs: ok",
     {ECM: ["P0562 stored", "P0401 stored"], TCM: ["P0730 current"], ABS: ["clean"]}),
])
def test_split_codes_in_lists_and_sentences(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize("text", [
    "ECM: P0562 16\nABS: C0035 12\nBCM: B1000 34 stored",
    "ECM: P0562 16\nABS: C0035 12 at connector C12 34\nBCM: B1000 34 stored, see pin B1 02",
    "Parked in bay C12 34, plate B10 02\nECM: P0562 16\nABS: C0035 12\nBCM: B1000 34 stored",
])
def test_a_whole_code_keeps_what_stands_behind_it(text: str) -> None:
    assert modules_of(text) == {ECM: ["P0562-16"], ABS: ["C0035-12"], BCM: ["B1000-34 stored"]}


@pytest.mark.parametrize("text", [
    "van B12 34 km\nECM P0562", "ECM P0562\nfound behind the panel C12 34 in the left sill",
    "Customer U10 23 called. ECM: P0562", "seat B1 A34 row\nECM P0562", "ECM P0562 resistance at B10 02 ohm",
])
def test_a_letter_and_numbers_elsewhere_are_no_code(text: str) -> None:
    assert modules_of(text)[ECM] == ["P0562"]
    assert len(modules_of(text)) == 1


@pytest.mark.parametrize(("text", "lines"), [
    # Makers' own numbers of three characters with a number behind, and a code that may be one of them.
    ("ABS A07 11 stored\nBCM B10 02 active\nECM P0562", [2]),
    ("ABS: C12 stored\nBCM: B10 02 stored\nECM: P0562", [2]),
    ("ECM: 2AAF 3 stored\nBCM: B1A3 4 stored\nABS: C0035 stored", [2]),
    ("Gizmo: B10 02\nECM: P0562", [1]),
])
def test_what_could_be_an_own_number_is_told(text: str, lines: list[int]) -> None:
    assert set(lines) <= set(warnings_of(text))
    assert {"B1002", "B1A34"}.isdisjoint(" ".join(map(" ".join, modules_of(text).values())).split())


@pytest.mark.parametrize(("text", "told"), [
    ("ECM P0562 stored\nABSC0035 stored\nSRSB1000 current\nTransmissionP0700 stored",
     {ECM: ["P0562 stored"], ABS: ["C0035 stored"], SRS: ["B1000 current"], TCM: ["P0700 stored"]}),
    ("Engine  P0562  stored\nBody controlB1000  active", {ECM: ["P0562 stored"], BCM: ["B1000 current"]}),
    ("ECM:P0562stored,P0118current\nABS:U0100stored\nSRS:nofaults",
     {ECM: ["P0562 stored", "P0118 current"], ABS: ["U0100 stored"], SRS: ["clean"]}),
    ("Batterie auxiliaireP0562 stored\nTürmodul links hintenB1000 active\nECM P0101 stored and\nABS hasC0035",
     {"dual battery": ["P0562 stored"], "door, rear left": ["B1000 current"], ECM: ["P0101 stored"], ABS: ["C0035"]}),
    ("ABS: C0035st\nECM: P0562-16stored, P056317active",
     {ABS: ["C0035 stored"], ECM: ["P0562-16 stored", "P0563-17 current"]}),
    ("ABS: C0035low voltage, stored\nTCM: P0700P0730 stored",
     {ABS: ["C0035 stored"], TCM: ["P0700 stored", "P0730 stored"]}),
    ("part no ABSC0035, serial SNB1234X, ref. SRSB1000\nECM P0562", {ECM: ["P0562"]}),
    ("Abs: nocodes\nSrs: NoDTC\nTcm: notresponding\nBcm: nodtcsfound\nEcm: P0562",
     {ABS: ["clean"], SRS: ["clean"], TCM: ["silent"], BCM: ["clean"], ECM: ["P0562"]}),
    (">>TRANSMISSION\nnofaults\n>>BODY\nB1001", {TCM: ["clean"], BCM: ["B1001"]}),
    ("Motor: keinefehler\nABS: keineantwort\nAirbag: P0562", {ECM: ["clean"], ABS: ["silent"], SRS: ["P0562"]}),
])
def test_glued_words_are_parted(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


def test_the_place_of_a_mended_code_is_that_in_the_paste() -> None:
    notice, = read_text("ECM  P0562\nTCM\u00a0 P22 63 active", load()).notices
    assert notice.text is not None
    assert notice.text[notice.start : notice.end] == "P22 63"
