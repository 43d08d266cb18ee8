"""What a text is that is no scan: a bill, a voltage log, or somebody's words with a voltage and no module in them.

>>> is_bill("Invoice,Date,Item,Qty,Price\\n1,2.2.2026,Battery,1,119.00"), is_bill("Module;Code;Price of nothing")
(True, False)
>>> what_it_is("time_s,volts\\n0,12.6\\n1,12.5\\n2,10.1\\n")
'it looks like a voltage log: read it with `triage trace`'
>>> what_it_is("no scanner here. battery reads 11.2")
'no trouble code and no module in it, 11.2 V alone judges nothing'
>>> what_it_is("a burning smell by the fuse box").partition("; ")[2]
'it tells of burning: battery off, and find what burns first'
>>> what_it_is("milk, bread")
'no trouble code, module or voltage in it'
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.said.near import small

#: Columns of a bill, in four languages; so many of them head one.
_COLUMN = lazily(
    r"(?:unit )?price|qty|quantity|amount|total|net|vat|invoice(?: ?(?:no|number|nr))?|item|(?:einzel|gesamt)?preis|"
    r"menge|"
    r"anzahl|betrag|rechnung(?:s?nr|snummer)?|artikel|mwst|prix(?: unitaire)?|quantite|montant|facture|article|tva|"
    r"precio|cantidad|importe|factura|articulo|iva")
_FEWEST_COLUMNS, _HEAD_LINES = 3, 5
_CELLS = lazily(r"[,;|\t]")
#: Rows of nothing but a time and one or two voltages.
_LOG_ROW = lazily(r"\s*[0-9:.T-]{1,24}\s*[,;\t]\s*[0-9]{1,2}(?:\.[0-9]{1,3})?(?:\s*[,;\t]\s*[0-9.]{1,8})?\s*")
_FEWEST_ROWS = 3
#: A reading somebody took of the battery.
_READ = lazily(r"(?<![a-z])(?:batter(?:y|ie)|batt|bateria|volts?|meter|multimeter|multimetre)\b[^.;\n0-9]{0,24}"
               r"(?P<volts>[0-9]{1,2}[.,][0-9]{1,2})(?![0-9]|[.,][0-9])|"
               r"(?<![0-9.,])(?P<plain>[0-9]{1,2}[.,][0-9]{1,2}) ?v(?![a-z])")
_BURNS = lazily(r"(?<![a-z])(?:burn(?:ing|t) smell|smell(?:s|ed)? (?:of )?burn\w*|smok(?:e|es|ing)|on fire|brandgeruch|"
                r"verschmort|qualm|rauch(?:t)?|odeur de brule|sent le brule|fumee|olor a quemado|huele a quemado|humo)"
                r"(?![a-z])")
_LONGEST = 200_000


def is_bill(text: str) -> bool:
    """Whether the head of a table has the columns of a bill: what is sold is no code of a vehicle."""
    for line in text[:_LONGEST].splitlines()[:_HEAD_LINES]:
        cells = {cell.strip(" \"'.") for cell in _CELLS.split(small(line[:400]))}
        if sum(_COLUMN.fullmatch(cell) is not None for cell in cells) >= _FEWEST_COLUMNS:
            return True
    return False


def what_it_is(text: str) -> str:
    """Why a text without a code and a module is no scan, and what to do with it."""
    lines = [line for line in text[:_LONGEST].splitlines() if line.strip()]
    rows = sum(_LOG_ROW.fullmatch(line[:80]) is not None for line in lines)
    if rows >= _FEWEST_ROWS and rows >= len(lines) - 2:
        return "it looks like a voltage log: read it with `triage trace`"
    low = small(text[:_LONGEST])
    read = _READ.search(low)
    told = (f"no trouble code and no module in it, {(read['volts'] or read['plain']).replace(',', '.')} V alone judges "
            "nothing" if read is not None else "no trouble code, module or voltage in it")
    # Common practice: what smoulders is parted from the battery before anything is connected or tried.
    return f"{told}; it tells of burning: battery off, and find what burns first" if _BURNS.search(low) else told


__all__ = ["is_bill", "what_it_is"]
