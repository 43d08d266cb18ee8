"""What became of the faults: recorded on a page or by a program, learned from, and held against what was said."""

from __future__ import annotations

import html
import json
import re
from typing import Any

import httpx
import pytest
from web_support import DEMO, Site, opened, sent, token

from code_tables import load
from triage.cli.keep_words import faults_of
from triage.store.calibration import ENOUGH

COOLANT = json.dumps(["engine control", "P0118", None])


def page_of(client: httpx.Client, name: str = "van 7") -> str:
    """The page with the form."""
    answer = client.get("/outcomes", params={"name": name})
    assert answer.status_code == 200
    return html.unescape(answer.text)


def told(client: httpx.Client, fault: str, name: str = "van 7", **fields: str) -> httpx.Response:
    """Fill in the form and send it."""
    return sent(client, "outcome", name, **{
        "fault": fault, "done": "sensor replaced", "cured": "yes", "found": "hard", **fields})


def finish(site: Site, client: httpx.Client, name: str = "van 7", rest: str = "low-voltage") -> None:
    """An outcome with its cause for every fault: those of the short list hard, the others ``rest``."""
    verdict = client.get("/api/session/verdict", params={"name": name}).json()
    for fault in verdict["faults"]:
        if fault["standing"] == "short list":
            value = json.dumps([fault["module"], fault["code"], fault["failure_type"]])
            assert told(client, value, name).status_code == 303
    assert told(client, "rest", name, done="battery replaced", found=rest).status_code == 303


def another(client: httpx.Client, name: str) -> None:
    """A further session with the three invented scans."""
    opened(client, name)
    for file in DEMO:
        assert sent(client, "paste", name, text=file.read_text(encoding="utf-8")).status_code == 303


def test_an_outcome_is_held_against_what_the_page_said(site: Site, with_demo: httpx.Client) -> None:
    page = page_of(with_demo)
    assert "25 of 25 faults lack an outcome with its cause" in page
    row = re.search(r"<strong>Engine control module \(ECM\) P0118</strong>.*?</li>", page)
    assert row is not None
    assert "said: almost surely there" in row[0]
    assert "%" not in re.sub(r'href="[^"]*"', "", page)  # bands, as long as there are few outcomes
    answer = told(with_demo, COOLANT)
    assert (answer.status_code, answer.headers["location"]) == (303, "/outcomes?name=van+7#recorded")
    outcome, = site.store.outcomes("van 7")
    assert (outcome.module, outcome.code, outcome.done, outcome.cured, outcome.found_cause, outcome.standing) == (
        "engine control", "P0118", "sensor replaced", "yes", "hard", "short list")
    verdict = site.store.verdicts("van 7")[-1].verdict
    said = next(fault["decibans"] for fault in verdict["faults"] if fault["code"] == "P0118")
    assert outcome.said == pytest.approx(1 / (1 + 10 ** (-said / 10)))
    page = page_of(with_demo)
    assert "24 of 25 faults lack" in page
    row = re.search(r"<strong>Engine control module \(ECM\) P0118</strong>.*?</li>", page)
    assert row is not None
    assert "sensor replaced; cured; found: a hard fault" in row[0]
    assert "said then: almost surely there" in row[0]
    assert "outcome: engine control P0118: sensor replaced, cured, found hard" in html.unescape(
        with_demo.get("/session?name=van+7").text)


def test_the_link_beside_a_fault_chooses_it(with_demo: httpx.Client) -> None:
    link = re.search(r'href="(/outcomes\?[^"#]*)[^"]*" aria-label="record what became of [^"]*P0118"',
                     with_demo.get("/outcomes?name=van+7").text)
    assert link is not None
    page = with_demo.get(html.unescape(link[1])).text
    assert [html.unescape(value) for value in re.findall(r'<option value="([^"]*)" selected>', page)][:1] == [COOLANT]


@pytest.mark.parametrize(("fields", "words"), [
    ({"fault": ""}, "Fault: nothing was filled in"), ({"fault": "P0118"}, "choose one of the list"),
    ({"fault": "[1, 2, 3]"}, "choose one of the list"), ({"fault": "{}"}, "choose one of the list"),
    ({"fault": '["engine control", "P0119", null]'}, "no such fault any more"),
    ({"done": " "}, "What was done: nothing was filled in"), ({"cured": "maybe"}, "choose one of the list"),
    ({"cured": ""}, "Cured: nothing was filled in"), ({"found": "rust"}, "choose one of the list"),
    ({"fault": "rest"}, "Still on the short list without an outcome"),
])
def test_what_does_not_fit_is_not_recorded_and_stands_in_the_form(
    site: Site, with_demo: httpx.Client, fields: dict[str, str], words: str,
) -> None:
    answer = told(with_demo, **{"fault": COOLANT, "done": "a <b> seal", **fields})
    assert answer.status_code == 400
    page = html.unescape(answer.text)
    assert re.search(rf'role="alert">[^<]*{re.escape(words)}', page)
    assert "What became of it" in page
    if "done" not in fields:
        assert 'value="a &lt;b&gt; seal"' in answer.text
    assert site.store.outcomes() == []


def test_a_form_from_elsewhere_records_nothing(site: Site, with_demo: httpx.Client) -> None:
    form = {"name": "van 7", "fault": COOLANT, "done": "x", "cured": "yes"}
    own = token(with_demo.get("/outcomes?name=van+7").text)
    assert with_demo.post("/session/outcome", data={**form, "token": "0" * 64}).status_code == 403
    assert with_demo.post("/session/outcome", data=form).status_code == 403
    assert with_demo.post("/session/outcome", data={**form, "token": own},
                          headers={"Origin": "http://elsewhere.example"}).status_code == 403
    assert site.store.outcomes() == []
    assert with_demo.post("/session/outcome", data={**form, "token": own}).status_code == 303


def test_the_rest_is_recorded_as_one_and_struck_out_as_one(site: Site, with_demo: httpx.Client) -> None:
    assert 'value="rest"' not in page_of(with_demo)
    finish(site, with_demo)
    assert len(site.store.outcomes("van 7")) == 25
    assert "Every fault has an outcome with its cause" in page_of(with_demo)
    session = html.unescape(with_demo.get("/session?name=van+7").text)
    assert re.search(r"<li>outcome: [^<]*battery replaced, cured, found low-voltage and \d+ more like it", session)
    last = site.store.entries("van 7")[-1]
    assert sent(with_demo, "undo", entry=str(last.id)).status_code == 303
    assert 0 < len(site.store.outcomes("van 7")) < 6
    assert 'value="rest"' in page_of(with_demo)


def test_the_shop_stands_beside_the_table_once_a_session_is_finished(site: Site, with_demo: httpx.Client) -> None:
    calibration = html.unescape(with_demo.get("/calibration").text)
    assert "No outcomes yet: bands are shown until 30 are recorded." in calibration
    assert "your shop" not in re.sub("The rates of your shop", "", calibration)
    told(with_demo, COOLANT)
    assert re.search(r"<strong>van 7</strong><span>24 faults without an outcome",
                     html.unescape(with_demo.get("/calibration").text))
    finish(site, with_demo)
    calibration = html.unescape(with_demo.get("/calibration").text)
    table = load().rate("prior.supply.low-voltage")
    # The demo holds 6 codes of the kind "supply", all found low-voltage; a table's rate is worth 20 outcomes.
    assert f"<td>table {table:.2f}, your shop 1.00 from 6</td><td>{(20 * table + 6) / 26:.2f}</td>" in calibration
    assert f"table {table:.2f}, your shop 1.00 from 6" in page_of(with_demo)
    another(with_demo, "van 8")
    assert f"low-voltage: table {table:.2f}, your shop 1.00 from 6" in html.unescape(
        with_demo.get("/handoff?name=van+8").text).replace("\u00a0", " ")


def test_what_was_found_in_a_session_does_not_weigh_in_its_own_favour(site: Site, with_demo: httpx.Client) -> None:
    def faults(name: str) -> Any:
        return with_demo.get("/api/session/verdict", params={"name": name}).json()["faults"]

    another(with_demo, "van 8")
    before = faults("van 7")
    assert faults("van 8") == before
    finish(site, with_demo)
    assert faults("van 7") == before
    learned = faults("van 8")
    assert learned != before
    # Other outcomes, as many as before: other rates, and the page is weighed again.
    sent(with_demo, "undo", entry=str(site.store.entries("van 7")[-1].id))
    assert faults("van 8") == before
    finish_rest = told(with_demo, "rest", done="nothing", found="history")
    assert finish_rest.status_code == 303
    assert faults("van 8") not in (before, learned)


def test_a_repair_that_took_is_no_wrong_verdict(site: Site, with_demo: httpx.Client) -> None:
    """The scan after the repair is clean and says so; the outcome is held against what was said before it."""
    sent(with_demo, "event", what="replaced", module="engine control", note="coolant sensor")
    clean = re.sub(r"P0118[^\n]*\n", "none | |\n", DEMO[2].read_text(encoding="utf-8")).replace("08:55", "10:40")
    assert sent(with_demo, "paste", text=clean, phase="after-repair").status_code == 303
    assert site.store.snapshots("van 7")[-1].phase == "after-repair"
    assert told(with_demo, COOLANT).status_code == 303
    outcome, = site.store.outcomes("van 7")
    assert outcome.standing == "short list"
    assert outcome.said > 0.9
    made = site.store.forecast("van 7")
    assert len(made.verdict["faults"]) == 25


def test_bands_first_then_percentages_with_a_drawing(site: Site, with_demo: httpx.Client) -> None:
    finish(site, with_demo)
    few = html.unescape(with_demo.get("/calibration").text)
    assert "25 outcomes, Brier score 0." in few
    assert "bands are shown until 30 are recorded" in few
    assert "<svg" not in few
    assert "almost surely there</th>" in few
    counts = [int(number) for number in re.findall(r'<tr><th scope="row">[a-z ]+</th><td>(\d+)</td>', few)]
    assert sum(counts) == 25
    another(with_demo, "van 8")
    finish(site, with_demo, "van 8")
    many = html.unescape(with_demo.get("/calibration").text)
    assert ENOUGH <= 50
    assert "50 outcomes, Brier score 0." in many
    assert "bands are shown" not in many
    assert many.count("<circle") == 2 * many.count(" %</th>") > 0
    alternative = re.search(r'<svg [^>]*aria-label="([^"]*)"', many)
    assert alternative is not None
    assert alternative[1].count("came true") == many.count(" %</th>")
    assert re.search("said then: (over )?[0-9]+ %", page_of(with_demo).replace("\u00a0", " "))


def test_a_session_without_a_scan_has_no_fault_to_tell_of(client: httpx.Client) -> None:
    opened(client)
    answer = client.get("/outcomes?name=van+7")
    assert (answer.status_code, "holds no scan" in answer.text) == (400, True)
    assert client.get("/outcomes?name=none").status_code == 404
    assert told(client, COOLANT).status_code == 400


def test_the_browser_remembers_who_makes_the_entries(site: Site, client: httpx.Client) -> None:
    opened(client)
    who = "Zoë; path=/ \"7\", night"
    page = client.get("/session?name=van+7").text
    answer = client.post("/who", data={"token": token(page), "name": "van 7", "who": who})
    assert (answer.status_code, answer.headers["location"]) == (303, "/session?name=van+7#record")
    assert "HttpOnly" in answer.headers["set-cookie"]
    assert "SameSite=Strict" in answer.headers["set-cookie"]
    sent(client, "paste", text=DEMO[0].read_text(encoding="utf-8"))
    sent(client, "event", what="drove")
    sent(client, "reading", what="draw", value="1", unit="A")
    sent(client, "correct", snapshot=str(site.store.snapshots("van 7")[0].id), volts="11")
    sent(client, "trace", text="0,12\n1,12.1\n2,12.2\n3,12.2\n")
    told(client, COOLANT)
    by_hand = [entry for entry in site.store.entries("van 7") if entry.who != "read from the scan"]
    assert [entry.kind for entry in by_hand] == ["paste", "event", "reading", "correction", "trace", "outcome"]
    assert {entry.who for entry in by_hand} == {who}
    assert html.unescape(client.get("/session?name=van+7").text).count(who) >= 6
    for wrong, status in (("x" * 61, 400), ("a\nb", 400)):
        assert client.post("/who", data={"token": token(page), "name": "van 7", "who": wrong}).status_code == status
    assert client.post("/who", data={"token": "0" * 64, "name": "van 7", "who": "other"}).status_code == 403
    client.post("/who", data={"token": token(page), "name": "van 7", "who": ""})
    sent(client, "event", what="drove")
    assert site.store.entries("van 7")[-1].who is None


def test_programs_record_and_read_outcomes(site: Site, with_demo: httpx.Client) -> None:
    at = {"name": "van 7", "who": "night shift"}
    sent_ = {"module": "ECM", "code": "p0118", "done": "sensor replaced", "cured": "yes", "found": "hard"}
    answer = with_demo.post("/api/session/outcomes", params=at, json=sent_)
    assert (answer.status_code, answer.json()) == (201, {
        "faults": [{"module": "engine control", "code": "P0118", "failure_type": None}], "lacking": 24})
    for wrong in ({**sent_, "rest": True}, {"done": "x", "cured": "yes"}, {**sent_, "code": None},
                  {"rest": True, "done": "x", "cured": "yes"}, {**sent_, "code": "P9999"}):
        answer = with_demo.post("/api/session/outcomes", params=at, json=wrong)
        assert answer.status_code == 400
        assert list(answer.json()) == ["error"]
    found, = with_demo.get("/api/session/outcomes", params={"name": "van 7"}).json()
    assert (found["who"], found["standing"], found["found"]) == ("night shift", "short list", "hard")
    assert found["said"] > 0.95
    for module in ("body control", "instrument cluster"):
        with_demo.post("/api/session/outcomes", params=at, json={**sent_, "module": module, "code": "U0159"})
    with_demo.post("/api/session/outcomes", params=at, json={
        **sent_, "module": "power steering", "code": "C0051-54"})
    rest = with_demo.post("/api/session/outcomes", params=at, json={
        "rest": True, "done": "battery", "cured": "yes", "found": "low-voltage"}).json()
    assert (len(rest["faults"]), rest["lacking"]) == (21, 0)
    calibration = with_demo.get("/api/calibration").json()
    assert (calibration["outcomes"], calibration["percentages"], calibration["not_counted"]) == (25, False, {})
    assert calibration["rates"]["prior.supply.low-voltage"]["shown"].endswith("your shop 1.00 from 6")
    assert len(faults_of(site.store.session_object("van 7"))) == 25
