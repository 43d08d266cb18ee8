"""Pages to read. Every one is a plain GET that changes nothing, but for the verdict kept with a hand-off."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from triage.cli.keep_words import acts_of
from triage.errors import InputError, StoreError
from triage.intake.files import decode
from triage.model.session import Vehicle
from triage.reports.as_json import verdict_json
from triage.reports.brief import brief
from triage.reports.html import STYLE, body, html
from triage.reports.markdown import markdown
from triage.store.rows import Head, KnownSession, Paste
from triage.web.forms import who_of
from triage.web.parts import parts_of
from triage.web.render import Draft, plain
from triage.web.shown import lines_shown, pastes_shown
from triage.web.traces import trace_shown
from triage.web.workbench import Workbench, guess_of

#: A text longer than this is shown by its marked lines alone.
LINES_MOST = 5000
#: Sessions on the first page, and how many may be there before it offers to find one.
MOST, FEW = 50, 8
DRAWING = '<div class="drawing" tabindex="0" role="group" aria-label="what was seen">'


def asked(request: Request, name: str) -> str:
    """A value of the query. Raises InputError where it is not there."""
    value = request.query_params.get(name)
    if not value:
        raise InputError(f"the address lacks {name!r}")
    return value


def _number(request: Request, name: str) -> int:
    value = asked(request, name)
    if not value.isdecimal() or len(value) > 15:
        raise InputError(f"{name}: expected a number")
    return int(value)


def sessions_page(request: Request, problem: str | None = None, draft: Draft | None = None) -> Response:
    """The latest sessions, or those that are looked for, and the form that opens one."""
    parts = parts_of(request)
    every = sorted(parts.bench.store.sessions(), key=lambda one: one.last_at, reverse=True)
    find = request.query_params.get("find", "").strip()
    found = [one for one in every if is_found(one, find)]
    return parts.pages.page(request, "sessions.html", 400 if problem else 200, sessions=found[:MOST], find=find,
                            more=max(0, len(found) - MOST), total=len(every), few=FEW, problem=problem,
                            draft=draft or Draft())


def is_found(known: KnownSession, find: str) -> bool:
    """Whether every word of ``find`` is in the name of the session, or the label, VIN or complaint of its vehicle."""
    vehicle = known.vehicle or Vehicle()
    held = " ".join(text for text in (known.name, vehicle.label, vehicle.vin, vehicle.complaint) if text).casefold()
    return all(word in held for word in find.casefold().split())


def session_page(request: Request, name: str, problem: str | None = None, draft: Draft | None = None) -> Response:
    """One session: what came in, what follows from it, and the forms that add to it."""
    parts = parts_of(request)
    return parts.pages.page(request, "session.html", 400 if problem else 200, problem=problem, draft=draft or Draft(),
                            who=who_of(request.headers), **session_values(parts.bench, name))


def session_values(bench: Workbench, name: str) -> dict[str, Any]:
    """What the page of a session shows."""
    held = bench.contents(name)
    known, entries = held.known, held.entries
    weighed = bench.weighed_if_it_can(name, held)
    return {
        "known": known, "title": (known.vehicle and known.vehicle.label) or name, "weighed": weighed,
        "shown": weighed.shown if weighed else None, "changed": bench.changes(weighed) if weighed else [],
        "pastes": pastes_shown(bench, held), "guess": guess_of(held), "events": held.events,
        "readings": held.readings, "traces": held.traces, "entries": entries, "record": acts_of(entries),
        "last": next((entry for entry in reversed(entries) if entry.struck_at is None), None),
        "vehicle": vehicle_draft(known.vehicle),
    }


def vehicle_draft(vehicle: Vehicle | None) -> Draft:
    """The vehicle as it stands in the fields of its form."""
    if vehicle is None:
        return Draft()
    return Draft({field: plain(value) if isinstance(value, int | float) else str(value)
                  for field, value in vehicle.model_dump(exclude_none=True).items()})


def paste_page(request: Request) -> Response:
    """A paste as it came, with its notices at their place."""
    parts = parts_of(request)
    name = asked(request, "name")
    paste = _paste(parts.bench, name, _number(request, "entry"))
    notices = parts.bench.notices_of(name, Head(paste.entry_id, paste.recorded_at, paste.source))
    text = paste.body if isinstance(paste.body, str) else _decoded(paste.body)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    lines = lines_shown(notices, text)
    cut = len(lines) > LINES_MOST
    lines = [line for line in lines if line.notices] if cut else lines
    return parts.pages.page(request, "paste.html", known=parts.bench.store.session(name), paste=paste, lines=lines,
                            cut=cut, loose=[notice for notice in notices if notice.line is None])


def _decoded(body: bytes) -> str:
    """The text of a file; what is no text (a PDF) has none to show."""
    try:
        return "" if body.lstrip().startswith(b"%PDF-") else decode(body)
    except InputError:
        return ""


def _paste(bench: Workbench, name: str, entry: int) -> Paste:
    found = bench.store.pastes(name, with_struck=True, entry=entry)
    if not found:
        raise StoreError(f"no such paste {entry} in session {name!r}")
    return found[0]


def paste_file(request: Request) -> Response:
    """The paste to be saved, exactly as it came. Never shown, so that nothing in it can run."""
    paste = _paste(parts_of(request).bench, asked(request, "name"), _number(request, "entry"))
    data = paste.body.encode("utf-8", "surrogatepass") if isinstance(paste.body, str) else paste.body
    ending = "txt" if isinstance(paste.body, str) else "bin"
    return _download(data, "application/octet-stream", f"paste-{paste.entry_id}.{ending}")


def _download(data: str | bytes, kind: str, name: str) -> Response:
    return Response(data, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{name}"'})


def trace_page(request: Request) -> Response:
    """A voltage trace: the curve, its segments, what they mean, and what it says of the scans."""
    parts = parts_of(request)
    name = asked(request, "name")
    return parts.pages.page(request, "trace.html", known=parts.bench.store.session(name),
                            trace=trace_shown(parts.bench, name, _number(request, "entry")))


def compare_page(request: Request) -> Response:
    """Two sessions side by side; without a choice, this one and the one before it at the same vehicle."""
    parts = parts_of(request)
    store, name = parts.bench.store, asked(request, "name")
    earlier = request.query_params.get("earlier")
    before = [one.name for one in store.earlier_sessions(name) if one.snapshots]
    chosen = earlier or (before[-1] if before else None)
    others = [one for one in store.sessions() if one.name != name and one.snapshots]
    comparison, remark = parts.bench.compared(chosen, name) if chosen else (None, "")
    return parts.pages.page(request, "compare.html", known=store.session(name), chosen=chosen, before=before,
                            others=others, comparison=comparison, remark=remark)


def handoff_page(request: Request) -> Response:
    """The page for the lead technician, ready to print. The verdict it shows is kept with the session."""
    parts = parts_of(request)
    weighed = parts.bench.handed_off(asked(request, "name"))
    # On a phone the picture is wider than the window: the keyboard too must be able to move it.
    shown = body(weighed.assessment).replace('<div class="drawing">', DRAWING)
    return parts.pages.page(request, "handoff.html", known=weighed.held.known, body=Markup(shown))


def handoff_file(request: Request) -> Response:
    """The hand-off as a file: HTML, Markdown, five lines, or JSON."""
    weighed = parts_of(request).bench.handed_off(asked(request, "name"))
    form = asked(request, "form")
    told = weighed.assessment
    if form == "html":
        return _download(html(told), "text/html; charset=utf-8", "short-list.html")
    if form == "markdown":
        return _download(markdown(told), "text/markdown; charset=utf-8", "short-list.md")
    if form == "brief":
        return PlainTextResponse(brief(told))
    if form == "json":
        return _download(verdict_json(told.verdict, ledger=True, indent=2) + "\n", "application/json", "verdict.json")
    raise InputError("form: expected html, markdown, brief or json")


def handoff_style(_request: Request) -> Response:
    """The style sheet of the hand-off page."""
    return Response(STYLE, media_type="text/css")


async def one_session(request: Request) -> Response:
    """The page of the session the address names."""
    return await run_in_threadpool(session_page, request, asked(request, "name"))


async def all_sessions(request: Request) -> Response:
    """The first page."""
    return await run_in_threadpool(sessions_page, request)


async def key_page(request: Request) -> Response:
    """The form that asks for the access key."""
    return parts_of(request).pages.page(request, "told.html", words="this address needs the access key",
                                        asks_key=True)


routes = [
    Route("/", all_sessions), Route("/session", one_session), Route("/paste", paste_page),
    Route("/paste/file", paste_file), Route("/trace", trace_page), Route("/compare", compare_page),
    Route("/handoff", handoff_page), Route("/handoff/file", handoff_file),
    Route("/static/handoff.css", handoff_style), Route("/key", key_page),
]
