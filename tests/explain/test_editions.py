"""Where editions of SAE J2012 differ on a code, the scan's own text is told, and the conflict stands in a note."""

from __future__ import annotations

from made_sessions import FLAT, HELD, job, scan, snapshot, tables

from triage.assess import assess
from triage.explain.meaning import meaning


def test_the_printed_text_goes_before_both_editions() -> None:
    facts = tables().facts("C0045", None)
    assert meaning(facts, ["RR wheel speed circuit"]) == '"RR wheel speed circuit" as printed'
    assert meaning(facts, []) == facts.title
    assert meaning(facts, ["stored"]) == facts.title


def test_a_code_without_a_conflict_has_the_title_of_the_tables() -> None:
    facts = tables().facts("P0118", None)
    assert meaning(facts, ["water temp sender high"]) == facts.title


def test_the_page_tells_both() -> None:
    holds = scan("ABS", {"code": "C0045", "text": "RR wheel speed circuit", "status": "current"})
    page = assess(job(snapshot("before-clear", holds, **FLAT), snapshot("after-clear", holds, **HELD)), tables())
    line = page.short_list[0].lines[0]
    assert line.title == '"RR wheel speed circuit" as printed'
    assert line.note is not None
    assert line.note.startswith("edition conflict")
