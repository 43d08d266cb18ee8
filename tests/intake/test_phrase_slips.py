"""Slips of the pen in answers, phases and statuses, wherever they stand, and words like them that are none."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, scans
from triage.intake.read import read_text
from triage.intake.said import phraseslips, states

ABS, ECM = "anti-lock brakes", "engine control"


@pytest.mark.parametrize("answer", [
    "no respons", "no anser", "no awnser", "no ansewr", "no replly", "no comunication", "dosnt answer",
    "dosen't answer", "didnt respnd",
    "did not anwser", "doesnt resopnd", "not respondng", "keine antwrot", "nicht ereichbar",
    "pas de repnse", "sin respusta", "timeot", "unresponsiv",
])
@pytest.mark.parametrize("form", [
    "ABS {}\nECM P0562", "ABS;{}\nECM;P0562", "ABS: {}\nECM: P0562", "ABS\n{}\nECM\nP0562",
    "<b>ABS</b><br>\n{}<br>\n<b>ECM</b><br>\nP0562<br>\n",
    "module;dtc;status\nECM;P0562;stored\nABS;{};", "Module: ABS\nAnswer: {}\nModule: ECM\nCode: P0562",
    "ECM has P0562. ABS {}.",
])
def test_a_silent_module_with_a_slip(answer: str, form: str) -> None:
    one_word = " " not in answer and form.startswith(("ABS {}", "ECM has"))
    if not one_word:
        # A word alone right behind a name may be part of it.
        assert modules_of(form.format(answer))[ABS] == ["silent"]


@pytest.mark.parametrize("answer", ["no falts", "no fualts stored", "no codess", "no erors", "keine feler",
                                    "aucun defuat", "no stored falts", "sin falos"])
@pytest.mark.parametrize("form", ["ABS {}\nECM P0562", "ABS;{}\nECM;P0562", "ABS\n{}\nECM\nP0562"])
def test_a_clean_module_with_a_slip(answer: str, form: str) -> None:
    assert modules_of(form.format(answer))[ABS] == ["clean"]


@pytest.mark.parametrize("line", ["ABS - not fited", "ABS: skiped", "ABS;skiped", "ABS not instaled",
                                  "ABS: not equiped", "ABS not scaned"])
def test_a_module_left_out_with_a_slip(line: str) -> None:
    text = f"ECM P0562\n{line}\nBCM ok\n"
    assert modules_of(text) == {ECM: ["P0562"], "body control": ["clean"]}
    [notice] = read_text(text, load()).notices
    assert notice.message in ("ABS: not fitted, left out of the scan", "ABS: not scanned, left out of the scan")


@pytest.mark.parametrize(("head", "phase"), [
    ("befor clear, 10.6 V", "before-clear"), ("befor cleering", "before-clear"), ("bfore the clear", "before-clear"),
    ("after cleer", "after-clear"), ("aftr clear", "after-clear"), ("after claering codes", "after-clear"),
    ("after repiar", "after-repair"), ("nach dem loschn", "after-clear"), ("apres effacment", "after-clear"),
    ("befor: 11.2 V", "before-clear"), ("Postscan after cleer", "after-clear"),
    ("post-scan (after clearing)", "after-clear"), ("postscan", "after-repair"),
    ("post-repair scan after clear", "after-repair"), ("prescan", "before-clear"),
])
def test_phases_with_a_slip_and_a_clear_behind_the_last_scan(head: str, phase: str) -> None:
    assert read_text(f"{head}\nECM P0562\nABS ok\n", load()).snapshots[0].phase == phase


@pytest.mark.parametrize(("line", "status"), [
    ("P0562 low volts *activ*", "current"), ("UO121 *activ*", "current"), ("P0562 low, actve", "current"),
    ("P0562 `stord`", "stored"), ("P0562 low - pendin", "pending"), ("P0562 (confirmedd)", "confirmed"),
    ("PO562 stord", "stored"), ("P0562 the activ carbon filter", None),
])
def test_statuses_with_a_slip(line: str, status: str | None) -> None:
    [module] = read_text(f"ECM\n{line}\n", load()).snapshots[0].modules
    assert [code.status for code in module.codes] == [status]


@pytest.mark.parametrize("low", [
    "no power", "not charging", "no default value", "not coded", "ecm not ready", "after cleaning the terminals",
    "after rest", "before cleaning", "no contract", "want answer", "not fixed", "i want contact", "no pressure",
    "aster: p0562", "alter: 12", "wheel shipped", "not sorted", "no connector", "abs no response", "before clear",
    "water clear", "no presence", "not tasted", "no relay",
])
def test_words_of_their_own_stay(low: str) -> None:
    assert phraseslips.places(low) == ()


def test_two_scans_with_slips() -> None:
    text = ("befor clear , 10.6v\necm p0562 p0118 both curr\nabs no respons\n\nafter cleer ,12.8v w/ charger\n"
            "ecm p0118 curr\ntcm ok no codes\nabs ok no codes\n")
    assert scans(text) == [
        "before-clear 10.6 V | ecm: P0562 current P0118 current; abs: silent",
        "after-clear 12.8 V | ecm: P0118 current; tcm: clean; abs: clean",
    ]


@pytest.mark.parametrize(("low", "status"), [
    ("now: not present", "stored"), ("memory: stored now: not present", "stored"), ("now pending", "pending"),
    ("stored now", "current"), ("present now", "current"), ("now", "current"),
])
def test_now_before_a_status_only_leads_to_it(low: str, status: str) -> None:
    assert states.of_cell(low) == status


@pytest.mark.parametrize("answer", ["Nothing stred", "nothing fuond", "nichts gespeichrt", "rien mémorsé"])
def test_nothing_with_a_slip_behind_it(answer: str) -> None:
    assert scans(f"ABS: {answer}\nECM: P0562\n") == [" | ABS: clean; ECM: P0562"]


@pytest.mark.parametrize("status", ["en memoira", "en mémoier", "in memroy", "im Spiecher"])
def test_memory_with_a_slip(status: str) -> None:
    text = f"B1F08-16 {status} (TCI)\nU3003 {status} (Radio)\nsin fallos: IMM\n"
    assert scans(text) == [" | TCI: B1F08 stored; Radio: U3003 stored; IMM: clean"]
