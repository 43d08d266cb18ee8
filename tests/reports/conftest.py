"""Assessments to render: a small one put together by hand, the fixture sessions, and a large one made by a rule."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from code_tables import Tables, load
from triage.assess import assess
from triage.model.assessment import Assessment, Column, FaultLine, Group, Mark, Root
from triage.model.notices import Notice
from triage.model.session import Session, parse_session, session_from
from triage.model.verdict import CAUSES, FaultVerdict, Standing, Verdict

SESSIONS = Path(__file__).parents[2] / "fixtures" / "sessions"


@pytest.fixture(scope="session")
def tables() -> Tables:
    return load()


@pytest.fixture(scope="session")
def small() -> Assessment:
    return small_assessment()


@pytest.fixture(scope="session", params=["small", "large", "bare", "many", *sorted(
    path.stem for path in SESSIONS.glob("*.json"))])
def any_assessment(request: pytest.FixtureRequest, tables: Tables) -> Assessment:
    """Each of them in turn."""
    if request.param == "small":
        return small_assessment()
    if request.param == "large":
        return assess(large_session(), tables)
    if request.param == "many":
        return assess(many_snapshots(), tables)
    if request.param == "bare":
        return bare_assessment()
    return assess(parse_session((SESSIONS / f"{request.param}.json").read_text()), tables)


@pytest.fixture(scope="session")
def large(tables: Tables) -> Assessment:
    return assess(large_session(), tables)


def fault(
    module: str, code: str, kind: str | None, standing: Standing, cause: str, rows: list[tuple[str, float]],
    **more: str,
) -> FaultVerdict:
    """A verdict whose ledger adds up to its decibans by construction."""
    shares = {name: 0.9 if name == cause else 0.025 for name in CAUSES}
    return {"module": module, "code": code, "failure_type": kind, "causes": shares,
            "decibans": round(sum(value for _, value in rows), 1), "standing": standing,
            "needs": "repair" if standing == "short list" else "nothing", "explained_by": more.get("explained_by"),
            "ledger": [{"what": what, "decibans": value, "source": "made up"} for what, value in rows]}


def line(verdict: FaultVerdict, printed: str, title: str, band: str, marks: str, **more: object) -> FaultLine:
    """A line; ``marks`` has one letter a snapshot: s seen, n not seen, - not readable."""
    sights = {"s": "seen", "n": "not seen", "-": "not readable"}
    volts = (11.4, None, 14.1)
    shown = [Mark(sights[letter], "stored" if letter == "s" else None, value)  # type: ignore[arg-type]
             for letter, value in zip(marks, volts, strict=True)]
    given: dict[str, object] = {"failure": None, "system": "engine", "safety": None, "why": [], "clean": None,
                                "note": None, **more}
    return FaultLine(verdict=verdict, printed=printed, title=title, band=band, marks=shown, **given)  # type: ignore[arg-type]


def small_assessment() -> Assessment:
    """Every kind of entry once, independent of the engine, so that its renderings can be compared whole."""
    session = session_from({
        "job": "small_1", "vehicle": {
            "label": "delivery van 5", "vin": None, "nominal_volts": 12, "model_year": 2018, "drive": "diesel",
            "battery": "AGM", "batteries": 1, "complaint": "lamp on after a cold week with the lights left on"},
        "events": [{"at": "2025-02-03T08:10:00+01:00", "what": "outside supply on", "note": "charger"},
                   {"at": "2025-02-03T09:00:00+01:00", "what": "cleared", "answer": "accepted"},
                   {"at": "2025-02-03T09:40:00+01:00", "what": "outside supply off"}],
        "snapshots": [
            {"phase": "before-clear", "at": "2025-02-03T08:00:00+01:00", "modules": []},
            {"phase": "after-clear", "at": "2025-02-03T09:10:00+01:00", "modules": []},
            {"phase": "after-run", "at": "2025-02-03T09:55:00+01:00", "modules": [],
             "readings": [{"module": "engine control", "name": "coolant temperature", "value": -40, "unit": "°C"}]}]})
    columns = [Column("1 before clear", "2025-02-03 08:00+01:00", 11.4, 8.2, "off", "none", None, 5, 1, 7),
               Column("2 after clear", "2025-02-03 09:10+01:00", None, None, "off", "charger", None, 5, 1, 2),
               Column("3 after run", "2025-02-03 09:55+01:00", 14.1, 13.6, "running", "none", 12.0, 5, 1, 3)]
    sensor = line(
        fault("engine control", "P0118", "12", "short list", "hard", [("before any sighting", -10.0), ("seen", 23.8)]),
        "ECM <front>", "coolant temperature sensor 1 signal high", "very likely", "sss", failure="short to battery",
        why=["came back after the clear at an unknown supply, in 2 of 2 scans since"], note="a note *of its own*")
    lost = [line(fault(module, "U0121", None, "short list", "hard", [("before any sighting", -13.0), ("seen", 34.5)],
                       explained_by="anti-lock brakes"), printed, "lost communication, ABS module", "all but certain",
                 "sss", system="network", safety="brakes", why=["anti-lock brakes stays silent at good supply"])
            for module, printed in (("instrument cluster", "Cluster"), ("gateway", "Gateway"))]
    steering = line(fault("power steering", "C0545", "29", "unsettled", "low-voltage",
                          [("before any sighting", -10.0), ("seen", 1.5), ("not seen", -4.0)]),
                    "EPS", "steering torque sensor", "unlikely", "snn", system="steering", safety="steering",
                    failure="signal invalid", why=["seen before the clear at 11.4 V", "it sets when the supply is low"],
                    clean="did not return in 1 clean test")
    door = line(fault("door, front left", "U0140", None, "unsettled", "low-voltage",
                      [("before any sighting", -13.0), ("seen", -2.0), ("not readable", 0.0)]),
                "Door FL", "lost communication, body control module", "very unlikely", "s--", system="network",
                why=["not readable since", "it sets when the supply is low"])
    gone = [line(fault(module, code, None, "set aside", cause, [("before any sighting", -15.0), ("seen", -2.0),
                                                                ("not seen", -4.3)]), printed, title,
                 "all but ruled out", "snn", system="supply", why=["it is the witness of a supply event"])
            for module, code, printed, title, cause in (
                ("engine control", "P0562", "ECM <front>", "system voltage low", "low-voltage"),
                ("engine control", "P0700", "ECM <front>", "transmission module asks for the engine lamp", "echo"))]
    faults = [entry.verdict for entry in (sensor, *lost, steering, door, *gone)]
    verdict: Verdict = {
        "job": session.job, "faults": faults,
        "supply": [{"part": "event", "state": "proven", "why": "lowest supply read 8.2 V"},
                   {"part": "battery", "state": "not tested", "why": "no load test on record"},
                   {"part": "charging", "state": "proven", "why": "14.1 V running with nothing connected"},
                   {"part": "key-off draw", "state": "not tested", "why": "nobody measured it"},
                   {"part": "cables and grounds", "state": "failed", "why": "voltage drop 0.9 V against 0.5 V"}],
        "next_checks": [
            {"do": "run the engine 10 minutes, then read every module", "where": "at the vehicle, exhaust led away",
             "minutes": 15.0, "passes_if": "13.5 V or more and the codes stay away", "gain_bits": 0.84, "gate":
             "parking brake on, gear disengaged", "settles": ["power steering C0545-29", "door, front left U0140"]},
            {"do": "check feed and ground of anti-lock brakes", "where": "its connector", "minutes": 20.0,
             "passes_if": "feed within 0.5 V of the battery", "settles": [], "gain_bits": 1.1, "gate": None}],
        "cautions": ["Brakes: secure the vehicle against rolling."], "notices": []}
    return Assessment(
        session=session, verdict=verdict, columns=columns,
        headline="cables and grounds failed; low-supply event, charging proven; not tested: battery, key-off draw",
        complaint="lamp on after a cold week with the lights left on: first suspect the coolant temperature sensor",
        short_list=[Root("anti-lock brakes is silent: check its feed first", "network", "brakes", 21.5,
                         ["2 modules report its loss: Cluster, Gateway"], "repair", lost),
                    Root("ECM <front> P0118-12: coolant temperature sensor 1 signal high", "engine", None, 13.8,
                         sensor.why, "repair", [sensor])],
        unsettled=[Group("run the engine 10 minutes, then read every module", "2 open", [steering, door], True)],
        set_aside=[Group("set while the supply was low", "1", gone[:1]),
                   Group("only repeats what another module holds", "1", gone[1:])],
        count="7 read = 3 on the short list + 2 unsettled + 2 set aside", next_checks=verdict["next_checks"],
        cautions=verdict["cautions"], stories=["anti-lock brakes never answered and 2 codes report its loss"],
        would_change=["an answer from Door FL"],
        notices=[Notice("warning", "X0300 can't be a code", "scan.txt", 3, 4, 9, "ECM X0300 & more")])


def bare_assessment() -> Assessment:
    """A session of one scan in which nothing was found and nobody noted anything."""
    session = session_from({"job": "bare", "snapshots": [{"phase": None, "modules": []}]})
    verdict: Verdict = {"job": "bare", "faults": [], "supply": [], "next_checks": [], "cautions": [], "notices": []}
    return Assessment(
        session=session, verdict=verdict,
        columns=[Column("1 phase not said", None, None, None, None, None, None, 0, 0, 0)],
        headline="nothing is known of the supply", complaint=None, short_list=[], unsettled=[], set_aside=[],
        count="0 read = 0 on the short list + 0 unsettled + 0 set aside", next_checks=[], cautions=[])


def large_session(modules: int = 60, codes: int = 300) -> Session:
    """Three snapshots of ``modules`` modules with ``codes`` codes in all, some of which come back."""
    draw = random.Random(20250203)
    names = ["engine control", "transmission control", "anti-lock brakes", "restraints", "power steering",
             "body control", "instrument cluster", "gateway", "radio", "telematics"]
    names += [f"module {number}" for number in range(len(names), modules)]
    pool = [f"{letter}{digits:04X}" for letter in "PCBU" for digits in range(0x0001, 0x0300, 7)]
    held: dict[str, list[str]] = {name: [] for name in names}
    for place in range(codes):
        name = names[place % len(names)]
        held[name].append(draw.choice([code for code in pool if code not in held[name]]))
    stays = {(name, code) for name in names for code in held[name] if draw.random() < 0.12}
    snapshots = []
    for phase, volts, lowest, outside, kept in (("before-clear", 11.2, 7.9, "none", 1.0),
                                                ("after-clear", 12.8, 12.6, "charger", 0.0),
                                                ("after-run", 14.2, 12.3, "none", 0.0)):
        scans = [{"module": name, "printed": f"{name} unit", "responds": name != "telematics" or kept == 1.0, "codes": [
            {"code": code, "status": "stored" if kept else "confirmed"} for code in held[name]
            if (kept or (name, code) in stays) and (name != "telematics" or kept)]} for name in names]
        running = phase == "after-run"
        snapshots.append({"phase": phase, "volts": volts, "lowest_volts": lowest, "outside_supply": outside,
                          "engine": "running" if running else "off", "lists_read": ["confirmed", "pending"],
                          "ran_minutes": 15 if running else 0, "modules": scans})
    return session_from({"job": "large", "vehicle": {"label": "delivery van, large", "nominal_volts": 12},
                         "events": [{"what": "cleared", "answer": "accepted"}], "snapshots": snapshots})


def many_snapshots(number: int = 12) -> Session:
    """More snapshots than stand side by side on a terminal, none with a time, some without a supply."""
    snapshots = [{"phase": "before-clear" if place == 0 else "after-run", "volts": None if place % 4 == 1 else 12.6,
                  "modules": [
                      {"module": "engine control", "codes": [{"code": "P0118"}, {"code": "P0340"}][:1 + place % 2]},
                      {"module": "anti-lock brakes", "codes": [{"code": "C0040"}] if place < 2 else []}]}
                 for place in range(number)]
    return session_from({"job": "many", "snapshots": snapshots})
