"""The README shows real output: every console block is run and compared. TRIAGE_WRITE_README=1 writes it anew.

In a block a line that starts with ``$ `` is a command; what follows is its output, in which a line ``...`` stands
for any number of lines.
"""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
BLOCK = re.compile(r"```console\n(.*?)```", re.DOTALL)


def commands(text: str) -> list[tuple[str, str]]:
    """Each command of the console blocks with the output it shows."""
    found = []
    for block in BLOCK.findall(text):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, shown = part.partition("\n")
            found.append((command, shown))
    return found


def run(command: str) -> str:
    words = shlex.split(command)
    assert words[0] == "triage", f"the README runs its own commands only, seen {command!r}"
    environment = {**os.environ, "COLUMNS": "100", "NO_COLOR": "1", "PYTHONIOENCODING": "utf-8"}
    result = subprocess.run([sys.executable, "-m", "triage", *words[1:]], cwd=ROOT, env=environment,
                            capture_output=True, text=True, encoding="utf-8", check=False)
    return result.stdout + result.stderr


def shown_pattern(shown: str) -> str:
    """A pattern that matches the real output, ``...`` lines standing for any lines."""
    parts = re.split(r"^\.\.\.\n", shown, flags=re.MULTILINE)
    return r"(?:.*\n)*?".join(re.escape(part) for part in parts)


def elided(shown: str, real: str) -> str:
    """The new output, cut where the old one was: the first lines, then ``...``, then the last lines if any."""
    parts = re.split(r"^\.\.\.\n", shown, flags=re.MULTILINE)
    if len(parts) == 1:
        return real
    lines = real.splitlines(keepends=True)
    head, tail = parts[0].count("\n"), parts[-1].count("\n")
    return "".join([*lines[:head], "...\n", *(lines[-tail:] if tail else [])])


@pytest.mark.parametrize("command", [command for command, _ in commands(README.read_text(encoding="utf-8"))])
def test_readme_shows_what_its_commands_print(command: str) -> None:
    text = README.read_text(encoding="utf-8")
    shown = next(output for name, output in commands(text) if name == command)
    real = run(command)
    if os.environ.get("TRIAGE_WRITE_README"):
        new = text.replace(f"$ {command}\n{shown}", f"$ {command}\n{elided(shown, real)}")
        README.write_text(new, encoding="utf-8")
        return
    assert re.fullmatch(shown_pattern(shown), real), f"{command} prints:\n{real}"


def test_first_paragraph_states_the_job() -> None:
    text = README.read_text(encoding="utf-8")
    first = text.split("\n\n")[1]
    for word in ("technician", "12 V", "trouble codes", "low-voltage noise", "hard faults"):
        assert word in first
