"""The same over HTTP as JSON: one way through it by hand, then what its description promises, by generated calls."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import httpx
import pytest
from hypothesis import HealthCheck, given, settings
from web_support import DEMO, Site, served

from triage.model.session import Session
from triage.model.verdict import Verdict
from triage.web.calls import CALLS, Call

SCAN = DEMO[0].read_text(encoding="utf-8")


def test_a_session_from_opening_to_verdict(site: Site, client: httpx.Client) -> None:
    at = {"name": "van 7"}
    assert client.post("/api/sessions", json={"name": "van 7", "vehicle": {"label": "van"}}).status_code == 201
    assert client.post("/api/sessions", json={"name": "van 7"}).status_code == 409
    for file in DEMO:
        kept = client.post("/api/session/pastes", params=at, json={"text": file.read_text(encoding="utf-8")})
        assert kept.status_code == 201, kept.text
    snapshot = kept.json()["snapshots"][0]
    assert snapshot["phase"] == "after-run"
    assert isinstance(kept.json()["notices"], list)
    answer = client.post("/api/session/corrections", params=at, json={"snapshot": snapshot["id"], "volts": 13.9})
    assert answer.status_code == 201
    client.post("/api/session/events", params=at, json={"what": "drove"})
    client.post("/api/session/readings", params=at, json={"name": "key-off draw", "value": 0.03, "unit": "A"})
    rows = "\n".join(f"{second},{12.5}" for second in range(60))
    assert client.post("/api/session/traces", params=at, json={"text": rows}).json()["segments"][0]["kind"] == "rest"
    job = Session.model_validate(client.get("/api/session", params=at).json())
    assert [snap.volts for snap in job.snapshots] == [10.6, 12.7, 13.9]
    verdict = client.get("/api/session/verdict", params=at).json()
    assert set(verdict) == set(Verdict.__annotations__)
    assert len(verdict["faults"]) == 25
    # The same job, sent whole, is judged the same.
    whole = client.post("/api/verdict", content=job.model_dump_json(exclude_unset=True),
                        headers={"Content-Type": "application/json"}).json()
    assert whole["faults"] == verdict["faults"]
    assert "ledger" in client.get("/api/session/verdict", params={**at, "ledger": "yes"}).json()["faults"][0]
    record = client.get("/api/session/record", params=at).json()
    assert [entry["kind"] for entry in record][-4:] == ["correction", "event", "reading", "trace"]
    assert client.post("/api/session/undo", params=at, json={}).json() == {"entry": record[-1]["entry"]}
    compared = client.get("/api/compare", params={"earlier": "van 7", "later": "van 7"}).json()
    assert any("P0118" in line for line in compared["still_there"])


def test_a_text_is_read_and_not_kept(site: Site, client: httpx.Client) -> None:
    answer = client.post("/api/read", json={"text": SCAN}).json()
    assert len(answer["snapshots"][0]["modules"]) == 10
    assert site.store.sessions() == []


@pytest.mark.parametrize(("method", "path", "body", "status", "words"), [
    ("POST", "/api/sessions", {"name": "x", "colour": 1}, 422, "colour"),
    ("POST", "/api/sessions", {"name": " \t "}, 400, "printable"),
    ("POST", "/api/session/pastes?name=none", {"text": SCAN}, 404, "no session"),
    ("POST", "/api/session/events?name=none&name=b", {"what": "drove"}, 422, "twice"),
    ("POST", "/api/session/events", {"what": "drove"}, 422, "name"),
    ("POST", "/api/read", {"text": "nothing"}, 400, "no scan"),
    ("GET", "/api/session/verdict?name=none&ledger=1", None, 422, "ledger"),
    ("GET", "/api/nowhere", None, 404, "no such page"), ("DELETE", "/api/sessions", None, 405, "method"),
])
def test_what_does_not_fit_is_told_in_one_line(
    client: httpx.Client, method: str, path: str, body: Any, status: int, words: str,
) -> None:
    answer = client.request(method, path, json=body)
    assert answer.status_code == status
    assert list(answer.json()) == ["error"]
    assert words in answer.json()["error"]
    assert "\n" not in answer.json()["error"]


def test_numbers_that_are_none_and_nested_bodies_are_refused(client: httpx.Client) -> None:
    headers = {"Content-Type": "application/json"}
    for body in ('{"name": "x", "vehicle": {"nominal_volts": NaN}}', "[" * 100_000, '{"name": "\\ud800"}', "", "\xff"):
        assert client.post("/api/sessions", content=body.encode("latin-1"), headers=headers).status_code == 422


# What the description promises, against a store with one session, so that some calls find what they ask for.


@pytest.fixture(scope="module")
def described(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """The description as schemathesis reads it from a server."""
    schemathesis = pytest.importorskip("schemathesis", reason="the generated calls need schemathesis (pip)")
    with served(tmp_path_factory.mktemp("api") / "sessions.db", now=lambda: datetime.now(UTC)) as site:
        with site.client() as client:
            client.post("/api/sessions", json={"name": "0"})
            client.post("/api/session/pastes?name=0", json={"text": SCAN})
        yield schemathesis.openapi.from_url(f"{site.base}/api/openapi.json")


@pytest.mark.parametrize("mode", ["POSITIVE", "NEGATIVE"])
@pytest.mark.parametrize("call", CALLS, ids=lambda call: f"{call.method} {call.path}")
def test_every_call_keeps_what_the_description_promises(described: Any, call: Call, mode: str) -> None:
    """Status, type and form of each answer are described, no call fails, nothing that does not fit is taken.

    What fits may still be refused (a text that is no scan), so that one check of schemathesis is left out.
    """
    from schemathesis import GenerationMode
    from schemathesis.specs.openapi.checks import positive_data_acceptance

    if mode == "NEGATIVE" and call.body is None and not call.query.model_fields:
        pytest.skip("there is nothing that could be wrong")

    @settings(max_examples=12, deadline=None, database=None, suppress_health_check=list(HealthCheck))
    @given(case=described[call.path][call.method].as_strategy(generation_mode=GenerationMode[mode]))
    def keeps(case: Any) -> None:
        case.call_and_validate(excluded_checks=[positive_data_acceptance])

    keeps()


def test_the_description_needs_no_other_file(site: Site, client: httpx.Client) -> None:
    text = client.get("/api/openapi.json").text
    assert json.loads(text)["openapi"].startswith("3.1")
    assert all(part.startswith("#/components/schemas/") for part in _references(json.loads(text)))
    assert "http" not in text.replace('"type": "http"', "")


def _references(value: Any) -> Iterator[str]:
    if isinstance(value, dict):
        if isinstance(value.get("$ref"), str):
            yield value["$ref"]
        for part in value.values():
            yield from _references(part)
    elif isinstance(value, list):
        for part in value:
            yield from _references(part)
