"""Whole outputs of one small assessment. TRIAGE_WRITE_GOLDEN=1 writes them anew: look at them before they are kept."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from triage.model.assessment import Assessment
from triage.reports.as_json import verdict_json
from triage.reports.brief import brief
from triage.reports.html import html
from triage.reports.markdown import markdown
from triage.reports.picture import picture
from triage.reports.terminal import terminal

FOLDER = Path(__file__).parent / "golden"
OUTPUTS: dict[str, Callable[[Assessment], str]] = {
    "terminal_80.txt": lambda seen: terminal(seen, width=80),
    "terminal_100_all_ledger.txt": lambda seen: terminal(seen, width=100, show_all=True, ledger=True),
    "terminal_60_ascii.txt": lambda seen: terminal(seen, width=60, ascii_marks=True),
    "message.md": markdown,
    "message_all_ledger.md": lambda seen: markdown(seen, show_all=True, ledger=True),
    "brief.txt": brief,
    "page.html": html,
    "picture.svg": picture,
    "picture_counts.svg": lambda seen: picture(seen, rows=1),
    "verdict.json": lambda seen: verdict_json(seen.verdict, ledger=True, indent=1) + "\n",
}


@pytest.mark.parametrize("name", OUTPUTS)
def test_output_is_as_kept(name: str, small: Assessment) -> None:
    path = FOLDER / name
    said = OUTPUTS[name](small)
    if os.environ.get("TRIAGE_WRITE_GOLDEN"):
        path.write_text(said, encoding="utf-8")
    assert said == path.read_text(encoding="utf-8")


def test_json_leaves_the_sums_out_unless_asked(small: Assessment) -> None:
    plain = json.loads(verdict_json(small.verdict))
    assert all("ledger" not in fault for fault in plain["faults"])
    assert {**plain, "faults": 0} == {**small.verdict, "faults": 0}
