"""Statuses cut short or with a slip of the pen, right behind a code, in brackets and for several codes.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

ABS, ECM, SRS, TCM = "anti-lock brakes", "engine control", "restraints", "transmission control"


@pytest.mark.parametrize(("written", "status"), [
    ("st", "stored"), ("stord", "stored"), ("hst", "stored"), ("actv", "current"), ("curent", "current"),
    ("actve", "current"), ("pendng", "pending"), ("histroy", "stored"), ("not presnt", "stored"),
    ("confirmd", "confirmed"),
])
@pytest.mark.parametrize("form", ["ECM P0562 {0}", "ECM: P0101 {0}, P0562 {0}", "ECM - P0562 - {0}", "ECM P0562 ({0})"])
def test_short_and_misspelt_statuses(written: str, status: str, form: str) -> None:
    if written == "hst" and "(" in form:
        pytest.skip("in brackets it may be a name")
    assert set(modules_of(form.format(written))[ECM]) <= {f"P0562 {status}", f"P0101 {status}"}


@pytest.mark.parametrize(("text", "told"), [
    ("P0562-16 in ECM (stord)\nP0118-00 in ECM (curent)\nU0100 in ABS (hist)",
     {ECM: ["P0562-16 stored", "P0118-00 current"], ABS: ["U0100 stored"]}),
    ("ECM: P0562 - P0113 - P0073 al stored\nABS: C0035, C0040 both actve",
     {ECM: ["P0562 stored", "P0113 stored", "P0073 stored"], ABS: ["C0035 current", "C0040 current"]}),
    ("ABS..C0287..curent..press sensor\nECM..P0606..stored..processor",
     {ABS: ["C0287 current"], ECM: ["P0606 stored"]}),
    ("HST P0700 stored\nHST: C0001 hst", {"travel drive": ["P0700 stored", "C0001 stored"]}),
    # "Statisch" is current in German.
    ("Motor: P0562 st, P0563 sporadisch\nAirbag: kein Fehler gespeichert",
     {ECM: ["P0562", "P0563 stored"], SRS: ["clean"]}),
    ("ECM P0340 cam wheel scored\nABS C0035 sensor presence\nTCM P0700 sending unit",
     {ECM: ["P0340"], ABS: ["C0035"], TCM: ["P0700"]}),
])
def test_statuses_beside_codes_and_words_like_them(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told
