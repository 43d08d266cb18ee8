"""The same over HTTP as JSON: each call of the table as a route, checked on its way in."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from functools import lru_cache
from typing import Any

from pydantic import BaseModel, TypeAdapter, ValidationError
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from triage.cli.keep_weigh import engine_version
from triage.errors import TriageError
from triage.web.calls import CALLS, Call
from triage.web.openapi import description
from triage.web.parts import parts_of

Endpoint = Callable[[Request], Awaitable[Response]]


class MisfitError(TriageError):
    """A key or value of a query or body that does not fit; one line names it."""


def _endpoint(call: Call) -> Endpoint:
    answer: TypeAdapter[Any] = TypeAdapter(call.answer)

    async def endpoint(request: Request) -> Response:
        body: BaseModel | None = None
        try:
            query = _query(request, call.query)
            if call.body is not None:
                kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
                # Only this kind makes a browser ask first before it sends across sites.
                if kind != "application/json":
                    return JSONResponse({"error": "the body must be application/json"}, 415)
                body = _body(await request.body(), call.body)
        except MisfitError as error:
            return JSONResponse({"error": str(error)}, 422)
        result = await run_in_threadpool(call.run, parts_of(request).bench, query, body)
        text = result.encode() if isinstance(result, str) else answer.dump_json(result)
        return Response(text, call.status, media_type="application/json")

    return endpoint


def _query(request: Request, model: type[BaseModel]) -> BaseModel:
    pairs = request.query_params.multi_items()
    names = [name for name, _ in pairs]
    if len(set(names)) != len(names):
        raise MisfitError("a name stands twice in the query")
    try:
        return model.model_validate(dict(pairs))
    except ValidationError as error:
        raise MisfitError(_in_one_line(error)) from None


def _body(data: bytes, model: type[BaseModel]) -> BaseModel:
    try:
        return model.model_validate_json(data, strict=True)
    except ValidationError as error:
        raise MisfitError(_in_one_line(error)) from None


def _in_one_line(error: ValidationError) -> str:
    """The first thing wrong, with its path, and the count of the rest."""
    problems = error.errors(include_url=False, include_input=False, include_context=False)
    path = ".".join(str(step) for step in problems[0]["loc"])
    more = f" (and {len(problems) - 1} more)" if len(problems) > 1 else ""
    line = f"{path}: {problems[0]['msg']}{more}" if path else f"{problems[0]['msg']}{more}"
    return " ".join(line.encode("utf-8", "replace").decode().split())[:500]


@lru_cache(maxsize=2)
def _described(keyed: bool) -> dict[str, Any]:
    return description(CALLS, engine_version(), keyed)


async def openapi(request: Request) -> Response:
    """The description of all calls."""
    return JSONResponse(_described(parts_of(request).keyring is not None))


def _routes() -> list[Route]:
    by_path: dict[str, dict[str, Call]] = {}
    for call in CALLS:
        by_path.setdefault(call.path, {})[call.method] = call
    made = [Route("/api/openapi.json", openapi)]
    for path, calls in by_path.items():
        endpoints = {method: _endpoint(call) for method, call in calls.items()}

        def choose(endpoints: dict[str, Endpoint]) -> Endpoint:
            async def chosen(request: Request) -> Response:
                return await endpoints["GET" if request.method == "HEAD" else request.method](request)

            return chosen

        made.append(Route(path, choose(endpoints), methods=list(endpoints)))
    return made


routes = _routes()
