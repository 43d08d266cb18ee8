"""Running text in lines that others read: who speaks left out, broken paragraphs joined, scans counted by their days,
and each clause that tells of modules written out."""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.naming.names import Names
from triage.intake.plain.characters import Line
from triage.intake.said.languages import language
from triage.intake.speech import paragraphs, scandays, speakers, written
from triage.intake.tidying import threads


def told(found: Sequence[Line], names: Names) -> tuple[list[Line], bool]:
    """The lines, and whether they are in another language than English: what is written out is English in part."""
    found = scandays.counted(paragraphs.joined(threads.told(speakers.left_out(found, names), names)))
    translated = language([line.low for line in found if line.text.strip()]) != "en"
    return written.told(found, names), translated


__all__ = ["told"]
