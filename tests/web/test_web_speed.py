"""The page adds little to the engine's own time. A ratio, since the machine a test runs on is anybody's."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

#: Storing, two sets of checks over HTTP and 60 modules on a page; measured 2.3 to 2.8 (project's own choice of bound).
MOST = 4.0


def bench() -> ModuleType:
    """The benchmark, which is no part of the package."""
    file = Path(__file__).parent.parent / "bench" / "bench_web.py"
    spec = importlib.util.spec_from_file_location("bench_web", file)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["bench_web"] = module
    spec.loader.exec_module(module)
    return module


def test_paste_to_page_is_mostly_the_engine() -> None:
    found = bench().measure(3)
    assert found.ratio < MOST, found
