"""Names with their short form in square brackets, in lists of makers' numbers and in headings; all data invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def told(text: str) -> list[str]:
    return [f"{module.printed}: {' '.join(f'{code.code} {code.status}' for code in module.codes)}"
            for snapshot in read_text(text, load()).snapshots for module in snapshot.modules]


@pytest.mark.parametrize(("head", "status"), [("Stored faults", "stored"), ("Fallos memorizados ---", "stored"),
                                              ("Current codes:", "current")])
def test_numbers_behind_a_bracketed_short_form_are_codes(head: str, status: str) -> None:
    text = f"{head}\nlighting module [LGM] - 00408 network in one wire mode\nradio [RAD] - S6656 aerial open\n" \
           "gateway [GTW] - 17741 coding lost\ntelephone [TEL] - no answer"
    assert told(text) == [f"lighting module [LGM]: 00408 {status}", f"radio [RAD]: S6656 {status}",
                          f"gateway [GTW]: 17741 {status}", "telephone [TEL]: "]


def test_sections_of_keys_may_have_a_short_form_in_their_brackets() -> None:
    text = ("[Engine management [DMX]]\ncode1 = U0146\ncondition1 = not failing now\n\n"
            "[Log loader [LOG]]\ncode1 = P0560\ncondition1 = failing now")
    assert told(text) == ["Engine management [DMX]: U0146 stored", "Log loader [LOG]: P0560 current"]


def test_a_name_nobody_knows_heads_the_statuses_set_in_below_it() -> None:
    text = ("IC\n   Stored:\n      U0001-00  bus fault\nSCCM\n   Current:\n      B2960-55  Key not recognised\n"
            "   Stored:\n      U3003-17  Battery voltage at the unit too low\nBunk panel\n   Current:\n"
            "      U0401-86  Implausible data from engine control")
    assert told(text)[-2:] == ["SCCM: B2960 current U3003 stored", "Bunk panel: U0401 current"]
