"""Pages about outcomes: what was done and whether it cured, and how far the verdicts can be trusted."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from triage.errors import InputError
from triage.web.learn import CURED, FOUND, draw, outcomes_shown, rate_groups
from triage.web.parts import parts_of
from triage.web.render import Draft
from triage.web.routes_pages import asked


def outcomes_page(request: Request, name: str, problem: str | None = None, draft: Draft | None = None) -> Response:
    """The faults of a session with what became of them, and the form that records it. Raises InputError, StoreError."""
    parts = parts_of(request)
    weighed = parts.bench.weighed_if_it_can(name)
    if weighed is None:
        raise InputError(f"session {name!r} holds no scan that was weighed, so there is no fault to tell of")
    return parts.pages.page(
        request, "outcomes.html", 400 if problem else 200, known=weighed.held.known, problem=problem,
        draft=draft or Draft(fault=request.query_params.get("fault", "")),
        shown=outcomes_shown(parts.bench, weighed), cured=list(CURED.items()), found=list(FOUND.items()),
        rates=rate_groups(parts.bench.learned()))


def calibration_page(request: Request) -> Response:
    """How far the verdicts came true, and the rates as the shop's outcomes have changed them."""
    parts = parts_of(request)
    found, now = parts.bench.store.calibration(), parts.bench.learned()
    return parts.pages.page(request, "calibration.html", found=found, bins=found.rows(), drawing=draw(found),
                            rates=rate_groups(now), unfinished=now.open)


async def outcomes(request: Request) -> Response:
    """The outcomes of the session the address names."""
    return await run_in_threadpool(outcomes_page, request, asked(request, "name"))


routes = [Route("/outcomes", outcomes), Route("/calibration", calibration_page)]
