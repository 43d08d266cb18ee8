"""What was measured at the connector of a silent module decides what is left to check.

Feed and ground first, then the network lines, the module itself last: common practice. Drops of 0.5 V on a feed and
0.2 V on a ground under load: common practice (limits.csv).
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

ABS = {"module": "ABS", "codes": [], "responds": False}
REPORTERS = (scan("engine control", "U0121"), scan("instrument cluster", "U0121"), scan("body control"))


def page(*readings: dict[str, Any], events: list[dict[str, Any]] | None = None) -> Assessment:
    made = job(snapshot("before-clear", *REPORTERS, ABS, **FLAT),
               snapshot("after-clear", *REPORTERS, ABS, **HELD, readings=list(readings)))
    return assess(made.model_copy(update={"events": events}) if events else made, tables())


def reading(name: str, value: float, unit: str = "V", module: str = "ABS") -> dict[str, Any]:
    return {"module": module, "name": name, "value": value, "unit": unit}


def first_step(told: Assessment) -> dict[str, Any]:
    return next(dict(check) for check in told.next_checks if "ask it again" in check["do"])


def test_unmeasured_everything_is_to_be_checked() -> None:
    told = page()
    assert told.short_list[0].title == (
        "ABS is silent: check its feed, ground and branch before the modules that complain")
    assert first_step(told)["do"] == "check feed, ground and network lines of ABS, then ask it again"


@pytest.mark.parametrize(("name", "value", "unit", "pin", "how"), [
    ("feed at its connector, pin 1", 0.3, "V", "feed", "has no feed"),
    ("terminal 30 at the plug", 40.0, "mV", "feed", "has no feed"),
    ("feed at its connector", 1.4, "V", "feed", "has only 1.4 V on its feed"),
    ("ground at its connector", 4.1, "V", "ground", "loses 4.1 V on its ground"),
    ("voltage drop, ground at its connector", 1.3, "V", "ground", "loses 1.3 V on its ground"),
    ("earth, pin 2", 800.0, "ohm", "ground", "has no ground")])
def test_a_pin_that_has_nothing_is_what_to_look_for(name: str, value: float, unit: str, pin: str, how: str) -> None:
    told = page(reading(name, value, unit))
    assert told.short_list[0].title.startswith(
        f"ABS is silent and {how}: find the {'fuse' if pin == 'feed' else 'ground point'}, splice or wire")
    loses = how.partition("loses ")[2] or f"its {pin}"
    assert first_step(told)["do"] == f"find where ABS loses {loses}, then ask it again"
    assert f"{value / (1000 if unit == 'mV' else 1):g}" in " ".join(told.short_list[0].why)


def test_what_was_measured_good_is_not_asked_for_again() -> None:
    told = page(reading("feed at its connector", 12.5), reading("ground at its connector", 0.05))
    assert told.short_list[0].title == "ABS is silent: check its branch before the modules that complain"
    step = first_step(told)
    assert (step["do"], step["passes_if"]) == (
        "check network lines of ABS, then ask it again",
        "60 ohm between its two network wires with the supply off, and it answers")
    assert any("12.5 V on its feed" in line and "0.05 V on its ground" in line for line in told.stories)


def test_a_good_feed_leaves_the_ground() -> None:
    assert first_step(page(reading("feed at its connector", 12.5)))["do"] == (
        "check ground and network lines of ABS, then ask it again")


@pytest.mark.parametrize("value", [10.9, 6.0])
def test_a_feed_that_may_have_had_another_supply_decides_nothing(value: float) -> None:
    assert first_step(page(reading("feed at its connector", value)))["do"].startswith("check feed, ground")


def test_one_feed_lost_of_two_is_enough() -> None:
    told = page(reading("feed at its connector, pin 1", 12.5), reading("feed at its connector, pin 9", 0.0))
    assert "has no feed" in told.short_list[0].title


def test_the_last_reading_of_a_pin_counts() -> None:
    made = job(snapshot("before-clear", *REPORTERS, ABS, **FLAT, readings=[reading("feed", 0.1)]),
               snapshot("after-clear", *REPORTERS, ABS, **HELD, readings=[reading("feed", 12.6)]))
    assert "has no feed" not in assess(made, tables()).short_list[0].title


def test_a_reading_at_another_module_says_nothing_of_it() -> None:
    assert "has no feed" not in page(reading("feed at its connector", 0.2, module="body control")).short_list[0].title


def test_without_a_figure_the_note_counts() -> None:
    from triage.model.session import Event

    told = page(events=[Event(what="other", module="ABS", note="no power at the plug")])  # type: ignore[list-item]
    assert "has no feed" in told.short_list[0].title


def test_a_module_that_nobody_misses_and_that_has_no_feed_is_told() -> None:
    quiet = (scan("engine control", "P0118"), scan("body control"))
    made = job(snapshot("after-clear", *quiet, ABS, **HELD, readings=[reading("feed at its connector", 0.2)]))
    assert any("fuse, splice and wire to its feed" in line for line in assess(made, tables()).stories)


def test_reasons_name_modules_as_printed() -> None:
    silent = {"module": "anti-lock brakes", "printed": "ABS unit", "codes": [], "responds": False}
    made = job(*(snapshot(phase, *REPORTERS, silent, **supply)
                 for phase, supply in (("before-clear", FLAT), ("after-clear", HELD))))
    told = [reason for root in assess(made, tables()).short_list for line in root.lines for reason in line.why]
    assert any("ABS unit" in reason for reason in told)
    assert not any("anti-lock" in reason for reason in told)


def test_network_lines_measured_whole_at_its_plug_are_not_asked_for_again() -> None:
    fed = reading("feed at its connector", 12.5), reading("ground at its connector", 0.05)
    wires = reading("CAN H to L at its connector", 60.0, "ohm")
    told = page(*fed, wires)
    step = first_step(told)
    assert "network lines were measured good" in step["do"]
    assert step["do"].startswith("look at the contacts in the plug of ABS")
    assert "network lines good at its plug: check the contacts there" in told.short_list[0].title
    assert any("60 ohm between its network wires" in line for line in told.stories)
    assert first_step(page(fed[0], wires))["do"] == "check ground of ABS, then ask it again"
    assert first_step(page(wires))["do"] == "check feed and ground of ABS, then ask it again"
    # One end alone answers, or they were measured at another module.
    for other in (wires | {"value": 120.0}, wires | {"module": "ECM"}):
        assert first_step(page(*fed, other))["do"] == "check network lines of ABS, then ask it again"


def test_a_path_that_is_the_own_ground_of_a_silent_module_is_one_root_and_one_step() -> None:
    for name, mine in (("voltage drop ABS ground to battery minus", True), ("voltage drop engine to battery", False)):
        told = page({"name": name, "value": 1.7, "unit": "V"})
        assert [root.title.partition(":")[0] for root in told.short_list] == (
            ["ABS is silent and loses 1.7 V on its ground"] if mine else ["cables and grounds failed", "ABS is silent"])
        steps = [check["do"] for check in told.next_checks if "ask " in check["do"]]
        assert len(steps) == (1 if mine else 2)
        assert steps[0].startswith("find where ABS loses 1.7 V" if mine else "follow the drop")


def test_another_bad_path_keeps_its_own_step() -> None:
    told = page({"name": "voltage drop ABS ground to battery minus", "value": 1.7, "unit": "V"},
                {"name": "voltage drop battery minus to engine block", "value": 0.8, "unit": "V"})
    assert [root.title.partition(" and")[0] for root in told.short_list] == ["cables", "ABS is silent"]
    follow, own = (next(check for check in told.next_checks if check["do"].startswith(words))
                   for words in ("follow the drop", "find where ABS loses 1.7 V"))
    assert "engine block" in follow["where"]
    assert "ABS" not in follow["do"]
    assert own["where"].startswith("once the path that failed is mended")


def test_the_ground_of_one_module_sets_nothing_in_another() -> None:
    hot = {"code": "P0118", "status": "current"}
    holds = (scan("engine control", "U0121", hot), scan("instrument cluster", "U0121"), scan("body control"))
    for name, held in (("voltage drop ABS ground to battery minus", False), ("voltage drop engine ground", True)):
        made = job(snapshot("before-clear", *holds, ABS, **HELD), snapshot(
            "after-clear", *holds, ABS, **HELD, readings=[{"name": name, "value": 1.7, "unit": "V"}]))
        lines = [line for root in assess(made, tables()).short_list for line in root.lines]
        told = [any("a ground measured bad can set it" in why for why in line.why) for line in lines
                if line.verdict["code"] == "P0118"]
        assert told == [held]


def test_a_module_dead_by_its_feed_comes_before_what_is_surer() -> None:
    holds = (scan("engine control", {"code": "P0118", "status": "current"}, "U0121"), scan("body control", "U0121"))
    phases = ("before-clear", "after-clear", "after-run", "after-run")
    shots = [snapshot(phase, *holds, ABS, **HELD) for phase in phases]
    for volts, first in ((4.2, "ABS is silent and has only 4.2 V on its feed"), (12.5, "engine control P0118")):
        shots[-1] = snapshot("after-run", *holds, ABS, **HELD, readings=[reading("feed at its connector", volts)])
        told = assess(job(*shots), tables()).short_list
        assert len(told) == 2
        assert told[0].title.lower().startswith(first.lower())


def test_a_measured_loss_is_listed_where_its_reports_are_open() -> None:
    for volts, titles in ((3.1, ["ABS is silent and loses 3.1 V on its ground"]), (0.05, [])):
        read = [reading("ground at its connector", volts)]
        made = job(snapshot("before-clear", *REPORTERS, ABS, **FLAT, readings=read))
        told = assess(made, tables())
        assert [root.title.partition(":")[0] for root in told.short_list] == titles
        assert sum(len(group.lines) for group in told.unsettled) == 2
