"""The application: store, pages, programs' interface and the guard around them, put together."""

from __future__ import annotations

import time
from collections.abc import AsyncIterator, Callable, Iterable
from contextlib import asynccontextmanager
from datetime import datetime
from pathlib import Path

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp, Scope

from triage.errors import InputError, TriageError
from triage.web import routes_api, routes_forms, routes_learn, routes_pages
from triage.web.forms import Tokens
from triage.web.keys import KEY_LEAST, Keyring, is_loopback
from triage.web.limits import Limits
from triage.web.parts import Parts, on_error, on_http, told
from triage.web.render import Pages
from triage.web.safety import Guard, Refusal
from triage.web.workbench import Workbench


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
    bench = Workbench(store_place, now)
    pages = Pages(tokens, bench.module_names)

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
        answer = told(Request(scope), pages, refusal.status, refusal.words, asks_key=refusal.status == 401)
        answer.headers.update(headers)
        return answer

    static = Mount("/static", StaticFiles(directory=Path(__file__).parent / "static"))
    app = Starlette(
        routes=[*routes_pages.routes, *routes_forms.routes, *routes_learn.routes, *routes_api.routes, static],
        lifespan=lifespan, middleware=[Middleware(guard)],
        exception_handlers={TriageError: on_error, HTTPException: on_http})
    app.state.parts = Parts(bench, pages, tokens, limits, keyring,
                            lambda tried, client: guards[-1].wrong_key(tried, client))
    return app
