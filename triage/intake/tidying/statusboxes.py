"""Boxes that are ticked for the status of a code, questions after it that are answered with yes or no, and what is told
of the memory and of now: "[x] Confirmed  [ ] Pending", "Present? No", "Memory: stored   Now: not present", in the line
of the code or below it, put into the one word that they come to. What is not ticked does not count; not being present
now is being stored.

>>> from triage.intake.lines.rows import rows_of
>>> text = "ECM P0562\\n[ ] Confirmed  [x] Pending\\nABS C0035 [ ] Present [x] Stored\\nPresent?  Yes\\n[x] Tyres"
>>> [row.text for row in told(rows_of(text))]
['ECM P0562', 'Status: pending', 'ABS C0035 stored', 'Status: current', 'Tyres']
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain import signs
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.plain.remember import LONGEST
from triage.intake.said import states
from triage.intake.tidying import answerboxes
from triage.model.snapshot import StatusWord

_TICKED, _OPEN = "\u2611\u2612\u2713\u2714\u2705", "\u2610"
_BOX = rf"(?:[\[(]\s?([xv*]?)\s?[\])]|([{_TICKED}])|{_OPEN})"
_LABEL = r"([a-z][a-z0-9./-]*(?: [a-z0-9./-]+){0,3})"
_APART = r"\s*[,;|/]?\s*"
_BOX_FIRST = lazily(rf"{_BOX}\s?{_LABEL}(?:{_APART}(?=[\[({_TICKED}{_OPEN}])|\s*$)")
_BOX_LAST = lazily(rf"{_LABEL}\s?[:=]?\s?{_BOX}(?:{_APART}(?=[a-z])|\s*$)")
_QUESTION = lazily(
    rf"{_LABEL}\s?(\?|[:=])[\s:=]*(yes|no|ja|nein|oui|non|si|true|false)(?:{_APART}(?=[a-z])|\s*[.)\]]*\s*$)"
)
#: What a code's memory and its test say, each with its own key.
_OF_MEMORY = r"(?:fault )?(?:memory|mem|speicher|memoire|memoria|history)"
_OF_NOW = (
    r"(?:now|currently|current(?: state| status)?|at present|right now|jetzt|momentan|actuellement|actualmente|ahora)"
)
_VALUE = r"\s?[:=]\s?([a-z]+(?: [a-z]+){0,2})"
_TOLD = lazily(
    rf"{_OF_MEMORY}{_VALUE}{_APART}{_OF_NOW}{_VALUE}\s*|{_OF_NOW}{_VALUE}{_APART}{_OF_MEMORY}{_VALUE}\s*"
)
_TOLD_BEGINS = lazily(rf"(?<![a-z])(?:{_OF_MEMORY}|{_OF_NOW})\s?[:=]")
_BEGINS = lazily(rf"(?:{_LABEL}\s?[:=]?\s?)?{_BOX}")
_ANY_BOX = lazily(_BOX)
_YES = word_set("yes ja oui si true x v") | {"*", *_TICKED}
_ANSWERS = word_set("yes no ja nein oui non si true false")
_SIGNS = frozenset(_TICKED + _OPEN)
_BEGIN, _END = _SIGNS | {"[", "("}, _SIGNS | {"]", ")"}
#: What every such line has in it.
_SIGN = (
    signs.of_parts("[", "(", "\u2022")
    | signs.of_words(_ANSWERS.__contains__)
    | signs.of_words(word_set("memory mem speicher memoire memoria history").__contains__)
)
#: So many lines below a code its boxes stand at most.
_REACH = 9


class _Asked(NamedTuple):
    """One box or question: the status it is about, if that is known, whether it holds, and whether it is asked so."""

    status: StatusWord | None
    holds: bool
    sure: bool


def told(rows: Sequence[Row]) -> list[Row]:
    """The rows, such boxes and questions as the status they come to. Linear."""
    found = list(rows)
    done = -1
    for at, row in enumerate(rows):
        if at <= done or row.blank or len(row.low) > LONGEST or not signs.of(row.line.low) & _SIGN:
            continue
        if row.finds.codes:
            found[at] = _beside(row)
            continue
        asked, last = _asked(_low_of(row)), at
        while asked and last + 1 < len(rows) and not rows[last + 1].finds.codes and (
            more := _asked(_low_of(rows[last + 1]))
        ):
            asked, last = [*asked, *more], last + 1
        if len(asked) < 2 and not any(each.sure for each in asked):
            continue
        if not _below_a_code(rows, at):
            if len(asked) == 1 and "?" in row.text:
                # Of a module rather than of a code, a question is a key as well.
                found[at] = row.saying(row.text.replace("?", ":", 1), row.finds)
            continue
        done = last
        found[at] = row.saying(f"Status: {_status(asked) or '-'}", row.finds)
        for below in range(at + 1, last + 1):
            found[below] = rows[below].saying("Status: -", rows[below].finds)
    return found


def _low_of(row: Row) -> str:
    """The line of a row in small letters from its first box on, where the row itself begins behind that; boxes of one
    sign as pasted."""
    line = row.line
    if row.blank or len(line.low) > LONGEST or row.start + len(row.text) < len(line.text.rstrip()):
        return row.low
    lead = line.low[: row.start] if row.start and not has_letter(line.low[: row.start].replace("x", "")) else ""
    low = lead + row.low if lead else row.low
    if not line.raw.isascii() and not _SIGNS.isdisjoint(line.raw):
        first = row.start - len(lead)
        raw = [line.raw[line.span(first + at, first + at + 1)[0]] for at in range(len(low))]
        low = "".join(sign if sign in _SIGNS else char for sign, char in zip(raw, low, strict=True))
    return low.lstrip(" \t-*+\u2022") if lead else low


def _asked(low: str) -> list[_Asked]:
    """The boxes or questions of a text that holds nothing else, some of which are about a status; else none."""
    if not low:
        return []
    low = low.rstrip()
    pattern = _BOX_FIRST if low[0] in _BEGIN else _BOX_LAST if low[-1] in _END else _QUESTION
    asked = _of_now(low)
    at = len(low) if asked else 0
    while at < len(low):
        match = pattern.match(low, at)
        if match is None:
            return []
        if pattern is _QUESTION:
            label, mark, ticked = match[1], match[2], match[3]
        else:
            *signs_of_box, label = match.groups() if pattern is _BOX_FIRST else (match[2], match[3], match[1])
            mark, ticked = "?", next(filter(None, signs_of_box), "")
        asked.append(_Asked(states.of_cell(label), ticked in _YES, mark == "?"))
        at = match.end()
    known = sum(each.status is not None for each in asked)
    return asked if 2 * known >= len(asked) else []


def _of_now(low: str) -> list[_Asked]:
    """What a text tells of a code's memory and of now, as the answers to two questions."""
    match = _TOLD.fullmatch(low)
    if match is None:
        return []
    kept, now = (match[1], match[2]) if match[1] is not None else (match[4], match[3])
    if now in _ANSWERS:
        present = now in _YES
    elif (status := states.of_cell(now)) in ("current", "stored"):
        present = status == "current"
    else:
        return []
    held = states.of_cell(kept)
    return [_Asked("current", present, True), _Asked(held, True, True)] if held is not None else []


def _status(asked: Sequence[_Asked]) -> StatusWord | None:
    """The status that the boxes and the answers come to."""
    return answerboxes.status_of([(each.status, each.holds) for each in asked if each.status is not None])


def _beside(row: Row) -> Row:
    """A row with one code and boxes or questions behind it, with their status in their place."""
    if len(row.finds.codes) > 1:
        return row
    low = _low_of(row)
    low = low[len(low) - len(row.low) :] if len(low) >= len(row.low) else row.low
    end = row.finds.codes[0].end
    box = _TOLD_BEGINS.search(low, end)
    if box is None and _ANY_BOX.search(low, end) is not None:
        box = _BEGINS.search(low, end)
    asked = _asked(low[box.start() :].rstrip()) if box is not None else []
    if box is None or len(asked) < 2:
        return row
    return row.saying(f"{row.text[: box.start()]}{_status(asked) or ''}".rstrip(), row.finds)


def _below_a_code(rows: Sequence[Row], at: int) -> bool:
    """Whether a code stands a few lines above, and no key for a module between."""
    for above in range(at - 1, max(at - 1 - _REACH, -1), -1):
        row = rows[above]
        if row.finds.codes:
            return True
        if row.blank:
            return False
        if role_of(row.low.split("  ")[0].split(":")[0].split("=")[0].strip()) in ("module", "code"):
            return role_of(row.low.split("  ")[0].split(":")[0].split("=")[0].strip()) == "code"
    return False


__all__ = ["told"]
