"""The batch contract through the command itself: order, error lines in their place, exit status, sums."""

from __future__ import annotations

import json
import subprocess
import sys
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, Json, code, snapshot, van
from pydantic import TypeAdapter

from triage.cli.stream import FEW, TOGETHER, _groups, weigh_group
from triage.model.verdict import Verdict

NOISE: Json = {"engine control": ["P0562", code("P0118", "16")], "instrument cluster": ["U0100", "U0121"],
         "restraints": ["B0001"]}


def text(name: str, *snapshots: Json, **rest: Any) -> str:
    return json.dumps({"job": name, "snapshots": list(snapshots)} | rest)


LONG = text("long", van("before-clear", NOISE, **FLAT), van("after-clear", NOISE, **HELD),
            *[van("after-run", {"engine control": [code("P0118", "16")]}, **RUNS) for _ in range(9)])
USUAL = text("usual", van("before-clear", NOISE, **FLAT), van("after-clear", **HELD), van("after-run", **RUNS))
SHORT = text("short", van("before-clear", NOISE))
EMPTY = text("empty")


def batch(folder: Path, lines: list[str], *options: str) -> tuple[int, list[Json], bytes, str]:
    """Exit status, parsed lines, raw output, standard error."""
    source, out = folder / "in.jsonl", folder / "out.jsonl"
    source.write_text("\n".join(lines) + "\n", encoding="utf-8")
    done = subprocess.run([sys.executable, "-m", "triage", "batch", str(source), "--out", str(out), *options],
                          capture_output=True, text=True, check=False, timeout=120)
    raw = out.read_bytes() if out.exists() else b""
    return done.returncode, [json.loads(line) for line in raw.splitlines()], raw, done.stderr


def test_good_lines_give_verdicts_in_order(tmp_path: Path) -> None:
    status, found, _, errors = batch(tmp_path, [SHORT, LONG, EMPTY, USUAL], "--ledger")
    assert (status, errors) == (0, "")
    assert [verdict["job"] for verdict in found] == ["short", "long", "empty", "usual"]
    for verdict in found:
        TypeAdapter(Verdict).validate_python(verdict)
        assert set(verdict) == {"job", "faults", "supply", "next_checks", "cautions", "notices"}


def test_every_fault_once_with_its_names_as_given_and_sums_that_close(tmp_path: Path) -> None:
    odd = text("odd", snapshot("before-clear", {"module": "ECM", "codes": [code("p0118", "1a"), code("P0118", "00")]},
                               {"module": "Brake unit 7", "codes": [code("04711"), code("P0118")]}))
    _, found, _, _ = batch(tmp_path, [LONG, odd], "--ledger")
    assert sorted((f["module"], f["code"], f["failure_type"] or "") for f in found[1]["faults"]) == [
        ("Brake unit 7", "04711", ""), ("Brake unit 7", "P0118", ""), ("ECM", "P0118", "00"), ("ECM", "p0118", "1a")]
    for entry in [fault for verdict in found for fault in verdict["faults"]]:
        assert set(entry["causes"]) == {"hard", "intermittent", "low-voltage", "history", "echo"}
        assert sum(Decimal(str(share)) for share in entry["causes"].values()) == 1
        assert sum(Decimal(str(row["decibans"])) for row in entry["ledger"]) == Decimal(str(entry["decibans"]))
        assert entry["ledger"][0]["what"].startswith("before any sighting")
        assert all(set(row) == {"what", "decibans", "source"} for row in entry["ledger"])


def test_without_the_option_there_is_no_ledger(tmp_path: Path) -> None:
    _, found, _, _ = batch(tmp_path, [USUAL])
    assert all("ledger" not in fault for fault in found[0]["faults"])


def test_a_line_that_can_not_be_used_stands_in_its_place(tmp_path: Path) -> None:
    wrong = json.loads(USUAL)
    wrong["job"] = "wrong"
    wrong["snapshots"][1]["modules"][2]["volt"] = 12.0
    lines = [USUAL, '{"job": "cut", "snapshots": [', json.dumps(wrong), "[1, 2]", text("bare", {"modules": []}), SHORT]
    status, found, _, _ = batch(tmp_path, lines)
    assert status == 1
    assert ["error" in entry for entry in found] == [False, True, True, True, True, False]
    assert [entry["job"] for entry in found] == ["usual", None, "wrong", None, "bare", "short"]
    assert "snapshots.1.modules.2.volt" in found[2]["error"]
    assert "snapshots.0.phase" in found[4]["error"]
    assert all(set(entry) == {"job", "error"} and "\n" not in entry["error"] for entry in found[1:5])


def test_bytes_that_are_no_text_are_an_error_line(tmp_path: Path) -> None:
    source, out = tmp_path / "in.jsonl", tmp_path / "out.jsonl"
    source.write_bytes(SHORT.encode() + b"\n\xff\xfe\x00\x80\n" + USUAL.encode() + b"\n")
    done = subprocess.run([sys.executable, "-m", "triage", "batch", str(source), "--out", str(out)],
                          capture_output=True, text=True, check=False, timeout=120)
    found = [json.loads(line) for line in out.read_bytes().splitlines()]
    assert done.returncode == 1
    assert ["error" in entry for entry in found] == [False, True, False]


@pytest.mark.parametrize("lines", [[], ["", "  "]])
def test_an_empty_input_is_one_line_on_standard_error(tmp_path: Path, lines: list[str]) -> None:
    status, _, raw, errors = batch(tmp_path, lines)
    assert (status, raw) == (1, b"")
    assert errors.startswith("triage: ")
    assert errors.count("\n") == 1


def test_a_wrong_option_is_status_2(tmp_path: Path) -> None:
    assert batch(tmp_path, [SHORT], "--nothing")[0] == 2


def test_a_session_alone_gives_the_same_bytes_as_among_others(tmp_path: Path) -> None:
    # More lines than are weighed together, so that the cut between groups is crossed too.
    lines = [LONG, SHORT, USUAL, EMPTY] * (TOGETHER // 4 + 6)
    _, _, together, _ = batch(tmp_path, lines, "--ledger")
    alone = {line: batch(tmp_path, [line], "--ledger")[2] for line in (LONG, SHORT, USUAL, EMPTY)}
    assert together == b"".join(alone[line] for line in lines)


def test_several_processes_give_the_same_bytes_in_the_same_order(tmp_path: Path) -> None:
    lines = [*[USUAL, SHORT, EMPTY] * 80, '{"job": "cut"', *[LONG, USUAL] * 20, *[SHORT, EMPTY] * 260]
    status, found, together, _ = batch(tmp_path, lines)
    assert status == 1
    assert [entry["job"] for entry in found][240] is None
    with (tmp_path / "in.jsonl").open("rb") as source:
        assert len(lines) > TOGETHER * FEW
        alone = [weigh_group(group, ledger=False)[0] for group in _groups(source)]
    assert together == b"".join(alone)


def test_standard_input_and_output_give_the_same(tmp_path: Path) -> None:
    done = subprocess.run([sys.executable, "-m", "triage", "batch", "-"], input=(USUAL + "\n").encode(),
                          capture_output=True, check=False, timeout=120)
    assert done.stdout == batch(tmp_path, [USUAL])[2]
