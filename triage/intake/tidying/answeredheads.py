"""That a module answered, behind its name in a heading: taken off, since its codes or their absence stand below; or
that it has faults, right above these.

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in taken_off(rows_of("Brakes      Status: answered\\nABS (comm: responding)\\nECM   Status: ok"))]
['Brakes', 'ABS', 'ECM   Status: ok']
>>> [row.text for row in taken_off(rows_of("ABS    FAULT\\n  C0035\\nECM    FAULT"), lambda name: True)]
['ABS', 'C0035', 'ECM    FAULT']
>>> [row.text for row in taken_off(rows_of("ABS    Status: Malfunction\\n  C0035"), lambda name: name == "ABS")]
['ABS', 'C0035']

"Clear" in brackets behind a name is written as "clean": elsewhere it may be a deed.

>>> [row.text for row in taken_off(rows_of("Brakes (clear)\\n=== ABS [all clear] ===\\nclear codes"))]
['Brakes (clean)', '=== ABS (clean) ===', 'clear codes']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.outside import outside_supply

#: Of what is said: that it answered, and with that nothing of its codes.
_ENDS = ("answered", "answers", "answering", "responded", "responds", "responding", "replied", "replies", "online",
         "reached", "connected", "communicating")
#: The same with no key, behind a mark that leads to it.
_LED_TO = lazily(rf"\s*(?:\.{{2,}}|:|-+>|\s-|\u2026)\s*(?:{'|'.join(_ENDS)})\.?$")
_ANSWERED = lazily(
    r"(?:\s{2,}|\s-\s|[ ,]?\s?[(\[]|,\s)\s*(?:status|state|communication|comms?|connection|response|answer|reply)\s?"
    r"[:=.]\s*"
    rf"(?:{'|'.join(_ENDS)})\s*[)\]]?$"
)
#: That there are faults, behind a gap or a mark.
_FAULTY = (
    "fault", "faults", "faulty", "fail", "failed", "failure", "error", "errors", "not ok", "nok", "ko", "bad", "codes",
    "dtcs", "nio", "n.i.o", "fehler", "fehlerhaft", "defekt", "defaut", "defauts", "defaillant", "fallo", "fallos",
    "averia", "averias", "malfunction", "malfunctions", "has faults", "faults present", "fault present",
    "fault(s) present", "codes present", "storung", "fehler vorhanden", "dysfonctionnement", "defauts presents",
    "con fallos",
)
_FAILED = lazily(
    r"(?:\s{2,}|\s?:\s?|\s-+>?\s|\s?[(\[]|\s?\.{2,}\s?)(?:(?:status|state|result|ergebnis|etat|estado)\s?[:=]\s*)?"
    rf"(?:{'|'.join(map(re.escape, sorted(_FAULTY, key=len, reverse=True)))})"
    r"\.?!*\s?[)\]]?\s*$"
)
_CLEAR = lazily(r"[(\[]\s?(?:all )?clear\s?[)\]](?=[\s=*#_.-]*$)")
_REACH = 60


def taken_off(rows: Sequence[Row], is_name: Callable[[str], bool] = lambda name: False) -> list[Row]:
    """The rows, those without codes less the word that their module answered, at their end behind its key; and names
    (``is_name``) right above codes less the word that it has such."""
    found = [_one(row) if row.low.rstrip(" )]").endswith(_ENDS) else _clean(row) for row in rows]
    for at, row in enumerate(rows[:-1]):
        if row.finds.codes or not row.low.rstrip(" )].!").endswith(_FAULTY):
            continue
        below = next((below for below in rows[at + 1 : at + 3] if not below.blank), row)
        if not below.finds.codes or below.finds.codes[0].start or not is_as_pasted(row):
            continue
        match = _FAILED.search(row.low, max(0, len(row.low) - _REACH))
        if match is not None and is_name(tidy(row.text[: match.start()])):
            found[at] = without(row, (match.start(), len(row.text)))
    return found


def _clean(row: Row) -> Row:
    """One row, "clear" in brackets at its end as "clean"."""
    match = _CLEAR.search(row.low) if "clear" in row.low[-_REACH:] and not row.finds.codes else None
    if match is None or not is_as_pasted(row) or not has_letter(row.low[: match.start()]):
        return row
    start, end = match.span()
    line = reworded(row.line, row.start + start, row.start + end, "(clean)")
    return Row(line, f"{row.text[:start]}(clean){row.text[end:]}", row.start)


def _one(row: Row) -> Row:
    """One row; a table has a column for it."""
    if row.finds.codes or "|" in row.text or "\t" in row.text or ";" in row.text or not is_as_pasted(row):
        return row
    match = _ANSWERED.search(row.low, max(0, len(row.low) - _REACH)) or _LED_TO.search(row.low)
    if match is None or not has_letter(row.low[: match.start()]):
        return row
    name = row.low[: match.start()]
    if ":" in name.partition(":")[2] or "," in name or outside_supply(name) is not None or role_of(name) is not None:
        # Several keys, or several names, in a line; what was connected to the vehicle.
        return row
    return without(row, (match.start(), len(row.text)))


__all__ = ["taken_off"]
