"""A module's line of a list: its name, a mark, and what it did in one or more words: "DOOR LF - dead - no comms".

What stands behind the mark may be nothing that anybody knows ("GBX >>> gobbledygook"). The module is then neither clean
nor silent; that it is told of is said in a notice.
"""

from __future__ import annotations

import re

from triage.intake.lines import unknown
from triage.intake.lines.pages import TITLE
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.said.wholeanswer import names_codes
from triage.intake.scan.context import Context
from triage.intake.words.vocabulary import ANSWERS, STATES

#: Marks between a name and what is said of it; arrows stand in no other place.
_ARROW = lazily(r"\s*(?:[-=~]{0,3}>{1,4}|\u2192|\u00bb|\u279c|\u21d2)\s*")
_MARK = lazily(r"\s*(?:[-=~]{0,3}>{1,4}|\u2192|\u00bb|\u279c|\u21d2)\s*|\s-+\s|\s*[:|=]\s+|\s{2,}|\t|\s*,\s+")
#: A name, a fault in words, quoted or behind a colon, and a status at the end.
_IN_WORDS = lazily(r"(?P<name>[^:\"|;\t]{2,40}?)\s*(?::\s*\"?|\")(?P<told>[^\":|;\t=>\u2192]{8,80}?)(?:\"\s*|\s+)"
                   r"(?P<status>(?:in)?active|current|stored|pending|confirmed|present|intermittent|aktiv|aktuell|gespeichert|"
                   r"actif|present|activo|presente)\s*[.!]?$")
_ARROWS = frozenset(">\u2192\u00bb\u279c\u21d2")
#: So many other lines of a text must be written so before a colon makes a line that nobody understands a module's.
_FEWEST = 2
_LONGEST, _MOST_WORDS = 120, 5


def read(context: Context, row: Row) -> bool:
    """A name and two or more answers behind marks; whether the row was one."""
    if len(row.text) > _LONGEST or not ANSWERS.find(row.low):
        return False
    parts = [part for part in _MARK.split(row.text) if part and part.strip(" -.")]
    if not 3 <= len(parts) <= 5:
        return False
    told = [answer_of_cell(small(part)) for part in parts[1:]]
    said = [answer for answer in told if answer is not None]
    name = context.names.bare(tidy(parts[0]))
    if len(said) != len(told):
        # "SAS   lost - no response to tester": between a listed name and silence, a word of what happened.
        last = spoken(small(parts[-1]))
        if any(f"{parts[0]}, {part}" in row.text and unknown.is_short(part) for part in parts[1:-1]):
            # "ABS, VDM: no response" tells of two.
            return False
        silent = len(last) == 1 and last[0].answer == "silent" and not last[0].start and not last[0].doubtful
        if not silent or "clean" in said or not context.names.listed(name) or not _tell_nothing(context, parts[1:-1]):
            return False
        said = ["silent"]
    if not _is_name(context, name) or context.names.find(small(parts[-1])):
        return False
    # "OK - no answer": who did not answer is without codes for nobody.
    _name(context, row, name, next((answer for answer in said if answer != "clean"), "clean"))
    return True


def _tell_nothing(context: Context, parts: list[str]) -> bool:
    """Whether parts between a name and its answer are a word each, no status and no other name."""
    return all(
        len(part.split()) == 1
        and context.names.score(tidy(part)) < 60.0
        and not context.names.find(small(part))
        and not STATES.find(small(part))
        for part in parts
    )


def _in_words(context: Context, row: Row) -> bool:
    """A fault in words that a module is said to have, with its status: "EBS: trailer CAN no comms active". That is no
    answer of the module, and of which code it is nobody can tell."""
    match = _IN_WORDS.match(row.low) if len(row.low) <= _LONGEST else None
    if match is None or states.of_cell(match["status"], context.translated) is None:
        return False
    name = context.names.bare(tidy(row.text[: match.end("name")]))
    known = context.names.score(name) >= 60.0 or any(
        small(module.printed) == small(name) for scan in context.builder.snapshots for module in scan.modules.values())
    if not known or not spoken(match["told"]) or answer_of_cell(match["told"]) is not None:
        return False
    if any(hit.end > match.start("status") for hit in spoken(row.low)):
        # "No codes stored": the status is a word of the answer.
        return False
    _name(context, row, name, None)
    return True


def of_a_code(context: Context, row: Row) -> bool:
    """A row of cells with a module's name, a status and what reads like an answer ("BCM | ? | active | Lost
    communication"): the description of a fault whose code can't be read; whether the row was one."""
    if _in_words(context, row):
        return True
    if row.kind not in ("|", ";", "\t") or row.cells is None or row.roles:
        return False
    filled = [cell for cell in row.cells if cell.text.strip(" -.")]
    if len(filled) < 4 or (answer_of_cell(filled[-1].low) is None and not spoken(filled[-1].low)):
        return False
    between = [cell.low for cell in filled[1:-1]]
    name = context.names.bare(tidy(filled[0].text))
    if context.names.score(name) < 60.0 or any(answer_of_cell(low) is not None for low in between):
        return False
    if not any(states.of_cell(low, context.translated) is not None for low in between):
        return False
    _name(context, row, name, None)
    return True


def not_understood(context: Context, row: Row) -> bool:
    """A name behind whose mark nothing is understood, in the place where this text tells of its modules; whether the
    row was one. It is in the scan, neither clean nor silent."""
    if len(row.text) > _LONGEST or (row.cells is not None and row.roles):
        return False
    if context.open_row is not None and context.under_heading and row.line.indent > context.open_row.line.indent:
        # "steering - missing message", set in below a code of a heading, is the rest of its description.
        return False
    arrow = not _ARROWS.isdisjoint(row.text)
    if not arrow and ": " not in row.text and " -" not in row.text:
        return False
    match = _ARROW.search(row.text, 1) if arrow else None
    mark = ">" if match is not None else ":"
    match = match or re.search(r":\s+|\s-+\s", row.text)
    mark = "-" if match is not None and mark == ":" and match[0][0] != ":" else mark
    if match is None or not row.text[match.end() :].strip():
        return False
    # What speaks of codes or of contact is said of the module, whatever it says.
    spoken_of = names_codes(row.low[match.end() :])
    if not spoken_of and not _usual(context, mark):
        return False
    name = context.names.bare(tidy(row.text[: match.start()]))
    if not _is_name(context, name) or not (mark == ">" or context.names.score(name) >= 90.0):
        return False
    # "GBX > memory clear": words that tell it only where nothing else stands beside them.
    _name(context, row, name, answer_of_cell(row.low[match.end() :]))
    return True


def _is_name(context: Context, name: str) -> bool:
    """Whether what stands before the mark may be a module's name: listed, or a few words that are nothing else."""
    if not has_letter(name) or role_of(small(name)) is not None:
        return False
    if context.names.score(name) >= 60.0:
        return True
    low = small(name)
    known = TITLE.search(low) or STATES.find(low) or ANSWERS.find(low) or phases.find(low) is not None
    return not known and len(name.split()) <= _MOST_WORDS and states.of_cell(low) is None


def _usual(context: Context, mark: str) -> bool:
    """Whether other lines of the text put that mark behind a listed name and before a code or an answer."""
    if mark not in context.marked:
        pattern = _ARROW if mark == ">" else re.compile(r":\s+" if mark == ":" else r"\s-+\s")
        context.marked[mark] = sum(_is_told(context, other, pattern) for other in context.rows[:400])
    return context.marked[mark] >= (1 if mark == ">" else _FEWEST)


def _is_told(context: Context, row: Row, pattern: re.Pattern[str]) -> bool:
    """Whether a line is a listed name, the mark, and a code or an answer."""
    match = pattern.search(row.text, 1) if not row.blank and len(row.text) <= _LONGEST else None
    if match is None or not context.names.listed(tidy(row.text[: match.start()])):
        return False
    coded = any(code.start >= match.end() for code in row.finds.codes)
    return coded or answer_of_cell(row.low[match.end() :]) is not None


def _name(context: Context, row: Row, name: str, answer: str | None) -> None:
    """Put the module into the scan with its answer; without one it is unclear."""
    start = row.start + max(row.text.find(name), 0)
    context.close_module()
    module = context.builder.name_module(name, row.line, start, start + len(name))
    if answer is None:
        module.unclear = True
    else:
        context.builder.answer(module, answer)
    context.under_heading = context.live_data = False


__all__ = ["not_understood", "of_a_code", "read"]
