"""Entries of a list with a piece in each line, as a page copies them: a code, what it means below it, and below that
its status. They are put into one line: a line between a code and a status names no module, whatever its words are.

>>> from triage.intake.lines.rows import rows_of
>>> said = "ECU: Roof\\nC0035\\nEngine\\nstored\\nC0040\\nRadio lost\\n(H)\\n4F21\\nPump\\nstored\\n4F22\\nFan\\n(H)"
>>> [row.text for row in joined(rows_of(said), ("Brakes", "Roof", "ABS").__contains__)]
['ECU: Roof', 'C0035 Engine [stored]', 'C0040 Radio lost [H]', '4F21 Pump [stored]', '4F22 Fan [H]']

Without a status it is what each code has below it in lists whose headings have a mark of their own.

>>> said = "ECU: Brakes\\nC0035\\nEngine speed\\nC0040\\nRadio lost\\nECU: Roof\\nB1000\\nPump motor"
>>> [row.text for row in joined(rows_of(said), ("Brakes", "Roof").__contains__)]
['ECU: Brakes', 'C0035 Engine speed', 'C0040 Radio lost', 'ECU: Roof', 'B1000 Pump motor']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from functools import reduce

from triage.intake.codes import ownnumbers
from triage.intake.lines.glue import glued
from triage.intake.lines.outline import level_of
from triage.intake.lines.ownevidence import QUANTITY
from triage.intake.lines.pages import is_page_count
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import states, volts
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.counts import stated_count

#: A failure type that a blank parts from its code.
_TYPE = lazily(r"[0-9A-Fa-f]{2}h?")
#: The source address behind the code of a truck.
_SENDER = lazily(r"^\s*\(sa\s?[0-9]{1,3}\)")
_LETTERS = lazily(r"[a-z]{1,3}")
_WORDS = lazily(r"[a-z]{3}")
_EDGE = " \t-()[]:*"
_FEWEST, _LONGEST, _LONGEST_STATUS, _MOST_LINES, _MORE = 2, 100, 40, 2, 5
_FEWEST_RATED = 3


def joined(rows: Sequence[Row], is_name: IsName) -> list[Row]:
    """The rows, those of such entries put together. ``is_name``: listed names. Linear."""
    bare = {at: code for at, row in enumerate(rows) if (code := token(row))}
    rated = _rated(rows, is_name)
    if not bare and not rated:
        return list(rows)
    marks = marks_below(rows, bare, is_name)
    ends = {at: end for at in bare if (end := _end(rows, at, bare, marks)) > at}
    if _lead(rows, bare, ends, marks):
        ends = {}
    # A key for a status stands below nothing but a code.
    keyed = any(":" in rows[end].text for end in ends.values())
    several = len(ends) >= _FEWEST or any(rows[at].finds.codes for at in ends)
    if not keyed and (not several or _are_names(rows, ends, is_name)):
        ends = {}
    if not any(status(rows[end], marks) for end in ends.values()):
        ends = _told_below(rows, bare, is_name)
    ends |= _without_status(rows, bare, ends) | rated
    found: list[Row] = []
    at = 0
    while at < len(rows):
        end = ends.get(at, at)
        found.append(one(rows[at : end + 1], marks) if end > at else rows[at])
        at = end + 1
    return found


def token(row: Row) -> str:
    """The code alone in a row, or at the start of one where it may be a maker's own; "" for any other."""
    codes = row.finds.codes
    if row.blank or len(codes) > 1 or len(row.text) > _LONGEST:
        return ""
    if codes:
        rest = row.text[codes[0].end :].strip(_EDGE)
        alone = not codes[0].start and (not rest or _TYPE.fullmatch(rest) is not None)
        return row.text if alone and not row.finds.allowed(0, len(row.text)).refusals else ""
    if row.text != row.text.upper() or ownnumbers.found(0, row.text) is None or (
            row.finds.allowed(0, len(row.text)).refusals):
        return ""
    digits = len(row.low) - len(row.low.lstrip("0123456789"))
    return "" if QUANTITY.fullmatch(row.low, digits) or states.of_cell(row.low) is not None else row.text


def marks_below(rows: Sequence[Row], bare: dict[int, str], is_name: IsName) -> set[str]:
    """The letters that stand for statuses: alone in several lines below codes, and no names."""
    seen: Counter[str] = Counter()
    for at in bare:
        below = {row.text.strip(_EDGE) for row in rows[at + 1 : at + 2 + _MOST_LINES]}
        seen.update(text.lower() for text in below if _LETTERS.fullmatch(text.lower()) and not is_name(text)
                    and answer_of_cell(text.lower()) is None)
    sizes = {len(letters) for letters, often in seen.items() if often >= _FEWEST}
    return {letters for letters in seen if len(letters) in sizes}


def status(row: Row, marks: set[str]) -> str:
    """The status that a row tells and nothing else, behind its key or not; "" for any other."""
    if row.blank or row.finds.codes or len(row.text) > _LONGEST_STATUS or row.text.endswith(":"):
        return ""
    key, colon, value = row.text.partition(":")
    if colon:
        return value.strip() if role_of(key.lower()) == "status" and states.of_cell(value.lower()) is not None else ""
    told = row.text.strip(_EDGE)
    return told if told.lower() in marks or states.of_cell(row.low) is not None else ""


def _end(rows: Sequence[Row], at: int, bare: dict[int, str], marks: set[str]) -> int:
    """Where the entry of a code alone in its line ends: with a status, at most a few lines of words between; its own
    place where it does not end so."""
    for place in range(at + 1, min(at + 2 + _MOST_LINES, len(rows))):
        if place in bare or rows[place].line.indent < rows[at].line.indent:
            # Further left than the code the next module begins, or a status that heads the codes below it.
            return at
        if status(rows[place], marks):
            return place if place > at + 1 else at
        if not _is_text(rows[place]):
            return at
    return at


def _lead(rows: Sequence[Row], bare: dict[int, str], ends: dict[int, int], marks: set[str]) -> bool:
    """Whether each status that seems to end an entry heads the code right below it: so does one that ends none, and no
    entry ends otherwise. "Head unit", "pending", "B0028", "Airbag lamp", "stored", "C0110", "Pump"."""
    told = set(ends.values())
    first = any(at and at - 1 not in told and status(rows[at - 1], marks) for at in bare)
    return first and all(end + 1 in bare for end in told)


def _is_text(row: Row) -> bool:
    """Whether a row may be the words for a code, or a part of them."""
    if row.blank or row.finds.codes or row.finds.refusals or len(row.text) > _LONGEST or row.text.endswith(":"):
        return False
    if is_page_count(row.low) or _heads(row) or answer_of_cell(row.low) is not None:
        return False
    return _WORDS.search(row.low) is not None


def _heads(row: Row) -> bool:
    """Whether a mark of its own tells a row to be a heading: a key for modules, the number of its codes."""
    key, colon, _ = row.low.partition(":")
    return (bool(colon) and role_of(key) is not None) or stated_count(row.low) is not None


def _without_status(rows: Sequence[Row], bare: dict[int, str], ends: dict[int, int]) -> dict[int, int]:
    """The ends of the other entries, of which no status is told: their code and their words stand where those of the
    entries with a status do, the words further right."""
    places = {(level_of(rows[at]), level_of(rows[at + 1])) for at in ends}
    return {
        at: at + 1 for at in bare
        if at not in ends and at + 1 < len(rows) and rows[at + 1].line.indent > rows[at].line.indent
        and _is_text(rows[at + 1]) and (level_of(rows[at]), level_of(rows[at + 1])) in places
    }


def _told_below(rows: Sequence[Row], bare: dict[int, str], is_name: IsName) -> dict[int, int]:
    """The ends of entries without a status: each code alone in its line has one line of words below it, and marked
    headings stand above them all."""
    ends = {at: at + 1 for at in bare if at + 1 < len(rows) and _is_text(rows[at + 1])}
    headed = [at for at in bare if at and _heads(rows[at - 1])]
    # A maker's own number nowhere else than below a heading, or below the text of another.
    if any(not rows[at].finds.codes and at not in headed and at - 2 not in bare for at in bare):
        return {}
    if len(ends) < len(bare) or len(headed) < _FEWEST or _are_names(rows, ends, is_name):
        return {}
    # What was stored with a code may stand below its words.
    more = [at for at in ends if at + 2 < len(rows) and at + 2 not in bare and _is_text(rows[at + 2])]
    return ends if _MORE * len(more) <= len(ends) else {}


def _rated(rows: Sequence[Row], is_name: IsName) -> dict[int, int]:
    """The ends of entries whose codes stand alone in their lines with their status, where each has one line of words
    below it, no further left and over no answer: "C0035 (stored)" above "Engine speed"."""
    ends: dict[int, int] = {}
    for at, row in enumerate(rows):
        if _is_rated(row):
            below = rows[at + 1] if at + 1 < len(rows) else None
            if below is None or not _is_text(below) or below.line.indent < row.line.indent or volts.find(below.low):
                return {}
            ends[at] = at + 1
    first = next(iter(ends), 0)
    if len(ends) < _FEWEST_RATED or not first or rows[first - 1].blank:
        return {}
    behind = [rows[end + 1] for end in ends.values() if end + 1 < len(rows)]
    answered = any(not row.blank and answer_of_cell(row.low) is not None for row in behind)
    if answered or all(_is_rated(row) for row in behind):
        # Names of modules stand over all of them, and below the codes of others.
        return {}
    return {} if _are_names(rows, ends, is_name) else ends


def _is_rated(row: Row) -> bool:
    """Whether a row is a code with its status and nothing else."""
    codes = row.finds.codes
    if len(codes) != 1 or codes[0].start or len(row.text) > _LONGEST or row.roles or row.finds.refusals:
        return False
    rest = _SENDER.sub("", row.low[codes[0].end :]).strip(_EDGE)
    return bool(rest) and states.of_cell(rest) is not None


def _are_names(rows: Sequence[Row], ends: dict[int, int], is_name: IsName) -> bool:
    """Whether names stand below many of the codes: they tell the module of each."""
    return 3 * sum(is_name(tidy(rows[at + 1].text)) for at in ends) > len(ends)


def one(rows: Sequence[Row], marks: set[str]) -> Row:
    """The rows of an entry as one, at the place of the first, its status in brackets."""
    rated = next((row for row in reversed(rows[1:]) if status(row, marks)), None)
    rest = [row for row in rows[1:] if row is not rated]
    if rated is not None:
        rest.append(rated.saying(f"[{status(rated, marks)}]"))
    first = rows[0]
    if not first.finds.codes or first.finds.codes[0].kind == "own":
        first = replace(first, line=replace(first.line, own=first.line.own | {first.text}))
    # Behind a status the words for a code are a piece of their own.
    joint = "  " if _is_rated(first) else " "
    return reduce(lambda above, row: glued(above, row, joint), rest, first)


__all__ = ["joined", "marks_below", "one", "status", "token"]
