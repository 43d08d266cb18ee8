"""A network code that only the maker's list explains may be about a module that never answers.

Common practice; the vehicles are invented.
"""

from __future__ import annotations

from made_sessions import FLAT, HELD, RUNS, Json, code, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

NOW = {"status": "current"}


def page(*entries: Json, silent: bool = True) -> Assessment:
    def shot(phase: str, *codes: Json, **supply: object) -> Json:
        wiper = scan("wiper module") | ({"responds": False} if silent else {})
        return snapshot(phase, scan("engine control"), scan("body control", *codes), wiper, **supply)

    return assess(job(shot("before-clear", *entries, **FLAT), shot("after-clear", *entries, **HELD),
                      shot("after-run", *entries, **RUNS)), tables())


def said(found: Assessment) -> str:
    return " ".join(found.stories)


def step(found: Assessment, words: str) -> Json | None:
    return next((dict(check) for check in found.next_checks if words in check["do"]), None)


def test_a_code_without_a_name_and_a_module_without_an_answer_may_belong_together() -> None:
    found = page(code("U1200", **NOW))
    assert "wiper module never answered" in said(found)
    assert "no module misses it by name, but body control U1200" in said(found)
    look = step(found, "look up body control U1200")
    assert look is not None
    assert "if it speaks of wiper module, which stays silent" in str(look["do"])
    assert step(found, "test the circuit of body control U1200") is None


def test_where_all_answer_it_is_looked_up_alone() -> None:
    found = page(code("U1200", **NOW), silent=False)
    look = step(found, "look up body control U1200")
    assert look is not None
    assert "silent" not in str(look["do"])


def test_a_code_that_says_what_it_is_about_is_none_of_them() -> None:
    named = page(code("U1200", **NOW) | {"text": "LIN sunroof motor no answer"})
    assert "by name" not in said(named)
    assert step(named, "look up") is None
    other = page(code("B1200", **NOW))
    assert "no module misses it, so it proves nothing" in said(other)
    assert step(other, "look up") is None
