"""The start of the command line: no more is set up than the command that is asked for, and it is the same command."""

from __future__ import annotations

import pytest
from typer.main import get_command
from typer.testing import CliRunner

from triage.cli.main import app, narrowed

COMMANDS = sorted(get_command(app).commands)  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("rest", ["--help", "--no-such-option"])
def test_a_command_set_up_alone_is_the_command(name: str, rest: str) -> None:
    alone, whole = (CliRunner().invoke(program, [name, rest]) for program in (narrowed(name), app))
    assert (alone.exit_code, alone.output) == (whole.exit_code, whole.output)
    assert len(get_command(narrowed(name)).commands) <= 2  # type: ignore[attr-defined]


@pytest.mark.parametrize("first", ["", "--help", "no-such-command", "Shortlist"])
def test_what_names_no_command_gets_the_whole_app(first: str) -> None:
    assert narrowed(first) is app
