"""The commands that keep sessions, as a user gives them: in one process, and one visit as programs of their own."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner

import triage
from code_tables import load
from triage.cli.keep_rates import learned
from triage.cli.main import app
from triage.errors import TriageError
from triage.store import open_store

DEMO = sorted((Path(triage.__file__).parent / "demo").glob("*.txt"))
Run = Callable[..., str]
BACK = ("Scan before clear, 2026-03-02 09:00, key on, engine off. Nothing connected. Battery 12.5 V.\n\n"
        "Engine control module (ECM): no codes\nABS / stability: C0031-62 wheel speed sensor (current)\n"
        "Transmission control module: no codes\nBody control module: no codes\nRadio: no codes\n",
        "After clear. 2026-03-02 09:20. Key on, engine off, 12.6 V. Cleared all codes at 09:10, all modules "
        "accepted.\n\n"
        "Engine control module (ECM): no codes\nABS / stability: C0031-62 wheel speed sensor (current)\n"
        "Transmission control module: no codes\nBody control module: no codes\nRadio: no codes\n")
SMALL = "key on, engine off, 11.0 V\nEngine control module (ECM): P0118 (stored), P0562 (stored)\nRadio: no codes\n"


@pytest.fixture
def place(tmp_path: Path) -> str:
    return str(tmp_path / "kept" / "sessions.db")


@pytest.fixture
def run(place: str) -> Run:
    """Runs a command on a store of its own and gives what it printed; ``status`` is what it must end with."""
    def call(*words: str, status: int = 0, typed: str | bytes | None = None) -> str:
        result = CliRunner().invoke(app, list(words), input=typed, env={"TRIAGE_DB": place, "COLUMNS": "110"})
        if status == 1:
            assert isinstance(result.exception, TriageError), (result.exception, result.output)
            assert "\n" not in str(result.exception)
            return str(result.exception)
        assert result.exit_code == status, (result.exception, result.output)
        return " ".join(result.output.split()) if "--json" not in words else result.stdout
    return call


@pytest.fixture
def visit(run: Run) -> Run:
    """The demo's visit, kept as "van"."""
    run("open", "van", "--vehicle", "van 7", "--nominal-volts", "12")
    for file in DEMO:
        run("paste", "van", str(file))
    return run


def test_open_says_what_is_known_of_the_vehicle(run: Run) -> None:
    said = run("open", "first", "--vehicle", "van 7", "--battery", "agm", "--complaint", "does not start")
    assert "session first is open in" in said
    assert "van 7, AGM battery" in said
    said = run("open", "second", "--vehicle", "VAN  7")
    assert "AGM battery" in said
    assert "held against first" in said
    assert "there is a session 'first' already" in run("open", "first", status=1)
    assert "as the name of a session" in run("open", "-", status=1)
    listed = json.loads(run("sessions", "--vehicle", "van 7", "--json"))
    assert [session["name"] for session in listed] == ["first", "second"]
    assert listed[1]["vehicle"] == {"label": "VAN  7", "battery": "AGM"}
    assert "no vehicle 'bus'" in run("sessions", "--vehicle", "bus", status=1)


def test_a_paste_is_kept_as_it_came_and_its_phase_said(run: Run, place: str) -> None:
    run("open", "van")
    assert "phase before-clear: first scan of the session" in run("paste", "van", "--text", SMALL)
    run("note", "van", "cleared", "--answer", "accepted")
    odd = SMALL.replace("\n", "\r\n").encode("utf-16")
    assert "phase after-clear: a clear is recorded since the last scan" in run("paste", "van", typed=odd)
    said = run("paste", "van", "-", "--phase", "after_run", "--volts", "14,1 V", "--lowest", "-", "--module",
               "ECM=engine control", "--engine", "running", typed=SMALL, status=1)
    assert "no module 'ECM' in this snapshot; it holds engine control" in said
    said = run("paste", "van", "-", "--phase", "after_run", "--volts", "14,1 V", "--lowest", "-", "--module",
               "Radio=head unit", "--outside-supply", "none", typed=SMALL)
    assert "van, snapshot 3: after run" in said
    assert "14.1 V" in said
    assert "phase after-run: told by hand" in said
    with open_store(place) as store:
        assert [paste.body for paste in store.pastes("van")] == [SMALL, odd, SMALL]
        assert [scan.module for scan in store.session_object("van").snapshots[2].modules][1] == "head unit"


def test_a_correction_overrides_and_can_be_taken_back(visit: Run, place: str) -> None:
    said = visit("correct", "van", "2", "--phase", "after-run", "--volts", "12.4", "--module", "Radio=telematics")
    assert "van, snapshot 2: after run" in said
    assert "12.4 V" in said
    assert "struck out, correction: snapshot 2: phase after-run; snapshot 2: volts 12.4; snapshot 2: module Radio is " \
           "telematics" in visit("undo", "van")
    assert visit("sessions", "van").count("struck out") == 2  # the count, and the entry itself
    visit("correct", "van", "--battery", "AGM")
    with open_store(place) as store:
        assert store.snapshots("van")[1].now.phase == "after-clear"
        vehicle = store.session("van").vehicle
    assert vehicle is not None
    assert vehicle.battery == "AGM"
    assert "session 'van' has no snapshot 9; it holds 3 snapshots, numbered from 1" in visit(
        "correct", "van", "9", "--volts", "12", status=1)


def test_undo_strikes_the_paste_and_keeps_it(visit: Run, place: str) -> None:
    assert "struck out, paste: 1 snapshot (after-run)" in visit("undo", "van")
    with open_store(place) as store:
        assert len(store.pastes("van")) == 2
        assert len(store.pastes("van", with_struck=True)) == 3


def test_notes_keep_events_measurements_and_logs(visit: Run, place: str, tmp_path: Path) -> None:
    assert "next scan would count as after-repair" in visit(
        "note", "van", "Replaced", "--module", "engine control", "--part", "new", "--at", "2026-02-09T09:10")
    assert "other, wiggled the loom; cold" in visit("note", "van", "wiggled the loom", "--note", "cold")
    said = visit("note", "van", "--reading", "key-off draw=0,03 A", "--reading", "ground drop=-0.1V", "--snapshot", "2")
    assert "van: key-off draw 0.03 A, with snapshot 2 van: ground drop -0.1 V, with snapshot 2" in said
    log = tmp_path / "log.csv"
    log.write_text("s;V\n" + "".join(f"{t / 10};{12.5 if t < 50 else 9.0:.1f}\n" for t in range(100)), encoding="utf-8")
    assert "log.csv, 100 samples over 9.9 s, lowest 9.00 V" in visit("note", "van", "--trace", str(log))
    with open_store(place) as store:
        kept = store.session_object("van")
        assert [reading.value for reading in kept.snapshots[1].readings or ()] == [0.03, -0.1]
        assert [event.part for event in kept.events or () if event.what == "replaced"] == ["new"]
        assert [trace.text for trace in store.traces("van")] == [log.read_text(encoding="utf-8")]
    assert "VOLTAGE LOGS log.csv, after snapshot 3" in visit("shortlist", "van")
    assert "can't be read: No such file" in visit("note", "van", "--trace", str(tmp_path / "none.csv"), status=1)
    log.write_text("nothing here\n", encoding="utf-8")
    assert "no voltages found" in visit("note", "van", "--trace", str(log), status=1)


@pytest.mark.parametrize("words", [
    ["paste", "van", "--phase", "later"], ["paste", "van", "--volts", "90"], ["paste", "van", "--volts", "nan"],
    ["paste", "van", "--module", "ECM"], ["paste", "van", "file.txt", "--text", "x"], ["correct", "van"],
    ["correct", "van", "--volts", "12"], ["correct", "van", "1", "--vin", "X"],
    ["correct", "van", "0", "--volts", "12"],
    ["note", "van"], ["note", "van", "cleard"], ["note", "van", "--reading", "draw 3 A"],
    ["note", "van", "--reading", "draw=much"], ["note", "van", "cleared", "--reading", "draw=3 A"],
    ["note", "van", "--snapshot", "1", "--trace", "x"], ["outcome", "van", "ECM", "P0118", "--done", "x"],
    ["outcome", "van", "ECM", "P0118", "--done", "x", "--cured", "perhaps"],
    ["outcome", "van", "ECM", "--done", "x", "--cured", "yes"], ["outcome", "van", "--done", "x", "--cured", "yes"],
    ["outcome", "van", "ECM", "P0118", "--rest", "--done", "x", "--cured", "yes"],
    ["sessions", "van", "--vehicle", "x"], ["shortlist", "van", "--volts", "12"], ["open"], ["compare", "van"],
], ids=" ".join)
def test_a_wrong_command_line_ends_with_2_and_keeps_nothing(visit: Run, place: str, words: list[str]) -> None:
    with open_store(place) as store:
        before = store.session("van")
    visit(*words, status=2)
    with open_store(place) as store:
        assert store.session("van") == before


def test_a_name_that_is_no_session_is_one_line_and_makes_no_store(run: Run, place: str, visit: Run) -> None:
    elsewhere = str(Path(place).parent / "other.db")
    assert "no such file; as a session: " + elsewhere + ": no store there" in run(
        "shortlist", "missing.txt", "--db", elsewhere, status=1)
    assert "no store there" in run("paste", "x", "--text", SMALL, "--db", elsewhere, status=1)
    assert not Path(elsewhere).exists()
    assert "no session 'vann'; there is van" in run("shortlist", "vann", status=1)
    run("open", "empty")
    assert "session 'empty' holds no scan yet" in run("shortlist", "empty", status=1)
    assert "no scan: no trouble code" in run("paste", "van", "--text", "good morning", status=1)


def test_without_the_extra_one_line_says_what_to_install(visit: Run, place: str) -> None:
    code = ("import sys\nsys.modules['sqlalchemy'] = None\nfrom triage.cli import main\n"
            f"sys.argv = ['triage', 'shortlist', 'van', '--db', {place!r}]\nmain()")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "pip install 'lowvolt-triage[store]'" in done.stderr
    assert "Traceback" not in done.stderr


def test_the_short_list_of_a_session_is_that_of_its_files_and_is_kept(visit: Run, place: str) -> None:
    by_files = json.loads(CliRunner().invoke(app, ["shortlist", *map(str, DEMO), "--json"]).stdout)
    by_name = json.loads(visit("shortlist", "van", "--json"))
    assert [(f["module"], f["code"], f["standing"]) for f in by_name["faults"]] == [
        (f["module"], f["code"], f["standing"]) for f in by_files["faults"]]
    assert set(by_name) == set(by_files)
    visit("shortlist", "van", "--brief")
    with open_store(place) as store:
        kept = store.verdicts("van")
    assert len(kept) == 1  # nothing changed in between
    assert not kept[0].stale
    assert kept[0].engine_version
    assert len(kept[0].tables_version) == 12
    assert all(fault["ledger"] for fault in kept[0].verdict["faults"])
    visit("correct", "van", "3", "--lowest", "9")
    visit("shortlist", "van", "--html")
    with open_store(place) as store:
        assert [verdict.stale for verdict in store.verdicts("van")] == [True, False]


def test_the_second_visit_is_held_against_the_first(visit: Run) -> None:
    visit("shortlist", "van")
    visit("open", "van again", "--vehicle", "van 7")
    visit("paste", "van again", "--text", BACK[0])
    assert "triage correct 'van again' 2 --phase" in visit("paste", "van again", "--text", BACK[1])
    page = visit("shortlist", "van again")
    assert "THEN AND NOW: van, then van again" in page
    assert "anti-lock brakes C0031-62: gone at the end then, seen again now" in page
    assert page.index("SHORT LIST") < page.index("THEN AND NOW")
    assert "THEN AND NOW" not in visit("shortlist", "van again", "--json")
    assert "THEN AND NOW" in visit("shortlist", "van again", "--markdown")
    found = json.loads(visit("compare", "van", "van again", "--json"))
    assert [(fault["module"], fault["code"]) for fault in found["came_back"]] == [("anti-lock brakes", "C0031")]
    assert found["supply_read"] == "read 8.9 to 14.1 V in 3 snapshots then, 12.5 to 12.6 V in 2 snapshots now"


def test_a_fault_set_aside_that_returns_is_told_as_a_mistake(visit: Run) -> None:
    aside = [f for f in json.loads(visit("shortlist", "van", "--json"))["faults"] if f["standing"] == "set aside"]
    assert "P0562" in {fault["code"] for fault in aside}
    visit("open", "back", "--vehicle", "van 7")
    scans = [DEMO[1].read_text(encoding="utf-8"), DEMO[2].read_text(encoding="utf-8"),
             DEMO[2].read_text(encoding="utf-8").replace("08:55", "09:30")]
    for text in scans:
        text = text.replace("Radio          ", "Radio | U0155 | Lost communication | current\nSpare")
        visit("paste", "back", "--text", text.replace("Radio: no codes", "Radio: U0155 (current)"))
    page = visit("compare", "van", "back")
    assert "The engine was wrong: radio U0155" in page or "The engine may have been wrong: radio U0155" in page


def test_outcomes_of_a_finished_session_reach_the_next_assessment(visit: Run, place: str) -> None:
    visit("shortlist", "van")
    said = visit("outcome", "van", "ecm", "p0118", "--done", "sensor replaced", "--cured", "yes", "--found", "hard")
    assert "engine control P0118: the verdict had said: short list, almost surely there" in said
    assert "not counted yet, 24 of 25 faults" in said
    assert "still on the short list without an outcome" in visit(
        "outcome", "van", "--rest", "--done", "x", "--cured", "yes", status=1)
    for module, code in (("BCM", "U0159"), ("instrument cluster", "U0159"), ("Electric power steering", "C0051")):
        visit("outcome", "van", module, code, "--done", "repaired", "--cured", "yes", "--found", "hard")
    with open_store(place) as store:
        assert learned(store, load()).rates == {}
    said = visit("outcome", "van", "--rest", "--done", "battery", "--cured", "yes", "--found", "low-voltage")
    # The demo holds 6 codes of the kind "supply", all found low-voltage; a table's rate is worth 20 outcomes.
    table = load().rate("prior.supply.low-voltage")
    shown = f"table {table:.2f}, your shop 1.00 from 6"
    assert f"rate prior.supply.low-voltage: {shown}; {(20 * table + 6) / 26:.2f} is used" in said
    assert "25 outcomes, Brier score" in visit("calibration")
    assert re.search("outcome: [^;]*battery, cured, found low-voltage and 20 more like it", visit("sessions", "van"))
    visit("open", "other van", "--vehicle", "van 8")
    visit("paste", "other van", str(DEMO[0]))
    told = json.loads(visit("shortlist", "other van", "--json", "--ledger"))
    assert any(f"low-voltage: {shown}, {(20 * table + 6) / 26:.2f} is used" in notice["message"]
               for notice in told["notices"])
    plain = json.loads(CliRunner().invoke(app, ["shortlist", str(DEMO[0]), "--json", "--ledger"]).stdout)

    def prior(verdict: dict, code: str) -> float:
        return next(fault["ledger"][0]["decibans"] for fault in verdict["faults"] if fault["code"] == code)

    # One hard fault among six codes of this kind: its prior odds rise.
    assert prior(told, "P0118") > prior(plain, "P0118")
    with open_store(place) as store:
        assert re.search(r", rates [0-9a-f]{6} from 25 outcomes$", store.verdicts("other van")[-1].tables_version)
        # A session's own outcomes are no evidence for itself.
        assert learned(store, load(), without="van").rates == {}


def test_the_shop_is_shown_beside_the_table_and_bands_before_percentages(visit: Run) -> None:
    visit("shortlist", "van")
    assert "no outcomes yet" in visit("calibration")
    answer = json.loads(visit(
        "outcome", "van", "ECM", "P0118", "--done", "x", "--cured", "no", "--found", "hard", "--json"))
    assert answer["not_counted"] == {"van": 24}
    page = visit("calibration")
    assert "said 'almost surely there': 1 of 1 fault was there" in page
    found = json.loads(visit("calibration", "--json"))
    assert (found["outcomes"], found["percentages"]) == (1, False)


def test_jobs_go_out_and_come_back_without_loss(visit: Run, tmp_path: Path) -> None:
    out, there = tmp_path / "jobs.jsonl", str(tmp_path / "there.db")
    visit("note", "van", "cleared", "--note", "quotes \" and ümlaut")
    visit("open", "second")
    said = visit("export", "--out", str(out))
    assert "2 sessions written to" in said
    assert "a job file has no place for 3 texts as pasted: these stay in" in said
    assert "2 sessions added" in visit("import", str(out), "--db", there)
    assert "0 sessions added, 2 there already" in visit("import", str(out), "--db", there)
    again = tmp_path / "again.jsonl"
    visit("export", "--out", str(again), "--db", there)
    assert again.read_bytes() == out.read_bytes()
    assert "no session 'third'" in visit("export", "third", status=1)
    out.write_text(out.read_text(encoding="utf-8") + '{"job": "x", "snapshot": []}\n', encoding="utf-8")
    assert "jobs.jsonl: line 3: snapshot: unknown key 'snapshot'" in visit("import", str(out), "--db", there, status=1)
    assert "can't be written" in visit("export", "--out", str(tmp_path / "no" / "x"), status=1)
    assert not list(tmp_path.glob("*.part"))


def test_texts_that_are_none_are_kept_to_the_byte_and_sessions_move_with_them(
    run: Run, place: str, tmp_path: Path,
) -> None:
    """NUL, half a surrogate pair, bytes that are no UTF-8, every kind of line end, and 5 MB."""
    good = SMALL.encode()
    bodies = [good.replace(b"Radio", b"Ra\0dio"), good + b"half \xed\xa0\x80 pair\n", good + b"\xff\xfe \x80\n",
              good.replace(b"\n", b"\r\n"), good.replace(b"\n", b"\r"), SMALL.encode("utf-16"), b"\xef\xbb\xbf" + good,
              good + b"12:00 nothing to be seen here ----------------------------\n" * 90_000]
    assert len(bodies[-1]) > 5_000_000
    names = [f"s{number} \udcff\0" for number in range(len(bodies))]
    for name, body in zip(names, bodies, strict=True):
        run("open", name, "--complaint", "\ud800 \x01 \u202e \\u0000 \"")
        file = tmp_path / "scan.txt"
        file.write_bytes(body)
        run("paste", name, str(file))
    run("paste", names[0], "--text", "Radio \udcff\udcfe: P0118 stored\r\n")
    run("note", names[0], "other", "--note", "\udcfe \x0b \\ \"")
    with open_store(place) as store:
        kept = [store.pastes(name)[0].body for name in names]
        typed = store.pastes(names[0])[1].body
    assert [body if isinstance(body, bytes) else body.encode() for body in kept] == bodies
    assert typed == b"Radio \xff\xfe: P0118 stored\r\n"
    out, there, again = tmp_path / "jobs.jsonl", str(tmp_path / "there.db"), tmp_path / "again.jsonl"
    run("export", "--out", str(out))
    assert "8 sessions added" in run("import", str(out), "--db", there)
    assert "8 there already" in run("import", str(out), "--db", there)
    run("export", "--out", str(again), "--db", there)
    assert again.read_bytes() == out.read_bytes()
    # What no JSON is stays one line of error, surrogates or not.
    for wrong, words in (('{"job": "\\ud800", "snapshot": []}\n', "unknown key 'snapshot'"),
                         ('{"job": "\\ud800", \n', "not one JSON object"), ('["\\ud800"]\n[]\n', "not one JSON")):
        out.write_text(wrong + '{"job": "y", "snapshots": []}\n', encoding="utf-8")
        assert words in run("import", str(out), "--db", there, status=1)


def test_what_was_pasted_never_steers_the_screen(run: Run) -> None:
    run("open", "van\x1b[31m", "--vehicle", "\x1b]0;x\x07")
    for words in (["sessions"], ["sessions", "van\x1b[31m"], ["note", "van\x1b[31m", "\x1b[2J"],
                  ["undo", "van\x1b[31m"]):
        said = run(*words)
        assert "\x1b" not in said
        assert "\x07" not in said


def test_a_vin_that_differs_is_told_and_changes_nothing(run: Run, place: str) -> None:
    run("open", "van", "--vin", "TESTVAN0000000001")
    said = run("paste", "van", "--text", "VIN: 1M8GDM9AXKP042788\n" + SMALL)
    assert "warning: the scan is of VIN 1M8GDM9AXKP042788, the session of VIN TESTVAN0000000001" in said
    with open_store(place) as store:
        vehicle = store.session("van").vehicle
    assert vehicle is not None
    assert vehicle.vin == "TESTVAN0000000001"


def test_a_whole_visit_as_a_user_runs_it(tmp_path: Path) -> None:
    env = {**os.environ, "XDG_DATA_HOME": str(tmp_path / "data"), "NO_COLOR": "1", "PYTHONWARNINGS": "error"}
    env.pop("TRIAGE_DB", None)

    def program(*words: str, typed: str = "", status: int = 0) -> str:
        done = subprocess.run([sys.executable, "-m", "triage", *words], input=typed, capture_output=True, text=True,
                              check=False, env=env, cwd=tmp_path)
        assert done.returncode == status, done.stderr
        assert done.stderr.count("\n") == status
        return done.stdout

    program("open", "van-1", "--vehicle", "van 7", "--complaint", "does not start")
    program("paste", "van-1", str(DEMO[0]))
    program("note", "van-1", "cleared", "--answer", "accepted")
    program("paste", "van-1", typed=DEMO[1].read_text(encoding="utf-8"))
    program("paste", "van-1", str(DEMO[2]))
    program("paste", "van-1", str(DEMO[0]))
    assert "struck out" in program("undo", "van-1")
    assert "25 read = " in program("shortlist", "van-1")
    program("export", "van-1", "--out", "jobs.jsonl")
    assert "1 session added" in program("import", "jobs.jsonl", "--db", "copy.db")
    program("outcome", "van-1", "ECM", "P0118", "--done", "sensor", "--cured", "yes", "--found", "hard",
            "--who", "night")
    program("open", "van-2", "--vehicle", "van 7")
    program("paste", "van-2", "--text", BACK[0])
    assert "THEN AND NOW: van-1, then van-2" in program("shortlist", "van-2")
    assert "anti-lock brakes C0031-62" in program("compare", "van-1", "van-2")
    assert "1 outcome" in program("calibration")
    assert (tmp_path / "data" / "lowvolt-triage" / "sessions.db").exists()
    program("undo", "nobody", status=1)


def test_free_words_of_a_note_are_read_and_a_time_of_day_is_of_the_last_scan(run: Run) -> None:
    """What a technician says ("cleared all codes") counts as what it is; common practice."""
    run("open", "van")
    run("paste", "van", "--text", "Before clear 2026-03-02 08:00, 10.9 V\nECM: P0118 stored\n")
    assert "van: outside supply on, jump pack" in run("note", "van", "jump pack connected")
    said = run("note", "van", "cleared all codes")
    assert "van: cleared" in said
    assert "the next scan would count as after-clear" in said
    assert "van: other, customer rang" in run("note", "van", "customer rang")
    later = run("paste", "van", "--text", "After clear 08:30, 12.6 V. ECM: P0118 current")
    assert "after clear, 2026-03-02 08:30, 12.6 V" in " ".join(later.split())
