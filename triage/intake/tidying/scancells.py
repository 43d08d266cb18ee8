"""What the cells of a table say of scans: which scan a column is, what is told of it below, what its modules said.

>>> names_a_scan("after clear 12.8 v"), names_a_scan("engine"), of_the_scan("volts", "11.4"), of_the_scan("", "11.4 v")
(True, False, 'volts: 11.4', '11.4 v')
>>> of_the_scan("", "no codes") is None
True
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.lines.row import Cell, Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import line_of
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import words
from triage.intake.said import dates, engine_state, outside, phases, volts
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small
from triage.intake.words.volt_words import LOWEST

#: A cell that says nothing was there.
NOTHING = frozenset({"-", "--", "---", "0", "/", "none", ".", "..", "...", "./.", "-/-", "-.-"})
LONGEST_HEAD = 120
#: A voltage without its unit, in a row about the scans.
_BARE = lazily(r"(?:[89]|[12][0-9]|3[0-2])[.,][0-9]{1,2}")
#: A time, a day, or a short word that says which scan a column is, where others beside it do so too.
_MOMENT = lazily(
    r"(?<![0-9a-z])(?:[0-2]?[0-9](?:[:h][0-5][0-9](?: ?[ap]m)?| ?[ap]m| uhr)|[0-3]?[0-9][./-][0-3]?[0-9][./-]?"
    r"(?![0-9])|(?:s|r|t|scan|read|visit|day|tag|jour|dia|run|#|no\.?|nr\.?) ?[1-9]|"
    r"(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|"
    r"sat(?:ur)?|sun)(?:day)?|montag|dienstag|mittwoch|donnerstag|freitag|samstag|lundi|mardi|mercredi|jeudi|vendredi|"
    r"samedi|lunes|martes|miercoles|jueves|viernes|sabado|[ap]m|morning|noon|afternoon|evening|morgens|mittags|abends|"
    r"matin|soir|manana|tarde|arrival|arrived|initial|intake|final|last|recheck|retest|re-check|re-test|"
    r"cleared|driven|eingang|ankunft|arrivee|llegada|ausgang)(?![0-9a-z])"
)
#: What stands below, in front of it: "Status 08:00".
_SAID = lazily(
    r"^(?:status|state|result|codes?|dtcs?|faults?|zustand|fehler|etat|estado)[ :@-]+(?:at |um |a )?(?=[^ ])")
#: Such words in a wording that tells the phase anywhere.
_IN_FULL = dict.fromkeys(
    ("arrival", "arrived", "intake", "initial", "eingang", "ankunft", "arrivee", "llegada"), "as arrived") | {
    "driven": "after drive", "cleared": "after clear"}
#: The unit of a row, behind its label; the supply that a vehicle has by name, in front of it.
_UNIT = lazily(r"\s*[(\[]\s?(?:v|volts?|vdc|v dc)\s?[)\]]$")
_BY_NAME = lazily(r"^(?:12|24|48)\s?v(?:olts?)?[\s-]+(?=[a-z])")
#: What stands before the cells of a row about the scans.
_LABELS = frozenset((
    "engine", "motor", "moteur", "key", "ignition", "zundung", "contact", "charger", "ladegerat", "chargeur",
    "cargador", "support", "outside supply", "phase", "scan", "state", "condition", "zustand", "etat", "estado"))


def names_a_scan(low: str) -> bool:
    """Whether the head of a column says which scan stands below it: its phase, its number or its date."""
    if len(low) > LONGEST_HEAD:
        return False
    if phases.find(low) is not None:
        return True
    head = phases.scan_head(low)
    return (head is not None and head.end() >= len(low) - 1) or _is_moment(low)


def may_name_a_scan(low: str) -> bool:
    """Whether the head of a column may say so beside others of its kind: a number with its time, a time, a day, or a
    short word of a workshop's sheet.

    >>> [may_name_a_scan(low) for low in ("scan 1 08:00", "09:10", "s2", "02.03. 08:00", "fri pm", "engine", "stored")]
    [True, True, True, True, True, False, False]
    """
    if len(low) > LONGEST_HEAD or names_a_scan(low):
        return len(low) <= LONGEST_HEAD
    low = low.strip(" :.=")
    head = phases.scan_head(low)
    rest = low[head.end() :] if head is not None else _SAID.sub("", low)
    spans = [match.span() for match in _MOMENT.finditer(rest)]
    if not spans and head is None:
        return False
    spans += [(volt.start, volt.end) for volt in volts.find(rest)]
    return all(any(start <= first < end for start, end in spans) for _, first, _ in words(rest))


def in_full(head: str) -> str:
    """The head of a column in a wording that tells its phase, where a single word does so there alone.

    >>> in_full("Arrival"), in_full("Scan 1")
    ('as arrived', 'Scan 1')
    """
    return _IN_FULL.get(small(head).strip(" :.="), head)


def side_by_side(row: Row) -> set[int]:
    """The columns of a row that name scans beside others that do so; none where something else stands between them.
    The first column is of the modules."""
    cells = row.cells or []
    if row.kind == "rule" or row.blank or row.finds.codes or len(cells) < 3 or names_a_scan(cells[0].low):
        # "Scan 2, codes cleared, key on, 12.1 V" heads no columns: it is of one scan.
        return set()
    likely = {at for at, cell in enumerate(cells) if at and may_name_a_scan(cell.low)}
    rest = [cells[at].low for at in range(1, len(cells)) if at not in likely and cells[at].text]
    return likely if len(likely) > 1 and all(role_of(low) is not None for low in rest) else set()


def _is_moment(low: str) -> bool:
    """Whether a text is a date, with its time and the supply then, and no more."""
    spans = [(stamp.start, stamp.end) for stamp in dates.find(low)]
    if not spans:
        return False
    clock = dates.clock(low)
    spans += [clock[1:]] if clock is not None else []
    spans += [(volt.start, volt.end) for volt in volts.find(low)]
    return all(any(start <= first < end for start, end in spans) for _, first, _ in words(low))


def is_label(low: str) -> bool:
    """Whether the first cell of a row heads what is told of the scans: it is empty, or names the supply or the like."""
    low = _label(low)
    return not low or _of_supply(low) or low in _LABELS or role_of(low) in ("date", "module", "scan", "volts")


def _label(low: str) -> str:
    """The first cell of a row without its unit, and without the supply that the vehicle has by name: "12V supply (V)".
    """
    low = low.strip(" :.=")
    return _BY_NAME.sub("", _UNIT.sub("", low)) if low[-1:] in (")", "]") or low[:1].isdigit() else low


def _of_supply(label: str) -> bool:
    """Whether a word in front of a row says that voltages follow: "Battery", "lowest"."""
    return volts.is_label(label) or (len(label) <= 24 and LOWEST.match(label) is not None)


def of_the_scan(label: str, low: str) -> str | None:
    """What a cell tells of its scan, with the word in front of its row; None for what is told of a module."""
    low = low.strip()
    if not low or len(low) > LONGEST_HEAD or answer_of_cell(low) is not None or find(low, low).codes:
        return None
    label = _label(label)
    if _BARE.fullmatch(low) or (label and _of_supply(label)):
        return f"{label if label and _of_supply(label) else 'battery'}: {low}"
    if names_a_scan(low) or volts.find(low) or dates.clock(low) is not None:
        return low
    both = f"{label} {low}" if label in _LABELS else low
    return both if engine_state.spans(both) or outside.spans(both) else None


def holds_scans(cells: Sequence[Cell]) -> bool | None:
    """Whether the cells of a column are what modules said in one scan: codes, answers, nothing, the supply. None where
    one says something else."""
    said = 0
    for cell in cells:
        low = cell.low.strip()
        if answer_of_cell(low) is not None or find(cell.text, cell.low).codes:
            said += 1
        elif low and low not in NOTHING and not volts.find(low):
            return None
    return said > 0


def row_like(like: Row, text: str) -> Row:
    """A row of ``text`` at the line of another."""
    return Row(line_of(like.line.number, text, text, own=like.line.own), text, 0)


__all__ = [
    "LONGEST_HEAD",
    "NOTHING",
    "holds_scans",
    "in_full",
    "is_label",
    "may_name_a_scan",
    "names_a_scan",
    "of_the_scan",
    "row_like",
    "side_by_side",
]
