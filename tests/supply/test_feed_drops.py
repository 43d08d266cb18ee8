"""A feed at a module's connector that lies far below the battery is a voltage drop. Limits: common practice."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import job, scan, snapshot, tables

from triage.assess import verdicts
from triage.supply.feed_drops import with_feed_drops

FEED = "feed at its connector, under load"


def shot(volts: float, *readings: tuple[str, float], **more: Any) -> dict[str, Any]:
    told = [{"module": None if name.startswith("at ") else "anti-lock brakes", "name": name, "value": value,
             "unit": "V"} for name, value in readings]
    return snapshot("before-clear", scan("anti-lock brakes", "C0040"), volts=volts, readings=told,
                    **{"engine": "off", **more})


@pytest.mark.parametrize(("volts", "more", "readings", "drops"), [
    (12.4, {}, [(FEED, 10.1)], [2.3]),
    (12.4, {}, [(FEED, 11.9)], []),
    (12.4, {}, [(FEED, 11.5)], []),  # read at another moment
    (12.4, {}, [(FEED, 11.4), ("at the battery meanwhile", 12.3)], [0.9]),
    (12.4, {}, [(FEED, 11.9), ("at the battery meanwhile", 12.3)], []),
    (14.3, {"engine": "running"}, [(FEED, 12.3)], []),  # the engine may have stood
    (14.3, {"engine": "running"}, [(FEED, 10.4)], [2.2]),
    (12.4, {}, [(FEED, 5.0)], []),  # of the sensors
    (12.4, {}, [(FEED, 0.1)], []),  # lost, which is told elsewhere
    (12.4, {}, [("feed at its connector, cranking", 9.9)], []),
    (25.2, {}, [(FEED, 23.4)], []), (25.2, {}, [(FEED, 20.1)], [5.1]),
    (12.4, {}, [(FEED, 10.1), (FEED, 12.3)], [2.3, 0.1]),
])
def test_the_drop_of_a_feed(
    volts: float, more: dict[str, Any], readings: list[tuple[str, float]], drops: list[float],
) -> None:
    session = with_feed_drops(job(shot(volts, *readings, **more)))
    assert [reading.value for reading in session.snapshots[0].readings or () if "drop" in reading.name] == drops


def test_such_a_drop_fails_the_cables_and_leads_the_steps() -> None:
    verdict = verdicts([job(shot(12.4, (FEED, 9.9)))], tables())[0]
    part = next(entry for entry in verdict["supply"] if entry["part"] == "cables and grounds")
    assert part["state"] == "failed"
    assert "2.50 V on the positive path" in part["why"]
    assert verdict["next_checks"][0]["do"].startswith("follow the drop")
    mended = verdicts([job(shot(12.4, (FEED, 9.9)), shot(12.5, (FEED, 12.3)))], tables())[0]
    assert next(entry for entry in mended["supply"] if entry["part"] == "cables and grounds")["state"] != "failed"


@pytest.mark.parametrize(("module", "name", "value", "drop"), [
    (None, "tail lamp feed at the connector, with lamp on", 9.0, 3.6),
    (None, "tail lamp feed at the connector", 4.2, None),  # dimmed, or of something that is not switched on
    (None, "tail lamp feed at the connector, with lamp on", 12.0, None),
    (None, "supply at the socket", 9.0, None),  # the vehicle's own
    ("anti-lock brakes", "live data supply", 9.8, 2.8), ("anti-lock brakes", "live data supply", 11.8, None)])
def test_so_is_what_a_consumer_or_a_module_has_itself(
    module: str | None, name: str, value: float, drop: float | None,
) -> None:
    read = {"module": module, "name": name, "value": value, "unit": "V"}
    made = job(snapshot("after-clear", scan("anti-lock brakes"), scan("engine control"), volts=14.2, readings=[read],
                        engine="running", outside_supply="none"))
    told = {entry["part"]: entry for entry in verdicts([made], tables())[0]["supply"]}
    cables = told["cables and grounds"]
    assert (cables["state"] == "failed") == (drop is not None)
    assert drop is None or f"{drop:.2f} V" in cables["why"]
    assert told["charging"]["state"] == "proven"
