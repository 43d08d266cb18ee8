"""Reading traces: every form a logger writes, and anything else without an exception."""

from __future__ import annotations

import subprocess
import sys
from datetime import UTC, datetime, timedelta, timezone

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from triage.supply import rows
from triage.supply.layout import find_layout
from triage.supply.trace import Trace, make_trace, read_trace

SECONDS = [0.0, 0.5, 1.0, 1.5]
VOLTS = [12.5, 12.4, 9.8, 14.1]

FORMS = {
    "comma": "time,volts\n0.0,12.5\n0.5,12.4\n1.0,9.8\n1.5,14.1\n",
    "no head": "0.0,12.5\n0.5,12.4\n1.0,9.8\n1.5,14.1\n",
    "semicolon, decimal comma": "Zeit [s];Spannung [V]\n0,0;12,5\n0,5;12,4\n1,0;9,8\n1,5;14,1\n",
    "tab": "t\tU\n0\t12.5\n0.5\t12.4\n1\t9.8\n1.5\t14.1\n",
    "blanks": "0.0  12.5\n0.5  12.4\n1.0   9.8\n1.5  14.1\n",
    "blanks, decimal comma": "0,0 12,5\n0,5 12,4\n1,0 9,8\n1,5 14,1\n",
    "bars": "| time | volts |\n|------|-------|\n| 0.0 | 12.5 |\n| 0.5 | 12.4 |\n| 1.0 | 9.8 |\n| 1.5 | 14.1 |\n",
    "quotes": '"temps";"tension"\n"0,0";"12,5"\n"0,5";"12,4"\n"1,0";"9,8"\n"1,5";"14,1"\n',
    "quotes, comma twice": 't,V\n"0,0","12,5"\n"0,5","12,4"\n"1,0","9,8"\n"1,5","14,1"\n',
    "comma twice": "t,V\n0,0,12,5\n0,5,12,4\n1,0,9,8\n1,5,14,1\n",
    "milliseconds by head": "time_ms,volts\n0,12.5\n500,12.4\n1000,9.8\n1500,14.1\n",
    "milliseconds by step": "0;12.5\n500;12.4\n1000;9.8\n1500;14.1\n",
    "millivolts by head": "time,mV\n0.0,12500\n0.5,12400\n1.0,9800\n1.5,14100\n",
    "millivolts by size": "time,reading\n0.0,12500\n0.5,12400\n1.0,9800\n1.5,14100\n",
    "units in cells": "0.0 s;12.5 V\n0.5 s;12.4 V\n1.0 s;9.8 V\n1.5 s;14.1 V\n",
    "clock": "clock,volts\n08:15:30.000,12.5\n08:15:30.500,12.4\n08:15:31.000,9.8\n08:15:31.500,14.1\n",
    "clock, decimal comma": "Uhrzeit;U\n08:15:30,0;12,5\n08:15:30,5;12,4\n08:15:31,0;9,8\n08:15:31,5;14,1\n",
    "minutes and seconds": "01:30.0,12.5\n01:30.5,12.4\n01:31.0,9.8\n01:31.5,14.1\n",
    "past midnight": "23:59:59.5,12.5\n00:00:00.0,12.4\n00:00:00.5,9.8\n00:00:01.0,14.1\n",
    "stamp": "timestamp,volts\n2025-03-03T08:00:00.0Z,12.5\n2025-03-03T08:00:00.5Z,12.4\n2025-03-03T08:00:01.0Z,9.8\n"
             "2025-03-03T08:00:01.5Z,14.1\n",
    "stamp with offset": "2025-03-03T08:00:00.0+01:00,12.5\n2025-03-03T08:00:00.5+01:00,12.4\n"
                         "2025-03-03T08:00:01.0+01:00,9.8\n2025-03-03T08:00:01.5+01:00,14.1\n",
    "stamp, day first": "Datum;U\n03.03.2025 08:00:00,0;12,5\n03.03.2025 08:00:00,5;12,4\n03.03.2025 08:00:01,0;9,8\n"
                        "03.03.2025 08:00:01,5;14,1\n",
    "date in its own column": "date,time,volts\n2025-03-03,08:00:00.0,12.5\n2025-03-03,08:00:00.5,12.4\n"
                              "2025-03-03,08:00:01.0,9.8\n2025-03-03,08:00:01.5,14.1\n",
    "half days": "3/14/2025 2:15:30.0 PM,12.5\n3/14/2025 2:15:30.5 PM,12.4\n3/14/2025 2:15:31.0 PM,9.8\n"
                 "3/14/2025 2:15:31.5 PM,14.1\n",
    "since 1970": "ts,volts\n1741000000.0,12.5\n1741000000.5,12.4\n1741000001.0,9.8\n1741000001.5,14.1\n",
    "since 1970 in ms": "ts,volts\n1741000000000,12.5\n1741000000500,12.4\n1741000001000,9.8\n1741000001500,14.1\n",
    "more columns": "time,coolant,rpm,battery voltage,module voltage\n0.0,20,0,12.5,12.1\n0.5,20,0,12.4,12.0\n"
                    "1.0,20,200,9.8,9.4\n1.5,20,800,14.1,13.8\n",
    "volts first": "volts,time\n12.5,0.0\n12.4,0.5\n9.8,1.0\n14.1,1.5\n",
    "lines above and below": "recorder 5\nstart: 2025-03-03 08:00:00\n\ntime,volts\ns,V\n0.0,12.5\n0.5,12.4\n1.0,9.8\n"
                             "1.5,14.1\nend\n",
    "byte-order mark, Windows lines": "\ufefftime,volts\r\n0.0,12.5\r\n0.5,12.4\r\n1.0,9.8\r\n1.5,14.1\r\n",
    "old line ends": "time,volts\r0.0,12.5\r0.5,12.4\r1.0,9.8\r1.5,14.1\r",
    "mark at the end": "0.0,12.5,\n0.5,12.4,\n1.0,9.8,\n1.5,14.1,\n",
    "Cyrillic head": "время;напряжение\n0,0;12,5\n0,5;12,4\n1,0;9,8\n1,5;14,1\n",
    "Spanish head": "tiempo,tensión\n0.0,12.5\n0.5,12.4\n1.0,9.8\n1.5,14.1\n",
}


def read(text: str) -> Trace:
    """The trace in ``text``, which must hold one."""
    trace, notices = read_trace(text, source="log.csv")
    assert trace is not None, [notice.message for notice in notices]
    return trace


@pytest.mark.parametrize("name", FORMS)
def test_every_form_gives_the_same_trace(name: str) -> None:
    trace = read(FORMS[name])
    assert trace.seconds.tolist() == pytest.approx(SECONDS)
    assert trace.volts.tolist() == pytest.approx(VOLTS)


@pytest.mark.parametrize("name", FORMS)
def test_both_ways_of_reading_agree(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rows, "_SMALL", 0)
    by_columns = read(FORMS[name])
    monkeypatch.setattr(rows, "_fast", lambda piece, layout: None)
    by_lines = read(FORMS[name])
    assert by_lines.seconds.tolist() == pytest.approx(by_columns.seconds.tolist(), abs=1e-6)
    assert by_lines.volts.tolist() == pytest.approx(by_columns.volts.tolist(), abs=1e-9)
    assert (by_lines.start, by_lines.clock) == (by_columns.start, by_columns.clock)


@pytest.mark.parametrize("name", ["comma", "semicolon, decimal comma", "clock", "stamp", "date in its own column",
                                  "more columns", "since 1970"])
def test_the_usual_forms_are_read_by_columns(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise AssertionError("read line by line")

    monkeypatch.setattr(rows, "_SMALL", 0)
    monkeypatch.setattr(rows._LineReader, "read", refuse)
    read(FORMS[name])


def test_where_the_trace_begins() -> None:
    assert read(FORMS["stamp"]).start == datetime(2025, 3, 3, 8, tzinfo=UTC)
    assert read(FORMS["stamp with offset"]).start == datetime(2025, 3, 3, 8, tzinfo=timezone(timedelta(hours=1)))
    assert read(FORMS["stamp, day first"]).start == datetime(2025, 3, 3, 8)
    assert read(FORMS["date in its own column"]).start == datetime(2025, 3, 3, 8)
    assert read(FORMS["half days"]).start == datetime(2025, 3, 14, 14, 15, 30)
    assert read(FORMS["since 1970"]).start == datetime(2025, 3, 3, 11, 6, 40, tzinfo=UTC)
    assert read(FORMS["lines above and below"]).start == datetime(2025, 3, 3, 8)
    assert read(FORMS["comma"]).start is None
    assert read(FORMS["clock"]).clock == 8 * 3600 + 15 * 60 + 30


def test_seconds_that_do_not_begin_at_zero_are_kept() -> None:
    assert read("t,v\n100.0,12.5\n100.5,12.4\n").seconds.tolist() == [100.0, 100.5]


def test_readings_that_share_a_clock_second_are_spread() -> None:
    text = "clock,v\n" + "".join(f"08:00:{second:02d},{12.0 + part / 10}\n" for second in range(3) for part in range(4))
    trace, notices = read_trace(text)
    assert trace is not None
    assert np.diff(trace.seconds).tolist() == pytest.approx([0.25] * 11)
    assert any("share the time" in notice.message for notice in notices)


def test_gaps_are_found_and_told() -> None:
    text = "t,v\n" + "".join(f"{at / 10},12.4\n" for at in [*range(50), *range(200, 250)])
    trace, notices = read_trace(text)
    assert trace is not None
    assert trace.gaps == ((4.9, 20.0),)
    assert any("1 gap" in notice.message and "15.1 s" in notice.message for notice in notices)


def test_bad_rows_are_named_and_the_rest_is_read() -> None:
    text = "t,v\n0,12.5\n1,error\n2,\n3,12.2\n4,140\n5,12.3\n"
    trace, notices = read_trace(text, source="log.csv")
    assert trace is not None
    assert trace.volts.tolist() == [12.5, 12.2, 12.3]
    bad = next(notice for notice in notices if notice.line == 3)
    assert bad.show().splitlines() == [
        "log.csv:3: note: not a row of time and volts; left out", "    1,error", "    ~~~~~~^"]
    assert any("140 V" in notice.message for notice in notices)


def test_a_row_cut_short_is_named() -> None:
    trace, notices = read_trace("t,v\n0,12.5\n1\n2,12.4\n3,\n")
    assert trace is not None
    assert trace.seconds.tolist() == [0.0, 2.0]
    assert [notice.line for notice in notices if notice.line] == [3]


def test_recordings_behind_one_another_are_laid_end_to_end() -> None:
    once = "".join(f"{at},12.4\n" for at in range(40))
    trace, notices = read_trace("t,v\n" + once + once)
    assert trace is not None
    assert len(trace.volts) == 80
    assert len(trace.gaps) == 1
    assert any("start anew" in notice.message for notice in notices)


def test_stray_backward_times_are_sorted() -> None:
    trace, notices = read_trace("t,v\n0,12.0\n1,12.1\n3,12.3\n2,12.2\n4,12.4\n")
    assert trace is not None
    assert trace.volts.tolist() == [12.0, 12.1, 12.2, 12.3, 12.4]
    assert any("sorted" in notice.message for notice in notices)


def test_rows_that_hold_other_values_in_turn() -> None:
    trace = read("t,coolant,volts\n0,20,\n0.5,,12.5\n1,21,\n1.5,,12.4\n2,22,\n2.5,,12.4\n")
    assert trace.seconds.tolist() == [0.5, 1.5, 2.5]


def test_one_column_is_one_reading_a_second() -> None:
    trace, notices = read_trace("12.5\n12.4\n12.3\n")
    assert trace is not None
    assert trace.seconds.tolist() == [0.0, 1.0, 2.0]
    assert any("no column of times" in notice.message for notice in notices)


def test_day_or_month_first_is_told_where_it_is_not_clear() -> None:
    _, notices = read_trace("03/04/2025 08:00:00;12.5\n03/04/2025 08:00:01;12.4\n")
    assert any("day and month" in notice.message for notice in notices)


@pytest.mark.parametrize(("text", "word"), [
    ("", "empty"), ("  \n\n", "empty"), ("hello world\nno figures\n", "no voltages"), ("\x00\x01\xff", "no voltages"),
    ("\n" * 100_000 + "x", "no voltages"), ("t,v\n1,12.5\n", "1 usable"), ("t,v\n1,12.5\n1,12.4\n", "same time"),
    ("a,b\n1,0.5\n2,0.6\n3,0.7\n", "no voltages"),
])
def test_what_is_no_trace_gets_one_warning(text: str, word: str) -> None:
    trace, notices = read_trace(text, source="log.csv")
    assert trace is None
    warning = notices[-1]
    assert warning.severity == "warning"
    assert word in warning.message
    assert "\n" not in warning.message


CELLS = st.one_of(st.text(max_size=12), st.floats(allow_nan=True).map(str), st.integers().map(str),
                  st.sampled_from(["12.5", "12,4", "08:15:30", "2025-03-03T08:00:00Z", "03/04/25 1:2 PM", "nan", "V",
                                   '"', "", "99:99:99", "1e400", "-", "\u0661\u0662"]))
ROWS = st.lists(st.lists(CELLS, min_size=1, max_size=4), max_size=12)


@settings(max_examples=300, deadline=None)
@given(ROWS, st.sampled_from([",", ";", "\t", " ", "|", ", "]))
@example([["12.5", '"']], ",")
@example([["-1.7e308", "12.5"], ["0", "12.4"], ["1.7e308", "12.4"]], ",")
@example([["0", "12.5"], ["1.7e308", "12.4"], ["-1.7e308", "12.4"], ["1", "12.4"]], ",")
@example([["9e15", "12.5"], ["9000000000000001", "12.4"], ["1", "12.4"], ["2", "12.4"]], ",")
def test_nothing_typed_raises(table: list[list[str]], separator: str) -> None:
    trace, notices = read_trace("\n".join(separator.join(row) for row in table))
    if trace is None:
        assert notices
    else:
        assert bool(np.all(np.diff(trace.seconds) >= 0))
        assert bool(np.isfinite(trace.volts).all())
        assert len(trace.seconds) == len(trace.volts) >= 2


def test_a_small_trace_needs_no_pandas() -> None:
    code = ("import sys; from triage.supply.trace import read_trace; from triage.supply.segments import segments\n"
            "trace, _ = read_trace('0,12.5\\n1,12.4\\n2,12.5\\n'); segments(trace); print('pandas' in sys.modules)")
    said = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout
    assert said.strip() == "False"


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(6.0, 16.0).map(lambda v: round(v, 3)), min_size=3, max_size=60),
       st.sampled_from([0.001, 0.02, 0.1, 0.5, 2.0]),
       st.sampled_from([(",", "."), (";", "."), (";", ","), ("\t", ",")]),
       st.sampled_from(["", "time{s}volts\n", "Zeit [s]{s}Spannung [V]\n", "t{s}U\n"]))
def test_what_was_written_is_read(volts: list[float], step: float, marks: tuple[str, str], head: str) -> None:
    separator, decimal = marks
    rows_of = [f"{place * step:.3f}{separator}{value:.3f}".replace(".", decimal) for place, value in enumerate(volts)]
    trace = read(head.format(s=separator) + "\n".join(rows_of))
    assert trace.seconds.tolist() == pytest.approx([round(place * step, 3) for place in range(len(volts))])
    assert trace.volts.tolist() == pytest.approx(volts)


def test_layout_of_a_head_in_two_lines() -> None:
    layout = find_layout("time,battery\nms,mV\n0,12500\n20,12400\n")
    assert layout is not None
    assert (layout.time, layout.volts, layout.time_scale, layout.volt_scale) == (0, 1, 1e-3, 1e-3)


def test_a_moment_beyond_all_calendars_is_no_start() -> None:
    trace, _ = read_trace("ts,volts\n1741000041000000000000,12.5\n1741000042000000000000,12.4\n")
    assert trace is not None
    assert trace.start is None


def test_arrays_of_unequal_length_are_refused() -> None:
    with pytest.raises(ValueError, match="one length"):
        make_trace(np.arange(3.0), np.arange(2.0))
    with pytest.raises(ValueError, match="must not fall"):
        make_trace(np.array([1.0, 0.0]), np.array([12.0, 12.0]))
