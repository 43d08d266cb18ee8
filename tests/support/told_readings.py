"""Sessions with readings, and what they are found to say of the codes."""

from __future__ import annotations

from typing import Any

from made_sessions import (
    HELD,
    Json,
    job,
    tables,
    van,
)

from triage.assess import Worked
from triage.model.session import Session


def reading(name: str, value: float, unit: str | None = None, module: str | None = None) -> Json:
    return {"name": name, "value": value} | ({"unit": unit} if unit else {}) | ({"module": module} if module else {})


def worked(session: Session) -> Worked:
    return Worked([session], tables())


def speaks(session: Session) -> dict[str, float]:
    """Faults that a reading speaks for ("engine control P0118") and the odds ratio."""
    work = worked(session)
    return {work.names[fault]: told.ratio for fault, told in work.links.contradictions.items()}


def told(session: Session) -> list[str]:
    return worked(session).links.findings.get(0, [])


def one(*readings: Json, holds: dict[str, list[Any]] | None = None, **rest: Any) -> Session:
    """One scan of the van with readings."""
    return job(van("before-clear", holds or {"engine control": ["P0118"]}, **(HELD | rest), readings=list(readings)))
