"""A module that is silent while its feed was measured bad is one fault and one root: the drop is told with it, and
every other bad path stays a root of its own. Common practice; all invented."""

from __future__ import annotations

from code_tables import load
from triage.assess import assess
from triage.intake.gather import Part, gather
from triage.intake.text import read_text

SCANS = ("Van, 11.2 V\nEngine: P2452 current\nGearbox: U0100 stored\nESP: no answer\ncleared, 12.6 V, charger off\n"
         "Engine: P2452 current\nGearbox: no codes\nESP: no answer\n")


def _titles(measured: str) -> list[str]:
    page = assess(gather("van", [Part("van", *read_text(SCANS + measured, load()))])[0], load())
    return [f"{root.title} | {'; '.join(root.why)}" for root in page.short_list]


def test_a_bad_feed_is_told_with_the_module_that_is_dead_by_it():
    [first, *others] = _titles("ESP feed at its plug 4.2 V, ground 0.02 V\n")
    assert first.startswith("ESP is silent")
    assert "voltage drop ESP feed, from the battery: 8.40 V" in first
    assert not any(other.startswith("cables") for other in others)


def test_another_bad_path_stays_a_root():
    told = _titles("ESP feed at its plug 4.2 V, ground 0.02 V\nvoltage drop battery minus to engine block 0.9 V\n")
    assert told[0].startswith("cables and grounds failed")
    assert "ESP feed" not in told[0]
    assert "ESP is silent" in told[1]
