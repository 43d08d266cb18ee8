"""A link or fuse that is named after what it feeds: that module has no feed, and the generator charges as before. All
invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.read import read_text

_SCAN = ("After clear, charger 13.4 V, key on engine off\nECM: U0131 current\nABS: U0131 current\n"
         "EPS: no response\nAirbag: none\nQZM: no response\n\n")


def _found(line: str) -> tuple[str, list[str]]:
    session, _ = gather("van", [Part("van", *read_text(_SCAN + line, load()))])
    verdict = assess(session, load()).verdict
    charging = next(part["state"] for part in verdict["supply"] if part["part"] == "charging")
    return charging, [step["do"] for step in verdict["next_checks"]]


@pytest.mark.parametrize("line", [
    "80 A EPS fusible link: open",
    "Schmelzsicherung Lenkung durchgebrannt", "fusible EPS grillé", "fusible EPS fundido",
    "fusible link of the EPS blown",
])
def test_a_named_link_is_the_feed_of_that_module(line: str) -> None:
    charging, steps = _found(line)
    assert charging == "not tested"
    assert steps[0].startswith(f"find why the fuse of EPS blew ({line}): measure the circuit")


@pytest.mark.parametrize("line", ["100 A QZM fusible link open", "40 A XQR fusible link blown"])
def test_a_link_that_is_named_after_what_nobody_knows_is_no_link_of_the_generator(line: str) -> None:
    assert _found(line)[0] == "not tested"


@pytest.mark.parametrize("line", ["fusible link open", "MAIN fusible link open", "alternator fusible link open"])
def test_an_unnamed_link_may_be_the_generators(line: str) -> None:
    assert _found(line)[0] == "failed"


def test_pins_of_a_module_nobody_lists_are_its_own() -> None:
    told = read_text(_SCAN + "QZM connector: feed 0.1 V, ground 0.02 V", load()).snapshots[0].readings or []
    assert [(one.module, one.value) for one in told] == [("QZM", 0.1), ("QZM", 0.02)]
