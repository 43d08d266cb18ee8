"""A real browser does the technician's work: paste three scans, correct one, read the list, print it.

With a small phone and with the keyboard alone; accessibility is checked with axe-core. Screenshots are written to the
folder that TRIAGE_SCREENSHOTS names.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest
from web_support import DEMO, Site

from triage.cli.keep_learn import record
from triage.cli.keep_words import faults_of

PHONE = {"width": 360, "height": 740}
DESK = {"width": 1280, "height": 900}
#: Smallest side of what a thumb has to hit, CSS pixels (WCAG 2.2, 2.5.8, level AA: 24; ours is larger).
THUMB = 24


@pytest.fixture
def context(browser: Any, site: Site) -> Iterator[Any]:
    """A browser that fails the test where a page asks any other host, or a script or style is refused."""
    made = browser.new_context(viewport=PHONE, has_touch=True, base_url=site.base)
    strange: list[str] = []
    made.on("request", lambda request: strange.append(request.url)
            if not request.url.startswith((site.base + "/", "data:", "blob:")) else None)
    made.on("console", lambda message: strange.append(message.text)
            if message.type == "error" and "status of 4" not in message.text else None)
    made.on("weberror", lambda error: strange.append(str(error.error)))
    yield made
    made.close()
    assert strange == []


def look(page: Any, name: str) -> None:
    """A screenshot for people to look at, if a folder is given; and no page is ever wider than its window."""
    wide = page.evaluate("[document.documentElement.scrollWidth, window.innerWidth]")
    assert wide[0] <= wide[1], f"{name} scrolls sideways: {wide}"
    folder = os.environ.get("TRIAGE_SCREENSHOTS")
    if folder:
        Path(folder).mkdir(parents=True, exist_ok=True)
        page.screenshot(path=Path(folder) / f"{name}.png", full_page=True)


def at_work(page: Any, name: str = "van 7") -> Any:
    """Open a session and paste the three invented scans."""
    page.goto("/")
    page.get_by_label("Name of the session").fill(name)
    page.get_by_label("Complaint").fill("does not start, lamps on in the cluster")
    page.get_by_role("button", name="Open the session").click()
    for file in DEMO:
        page.get_by_label("Text of the scan").fill(file.read_text(encoding="utf-8"))
        page.get_by_role("button", name="Keep this scan").click()
        page.wait_for_url("**#entry-*")
    return page


def test_three_scans_one_corrected_the_list_read_and_printed(context: Any, site: Site, tmp_path: Path) -> None:
    page = at_work(context.new_page())
    assert page.locator(".count").get_by_text("25 read = ").is_visible()
    scan = page.locator("article.scan").first
    look(page, "phone session")
    # The run was with a charger on after all, and it was shorter: what was proven of the charging no longer is.
    assert "charging good" in page.locator(".out").inner_text()
    scan.get_by_text("Correct this scan").click()
    scan.get_by_label("Outside supply").select_option("charger")
    scan.get_by_label("Ran since the scan before").fill("3")
    look(page, "phone correcting")
    scan.get_by_role("button", name="Correct").click()
    page.wait_for_url("**#scans")
    assert "charging good" not in page.locator(".out").inner_text()
    assert site.store.snapshots("van 7")[2].now.outside_supply == "charger"
    page.get_by_role("navigation").get_by_role("link", name="Hand-off page").click()
    page.get_by_role("button", name="Print").wait_for(state="visible")
    look(page, "phone hand-off")
    for paper in ("A4", "Letter"):
        sheet = page.pdf(path=tmp_path / f"{paper}.pdf", format=paper)
        assert sheet.startswith(b"%PDF-")
        assert 1 <= len(re.findall(rb"/Type\s*/Page\b", sheet)) <= 6
    text = printed(tmp_path / "A4.pdf")
    if text is not None:
        assert "P0118" in text
        assert "as a message" not in text  # the bar above the page is not printed


def finished(site: Site) -> None:
    """Outcomes for every fault of "van 7", twice over in the eyes of the calibration, so that it draws."""
    bench = site.app.state.parts.bench
    site.store.open_session("van 6")
    site.store.add_paste("van 6", "x", [snapshot.now for snapshot in site.store.snapshots("van 7")])
    for name in ("van 6", "van 7"):
        bench.handed_off(name)
        session = site.store.session_object(name)
        record(site.store, session, list(faults_of(session)), bench.tables, done="battery replaced", cured="yes",
               found="low-voltage", who="night shift")


def printed(file: Path) -> str | None:
    """The text of a PDF; None where no reader is installed."""
    pypdf = pytest.importorskip("pypdf") if shutil.which("pdftotext") is None else None
    if pypdf is not None:
        return "\n".join(page.extract_text() for page in pypdf.PdfReader(file).pages)
    return subprocess.run(["pdftotext", str(file), "-"], capture_output=True, text=True, check=True).stdout


@pytest.mark.parametrize(("size", "name"), [(PHONE, "phone"), (DESK, "desk")])
def test_every_page_fits_its_window_and_a_thumb(
    context: Any, site: Site, with_demo: httpx.Client, size: dict[str, int], name: str,
) -> None:
    page = context.new_page()
    page.set_viewport_size(size)
    site.store.add_trace("van 7", "\n".join(f"{second},{14.1 if second > 40 else 12.4}" for second in range(90)), "log")
    site.store.open_session("van 7 again")
    site.store.add_paste("van 7 again", "x", [snapshot.now for snapshot in site.store.snapshots("van 7")][:1])
    finished(site)
    entry = site.store.traces("van 7")[0].entry_id
    for path, what in (("/", "sessions"), ("/session?name=van+7", "session"), ("/handoff?name=van+7", "hand-off"),
                       (f"/paste?name=van+7&entry={site.store.pastes('van 7')[0].entry_id}", "as pasted"),
                       (f"/trace?name=van+7&entry={entry}", "trace"), ("/session?name=none", "not there"),
                       ("/compare?name=van+7+again&earlier=van+7", "compare"), ("/outcomes?name=van+7", "outcomes"),
                       ("/calibration", "calibration")):
        page.goto(path)
        for fold in page.locator("details").all():
            fold.evaluate("one => { one.open = true; }")
        look(page, f"{name} {what}")
        small = page.evaluate("""least => [...document.querySelectorAll(
                "nav a, button, input, select, textarea, summary")]
            .filter(one => one.type !== "hidden" && one.checkVisibility())
            .map(one => [one.outerHTML.slice(0, 80), one.getBoundingClientRect().height])
            .filter(([, height]) => height < least)""", THUMB)
        assert small == [], path


def test_with_the_keyboard_alone(context: Any, site: Site) -> None:
    page = context.new_page()
    page.set_viewport_size(DESK)
    page.goto("/")
    keys = page.keyboard
    keys.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "To the page"
    keys.press("Enter")
    keys.press("Tab")
    keys.type("van 7")
    keys.press("Enter")
    page.wait_for_url("**/session?name=van+7")
    reach(page, "#paste-text")
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline == "solid"  # what has the focus is seen to have it
    keys.insert_text(DEMO[0].read_text(encoding="utf-8"))
    keys.press("Control+Enter")
    page.wait_for_url("**#entry-*")
    reach(page, "article.scan details:nth-of-type(2) summary")
    keys.press("Enter")
    reach(page, "input[name=volts]")
    keys.press("Control+A")
    keys.type("10.9")
    keys.press("Enter")
    page.wait_for_url("**#scans")
    assert site.store.snapshots("van 7")[0].now.volts == 10.9


def test_an_outcome_with_the_keyboard_alone(context: Any, site: Site, with_demo: httpx.Client) -> None:
    page = context.new_page()
    page.goto("/outcomes?name=van+7")
    keys = page.keyboard
    reach(page, "select[name=fault]")
    keys.press("ArrowDown")
    reach(page, "input[name=done]")
    keys.type("feed repaired")
    reach(page, "input[name=cured]")
    keys.press("Space")
    reach(page, "select[name=found]")
    keys.type("a hard")
    keys.press("Tab")
    keys.press("Enter")
    page.wait_for_url("**#recorded")
    outcome, = site.store.outcomes("van 7")
    assert (outcome.done, outcome.cured, outcome.found_cause, outcome.standing) == (
        "feed repaired", "yes", "hard", "short list")
    assert page.get_by_text("feed repaired; cured; found: a hard fault").is_visible()


def test_a_notice_leads_to_its_line(context: Any, site: Site) -> None:
    """After a paste the heading, the way to the short list and the notice are in sight of a small phone."""
    page = context.new_page()
    site.store.open_session("van 7")
    page.goto("/session?name=van+7")
    page.get_by_label("Text of the scan").fill(
        "Scan before clear, 12.1 V\n" + "Radio: no codes\n" * 60 + "ECM: P0l18 stored\n")
    page.get_by_role("button", name="Keep this scan").click()
    page.wait_for_url("**#entry-*")
    notice = page.locator("ul.places li").first
    assert "line 62" in notice.inner_text()
    assert "P0l18 read as P0118" in notice.inner_text()
    assert notice.locator("mark").inner_text() == "P0l18"
    for one in (page.get_by_role("heading", name="Last scan, as understood"), page.locator(".jump a"), notice):
        assert in_sight(one)
    notice.get_by_role("link", name="line 62").click()
    page.wait_for_url("**#line-62")
    line = page.locator("#line-62")
    assert in_sight(line)
    assert line.locator("mark").inner_text() == "P0l18"
    page.go_back()
    page.locator(".jump a").click()
    from playwright.sync_api import expect

    expect(page.get_by_role("heading", name="Short list", exact=True)).to_be_in_viewport()


def in_sight(one: Any) -> bool:
    """Whether an element lies inside the window, at least in part."""
    box = one.bounding_box()
    height = one.page.viewport_size["height"]
    return box is not None and 0 <= box["y"] < height


def reach(page: Any, where: str) -> None:
    """Press Tab until the focus is there."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate("where => document.activeElement.matches(where)", where):
            return
    raise AssertionError(f"{where} can't be reached by Tab")


def test_it_reads_and_writes_without_scripts(browser: Any, site: Site) -> None:
    context = browser.new_context(java_script_enabled=False, viewport=PHONE, base_url=site.base)
    page = at_work(context.new_page())
    assert page.locator(".count").get_by_text("25 read = ").is_visible()
    page.get_by_role("navigation").get_by_role("link", name="Hand-off page").click()
    assert page.get_by_text("What was seen, and the supply at the time").is_visible()
    assert not page.get_by_role("button", name="Print").is_visible()
    context.close()


def test_a_file_dropped_on_the_form_is_taken(context: Any, site: Site) -> None:
    page = context.new_page()
    site.store.open_session("van 7")
    page.goto("/session?name=van+7")
    page.evaluate("""text => {
        const data = new DataTransfer();
        data.items.add(new File([text], "scan.txt", {type: "text/plain"}));
        document.querySelector("form[data-drop]").dispatchEvent(
            new DragEvent("drop", {dataTransfer: data, bubbles: true, cancelable: true}));
    }""", DEMO[0].read_text(encoding="utf-8"))
    page.get_by_role("button", name="Keep this scan").click()
    page.wait_for_url("**#entry-*")
    assert site.store.pastes("van 7")[0].source == "scan.txt"


def test_a_pasted_script_does_not_run(context: Any, site: Site) -> None:
    page = context.new_page()
    page.on("dialog", lambda dialog: pytest.fail(f"it ran: {dialog.message}"))
    site.store.open_session("van 7")
    page.goto("/session?name=van+7")
    page.get_by_label("Text of the scan").fill(
        "ECM <script>alert(1)</script> P0118 <img src=x onerror=alert(2)>\n\"><svg onload=alert(3)> ABS U0100")
    page.get_by_role("button", name="Keep this scan").click()
    page.wait_for_url("**#entry-*")
    for path in ("/session?name=van+7", "/handoff?name=van+7", "/paste?name=van+7&entry=1"):
        page.goto(path)
        assert page.locator("img").count() == 0


@pytest.fixture(scope="session")
def axe(tmp_path_factory: pytest.TempPathFactory) -> str:
    """axe-core from the npm registry, in a folder of its own."""
    npm = shutil.which("npm")
    if npm is None:
        pytest.skip("axe-core needs npm (Debian: apt-get install npm)")
    folder = tmp_path_factory.mktemp("axe")
    done = subprocess.run([npm, "install", "--no-audit", "--no-fund", "--ignore-scripts", "axe-core@4"], cwd=folder,
                          capture_output=True, text=True, timeout=180, check=False)
    script = folder / "node_modules" / "axe-core" / "axe.min.js"
    if not script.exists():
        pytest.skip(f"axe-core could not be installed by npm: {done.stderr.strip()[-200:]}")
    return script.read_text(encoding="utf-8")


@pytest.mark.parametrize(("size", "name"), [(PHONE, "phone"), (DESK, "desk")])
def test_axe_finds_nothing(
    browser: Any, site: Site, with_demo: httpx.Client, axe: str, size: dict[str, int], name: str,
) -> None:
    """WCAG 2.2 A and AA and the best practices that axe-core knows, with every fold open."""
    # Only for this test: axe is put into the page, which the policy would rightly refuse.
    context = browser.new_context(viewport=size, base_url=site.base, bypass_csp=True)
    page = context.new_page()
    site.store.add_trace("van 7", "\n".join(f"{second},{14.1 if second > 40 else 12.4}" for second in range(90)), "log")
    entry = site.store.traces("van 7")[0].entry_id
    finished(site)
    found: list[str] = []
    for path in ("/", "/session?name=van+7", "/handoff?name=van+7", f"/trace?name=van+7&entry={entry}", "/nowhere",
                 "/outcomes?name=van+7", "/calibration",
                 f"/paste?name=van+7&entry={site.store.pastes('van 7')[0].entry_id}", "/compare?name=van+7"):
        page.goto(path)
        page.evaluate("for (const one of document.querySelectorAll('details')) { one.open = true; }")
        page.evaluate(axe)
        for rule in page.evaluate("axe.run(document)")["violations"]:
            found += [f"{path} {rule['id']}: {rule['help']}: {node['html'][:120]}" for node in rule["nodes"][:3]]
    context.close()
    assert found == []
