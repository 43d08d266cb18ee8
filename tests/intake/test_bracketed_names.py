"""Names with their short form in square brackets, in lists of makers' numbers and in headings; all data invented."""

from __future__ import annotations

import pytest
from reads import scans

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


@pytest.mark.parametrize(("rows", "expected"), [
    ("P0562   Supply low (Instrument cluster)   PRESENT\nB1318   Feed lost (Climate control)   HISTORY\n"
     "U0121   Lost comms with ABS (Radio)   HISTORY\n",
     "Instrument cluster: P0562 current; Climate control: B1318 stored; Radio: U0121 stored"),
    ("P0562   Spannung niedrig (Kombiinstrument)   aktiv\nB1318   Versorgung (Klimaanlage)   gespeichert\n",
     "Kombiinstrument: P0562 current; Klimaanlage: B1318 stored"),
    ("P0562   Tension basse (Combiné)   présent\nB1318   Alimentation (Climatisation)   mémorisé\n"
     "U0121   Sans liaison ABS (Radio)   mémorisé\n",
     "Combiné: P0562 current; Climatisation: B1318 stored; Radio: U0121 stored"),
    ("P0562   Tensión baja (Climatizador)   presente\nB1318   Sin señal (Radio)   memorizado\n",
     "Climatizador: P0562 current; Radio: B1318 stored"),
    # What is in brackets below a heading describes the fault.
    ("ABS\nU0100   Lost comms (engine control unit)   stored\nU0140   Missing message (gateway)   active\n"
     "U0155   Missing data (cluster)   active\n", "ABS: U0100 stored U0140 current U0155 current"),
    ("P0562   Supply low (stored)   12\nB1318   Feed lost (present)   4\n", "None: P0562 stored B1318 current"),
])
def test_round_brackets_end_a_column_of_words(rows: str, expected: str) -> None:
    """ "Supply low (Radio)   PRESENT": the module stands behind the words, the status in its own column."""
    assert scans(rows) == [f" | {expected}"]
