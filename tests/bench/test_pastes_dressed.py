"""The same text in another dress reads the same: quoted in a mail, set in, fenced, double-spaced, with other line ends,
as a page. What a mail program or a browser does to a text is common practice."""

from __future__ import annotations

import html
import sys
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from pastes_blind import pastes

import code_tables
from triage.intake.read import read_text

Facts = list[tuple[object, ...]]


def _each(change: Callable[[str], str]) -> Callable[[str], str]:
    """A change of each line as one of the text."""
    return lambda text: "\n".join(map(change, text.split("\n")))


DRESSES: dict[str, Callable[[str], str]] = {
    "line ends": lambda text: text.replace("\n", "\r\n"),
    "spaces at the end": _each(lambda line: line + "  "),
    "set in": _each(lambda line: "    " + line if line.strip() else line),
    "quoted": _each(lambda line: "> " + line),
    "quoted twice": _each(lambda line: ">> " + line),
    "fenced": lambda text: f"```\n{text}\n```",
    "in a mail": lambda text: f"Hi Karl, here is what I read this morning:\n\n{text}\n\nThanks, Tom\n",
    "spaces that do not break": lambda text: text.replace(" ", "\u00a0"),
    "long dashes": lambda text: text.replace("-", "\u2013"),
    "dots in one": lambda text: text.replace("...", "\u2026"),
    "wider gaps": lambda text: text.replace("\n\n", "\n\n\n"),
    "double-spaced": lambda text: text.replace("\n", "\n\n"),
    "page": lambda text: f"<html><body><pre>{html.escape(text, quote=False)}</pre></body></html>",
    "foot of a page": lambda text: f"{text}\n\nPage 1 of 1\n",
}


def facts(text: str) -> Facts:
    """All that is read of scans and modules."""
    tables = _tables()
    return [(snapshot.phase, snapshot.volts, sorted(
        ((module.printed or module.module).casefold(), str(module.responds),
         sorted((code.code, code.failure_type or "", code.status or "") for code in module.codes))
        for module in snapshot.modules)) for snapshot in read_text(text, tables).snapshots]


@lru_cache(maxsize=1)
def _tables() -> code_tables.Tables:
    return code_tables.load()


@lru_cache(maxsize=1)
def texts() -> list[tuple[str, Facts]]:
    """Texts of one kind of line ends that are no page or record themselves, with what is read of them."""
    found = [paste.text for paste in pastes(41, 70) if "\r" not in paste.text and paste.text.lstrip()[:1] not in "<{["]
    return [(text, facts(text)) for text in found]


@pytest.mark.parametrize("dress", DRESSES)
def test_a_text_reads_the_same_in_another_dress(dress: str) -> None:
    for text, plain in texts():
        assert facts(DRESSES[dress](text)) == plain, text
