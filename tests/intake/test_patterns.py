"""Patterns compiled on first use: each one is sound, and it gives what the pattern itself gives."""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Iterator

import pytest

import triage.intake
from triage.intake.plain.patterns import Waiting, lazily


def waiting(value: object) -> Iterator[Waiting]:
    """The put-off patterns in a module's variable: by itself or in tuples."""
    if isinstance(value, Waiting):
        yield value
    elif isinstance(value, tuple):
        for part in value:
            yield from waiting(part)


MODULES = [module.name for module in pkgutil.walk_packages(triage.intake.__path__, "triage.intake.")]


@pytest.mark.parametrize("name", MODULES)
def test_every_pattern_put_off_is_sound(name: str) -> None:
    module = importlib.import_module(name)
    for value in vars(module).values():
        for each in waiting(value):
            re.compile(each.pattern, each.given)


def test_it_does_what_the_pattern_does() -> None:
    plain, put_off = re.compile(r"(v)(\d+)", re.IGNORECASE), lazily(r"(v)(\d+)", re.IGNORECASE)
    text = "V12, v5 and v"
    for method in ("match", "search", "fullmatch"):
        got, expected = getattr(put_off, method)(text), getattr(plain, method)(text)
        assert (got and (got.span(), got.groups())) == (expected and (expected.span(), expected.groups()))
    assert [match[0] for match in put_off.finditer(text, 3)] == [match[0] for match in plain.finditer(text, 3)]
    assert put_off.findall(text) == plain.findall(text)
    assert put_off.split(text) == plain.split(text)
    assert put_off.sub(r"\2\1", text) == plain.sub(r"\2\1", text)
    assert (put_off.pattern, put_off.groups) == (plain.pattern, plain.groups)


def test_a_name_that_no_pattern_has_is_an_error() -> None:
    with pytest.raises(AttributeError):
        lazily("a").seek  # type: ignore[attr-defined]  # noqa: B018
