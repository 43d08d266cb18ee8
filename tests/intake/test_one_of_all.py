"""A status told of one code alone, an answer told of some of all, "clear" at the end of a clause and the supply "now
without a charger", in sentences. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot


def first(text: str) -> Snapshot:
    return read_text(text, load()).snapshots[0]


def statuses(text: str) -> dict[str, str | None]:
    return {code.code: code.status for module in first(text).modules for code in module.codes}


def answers(text: str) -> dict[str, str]:
    return {module.printed or "": "codes" if module.codes else "clean" if module.responds else "silent"
            for module in first(text).modules}


@pytest.mark.parametrize(("text", "told"), [
    ("The cab computer holds an active P0171 and a stored U0140.", {"P0171": "current", "U0140": "stored"}),
    ("Gearbox has P0730 and P0741 stored plus a live P0562, brakes ok.",
     {"P0730": "stored", "P0741": "stored", "P0562": "current"}),
    ("Brakes have a confirmed C0035 and C0040, airbag silent.", {"C0035": "confirmed", "C0040": None}),
    ("Im Getriebe P0730 gespeichert und ein aktiver P0562.", {"P0730": "stored", "P0562": "current"}),
    ("Im Getriebe eine sporadische U0121.", {"U0121": "stored"}),
    ("Das ABS hat einen gespeicherten C1010 und einen statischen C1095.", {"C1010": "stored", "C1095": "current"}),
    ("La boîte a un code mémorisé P0730 et un code actif P0562.", {"P0730": "stored", "P0562": "current"}),
    ("El cambio tiene un código activo P0562 y un código memorizado P0730.", {"P0562": "current", "P0730": "stored"}),
])
def test_a_status_behind_an_article_is_of_one_code(text: str, told: dict[str, str | None]) -> None:
    assert statuses(text) == told


def test_a_status_behind_codes_is_still_of_those_before_it() -> None:
    assert statuses("Gearbox has P0730, P0741 stored and P0562 active.") == {
        "P0730": "stored", "P0741": "stored", "P0562": "current"}


@pytest.mark.parametrize(("text", "told"), [
    ("Gearbox P0730 again, everything else clear including ABS.", {"Gearbox": "codes", "ABS": "clean"}),
    ("Everything clean now incl. airbag and radio, ABS C0035 left.",
     {"airbag": "clean", "radio": "clean", "ABS": "codes"}),
    ("No reply from all modules including ABS, gearbox P0730.", {"ABS": "silent", "gearbox": "codes"}),
    ("Alles andere sauber inkl. ABS, Getriebe P0730 aktiv.", {"ABS": "clean", "Getriebe": "codes"}),
    ("Tout le reste est ok, y compris l'ABS. Moteur P0171.", {"ABS": "clean", "Moteur": "codes"}),
    ("Todo lo demás limpio, incluido el ABS. Motor P0171.", {"ABS": "clean", "Motor": "codes"}),
])
def test_of_all_some_are_named(text: str, told: dict[str, str]) -> None:
    assert answers(text) == told


def test_codes_may_be_included_too() -> None:
    assert answers("TCM clean. Three codes in the engine including P0562.") == {"TCM": "clean", "engine": "codes"}


def test_clear_ends_a_clause() -> None:
    assert answers("Engine P0171 active, gearbox clear, ABS clear.") == {
        "Engine": "codes", "gearbox": "clean", "ABS": "clean"}
    assert answers("Engine has P0171. Asked the ABS to clear, airbag B0028.") == {"Engine": "codes", "airbag": "codes"}


@pytest.mark.parametrize("told", [
    "Batt was down to 9.6 when they tried to start, it's 12.1 now without charger.",
    "Batterie war auf 9,6 runter, liegt jetzt bei 12,1 ohne Ladegerät.",
    "La batterie est descendue à 9,6, maintenant à 12,1 sans chargeur.",
    "La batería bajó a 9,6, ahora está en 12,1 sin cargador.",
])
def test_now_without_a_charger_is_now(told: str) -> None:
    shot = first(f"{told}\nECM: P0113\n")
    assert (shot.volts, shot.lowest_volts) == (12.1, 9.6)


def test_without_a_charger_alone_is_before_it() -> None:
    shot = first("Battery 10.9 without charger, 13.1 now with it on\nECM: P0113\n")
    assert (shot.volts, shot.lowest_volts) == (13.1, 10.9)


@pytest.mark.parametrize("told", [
    "Battery only had 8.9 V. Scanned with support at 12.8 V: ECM P0562.",
    "Battery only had 8.9 V. Scanned it at 12.8 V: ECM P0562.",
    "Batterie hatte nur noch 8,9 V. Mit Stützladung 12,8 V ausgelesen: im ECM P0562.",
    "La batterie n'avait plus que 8,9 V. Lu avec maintien de charge à 12,8 V : ECM P0562.",
    "La batería solo tenía 8,9 V. Leído con mantenedor a 12,8 V: ECM P0562.",
])
def test_what_it_had_was_before_the_scan(told: str) -> None:
    shot = first(told)
    assert (shot.volts, shot.lowest_volts) == (12.8, 8.9)


@pytest.mark.parametrize("text", [
    "Motor P0171. Kombi ist sauber. Airbag hat sich nicht gemeldet, Klima auch nicht.",
    "Motor P0171. Kombi ist sauber. Airbag meldete sich nicht, Klima auch nicht.",
    "Motor P0171. Kombi is clean. Airbag did not answer, Klima didn't either.",
])
def test_what_did_not_answer_either(text: str) -> None:
    assert answers(text) == {"Motor": "codes", "Kombi": "clean", "Airbag": "silent", "Klima": "silent"}


def test_likewise_is_said_of_what_was_told_last() -> None:
    assert answers("Cluster is clean, airbag had a nap, HVAC too. Engine P0171.") == {
        "Cluster": "clean", "Engine": "codes"}


@pytest.mark.parametrize("text", [
    "module=Engine Control; addr=0x10; dtcs=P0191-29(confirmed)\nmodule=Brake Control; addr=0x18; dtcs=",
    "module=Engine Control; dtcs=P0191-29(confirmed); vbat=11.7\nmodule=Brake Control; dtcs=; vbat=11.7",
    "Module: Engine Control | Fehler: P0191-29\nModule: Brake Control | Fehler:",
])
def test_an_empty_key_of_codes_is_an_answer_where_others_hold_theirs_behind_it(text: str) -> None:
    assert answers(text) == {"Engine Control": "codes", "Brake Control": "clean"}


def test_codes_may_stand_below_their_key() -> None:
    assert answers("Module: Engine; codes:\n  P0562\nModule: ABS; codes: C0035") == {"Engine": "codes", "ABS": "codes"}
