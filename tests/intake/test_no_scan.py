"""What is no scan is refused with what it is, and what to do with it. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.errors import InputError
from triage.intake.files import read_bytes


@pytest.mark.parametrize("text", [
    "Invoice,Date,Item,Qty,Price\n10023,02/02/2026,Battery 12V 70Ah,1,119.00\n10025,03/02/2026,P0420 set,1,9.90\n",
    "Rechnung;Artikel;Menge;Einzelpreis;MwSt\n7;Batterie 12V;1;119,00;19\n7;P0420 Aufkleber;1;9,90;19\n",
    "Facture;Article;Quantité;Prix\n7;Batterie 12V;1;119,00\n7;P0420;1;9,90\n",
])
def test_a_bill_is_refused_whatever_it_sells(text: str) -> None:
    with pytest.raises(InputError, match="a bill is no scan"):
        read_bytes(text.encode(), load(), source="bill.csv")


def test_a_list_with_a_price_beside_it_is_read() -> None:
    text = "Module,Code,Status,Price\nABS,C0035,current,0\nECM,P0420,stored,0\n"
    assert len(read_bytes(text.encode(), load(), source="scan.csv").snapshots[0].modules) == 2


@pytest.mark.parametrize(("text", "told"), [
    ("time_s,volts\n0,12.6\n1,12.6\n2,10.1\n3,13.9\n", "it looks like a voltage log: read it with `triage trace`"),
    ("The dash went black. No scanner with me. battery reads 11.2 and there is a burning smell by the fuse box.",
     "11.2 V alone judges nothing; it tells of burning: battery off, and find what burns first"),
    ("Kein Tester da, Batterie zeigt 11,2, Qualm aus dem Sicherungskasten", "11.2 V alone judges nothing; it"),
    ("milk, bread", "no trouble code, module or voltage in it; expected"),
])
def test_what_is_no_scan_is_told_for_what_it_is(text: str, told: str) -> None:
    with pytest.raises(InputError) as refused:
        read_bytes(text.encode(), load(), source="note.txt")
    assert told in str(refused.value)
