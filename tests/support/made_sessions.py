"""Sessions for the tests of the whole path: small builders for told cases, hypothesis strategies for any case."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import TYPE_CHECKING, Any

from hypothesis import strategies as st

from triage.model.session import Session, session_from
from triage.model.snapshot import PHASES, STATUS_WORDS

if TYPE_CHECKING:
    from code_tables import Tables

Json = dict[str, Any]

#: Supply and engine of the usual three scans: flat, held by nobody; held after the clear; running alone.
FLAT: Json = {"volts": 10.7, "lowest_volts": 8.7, "engine": "off", "outside_supply": "none"}
HELD: Json = {"volts": 12.6, "engine": "off", "lowest_volts": 12.4}
RUNS: Json = {"volts": 13.9, "engine": "running", "ran_minutes": 10, "outside_supply": "none", "lowest_volts": 12.4}
DRIVEN: Json = RUNS | {"ran_minutes": 30, "drove": True, "max_speed_kmh": 80}

SAFE_MODULES = {"anti-lock brakes": "brakes", "restraints": "restraints", "power steering": "steering",
                "battery energy control": "high voltage"}
OTHER_MODULES = ("engine control", "transmission control", "body control", "instrument cluster", "gateway",
                 "door, front left", "door, front right", "telematics")
MODULES = (*SAFE_MODULES, *OTHER_MODULES)
CODES = ("P0118", "P0562", "P0563", "P0700", "P0300", "P0420", "P0715", "P0128", "P0455", "P0606", "U0100", "U0101",
         "U0121", "U0131", "U0140", "U0151", "U0155", "U0401", "U0415", "U0073", "U3003", "U0301", "B0001", "B1234",
         "C0031", "C0051", "P0AA6", "P0A80", "P1234", "U1000", "SPN 168 FMI 4", "04711", "9D2C")


@cache
def tables() -> Tables:
    """The code tables, loaded once."""
    from code_tables import load

    return load()


def code(text: str, failure_type: str | None = None, **rest: Any) -> Json:
    """One code entry."""
    return {"code": text} | ({"failure_type": failure_type} if failure_type else {}) | rest


def scan(module: str, *codes: str | Json, **rest: Any) -> Json:
    """One module in one snapshot."""
    return {"module": module, "codes": [code(c) if isinstance(c, str) else c for c in codes]} | rest


def snapshot(phase: str | None, *modules: Json, **rest: Any) -> Json:
    """One snapshot."""
    return {"phase": phase, "modules": list(modules)} | rest


def van(phase: str | None, holds: Mapping[str, Sequence[Any]] | None = None, *, silent: Sequence[str] = (),
        skip: Sequence[str] = (), **rest: Any) -> Json:
    """A snapshot of a van with six modules; ``holds`` are the codes by module."""
    names = ("engine control", "transmission control", "anti-lock brakes", "restraints", "instrument cluster",
             "body control")
    return snapshot(phase, *(
        scan(name, *(holds or {}).get(name, ()), **({"responds": False} if name in silent else {}))
        for name in names if name not in skip), **rest)


def job(*snapshots: Json, name: str = "j", **rest: Any) -> Session:
    """One session."""
    return session_from({"job": name, "snapshots": list(snapshots)} | rest)


def _maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


def volts(*, wild: bool = False) -> st.SearchStrategy[float]:
    """A supply reading in steps of 0.1 V."""
    usual = st.integers(60, 150).map(lambda tenth: tenth / 10)
    return usual | st.sampled_from([0.0, -3.0, 24.0, 140.0, 400.0, 1e300]) if wild else usual


def _entries(wild: bool) -> st.SearchStrategy[Json]:
    return st.fixed_dictionaries({
        "code": st.sampled_from(CODES), "failure_type": st.sampled_from([None, None, "16", "00", "87", "68", "54"]),
        "status": st.sampled_from([None, None, *STATUS_WORDS]),
        "status_byte": _maybe(st.integers(0, 255)) if wild else st.sampled_from([None, None, None, 0x50, 0x24, 0x2F]),
        "count": _maybe(st.integers(0, 255)),
        "freeze_frame": _maybe(st.fixed_dictionaries({"volts": _maybe(volts(wild=wild))}))})


@st.composite
def session_jobs(draw: st.DrawFn, *, wild: bool = False, most_snapshots: int = 5) -> Json:
    """A job object. ``wild``: everything the contract lets through, sensible or not."""
    names = list(MODULES)
    if wild:
        names += draw(st.lists(st.text(max_size=12), max_size=3))
    fitted = draw(st.lists(st.sampled_from(names), min_size=0 if wild else 1, max_size=6, unique=not wild))
    pools = [draw(st.lists(_entries(wild), max_size=4)) for _ in fitted]
    shots: list[Json] = []
    minutes = [0.0, 2.0, 10.0, 40.0, *([-20.0] if wild else [])]
    phases: Sequence[str | None] = (*PHASES, None) if wild else PHASES
    count = draw(st.integers(0 if wild else 1, most_snapshots))
    order = [draw(st.sampled_from(phases)) for _ in range(count)]
    if not wild:
        order = ["before-clear", *sorted(order[1:], key=lambda phase: PHASES.index(phase))]
    for phase in order:
        modules = []
        for name, pool in zip(fitted, pools, strict=True):
            how = draw(st.sampled_from(["answers", "answers", "answers", "answers", "silent", "left out"]))
            if how == "left out":
                continue
            held = [entry for entry in pool if how == "answers" and draw(st.booleans())]
            if not wild:
                held = list({(entry["code"], entry["failure_type"]): entry for entry in held}.values())
            modules.append(scan(name, *held, responds=how == "answers", volts=draw(_maybe(volts(wild=wild))) if wild
                                else None, status_mask=draw(st.sampled_from([None, 0xFF, 0x2F])) if wild else None))
        shots.append(snapshot(
            phase, *modules, volts=draw(_maybe(volts(wild=wild))), lowest_volts=draw(_maybe(volts(wild=wild))),
            engine=draw(st.sampled_from([None, "off", "running", "cranking", "ready", "unknown"])),
            ran_minutes=draw(_maybe(st.sampled_from(minutes))),
            drove=draw(_maybe(st.booleans())), max_speed_kmh=draw(_maybe(st.sampled_from([0.0, 5.0, 30.0, 90.0]))),
            coolant_c=draw(_maybe(st.sampled_from([-10.0, 20.0, 85.0]))),
            outside_supply=draw(st.sampled_from([None, "none", "charger", "jump pack", "donor vehicle", "unknown"])),
            lists_read=draw(st.sampled_from([None, ["confirmed"], ["confirmed", "pending"]])),
            low_seconds=draw(st.sampled_from([None, 0.05, 60.0]))))
    events = draw(st.lists(st.fixed_dictionaries({
        "what": st.sampled_from(["cleared", "replaced", "programmed", "battery disconnected", "key cycle", "drove"]),
        "module": st.sampled_from([None, *names]), "answer": st.sampled_from([None, "accepted", "refused", "unknown"]),
    }), max_size=2))
    return {"job": draw(st.sampled_from(["j1", "j2", "j3"])), "events": events, "snapshots": shots,
            "vehicle": draw(_maybe(st.fixed_dictionaries({
                "nominal_volts": st.sampled_from([None, 12.0, 24.0, 0.0, -1.0] if wild else [None, 12.0])})))}
