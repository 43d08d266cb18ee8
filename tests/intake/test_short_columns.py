"""Columns of short names in capitals that no table lists, behind codes with a status; and of short words that name
nothing. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

QLT, ZDM, NONE = "QLT", "ZDM2", "module not stated"


@pytest.mark.parametrize("mark", ["; ", " | ", "\t", ", "])
def test_short_names_behind_the_codes(mark: str) -> None:
    rows = [("P0622", "QLT", "present"), ("U0146", "QLT", "not present now"), ("P2503", "ZDM2", "confirmed")]
    own = {QLT: ["P0622 current", "U0146 stored"], ZDM: ["P2503 confirmed"]}
    assert modules_of("Before clearing\n" + "\n".join(mark.join(row) for row in rows)) == own
    turned = [(code, status, name) for code, name, status in rows]
    assert modules_of("\n".join(mark.join(row) for row in turned)) == own


@pytest.mark.parametrize(("first", "second"), [("HIGH", "LOW"), ("1C", "A2"), ("CAN", "LIN"), ("QLT", "QLT"),
                                               ("CKP", "TCC"), ("B1S1", "B2S1"), ("F12", "F7"), ("X1", "X22")])
def test_short_words_that_name_no_module(first: str, second: str) -> None:
    text = f"P0622; {first}; present\nU0146; {second}; stored\nP2503; {second}; confirmed\n"
    assert list(modules_of(text)) == [NONE]


def test_short_words_below_a_name_or_without_a_status() -> None:
    below = "Gateway\n  P0622; QLT; present\n  U0146; QLT; stored\n  P2503; ZDM; stored\n"
    assert list(modules_of(below)) == ["gateway"]
    assert list(modules_of("P0622; QLT\nU0146; QLT\nP2503; ZDM\n")) == [NONE]
