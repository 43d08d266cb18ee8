"""What the routes work with, and how they tell that something went wrong."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from triage.errors import StoreError, TriageError
from triage.web.forms import Tokens
from triage.web.keys import Keyring
from triage.web.limits import Limits
from triage.web.render import Pages
from triage.web.safety import Refusal
from triage.web.workbench import Workbench


class Parts(NamedTuple):
    """What the routes work with, as ``request.app.state.parts``."""

    bench: Workbench
    pages: Pages
    tokens: Tokens
    limits: Limits
    keyring: Keyring | None
    guard_key: Callable[[str, str], Refusal | None]


def parts_of(request: Request) -> Parts:
    """The parts of the application that handles ``request``."""
    found: Parts = request.app.state.parts
    return found


def told(request: Request, pages: Pages, status: int, words: str, *, asks_key: bool = False) -> Response:
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


async def on_error(request: Request, error: Exception) -> Response:
    """An error of the program's own."""
    assert isinstance(error, TriageError)
    return told(request, parts_of(request).pages, status_of(error), str(error))


async def on_http(request: Request, error: Exception) -> Response:
    """An address or method that is not there."""
    assert isinstance(error, HTTPException)
    words = {404: "there is no such page", 405: "this address does not take that method"}.get(
        error.status_code, error.detail)
    answer = told(request, parts_of(request).pages, error.status_code, words)
    answer.headers.update(error.headers or {})
    return answer
