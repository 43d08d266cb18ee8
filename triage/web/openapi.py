"""The OpenAPI description, made from the table of calls and the models they use."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pydantic import TypeAdapter

from triage.web.api_models import Problem
from triage.web.calls import Call

#: Answers that any call may give, in words.
REFUSALS = {
    400: "The input can't be used as a whole, or the address is none of ours.",
    401: "The access key is missing or wrong.",
    403: "Sent from a page of another site.",
    404: "There is no such session or snapshot.",
    409: "There is a session of that name already.",
    413: "Larger than this server takes.",
    415: "The body is not application/json.",
    421: "This server does not answer to that name.",
    422: "A key or value does not fit; the line names it.",
    429: "Too many requests at once; Retry-After says how long to wait, in seconds.",
}


def description(calls: Sequence[Call], version: str, keyed: bool) -> dict[str, Any]:
    """The description of ``calls`` (OpenAPI 3.1). ``keyed``: an access key is asked for."""
    models: list[tuple[Any, Any, TypeAdapter[Any]]] = []
    for call in calls:
        models += [((call, "query"), "validation", TypeAdapter(call.query)),
                   ((call, "answer"), "serialization", TypeAdapter(call.answer))]
        if call.body is not None:
            models.append(((call, "body"), "validation", TypeAdapter(call.body)))
    models.append((("problem",), "serialization", TypeAdapter(Problem)))
    found, shared = TypeAdapter.json_schemas(models, ref_template="#/components/schemas/{model}")
    _local_times([*found.values(), shared])
    schemas: dict[str, Any] = shared.get("$defs", {})
    paths: dict[str, dict[str, Any]] = {}
    for call in calls:
        query = _resolved(found[(call, "query"), "validation"], schemas)
        body = found[(call, "body"), "validation"] if call.body is not None else None
        answer = found[(call, "answer"), "serialization"]
        paths.setdefault(call.path, {})[call.method.lower()] = _operation(
            call, query, body, answer, found[("problem",), "serialization"])
    described: dict[str, Any] = {
        "openapi": "3.1.0",
        "info": {"title": "triage", "version": version,
                 "description": "Keeps sessions at vehicles and says which trouble codes persist, and why."},
        "paths": paths, "components": {"schemas": schemas}}
    if keyed:
        described["components"]["securitySchemes"] = {"key": {"type": "http", "scheme": "bearer"}}
        described["security"] = [{"key": []}]
    return described


def _operation(call: Call, query: dict[str, Any], body: Any, answer: Any, problem: Any) -> dict[str, Any]:
    """One call. Which refusals it may give follows from what it takes."""
    told = {"200" if call.status == 200 else str(call.status): {
        "description": "Done.", "content": {"application/json": {"schema": answer}}}}
    for status, words in REFUSALS.items():
        if call.body is not None or status not in (413, 415):
            told[str(status)] = {"description": words, "content": {"application/json": {"schema": problem}}}
    operation: dict[str, Any] = {"summary": call.does, "operationId": call.run.__name__, "responses": told}
    required = query.get("required", [])
    if query.get("properties"):
        operation["parameters"] = [
            {"name": name, "in": "query", "required": name in required, "schema": schema}
            for name, schema in query["properties"].items()]
    if body is not None:
        operation["requestBody"] = {"required": True, "content": {"application/json": {"schema": body}}}
    return operation


def _local_times(value: Any) -> None:
    """Times of the job file may come without a zone, which "date-time" (RFC 3339) does not allow."""
    if isinstance(value, dict):
        if value.get("format") == "date-time":
            del value["format"]
            value["description"] = "ISO 8601; without a zone it is local time"
        value = list(value.values())
    if isinstance(value, list):
        for part in value:
            _local_times(part)


def _resolved(schema: dict[str, Any], schemas: dict[str, Any]) -> dict[str, Any]:
    """The schema itself where ``schema`` only points to it."""
    return schemas[schema["$ref"].rpartition("/")[2]] if "$ref" in schema else schema
