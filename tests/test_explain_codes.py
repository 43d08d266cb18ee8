"""``triage explain`` of one code, of several, and of what is none."""

from __future__ import annotations

import json

import pytest
from typer.testing import CliRunner

from triage.cli.main import app

RUN = CliRunner()


@pytest.mark.parametrize(("told", "codes"), [
    (["U0428", "U0209"], ["U0428", "U0209"]), (["U0100", "87"], ["U0100"]), (["U0100-87"], ["U0100"]),
    (["SPN", "168", "FMI", "4", "P0562"], ["SPN 168 FMI 4", "P0562"]), (["P", "0562"], ["P0562"]),
])
def test_each_code_of_the_line_is_explained(told: list[str], codes: list[str]) -> None:
    printed = RUN.invoke(app, ["explain", *told]).output
    assert [block.splitlines()[0].split("  ")[0].split("-")[0] for block in printed.split("\n\n")] == codes
    found = json.loads(RUN.invoke(app, ["explain", "--json", *told]).output)
    assert [one["code"] for one in (found if len(codes) > 1 else [found])] == codes


def test_with_something_that_is_no_code_nothing_is_explained() -> None:
    found = RUN.invoke(app, ["explain", "P0562", "P05G2"])
    assert found.exit_code != 0
    assert "P0562  " not in found.output
