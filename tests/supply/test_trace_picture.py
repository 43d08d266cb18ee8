"""The picture of a trace: what it must show is read back from the SVG's own text, and the PNG is looked at pixel by
pixel for colour. The command is run as a technician runs it."""

from __future__ import annotations

import json
import re
import sys
import xml.etree.ElementTree as ET
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from trace_fixtures import FOLDER
from typer.testing import CliRunner

from triage.cli.main import app
from triage.errors import InputError
from triage.supply.finding import OutsideSpan, SupplyContext
from triage.supply.picture import Mark, draw, thinned
from triage.supply.segments import segments
from triage.supply.trace import Trace, make_trace, read_trace

RUN = CliRunner()
PACK = FOLDER / "jump_pack_pulsing.csv"
BEFORE = """Scan before clear, 2025-03-03 08:00:10, key on, engine off, jump pack connected
ECM: P0562 stored
ABS: no codes
"""
AFTER = """after run, 2025-03-03 08:04:00, engine running, nothing connected
ECM: no codes
ABS: no codes
"""


def trace_of(name: str) -> Trace:
    trace, _ = read_trace((FOLDER / name).read_text(encoding="utf-8"))
    assert trace is not None
    return trace


def svg_of(trace: Trace, context: SupplyContext, marks: list[Mark], title: str = "") -> ET.Element:
    return ET.fromstring(draw(trace, segments(trace, context.nominal), context, marks, title=title))


def texts(svg: ET.Element) -> list[str]:
    return ["".join(node.itertext()).strip() for node in svg.iter("{http://www.w3.org/2000/svg}text")]


def test_segments_snapshots_and_what_was_connected_stand_on_it() -> None:
    context = SupplyContext(outside=(OutsideSpan(5.0, 199.5, "jump pack"),))
    told = texts(svg_of(trace_of(PACK.name), context, [Mark(10.0, "1", "before clear, 11.7 V"),
                                                       Mark(240.0, "2", "after run, 11.7 V")], "van 17"))
    for words in ("van 17", "rest", "key on", "crank", "cycling", "11.45 / 14.05 V", "running", "11.70 V", "1", "2",
                  "jump pack connected", "supply, V", "charging from 13.5 V", "time of day", "08:01",
                  "1  before clear, 11.7 V      2  after run, 11.7 V"):
        assert words in told, words


@pytest.mark.parametrize(("outside", "said"), [((), "nothing connected"), (None, "nobody said what was connected")])
def test_what_nobody_said_is_not_nothing(outside: tuple[OutsideSpan, ...] | None, said: str) -> None:
    assert said in texts(svg_of(trace_of("van_flat_battery.csv"), SupplyContext(outside=outside), []))


def test_a_24_volt_vehicle_is_held_against_its_own_levels() -> None:
    told = texts(svg_of(trace_of("truck_24_volts.csv"), SupplyContext(nominal=24.0), []))
    assert "charging from 27.0 V" in told
    assert "time on the log, s" in told


def test_it_prints_in_black_and_white() -> None:
    context = SupplyContext(outside=(OutsideSpan(5.0, 199.5, "jump pack"),))
    trace = trace_of(PACK.name)
    drawn = draw(trace, segments(trace), context, [Mark(10.0, "1", "before clear")], form="png", title="van 17")
    pixels = np.asarray(Image.open(BytesIO(drawn)).convert("RGB")).astype(int)
    assert pixels.shape[1] >= 1500, "wide enough for paper"
    assert int(np.abs(pixels - pixels.mean(axis=2, keepdims=True)).max()) == 0, "no colour"
    assert pixels.min() < 40
    assert (pixels == 255).mean() > 0.6, "ink on white"
    colours = set(re.findall(rb"#[0-9a-f]{6}", draw(trace, segments(trace), context)))
    assert all(colour[1:3] == colour[3:5] == colour[5:7] for colour in colours), colours


def test_the_same_picture_twice_is_the_same_file() -> None:
    trace = trace_of("van_flat_battery.csv")
    assert draw(trace, segments(trace), SupplyContext()) == draw(trace, segments(trace), SupplyContext())


def test_a_name_is_text_and_nothing_else() -> None:
    told = texts(svg_of(trace_of("van_flat_battery.csv"), SupplyContext(), [], "van $x^2$ <b> & 車"))
    assert "van $x^2$ <b> & 車" in told


def test_no_dip_is_lost_and_no_gap_is_bridged() -> None:
    rng = np.random.default_rng(4)
    volts = 12.6 + 0.02 * rng.standard_normal(400_000)
    volts[123_456] = 6.1
    volts[333_333] = 15.9
    seconds = np.arange(400_000) / 1000.0
    seconds[200_000:] += 60.0
    drawn_s, drawn_v = thinned(make_trace(seconds, volts))
    assert len(drawn_s) < 9000
    assert np.nanmin(drawn_v) == 6.1
    assert np.nanmax(drawn_v) == 15.9
    assert np.isnan(drawn_v[(drawn_s >= 199.9) & (drawn_s < 260.0)]).sum() == 1
    assert bool((np.diff(drawn_s) >= 0).all())


# The command.

def test_the_command_puts_scans_on_the_log(tmp_path: Path) -> None:
    for name, text in (("1.txt", BEFORE), ("2.txt", AFTER)):
        (tmp_path / name).write_text(text)
    picture = tmp_path / "supply.svg"
    run = RUN.invoke(app, ["trace", str(PACK), "--scan", str(tmp_path / "1.txt"), "--scan", str(tmp_path / "2.txt"),
                           "--picture", str(picture)], env={"COLUMNS": "110"})
    assert run.exit_code == 0, run.output
    page = " ".join(run.stdout.split())
    assert "snapshot 1, before clear, at 10.0 s: 11.69 V" in page
    assert "snapshot 2, after run, at 240.0 s: 11.72 V, lowest since the one before 8.17 V" in page
    assert f"picture: {picture}" in run.stdout
    told = texts(ET.fromstring(picture.read_bytes()))
    assert any(line.startswith("1  before clear, 11.7 V, lowest 11.7 V      2  after run") for line in told)
    assert "jump pack connected" in told
    # The pack is off from the second scan on: the same engine at the same voltage does not charge.
    assert "not charging: 11.72 V from 240 to 279.4 s, nothing connected" in page
    assert "11.72 V from 199.5 to 240 s with a jump pack connected: nothing is concluded" in page


def test_the_command_is_told_when_the_pack_was_on() -> None:
    run = RUN.invoke(app, ["trace", str(PACK), "--json", "--outside-supply", "jump pack", "--outside-from", "5",
                           "--outside-to", "199.5"])
    found = {finding["kind"]: finding["text"] for finding in json.loads(run.stdout)["findings"]}
    assert "11.72 V from 199.5 to 279.4 s, nothing connected" in found["not charging"]


def test_a_png_is_a_png(tmp_path: Path) -> None:
    picture = tmp_path / "supply.PNG"
    assert RUN.invoke(app, ["trace", str(PACK), "--picture", str(picture)]).exit_code == 0
    assert picture.read_bytes().startswith(b"\x89PNG\r\n\x1a\n")


@pytest.mark.parametrize(("options", "said"), [
    (["--picture", "supply.jpg"], "expected a name that ends in .svg or .png"),
    (["--outside-from", "5"], "say what was connected"),
    (["--outside-supply", "none", "--outside-to", "5"], "nothing was connected"),
    (["--outside-supply", "charger", "--outside-from", "9", "--outside-to", "5"], "expected more than --outside-from"),
    (["--outside-supply", "solar"], "expected one of none, charger"),
    (["--nominal-volts", "13"], "expected 12 or 24"),
    (["--picture", "no/such/folder/x.svg"], "can't be written"),
])
def test_an_option_that_can_not_be_used_is_one_line(options: list[str], said: str) -> None:
    run = RUN.invoke(app, ["trace", str(PACK), *options])
    assert isinstance(run.exception, InputError)
    assert said in str(run.exception)
    assert "\n" not in str(run.exception)


def test_without_matplotlib_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    run = RUN.invoke(app, ["trace", str(PACK), "--picture", str(tmp_path / "x.svg")])
    assert "pip install 'lowvolt-triage[picture]'" in str(run.exception)
    assert not (tmp_path / "x.svg").exists()
