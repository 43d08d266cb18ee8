"""The verdict as it is printed in JSON. Plain dictionaries with declared keys: thousands are made in one run."""

from __future__ import annotations

from typing import Literal, NotRequired

from typing_extensions import TypedDict  # pydantic reads no other before Python 3.12

from triage.model.notices import NoticeJson

Cause = Literal["hard", "intermittent", "low-voltage", "history", "echo"]
CAUSES: tuple[Cause, ...] = ("hard", "intermittent", "low-voltage", "history", "echo")
Standing = Literal["short list", "unsettled", "set aside"]
STANDINGS: tuple[Standing, ...] = ("short list", "unsettled", "set aside")
Needs = Literal["repair", "procedure", "supply", "nothing"]
SupplyPart = Literal["battery", "charging", "key-off draw", "cables and grounds", "event"]
SupplyState = Literal["proven", "failed", "not tested"]


def fault_name(module: str, code: str, failure_type: str | None) -> str:
    """A fault as lists name it and ``explained_by`` does.

    >>> fault_name("engine control", "P0118", "16")
    'engine control P0118-16'
    """
    return f"{module} {code}{'-' + failure_type if failure_type else ''}"


def name_of(verdict: FaultVerdict) -> str:
    """The fault of a verdict as lists name it."""
    return fault_name(verdict["module"], verdict["code"], verdict["failure_type"])


class LedgerRow(TypedDict):
    """One row of the sum: log odds after it minus log odds before it, in decibans."""

    what: str
    decibans: float
    source: str


class FaultVerdict(TypedDict):
    """What is said of one fault. ``causes`` adds up to 1; ``decibans`` is the log odds that it persists."""

    module: str
    code: str
    failure_type: str | None
    causes: dict[str, float]
    decibans: float
    standing: Standing
    needs: Needs
    explained_by: str | None
    ledger: NotRequired[list[LedgerRow]]


class SupplyVerdict(TypedDict):
    """What is said of one part of the supply."""

    part: SupplyPart
    state: SupplyState
    why: str


class NextCheck(TypedDict):
    """One step. ``gate`` is what must be so before it starts (a qualified person, supply off)."""

    do: str
    where: str
    minutes: float
    passes_if: str
    settles: list[str]
    gain_bits: float
    gate: str | None


class Verdict(TypedDict):
    """One verdict, one session."""

    job: str
    faults: list[FaultVerdict]
    supply: list[SupplyVerdict]
    next_checks: list[NextCheck]
    cautions: list[str]
    notices: list[NoticeJson]
