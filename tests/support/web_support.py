"""A server on this machine with an empty store, and how a browser without scripts fills in its forms."""

from __future__ import annotations

import re
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx
import uvicorn

import triage
from triage.web.app import create_app
from triage.web.limits import Limits, Rate

DEMO = sorted((Path(triage.__file__).parent / "demo").glob("*.txt"))
FAST = Rate(1e9, 1e9)
#: No rate stops a test that does not ask for one.
UNHURRIED = Limits(requests=FAST, writes=FAST)


@dataclass(frozen=True, slots=True)
class Site:
    """A server under test."""

    base: str
    app: Any
    place: Path

    def client(self, **more: Any) -> httpx.Client:
        """A client that keeps cookies, as a browser does."""
        return httpx.Client(base_url=self.base, trust_env=False, timeout=60, **more)

    @property
    def store(self) -> Any:
        """The open store."""
        return self.app.state.parts.bench.store


@contextmanager
def served(place: Path, **options: Any) -> Iterator[Site]:
    """A server in a thread, on a port of its own."""
    app = create_app(place, **{"limits": UNHURRIED, **options})
    listener = socket.create_server(("127.0.0.1", 0))
    server = uvicorn.Server(uvicorn.Config(app, log_level="critical", ws="none", access_log=False))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    try:
        until = time.monotonic() + 20
        while not server.started:
            assert time.monotonic() < until, "the server did not start"
            time.sleep(0.01)
        yield Site(f"http://127.0.0.1:{listener.getsockname()[1]}", app, place)
    finally:
        server.should_exit = True
        thread.join(20)
        listener.close()


def token(page: str) -> str:
    """The token of the forms of a page."""
    found = re.search(r'name="token" value="([0-9a-f]{64})"', page)
    assert found is not None
    return found[1]


def opened(client: httpx.Client, name: str = "van 7", **fields: str) -> str:
    """Open a session; the token for its forms."""
    answer = client.post("/open", data={"token": token(client.get("/").text), "name": name, **fields})
    assert answer.status_code == 303, answer.text
    return token(client.get(answer.headers["location"]).text)


def sent(client: httpx.Client, act: str, name: str = "van 7", **fields: Any) -> httpx.Response:
    """Fill in a form of the session page and send it."""
    page = client.get("/session", params={"name": name})
    files = fields.pop("files", None)
    return client.post(f"/session/{act}", data={"token": token(page.text), "name": name, **fields}, files=files)
