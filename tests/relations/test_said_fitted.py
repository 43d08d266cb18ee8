"""A silent module of a safety class that somebody says is there: common practice. All sessions are invented."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import code, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.session import Session

FED = {"volts": 28.1, "engine": "running", "outside_supply": "none"}


def truck(complaint: str | None, *, silent: str = "trailer brakes", lamps: list[str] | None = None,
          volts: float = 28.1) -> Session:
    asked = [scan("engine control", code("SPN 168 FMI 4", status="stored")), scan("transmission control"),
             scan("instrument cluster"), scan(silent, responds=False)]
    return job(snapshot("after-run", *asked, **(FED | {"volts": volts, "lamps": lamps or []})),
               vehicle={"nominal_volts": 24, "complaint": complaint})


def titles(session: Session) -> list[str]:
    return [root.title for root in assess(session, tables()).short_list]


def steps(session: Session) -> list[dict[str, Any]]:
    return [dict(check) for check in assess(session, tables()).verdict["next_checks"]]


@pytest.mark.parametrize("complaint", [
    "trailer coupled, no start", "ABS lamp of the trailer comes on", "Auflieger dran, springt nicht an",
    "voyant ABS de la remorque", "remolque enganchado, testigo encendido"])
def test_the_brakes_of_a_trailer_that_is_coupled_get_a_line_and_a_check(complaint: str) -> None:
    assert any("trailer brakes is silent" in title for title in titles(truck(complaint)))
    (check,) = [check for check in steps(truck(complaint)) if "trailer socket" in check["do"]]
    assert "under load" in check["do"]
    assert check["gate"]


@pytest.mark.parametrize("complaint", [
    None, "flat after a cold week", "no trailer on it today", "Anhänger ab, springt nicht an", "sans remorque"])
def test_without_one_its_silence_proves_nothing(complaint: str | None) -> None:
    assert titles(truck(complaint)) == []
    assert not any("trailer socket" in check["do"] for check in steps(truck(complaint)))


def test_nor_does_it_at_a_low_supply() -> None:
    assert not any("silent" in title for title in titles(truck("trailer coupled", volts=19.0)))


def test_a_lamp_of_its_class_tells_that_a_module_is_there() -> None:
    park = "park brake"
    assert any(f"{park} is silent" in title for title in titles(truck(None, silent=park, lamps=["brake"])))
    assert titles(truck(None, silent=park)) == []
    assert titles(truck(None, silent=park, lamps=["engine"])) == []


def test_a_lamp_that_another_module_of_the_class_may_light_tells_nothing() -> None:
    session = truck(None, silent="park brake", lamps=["brake"])
    session.snapshots[0].modules.append(job(snapshot("after-run", scan("anti-lock brakes"))).snapshots[0].modules[0])
    assert titles(session) == []
