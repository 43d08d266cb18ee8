"""Fixtures of the web tests: a server with an empty store, a client, a browser."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import httpx
import pytest
from web_support import DEMO, Site, opened, sent, served


@pytest.fixture
def serve(tmp_path: Path) -> Iterator[Callable[..., Site]]:
    """Starts servers with options of their own."""
    with ExitStack() as stack:
        yield lambda **options: stack.enter_context(served(tmp_path / "kept" / "sessions.db", **options))


@pytest.fixture
def site(serve: Callable[..., Site]) -> Site:
    """A server as it is started without options."""
    return serve()


@pytest.fixture
def client(site: Site) -> Iterator[httpx.Client]:
    """A browser without scripts."""
    with site.client() as opened:
        yield opened


@pytest.fixture
def with_demo(client: httpx.Client) -> httpx.Client:
    """A client whose store holds the session "van 7" with the three invented scans."""
    opened(client, complaint="does not start")
    for file in DEMO:
        assert sent(client, "paste", text=file.read_text(encoding="utf-8")).status_code == 303
    return client


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Debian's chromium, driven by playwright."""
    api = pytest.importorskip("playwright.sync_api", reason="the browser tests need playwright (pip)")
    where = shutil.which("chromium") or shutil.which("chromium-browser")
    if where is None:
        pytest.skip("the browser tests need chromium (Debian: apt-get install chromium)")
    with api.sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=where, args=[
            "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
            "--disable-component-update", "--disable-sync"])
        yield chromium
        chromium.close()
