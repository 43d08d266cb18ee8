"""Running text in lines that others read: who speaks left out, broken paragraphs joined, scans counted by their days,
and each clause that tells of modules written out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from code_tables import Tables
from triage.intake.naming.names import Names
from triage.intake.plain.characters import Line
from triage.intake.said.languages import language
from triage.intake.scan.assembly import NOT_STATED
from triage.intake.speech import paragraphs, scandays, speakers, written
from triage.intake.tidying import threads
from triage.model.notices import Notice
from triage.model.snapshot import Snapshot


class Speech(NamedTuple):
    """Whether a text is in another language than English (what is written out is English in part), and whether some of
    it was written out."""

    translated: bool
    written: bool


def told(found: Sequence[Line], names: Names, by_clauses: bool) -> tuple[list[Line], Speech]:
    """The lines of a text, and what its speech is like."""
    plain = scandays.counted(threads.told(list(found), names))
    if not by_clauses:
        return plain, Speech(False, False)
    joined = scandays.counted(paragraphs.joined(threads.told(speakers.left_out(found, names), names)))
    translated = language([line.low for line in joined if line.text.strip()]) != "en"
    lines = written.told(joined, names)
    return lines, Speech(translated, [line.text for line in lines] != [line.text for line in plain])


#: What a reading costs: a code without a module, a module that nobody lists, a place that was read with a doubt; and
#: what it gains: a module, a code, a code with its status. Found on 600 texts of several hands.
_UNPLACED, _UNLISTED, _DOUBT, _MODULE, _CODE, _STATUS = 2.0, 1.0, 1.0, -1.0, -1.0, -0.5


def cost(scans: Sequence[Snapshot], notices: Sequence[Notice], tables: Tables) -> float:
    """How little a reading makes of a text: the less, the better."""
    listed = set(tables.aliases.values())
    total = _DOUBT * sum(notice.severity == "warning" for notice in notices)
    for module in (module for scan in scans for module in scan.modules):
        told = len(module.codes)
        total += _MODULE + _CODE * told + _STATUS * sum(code.status is not None for code in module.codes)
        if module.module == NOT_STATED:
            total += _UNPLACED * told
        elif module.module not in listed:
            total += _UNLISTED
    return total


__all__ = ["Speech", "cost", "told"]
