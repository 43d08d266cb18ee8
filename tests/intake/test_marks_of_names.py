"""Marks before names that a legend explains, names in short and long before a colon, second scans in running text, and
the supply "measured". All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.model.snapshot import Snapshot


def shots(text: str) -> list[Snapshot]:
    return read_text(text, load()).snapshots


def answers(shot: Snapshot) -> dict[str, str]:
    return {module.printed or "": "codes" if module.codes else "clean" if module.responds else "silent"
            for module in shot.modules}


@pytest.mark.parametrize("legend", [
    "[F] Fehler gespeichert  [ ] kein Fehler  [?] keine Verbindung  [-] nicht verbaut",
    "[F] = Fehler, [ ] = kein Fehler, [?] = keine Verbindung, [-] = nicht verbaut",
    "Legende: [F] Fehler  [ ] i.O.  [?] keine Antwort  [-] nicht verbaut",
])
@pytest.mark.parametrize("gap", [" ", "      "])
def test_marks_before_names_are_what_the_legend_says(legend: str, gap: str) -> None:
    text = (f"[F] DME{gap}Digitale Motorelektronik\n      P2096   Gemisch zu mager   vorhanden\n[ ] EGS{gap}Getriebe\n"
            f"[?] KOMBI{gap}Instrumente\n[-] AHM{gap}Anhängermodul\n[ ] SZL{gap}Schaltzentrum Lenksäule\n\n{legend}\n")
    assert answers(shots(text)[0]) == {"DME Digitale Motorelektronik": "codes", "EGS Getriebe": "clean",
                                       "KOMBI Instrumente": "silent", "SZL Schaltzentrum Lenksäule": "clean"}


def test_marks_behind_names() -> None:
    text = ("Engine ...... [OK]\nGearbox ..... [!!]\n    P0700\nABS ......... [??]\nAirbag ...... [OK]\n"
            "[OK] no faults, [!!] faults, [??] no answer\n")
    assert answers(shots(text)[0]) == {"Engine": "clean", "Gearbox": "codes", "ABS": "silent", "Airbag": "clean"}


def test_marks_that_nothing_explains_are_none() -> None:
    assert answers(shots("[!] Engine\n[ ] ABS\n[ ] Airbag\nGearbox P0700\n")[0]).get("ABS") is None


def test_a_short_and_a_long_name_with_a_colon_behind_both_are_one() -> None:
    text = ("EGS  Getriebe: kein Fehler\nKOMBI  Instrumente: antwortet nicht\n"
            "SZL  Schaltzentrum Lenksäule: kein Fehler\n")
    assert answers(shots(text)[0]) == {
        "EGS Getriebe": "clean", "KOMBI Instrumente": "silent", "SZL Schaltzentrum Lenksäule": "clean"}


@pytest.mark.parametrize("text", [
    "Battery at 10.4, ABS silent, engine P0335. Put the charger on and scanned again at 12.9: ABS C0032 current.",
    "First go at 10.4 V, ABS silent. Then on the charger went round again without clearing (12.9 V): ABS C0032.",
    "Bei 10,4 V ABS keine Antwort. Dann Ladegerät dran und nochmal ausgelesen (12,9 V): ABS C0032 aktiv.",
    "À 10,4 V l'ABS ne répond pas. Chargeur branché, deuxième lecture à 12,9 V : ABS C0032 présent.",
    "A 10,4 V el ABS no responde. Con el cargador, segunda lectura a 12,9 V: ABS C0032 presente.",
])
def test_what_was_read_once_more_is_another_scan(text: str) -> None:
    first, second = shots(text)
    assert (first.volts, second.volts) == (10.4, 12.9)
    assert answers(first)["ABS"] == "silent"
    assert answers(second)["ABS"] == "codes"


def test_of_other_modules_it_is_the_same_scan() -> None:
    assert len(shots("ABS silent, engine P0335 pending. Scanned again: BCM B1000 current.")) == 1
    assert len(shots("ABS C0032. Will be scanned again once the part is in: ABS needs a ring.")) == 1


@pytest.mark.parametrize("told", ["Kipper, 24 V, gemessen 24,9 V", "Tipper, 24 V, measured 24.9 V",
                                  "Camion, 24 V, mesuré 24,9 V", "Camión, 24 V, medido 24,9 V"])
def test_measured_beside_the_nominal_voltage(told: str) -> None:
    assert shots(f"{told}\n  Motor: SPN 102 FMI 16\n")[0].volts == 24.9


def test_a_sensor_that_was_measured_is_no_supply() -> None:
    assert shots("Nockenwellensensor gemessen 4,8 V\nMotor P0335\n")[0].volts is None


def test_a_name_ends_with_its_sentence() -> None:
    assert answers(shots("ABS C0032 current. Engine unchanged. The dash has U0121 stored.")[0]) == {
        "ABS": "codes", "dash": "codes"}


@pytest.mark.parametrize("head", ["Scan summary", "Scan report", "Fehlerübersicht", "Quick scan result", "Rapport scan",
                                  "Informe escaneo"])
def test_the_supply_beside_the_title_of_a_screen(head: str) -> None:
    shot = shots(f"{head}                      11.8 V  (min 10.4 V)\nECM: P0562\n")[0]
    assert (shot.volts, shot.lowest_volts) == (11.8, 10.4)


def test_a_part_beside_a_voltage_is_no_title() -> None:
    assert shots("Fuel pump                      5.8 V\nECM: P0562\n")[0].volts is None
