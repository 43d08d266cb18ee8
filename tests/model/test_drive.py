"""A drive without an engine, by the modules and the codes of its scans (SAE J2012: P0A to P0C are of propulsion)."""

from __future__ import annotations

import pytest

from triage.model.drive import is_electric
from triage.model.session import Event, Session, Vehicle
from triage.model.snapshot import CodeEntry, Engine, ModuleScan, Snapshot


def _session(code: str, *, engine: Engine | None = None, drive: str | None = None, event: str | None = None) -> Session:
    scan = Snapshot(phase="before-clear", engine=engine,
                    modules=[ModuleScan(module="x", codes=[CodeEntry(code=code)])])
    vehicle = Vehicle.model_validate({"drive": drive}) if drive else None
    return Session(job="j", vehicle=vehicle, snapshots=[scan],
                   events=[Event(what="replaced", module=event)] if event else None)


@pytest.mark.parametrize(("modules", "session"), [
    (["hybrid powertrain", "anti-lock brakes"], _session("P0A94")),
    (["battery energy control"], _session("P0AA6")),
    (["battery energy control"], _session("C0040", event="DC/DC converter")),
    (["drive motor A"], _session("C0040")),
    (["anti-lock brakes"], _session("C0040", engine="ready")),
    (["anti-lock brakes"], _session("C0040", drive="electric")),
])
def test_signs_of_a_drive_without_an_engine(modules: list[str], session: Session) -> None:
    assert is_electric(session, modules)


@pytest.mark.parametrize(("modules", "session"), [
    (["battery energy control"], _session("C0040")),
    (["DC/DC converter"], _session("U0100")),
    (["hybrid powertrain", "engine control"], _session("P0A94")),
    (["hybrid powertrain"], _session("P0A94", drive="hybrid")),
    (["hybrid powertrain"], _session("P0A94", engine="running")),
    (["anti-lock brakes"], _session("P0A94")),
])
def test_an_engine_that_was_seen_or_too_little_said(modules: list[str], session: Session) -> None:
    assert not is_electric(session, modules)
