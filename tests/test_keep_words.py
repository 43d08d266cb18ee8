"""The words of the commands that keep sessions: options, help, and how a fault is named."""

from __future__ import annotations

import json
import subprocess
import sys
from typing import get_args

import pytest

from code_tables import load
from triage.cli import keep_options
from triage.cli.keep_learn import find_fault
from triage.errors import TriageError
from triage.model.session import BatteryType, Drive, Event, What, parse_session
from triage.model.snapshot import PHASES, Engine, OutsideSupply
from triage.model.verdict import CAUSES


def test_the_words_of_the_options_are_those_of_the_model() -> None:
    assert keep_options.PHASES == PHASES
    assert keep_options.CAUSES == CAUSES
    for words, literal in (
            (keep_options.WHATS, What), (keep_options.OUTSIDE, OutsideSupply), (keep_options.ENGINES, Engine),
            (keep_options.DRIVES, Drive), (keep_options.BATTERIES, BatteryType)):
        assert words == get_args(literal)
    for field, words in (("part", keep_options.PARTS), ("answer", keep_options.ANSWERS)):
        assert words == get_args(get_args(Event.model_fields[field].annotation)[0])


def test_help_comes_without_the_heavy_imports() -> None:
    code = ("import sys, triage.cli.main\n"
            "print([m for m in ('pandas', 'numpy', 'sqlalchemy', 'pydantic') if m in sys.modules])")
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"


def test_a_fault_is_found_by_any_spelling() -> None:
    session = parse_session(json.dumps({"job": "j", "snapshots": [{"phase": "before-clear", "modules": [
        {"module": "engine control", "printed": "Motor", "codes": [
            {"code": "P0118"}, {"code": "P0562", "failure_type": "16"}, {"code": "P0562", "failure_type": "17"}]},
        {"module": "gateway", "codes": [{"code": "SPN 168 FMI 4"}, {"code": "4711"}]}]}]}))
    tables = load()
    assert find_fault(session, "motor", "p0118", tables) == ("engine control", "P0118", None)
    assert find_fault(session, "ECM", "P0562-16", tables) == ("engine control", "P0562", "16")
    assert find_fault(session, "Gateway", "spn168 fmi4", tables) == ("gateway", "SPN 168 FMI 4", None)
    assert find_fault(session, "gateway", "4711", tables) == ("gateway", "4711", None)
    with pytest.raises(TriageError, match=r"holds several faults ECM P0562: engine control P0562-16, .*say which"):
        find_fault(session, "ECM", "P0562", tables)
    with pytest.raises(TriageError, match="holds no fault radio P0118; it holds engine control P0118"):
        find_fault(session, "radio", "P0118", tables)
