"""Letters of other alphabets at the head of a code, in capitals and in small letters.

Source: Unicode's confusables; common practice of retyped and recased pastes.
"""

from __future__ import annotations

import pytest
from pastes import tables

from triage.intake.plain.characters import lines
from triage.intake.read import read_text


@pytest.mark.parametrize("head", ["B", "b", "\u0412", "\u0432", "\u0392", "\u03b2"])
@pytest.mark.parametrize(
    "text",
    [
        "SRS\n{}1305 stored",
        "SRS: ({}1305) stored",
        "SRS;{}1305;airbag;stored",
        "SRS - {}1305:04 stored",
        "SRS: {}130504 stored",
        "Module,Code,Text,Status\nSRS,{}1305,low,stored\nABS,C0035,low,stored",
    ],
)
def test_a_head_drawn_alike_is_the_letter(head: str, text: str) -> None:
    (snapshot,) = read_text(text.format(head), tables()).snapshots
    (code,) = next(module for module in snapshot.modules if module.printed == "SRS").codes
    assert (code.code, code.status) == ("B1305", "stored")


@pytest.mark.parametrize("text", ["\u0431\u0430\u0442\u0430\u0440\u0435\u044f 12\u0432", "12,4 \u0432", "\u0432 2024",
                                  "\u043a1305", "\u0432\u0435\u0440\u0441\u0438\u044f"])
def test_words_of_another_alphabet_stay(text: str) -> None:
    assert lines(text)[0].text == text


@pytest.mark.parametrize("head", ["\u0412", "\u0392"])
def test_a_capital_head_apart_from_its_digits(head: str) -> None:
    (snapshot,) = read_text(f"SRS\n{head} 1305 battery low - stored", tables()).snapshots
    assert [code.code for code in snapshot.modules[0].codes] == ["B1305"]


@pytest.mark.parametrize("text", ["ABS\n{}0035 sensor - stored", "ABS\n{} 0035 open - stored", "ABS: {}0035 (stored)"])
def test_a_lunate_letter_is_ours(text: str) -> None:
    for head in ("\u03f9", "\u03f2", "\u0421"):
        (snapshot,) = read_text(text.format(head), tables()).snapshots
        assert [(code.code, code.status) for code in snapshot.modules[0].codes] == [("C0035", "stored")]
