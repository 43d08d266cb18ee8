"""The pages, as a browser without scripts sees them: forms, redirects, and what stands on them."""

from __future__ import annotations

import html
import re
from collections.abc import Callable
from pathlib import Path

import httpx
import pytest
from web_support import DEMO, Site, opened, sent, token

from code_tables import load
from triage.intake.read import read_bytes


def page_of(client: httpx.Client, name: str = "van 7") -> str:
    """The session's page."""
    return html.unescape(client.get("/session", params={"name": name}).text)


def supply_of(page: str) -> str:
    """What the page says is not tested of the supply."""
    return re.search(r"<strong>Supply</strong> .*?(not tested:[^<]*)</p>", page)[1]  # type: ignore[index]


def test_three_scans_give_the_short_list(with_demo: httpx.Client) -> None:
    page = page_of(with_demo)
    assert "25 read = " in page
    assert re.search(r"Engine control module \(ECM\) <span class=\"code\">P0118</span>", page)
    assert "Changed by the last entry" in page


#: A scan of which the reader has something to say in three places: a letter for a figure, a name that two modules
#: bear, and a line without anything in it.
DOUBTFUL = ("Scan before clear. Supply 12.1 V. Key on, engine off.\n\nECM\n  P0l18 <text> stored\n"
            "ABS / EPS\n  C0051 text stored\nRadio\n  B1O34 text stored\n")


def test_notices_stand_at_their_place(site: Site, client: httpx.Client) -> None:
    """On the page of the session, in the text as pasted, and on the hand-off: message, line and mark."""
    notices = [notice for notice in read_bytes(DOUBTFUL.encode(), load()).notices if notice.line is not None]
    assert {4, 8} <= {notice.line for notice in notices}
    opened(client)
    assert sent(client, "paste", text=DOUBTFUL).status_code == 303
    entry = site.store.pastes("van 7")[0].entry_id
    page = html.unescape(client.get("/session?name=van+7").text)
    whole = html.unescape(client.get(f"/paste?name=van+7&entry={entry}").text)
    handed = html.unescape(client.get("/handoff?name=van+7").text)
    lines = DOUBTFUL.split("\n")
    for notice in notices:
        line = lines[notice.line - 1]
        marked = line[notice.start:notice.end]
        assert marked
        place = re.search(
            rf"#line-{notice.line}\">line {notice.line}</a> <strong>{notice.severity}:</strong> "
            rf"{re.escape(notice.message)}<pre>([^\n]*)</pre>", page)
        assert place is not None, (notice, page)
        assert place[1] == f"{line[:notice.start]}<mark>{marked}</mark>{line[notice.end:]}"
        shown = re.search(rf'<li id="line-{notice.line}"[^\n]*', whole)
        assert shown is not None
        assert f"<mark>{marked}</mark>" in shown[0]
        assert f"<p><strong>{notice.severity}:</strong> {notice.message}</p>" in shown[0]
        assert notice.message in handed.replace("\u00a0", " ")
    # A line that nothing is said of has neither.
    assert re.search(r'<li id="line-1"[^\n]*<code>Scan before clear[^<]*</code></li>', whole)
    assert client.get("/session?name=van+7").text.count("&lt;text&gt;") == 1  # in the notice alone, and escaped


def test_a_corrected_phase_module_and_voltage_are_kept_and_change_the_list(site: Site, client: httpx.Client) -> None:
    opened(client)
    sent(client, "paste", text=DEMO[0].read_text(encoding="utf-8"))
    sent(client, "paste", text=DEMO[1].read_text(encoding="utf-8"))
    snapshot = site.store.snapshots("van 7")[1]
    before = page_of(client)
    answer = sent(client, "correct", snapshot=str(snapshot.id), phase="after-run", volts="14,1", lowest_volts="11.8",
                  outside_supply="none", engine="running", ran_minutes="12", module="1", rename="door, front left")
    assert answer.status_code == 303, answer.text
    now = site.store.snapshots("van 7")[1].now
    assert (now.phase, now.volts, now.lowest_volts, now.engine, now.ran_minutes) == (
        "after-run", 14.1, 11.8, "running", 12.0)
    assert now.modules[1].module == "door, front left"
    after = page_of(client)
    counts = re.compile(r'class="count">([^<]*)')
    assert counts.search(before)[1] != counts.search(after)[1]  # type: ignore[index]
    again = sent(client, "correct", snapshot=str(snapshot.id), phase="after-run", volts="14.1", lowest_volts="11.8",
                 outside_supply="none", engine="running", ran_minutes="12")
    assert (again.status_code, "Nothing was corrected" in again.text) == (400, True)


@pytest.mark.parametrize(("fields", "words"), [
    ({"volts": "99"}, "expected 0 to 40"), ({"volts": "flat"}, "expected a number such as 12.4"),
    ({"volts": "nan"}, "expected 0 to 40"), ({"phase": "later"}, "expected one of before-clear"),
    ({"engine": "on fire"}, "engine"), ({"rename": "radio"}, "choose the one that has a wrong name"),
    ({"module": "400", "rename": "radio"}, "no such module"), ({"module": "0"}, "fill in what it is in truth"),
])
def test_a_correction_that_does_not_fit_changes_nothing(
    site: Site, client: httpx.Client, fields: dict[str, str], words: str,
) -> None:
    opened(client)
    sent(client, "paste", text=DEMO[0].read_text(encoding="utf-8"))
    kept = site.store.snapshots("van 7")[0]
    answer = sent(client, "correct", snapshot=str(kept.id), **fields)
    assert answer.status_code == 400
    assert words in html.unescape(answer.text)
    assert site.store.snapshots("van 7")[0] == kept


def test_the_text_is_kept_exactly_and_comes_back_as_bytes(site: Site, client: httpx.Client) -> None:
    opened(client)
    text = DEMO[0].read_text(encoding="utf-8") + "\n  trailing \t\n\n"
    # A form sends CR LF for every line end, whatever was typed (HTML Standard, form submission).
    sent(client, "paste", text=text.replace("\n", "\r\n"))
    sent(client, "paste", files={"file": ("../../etc/scan.txt", text.replace("\n", "\r\n").encode())})
    typed, filed = site.store.pastes("van 7")
    assert typed.body == text
    assert filed.body == text.replace("\n", "\r\n")
    answer = client.get("/paste/file", params={"name": "van 7", "entry": filed.entry_id})
    assert answer.content == text.replace("\n", "\r\n").encode()
    assert answer.headers["content-disposition"].startswith("attachment")
    assert answer.headers["content-type"] == "application/octet-stream"
    assert sorted(path.name for path in site.place.parent.iterdir() if not path.name.startswith("sessions.db")) == []


def test_what_is_no_scan_is_refused_and_stands_in_the_form_again(site: Site, client: httpx.Client) -> None:
    opened(client)
    answer = sent(client, "paste", text="a letter to <b>nobody</b>\nabout the weather")
    assert answer.status_code == 400
    assert "is no scan" in answer.text
    assert "a letter to &lt;b&gt;nobody&lt;/b&gt;\nabout the weather</textarea>" in answer.text
    assert site.store.entries("van 7") == []


def test_events_measurements_and_the_record(site: Site, with_demo: httpx.Client) -> None:
    before = page_of(with_demo)
    assert sent(with_demo, "event", what="replaced", module="radio", part="used", answer="accepted",
                at="2026-02-09T10:00", note="from a donor").status_code == 303
    assert sent(with_demo, "reading", what="key-off draw", value="32", unit="mA").status_code == 303
    page = page_of(with_demo)
    assert "replaced, radio, used part, accepted: from a donor" in page
    assert "key-off draw 32 mA" in page
    # 32 mA is below the 50 mA that is common practice for a key-off draw, so that it is not untested any more.
    assert ("key-off draw" in supply_of(before), "key-off draw" in supply_of(page)) == (True, False)
    last = site.store.entries("van 7")[-1]
    assert sent(with_demo, "undo", entry=str(last.id - 1)).status_code == 400  # not the last: another tab was older
    assert sent(with_demo, "undo", entry=str(last.id)).status_code == 303
    assert "key-off draw 32.0 mA</s>" in page_of(with_demo)
    assert site.store.readings("van 7") == []


def test_the_guess_of_the_page_is_that_of_the_store(site: Site, client: httpx.Client) -> None:
    opened(client)
    for act, fields in (("paste", {"text": DEMO[0].read_text(encoding="utf-8")}), ("event", {"what": "cleared"}),
                        ("paste", {"text": "ECM: P0118 current\nABS: no codes"}), ("event", {"what": "replaced"})):
        assert sent(client, act, **fields).status_code == 303
        guess = site.store.guess_phase("van 7")
        assert f"is taken as {guess.phase.replace('-', ' ')}: {guess.why}." in page_of(client)


def test_a_trace_shows_its_curve_and_gives_the_scans_their_volts(site: Site, client: httpx.Client) -> None:
    opened(client)
    sent(client, "paste", text=DEMO[0].read_text(encoding="utf-8"))  # at 08:10
    rows = ["time;volts"] + [f"2026-02-09 08:{9 + second // 60:02d}:{second % 60:02d};"
                             f"{12.5 if second < 30 else 9.1 if second < 32 else 12.2}" for second in range(180)]
    answer = sent(client, "trace", files={"file": ("log.csv", "\n".join(rows).encode())})
    assert answer.status_code == 303, html.unescape(answer.text)
    page = client.get(answer.headers["location"]).text
    assert "<polyline" in page
    assert "<h2>What it says</h2>" in page
    # At 08:10:00, 60 s into the log: 12.2 V, and 9.1 V since it began.
    assert "12.2 V, lowest since the scan before 9.1 V" in page
    form = dict(re.findall(r'<input type="hidden" name="(snapshot|phase|volts|lowest_volts)" value="([^"]*)"', page))
    assert sent(client, "correct", **form).status_code == 303
    now = site.store.snapshots("van 7")[0].now
    assert (now.volts, now.lowest_volts) == (12.2, 9.1)
    assert "the scan has it" in client.get(answer.headers["location"]).text


def test_a_trace_without_volts_is_refused(site: Site, client: httpx.Client) -> None:
    opened(client)
    answer = sent(client, "trace", text="nothing\nto read")
    assert (answer.status_code, site.store.traces("van 7")) == (400, [])


def test_sessions_of_one_vehicle_are_compared(with_demo: httpx.Client) -> None:
    opened(with_demo, "van 7 again")
    sent(with_demo, "paste", "van 7 again", text=DEMO[2].read_text(encoding="utf-8"))
    page = html.unescape(with_demo.get("/compare", params={"name": "van 7 again", "earlier": "van 7"}).text)
    assert "<h2>Still there</h2>" in page
    assert "Supply then and now" in page
    assert with_demo.get("/compare", params={"name": "van 7 again"}).status_code == 200


def test_the_hand_off_has_no_inline_style_and_keeps_its_verdict(site: Site, with_demo: httpx.Client) -> None:
    page = with_demo.get("/handoff", params={"name": "van 7"}).text
    assert not re.search(r"<style|\sstyle=|<script(?! src=\"/static/page.js\" defer></script>)|\son\w+=", page)
    assert "<h2 class=\"behind\">What was seen, and the supply at the time</h2>" in page
    assert "<svg xmlns=" in page
    with_demo.get("/handoff", params={"name": "van 7"})
    assert len(site.store.verdicts("van 7")) == 1
    for form, start in (("html", "<!doctype html>"), ("markdown", "#"), ("brief", ""), ("json", "{")):
        answer = with_demo.get("/handoff/file", params={"name": "van 7", "form": form})
        assert answer.status_code == 200
        assert answer.text.startswith(start)
    assert with_demo.get("/handoff/file", params={"name": "van 7", "form": "exe"}).status_code == 400


@pytest.mark.parametrize("name", ["a/b", "..", "?name=x&y", "für Nächte", "100 %", "a#b", "<i>x</i>", "'\"", "a+b"])
def test_a_session_of_any_name_opens(client: httpx.Client, name: str) -> None:
    opened(client, name)
    assert html.escape(name).replace("&#x27;", "&#39;").replace("&quot;", "&#34;") in client.get("/").text
    assert sent(client, "paste", name, text=DEMO[0].read_text(encoding="utf-8")).status_code == 303
    assert "Short list" in page_of(client, name)


@pytest.mark.parametrize("name", ["", "   ", "x" * 201, "a\x00b", "a\nb"])
def test_a_name_that_can_not_be_shown_is_refused(site: Site, client: httpx.Client, name: str) -> None:
    answer = client.post("/open", data={"token": token(client.get("/").text), "name": name})
    assert (answer.status_code, site.store.sessions()) == (400, [])


def test_what_a_scan_says_of_the_vehicle_is_taken_and_another_vehicle_is_refused(
    site: Site, client: httpx.Client,
) -> None:
    # Both have a sound check digit (49 CFR 565.15); the first is a widely used example, the second all ones.
    first, second = "1M8GDM9AXKP042788", "11111111111111111"
    opened(client)
    scan = DEMO[0].read_text(encoding="utf-8")
    assert sent(client, "paste", text=f"VIN {first}\n{scan}").status_code == 303
    assert site.store.session("van 7").vehicle.vin == first
    # The vehicle comes first, so that the paste is what can be struck out at once.
    assert [entry.kind for entry in site.store.entries("van 7")] == ["correction", "paste"]
    answer = sent(client, "paste", text=f"VIN {second}\n{scan}")
    assert (answer.status_code, "of another vehicle" in answer.text) == (400, True)
    assert len(site.store.entries("van 7")) == 2


def test_a_text_of_several_vehicles_is_not_kept(client: httpx.Client, site: Site) -> None:
    opened(client)
    scans = "Van 11: 11.2 V\nECM: P0118\nABS: no codes\n\nVan 14: 12.6 V\nECM: no codes\nABS: C0035\n"
    answer = sent(client, "paste", text=scans)
    assert (answer.status_code, "2 vehicles in one text" in answer.text, scans.strip()[:20] in answer.text) == (
        400, True, True)
    assert [entry.kind for entry in site.store.entries("van 7")] == []


def test_pages_that_are_not_there(client: httpx.Client) -> None:
    for path, status in (("/nowhere", 404), ("/session?name=none", 404), ("/session", 400), ("/open", 405),
                         ("/paste?name=none&entry=1", 404), ("/trace?name=none&entry=1", 404),
                         ("/paste?name=none&entry=x", 400),
                         ("/static/../app.py", 404), ("/static/%2e%2e/app.py", 404)):
        answer = client.get(path)
        assert answer.status_code == status, path
        assert "role=\"alert\"" in answer.text, path


def test_every_name_of_the_package_data_is_installed(serve: Callable[..., Site]) -> None:
    """The globs of the wheel take in every template and every file of the looks."""
    import tomllib

    import triage.web.app as web

    folder = Path(web.__file__).parent
    root = folder.parent.parent
    config = root / "pyproject.toml"
    if not config.exists():
        pytest.skip("not run from a checkout")
    globs = tomllib.loads(config.read_text(encoding="utf-8"))["tool"]["setuptools"]["package-data"]["triage"]
    for file in [*(folder / "templates").iterdir(), *(folder / "static").iterdir()]:
        assert any(file in set((root / "triage").glob(pattern)) for pattern in globs), file
