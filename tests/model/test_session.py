"""The job-file contract: what is taken, and one clear line for what is not."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.errors import JobError
from triage.model.session import Session, parse_session, session_from

MINIMAL: dict[str, Any] = {"job": "j1", "snapshots": [
    {"phase": "before-clear", "modules": [{"module": "engine control", "codes": [{"code": "P0562"}]}]}]}

FULL: dict[str, Any] = {
    "job": "j1",
    "vehicle": {"label": "delivery van", "vin": None, "nominal_volts": 12, "model_year": None, "drive": "diesel",
                "battery": "AGM", "batteries": 1, "complaint": "lights left on"},
    "events": [{"at": "2025-03-03T08:00:00+00:00", "what": "cleared", "module": None, "part": None,
                "answer": "accepted", "note": ""}],
    "snapshots": [
        {"phase": "before-clear", "at": "2025-03-03T08:00:00+00:00", "engine": "running", "ran_minutes": 2,
         "drove": False, "max_speed_kmh": None, "coolant_c": None, "volts": 11.4, "lowest_volts": 9.2,
         "low_seconds": None, "outside_supply": "jump pack", "lamps": ["brake"],
         "lists_read": ["confirmed", "pending", "permanent"],
         "since_clear": {"warm_ups": 3, "distance_km": 20, "minutes": 50}, "readiness": {"catalyst": "complete"},
         "modules": [{"module": "engine control", "printed": "ECM", "responds": True, "volts": 11.2,
                      "status_mask": 255,
                      "codes": [{"code": "P0562", "failure_type": "16", "status": "current", "status_byte": 47,
                                 "count": 3, "text": "supply low",
                                 "freeze_frame": {"volts": 9.8, "distance_km": 84213, "speed_kmh": 0,
                                                  "engine_rpm": 0, "coolant_c": 12}}]}],
         "readings": [{"module": "engine control", "name": "supply", "value": 11.2, "unit": "V"}]}]}


def test_only_the_required_keys() -> None:
    session = parse_session(json.dumps(MINIMAL))
    scan = session.snapshots[0].modules[0]
    # A key left out is "not known", never a default.
    assert (scan.responds, scan.volts, scan.codes[0].status, session.snapshots[0].volts) == (None, None, None, None)


def test_every_key_of_the_contract_survives_a_round_trip() -> None:
    session = session_from(FULL)
    again = parse_session(session.model_dump_json())
    assert again == session
    assert json.loads(session.model_dump_json(exclude_unset=True))["snapshots"][0]["modules"] == (
        FULL["snapshots"][0]["modules"])


def _changed(path: list[Any], value: Any) -> dict[str, Any]:
    job: dict[str, Any] = json.loads(json.dumps(FULL))
    place: Any = job
    for step in path[:-1]:
        place = place[step]
    if value is ...:
        del place[path[-1]]
    else:
        place[path[-1]] = value
    return job


CODE = ["snapshots", 0, "modules", 0, "codes", 0]


@pytest.mark.parametrize(("path", "value", "where", "words"), [
    (["snapshot"], [], "snapshot", "unknown key 'snapshot'"),
    ([*CODE, "failuretype"], "16", "snapshots.0.modules.0.codes.0.failuretype", "unknown key 'failuretype'"),
    ([*CODE, "code"], ..., "snapshots.0.modules.0.codes.0.code", "required and is not there"),
    (["snapshots", 0, "phase"], "after", "snapshots.0.phase", "seen 'after'"),
    (["snapshots", 0, "phase"], ..., "snapshots.0.phase", "required and is not there"),
    ([*CODE, "failure_type"], "1G", "snapshots.0.modules.0.codes.0.failure_type", "seen '1G'"),
    ([*CODE, "status_byte"], 256, "snapshots.0.modules.0.codes.0.status_byte", "seen 256"),
    ([*CODE, "status"], "active", "snapshots.0.modules.0.codes.0.status", "seen 'active'"),
    (["snapshots", 0, "volts"], "11,4 V", "snapshots.0.volts", "seen '11,4 V'"),
    (["events", 0, "what"], "washed", "events.0.what", "seen 'washed'"),
    (["job"], ..., "job", "required and is not there"),
])
def test_what_is_wrong_is_named_with_its_path_in_one_line(path: list[Any], value: Any, where: str, words: str) -> None:
    reads: list[tuple[Callable[[Any], Session], Any]] = [
        (session_from, _changed(path, value)), (parse_session, json.dumps(_changed(path, value)))]
    for read, job in reads:
        with pytest.raises(JobError) as caught:
            read(job)
        assert caught.value.path == where
        assert str(caught.value).startswith(where + ": ")
        assert words in str(caught.value)
        assert "\n" not in str(caught.value)
        assert caught.value.job == (None if path == ["job"] else "j1")


def test_a_misspelt_key_is_named_before_the_missing_one_and_the_rest_is_counted() -> None:
    job = _changed(["snapshots", 0, "phase"], ...)
    job["snapshots"][0]["fase"] = "after-clear"
    with pytest.raises(JobError, match=r"^snapshots\.0\.fase: unknown key 'fase'.*\(and 1 more\)$"):
        session_from(job)


@pytest.mark.parametrize("text", ["", "{", "[]", "null", "3", '{"job": 3}', "{'job': 1}", '{"job":"a"} {"job":"b"}'])
def test_what_is_no_job_object(text: str) -> None:
    with pytest.raises(JobError) as caught:
        parse_session(text)
    assert "\n" not in str(caught.value)


@given(st.recursive(st.none() | st.booleans() | st.floats(allow_nan=False) | st.text(max_size=20),
                    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(
                        ["job", "snapshots", "modules", "codes", "code", "phase", "volts", "x"]), inner, max_size=4)))
def test_any_json_is_a_session_or_a_job_error(data: Any) -> None:
    message = ""
    try:
        assert isinstance(session_from(data), Session)
    except JobError as error:
        message = str(error)
    assert "\n" not in message
