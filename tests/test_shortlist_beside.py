"""``triage shortlist`` with a voltage log and a file of branches beside the scans."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from made_sessions import scan
from typer.testing import CliRunner

from triage.cli.main import app

RUN = CliRunner()


@pytest.fixture
def job_file(tmp_path: Path) -> Path:
    """Two scans with times and no supply; two modules silent in both."""
    def shot(phase: str, clock: str) -> dict[str, object]:
        return {"phase": phase, "at": f"2025-01-20T{clock}:00+01:00", "engine": "off", "modules": [
            scan("engine control", "U0121", "U0131", "P0118"), scan("body control", "U0121", "U0131"),
            scan("anti-lock brakes", responds=False), scan("power steering", responds=False)]}
    file = tmp_path / "van.json"
    file.write_text(json.dumps({"job": "van", "snapshots": [
        shot("before-clear", "08:05"), shot("after-clear", "08:15")]}))
    return file


def log(folder: Path) -> Path:
    file = folder / "log.csv"
    rows = [f"08:{second // 60:02}:{second % 60:02},{10.4 if second < 450 else 12.7}" for second in range(1200)]
    file.write_text("time,volts\n" + "\n".join(rows))
    return file


def test_the_trace_tells_the_supply(job_file: Path, tmp_path: Path) -> None:
    plain = RUN.invoke(app, ["shortlist", str(job_file), "--json", "--ledger"])
    assert plain.exit_code == 0, plain.output
    assert "supply unknown" in plain.stdout
    with_log = RUN.invoke(app, ["shortlist", str(job_file), "--trace", str(log(tmp_path)), "--json", "--ledger"])
    assert with_log.exit_code == 0, with_log.output
    assert "supply unknown" not in with_log.stdout
    messages = [notice["message"] for notice in json.loads(with_log.stdout)["notices"]]
    assert any(message.startswith("snapshot 1: supply 10.40 V and lowest supply 10.40 V taken") for message in messages)
    assert any(message.startswith("snapshot 2: supply 12.70 V") for message in messages)


def test_branches_join_silent_modules(job_file: Path, tmp_path: Path) -> None:
    file = tmp_path / "branches.csv"
    file.write_text("module;branch\nABS;chassis CAN\nEPS;chassis CAN\n")
    held = ["--volts", "12.6", "--volts", "12.6"]
    plain = RUN.invoke(app, ["shortlist", str(job_file), *held])
    joined = RUN.invoke(app, ["shortlist", str(job_file), *held, "--topology", str(file)])
    assert "all modules behind chassis CAN are silent" in " ".join(joined.stdout.split())
    assert "behind chassis CAN" not in plain.stdout


@pytest.mark.parametrize(("text", "said"), [
    ("", "no branch in it"), ("just words\n", "no branch in it"), (None, "can't be read")])
def test_a_file_without_branches_is_one_line(job_file: Path, tmp_path: Path, text: str | None, said: str) -> None:
    file = tmp_path / "branches.csv"
    if text is not None:
        file.write_text(text)
    run = RUN.invoke(app, ["shortlist", str(job_file), "--topology", str(file)])
    assert said in str(run.exception)


def test_a_row_that_can_not_be_used_stops_a_strict_run(job_file: Path, tmp_path: Path) -> None:
    file = tmp_path / "branches.csv"
    file.write_text("ABS,chassis CAN\nEPS\n")
    assert RUN.invoke(app, ["shortlist", str(job_file), "--topology", str(file)]).exit_code == 0
    run = RUN.invoke(app, ["shortlist", str(job_file), "--topology", str(file), "--strict"])
    assert str(run.exception) == f"{file}:2: seen 'EPS', expected module,branch"
