"""The examples in the docstrings of intake are true."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

import triage.intake

MODULES = sorted(module.name for module in pkgutil.walk_packages(triage.intake.__path__, "triage.intake."))


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_are_true(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0
