"""Names of modules behind a code and its text, each with its status, cut as if each stood in a line below: "P0562 low:
ABS = stored, BCM (active)".

>>> from triage.intake.lines.rows import rows_of
>>> row = rows_of("ABS (failed, not confirmed)")[0]
>>> name_and_status(row, may_name), name_and_status(rows_of("Brakes (ABS) = stored")[0], may_name)
((3, 5), (12, 15))
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from copy import copy

from triage.intake.codes.pieces import COUNTED
from triage.intake.lines.namelist import acceptable
from triage.intake.lines.row import Row
from triage.intake.lines.supplyrow import stands_between
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import line_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import spoken
from triage.intake.said.near import small

_BEHIND_NAME = lazily(r"\s*[(\[]|\s+-+\s+|\s+/\s+|\s*[:,;=]\s+|\s{2,}")
#: Behind the status something else may be told: "Present - lamp on".
BEHIND_STATUS = lazily(r"\s+-+\s|\s{2,}|\s*[,;]\s")
#: What leads to the names behind a code and its text, a word for the place with it ("low (stored) in module: ABS"), and
#: parts them, but within brackets.
_LEADS = lazily(
    r"(?:\s(?:in|im|dans|en|bei|from|aus|von)(?: (?:module|unit|control unit|ecu|steuergerat|sg|calculateur|modulo|"
    r"unidad|centralita))?\s?|(?<![:\s])):\s+(?=[^\W\d])")
_PARTS = lazily(r"([(\[][^()\[\]]*[)\]])|[,;]\s+")
_OPENING = {"(": ")", "[": "]"}
_SHORT = lazily(r"\s?[(\[][^()\[\]]*[)\]]$")
_LONGEST_NAME, _LONGEST = 60, 600


def cut(rows: Sequence[Row], names: Names) -> tuple[Sequence[Row], dict[int, list[int]]]:
    """The rows, those that tell the names of modules with their statuses behind a code and its text cut before each, as
    if it stood in a line below: "P0562 low: ABS = stored, BCM (active)"; by the places of the codes those of the names.
    They are most of those with codes, and most of what they name is known. Linear."""
    coded = [at for at, row in enumerate(rows) if row.finds.codes and row.roles is None]
    led = [at for at in coded if ":" in rows[at].text and not rows[at].finds.codes[0].start
           and len(rows[at].finds.codes) == 1 and len(rows[at].text) <= _LONGEST
           # "P0562 stored in Radio: bus timeout"
           and states.leading(rows[at].low, rows[at].finds.codes[0].end) == rows[at].finds.codes[0].end]
    if len(led) < 2 or len(led) < 0.6 * len(coded):
        return rows, {}
    found = {at: pieces for at in led if (pieces := _pieces(rows[at], names))}
    told = [rows[at].text[slice(*piece)] for at, pieces in found.items() for piece in pieces[1:]]
    # Right behind a code its text stands, in whatever words: "P0620: generator, stored".
    described = sum(bool(rows[at].text[rows[at].finds.codes[0].end : pieces[0][1]].strip())
                    for at, pieces in found.items())
    sure = sum(names.likely(name) for name in map(_name_of, told))
    if len(found) < 2 or len(found) < 0.6 * len(coded) or 2 * sure < len(told) or (
            2 * described < len(found) or _is_shared(rows, found)):
        return rows, {}
    kept: list[Row] = []
    named: dict[int, list[int]] = {}
    for at, row in enumerate(rows):
        if at not in found:
            kept.append(row)
            continue
        parts = [row.part(start, end) for start, end in found[at]]
        for part in parts[1:]:
            part.line = copy(part.line)
            part.line.indent += 4
        named[len(kept)] = [*range(len(kept) + 1, len(kept) + len(parts))]
        kept += parts
    return kept, named


def _is_shared(rows: Sequence[Row], found: dict[int, list[tuple[int, int]]]) -> bool:
    """Whether a status is that of all names before it: nowhere one stands behind another name than the last."""
    shared = False
    for at, pieces in found.items():
        stated = [_states(rows[at].part(*piece)) for piece in pieces[1:]]
        if any(stated[:-1]) or "=" in rows[at].text:
            return False
        shared = shared or (len(stated) > 1 and stated[-1])
    return shared


def _states(row: Row) -> bool:
    """Whether a status stands behind a name."""
    return (name_and_status(row, may_name) or (0, len(row.text)))[1] < len(row.text)


def _pieces(row: Row, names: Names) -> list[tuple[int, int]]:
    """Where a code with its text ends in a row, and each of the names with their statuses behind it; () for none."""
    for lead in _LEADS.finditer(row.low, row.finds.codes[0].end):
        cuts = [(match.start(), match.end()) for match in _PARTS.finditer(row.text, lead.end()) if match[1] is None]
        starts = [lead.end(), *(end for _, end in cuts)]
        pieces = list(zip(starts, [*(start for start, _ in cuts), len(row.text)], strict=True))
        for at in range(len(pieces) - 1, 0, -1):
            (start, end), both = pieces[at], (pieces[at - 1][0], pieces[at][1])
            last, whole = _name_of(row.text[start:end]), _name_of(row.text[slice(*both)])
            # "camera, rear = stored", "ABS = failed, not confirmed"
            if states.of_cell(row.low[start:end]) is not None or (
                    "," in whole and names.listed(_SHORT.sub("", whole)) and not names.listed(_SHORT.sub("", last))):
                pieces[at - 1 : at + 1] = [both]
        parts = [row.part(start, end) for start, end in pieces]
        if all(part.text and name_and_status(part, may_name) is not None for part in parts):
            return [(0, lead.start()), *pieces]
    return []


def _name_of(text: str) -> str:
    """The name in a text of one and its status."""
    told = name_and_status(Row(line_of(1, text, text), text, 0), may_name)
    return tidy(text[: told[0]]) if told is not None else ""


def may_name(text: str) -> bool:
    """Whether a text may be the name of a module that nobody knows: a few words and nothing that is said of a code."""
    low = small(text)
    return acceptable(text) and len(text) <= _LONGEST_NAME and ":" not in text and not (
        COUNTED.search(low) or spoken(low) or states.in_text(low) or stands_between(low))


def name_and_status(row: Row, is_name: Callable[[str], bool]) -> tuple[int, int] | None:
    """Where a listed name ends in a line that holds nothing else but a status behind it, and where that begins."""
    if not row.text or row.finds.codes or row.roles is not None or len(row.text) > 90:
        return None
    if is_name(tidy(row.text)):
        return len(row.text), len(row.text)
    counted = COUNTED.search(row.low)
    if counted is not None and is_name(tidy(row.text[: counted.start()])):
        return counted.start(), counted.start()
    for match in _BEHIND_NAME.finditer(row.text):
        rest = row.low[match.end() :]
        if match[0][-1] in _OPENING and 0 <= rest.find(_OPENING[match[0][-1]]) < len(rest.rstrip()) - 1:
            continue  # "Brakes (ABS) = stored"
        status = BEHIND_STATUS.split(rest.strip(" )]"), maxsplit=1)[0]
        told = states.of_cell(rest) is not None or states.of_cell(status) is not None or stands_between(rest)
        if told and is_name(tidy(row.text[: match.start()])):
            return match.start(), match.end()
    return None


__all__ = ["BEHIND_STATUS", "cut", "may_name", "name_and_status"]
