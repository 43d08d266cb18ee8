"""The application: store, pages, programs' interface and the guard around them, put together."""

from __future__ import annotations

import time
from collections.abc import AsyncIterator, Callable, Iterable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp, Scope

from triage.errors import InputError, StoreError, TriageError
from triage.web.forms import Tokens
from triage.web.keys import KEY_LEAST, Keyring, is_loopback
from triage.web.limits import Limits
from triage.web.render import Pages
from triage.web.safety import Guard, Refusal
from triage.web.workbench import Workbench


@dataclass(frozen=True, slots=True)
class Parts:
    """What the routes work with, as ``request.app.state.parts``."""

    bench: Workbench
    pages: Pages
    tokens: Tokens
    limits: Limits
    keyring: Keyring | None
    guard_key: Callable[[str, str], Refusal | None]


def create_app(
    store_place: str | Path | None = None, *, key: str | None = None, host: str = "127.0.0.1",
    names: Iterable[str] = (), limits: Limits | None = None, now: Callable[[], datetime] | None = None,
    clock: Callable[[], float] = time.monotonic,
) -> Starlette:
    """The web application over the store at ``store_place`` (None: the user's data folder).

    ``host``: the address it is served on; any but this machine's own needs ``key``. ``names``: further names it
    answers to. ``now`` and ``clock`` stand in for the clocks. Raises InputError without a fit key, StoreError where
    the store can't be opened.
    """
    if key is None and not is_loopback(host):
        raise InputError(f"{host} can be reached by others: an access key is needed")
    if key is not None and len(key) < KEY_LEAST:
        raise InputError(f"the access key has {len(key)} characters; expected {KEY_LEAST} or more")
    limits, tokens = limits or Limits(), Tokens()
    keyring = None if key is None else Keyring(key)
    bench, pages = Workbench(store_place, now), Pages(tokens)

    @asynccontextmanager
    async def lifespan(_app: Starlette) -> AsyncIterator[None]:
        yield
        bench.close()

    guards: list[Guard] = []

    def guard(app: ASGIApp) -> Guard:
        guards.append(Guard(app, refuse=refuse, bound=host, names=names, keyring=keyring, limits=limits, clock=clock))
        return guards[-1]

    def refuse(scope: Scope, refusal: Refusal) -> Response:
        headers = {} if refusal.wait_seconds is None else {"Retry-After": str(refusal.wait_seconds)}
        answer = _told(Request(scope), pages, refusal.status, refusal.words, asks_key=refusal.status == 401)
        answer.headers.update(headers)
        return answer

    from triage.web.routes_api import routes as api_routes
    from triage.web.routes_forms import routes as form_routes
    from triage.web.routes_pages import routes as page_routes

    static = Mount("/static", StaticFiles(directory=Path(__file__).parent / "static"))
    app = Starlette(
        routes=[*page_routes, *form_routes, *api_routes, static], lifespan=lifespan,
        middleware=[Middleware(guard)],
        exception_handlers={TriageError: _on_error, HTTPException: _on_http})
    app.state.parts = Parts(bench, pages, tokens, limits, keyring,
                            lambda tried, client: guards[-1].wrong_key(tried, client))
    return app


def parts_of(request: Request) -> Parts:
    """The parts of the application that handles ``request``."""
    found: Parts = request.app.state.parts
    return found


def _told(request: Request, pages: Pages, status: int, words: str, *, asks_key: bool = False) -> Response:
    """One line about what went wrong: a page for a person, JSON for a program."""
    if request.url.path.startswith("/api"):
        return JSONResponse({"error": words}, status)
    return pages.page(request, "told.html", status, words=words, asks_key=asks_key)


def status_of(error: TriageError) -> int:
    """404 for a session or snapshot that is not there, 409 for one that is there already, else 400."""
    text = str(error)
    if isinstance(error, StoreError):
        if text.startswith("no s"):
            return 404
        if "already" in text:
            return 409
    return 400


async def _on_error(request: Request, error: Exception) -> Response:
    assert isinstance(error, TriageError)
    return _told(request, parts_of(request).pages, status_of(error), str(error))


async def _on_http(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    words = {404: "there is no such page", 405: "this address does not take that method"}.get(
        error.status_code, error.detail)
    answer = _told(request, parts_of(request).pages, error.status_code, words)
    answer.headers.update(error.headers or {})
    return answer
