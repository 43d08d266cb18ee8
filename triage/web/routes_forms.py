"""Forms that add to a session. Each is one act, then a redirect, so that going back or reloading repeats nothing."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from triage.errors import InputError, StoreError, TriageError
from triage.intake.files import decode
from triage.model.session import Event, Vehicle
from triage.model.snapshot import PHASES, Phase, Reading, Snapshot
from triage.web.entering import enter_paste
from triage.web.forms import Filed, filed
from triage.web.parts import parts_of
from triage.web.render import Draft, query
from triage.web.routes_pages import session_page, sessions_page
from triage.web.safety import client_of
from triage.web.workbench import Workbench

M = TypeVar("M", bound=BaseModel)
#: An act gets the form and the name of the session, and says where to go: a place on its page, or another page.
Act = Callable[[Workbench, Filed, str], str]
VEHICLE_FIELDS = ("complaint", "label", "vin", "model_year", "drive", "battery", "nominal_volts")
#: Fields of the form that corrects a scan: name, words, least and most.
FIGURES = (("volts", "supply", 0.0, 40.0), ("lowest_volts", "lowest supply", 0.0, 40.0),
           ("ran_minutes", "minutes run", 0.0, 100_000.0))
OLD_FORM = ("this form is older than the server that got it (it was started anew, or the browser keeps no cookies): "
            "nothing was kept; send it again from here")


def made(model: type[M], values: dict[str, Any]) -> M:
    """The object, or InputError with one line about the first field that does not fit."""
    try:
        return model.model_validate({name: value for name, value in values.items() if value is not None})
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        raise InputError(f"{' '.join(map(str, first['loc'])).replace('_', ' ')}: {first['msg']}") from None


def phase_of(form: Filed) -> Phase | None:
    """The phase chosen; None: left to the text. Raises InputError."""
    phase = form.text("phase")
    if phase is not None and phase not in PHASES:
        raise InputError(f"phase: seen {phase[:40]!r}, expected one of {', '.join(PHASES)}")
    return phase


def paste(bench: Workbench, form: Filed, name: str) -> str:
    """Keep a scan, typed or as a file."""
    file, text = form.files.get("file"), form.fields.get("text", "")
    if file is not None and text.strip():
        raise InputError("both a text and a file were given: send them one after the other")
    if file is None and not text.strip():
        raise InputError("nothing was pasted and no file was chosen")
    # A form sends every line end as CR LF, whatever was pasted into it.
    body: str | bytes = text.replace("\r\n", "\n") if file is None else file[1]
    pasted, _ = enter_paste(bench, name, body, phase_of(form), None if file is None else file[0] or None)
    return f"entry-{pasted.entry_id}"


def correct(bench: Workbench, form: Filed, name: str) -> str:
    """Correct a scan; what stands as it stood is no correction."""
    number = form.whole("snapshot", "scan")
    now = bench.snapshot_of(name, number)
    wanted: dict[str, Any] = {"phase": phase_of(form), "engine": form.text("engine"),
                              "outside_supply": form.text("outside_supply")}
    wanted |= {field: form.number(field, words, least, most) for field, words, least, most in FIGURES}
    # "unknown" and nothing at all look the same in the form.
    changes = {field: value for field, value in wanted.items() if field in form.fields
               and value != getattr(now, field) and (value, getattr(now, field)) != (None, "unknown")}
    if changes.get("phase", "") is None:
        raise InputError("phase: choose one of the four")
    rename = _rename(form, now)
    if not changes and not rename:
        raise InputError("nothing was corrected: every field stands as it stood")
    bench.store.correct(number, rename=rename, **changes)
    return "scans"


def _rename(form: Filed, now: Snapshot) -> dict[str | int, str]:
    new = form.text("rename")
    if form.text("module") is None:
        if new is not None:
            raise InputError("module: choose the one that has a wrong name")
        return {}
    at = form.whole("module", "module")
    if at >= len(now.modules):
        raise InputError("module: the scan has no such module")
    if new is None:
        raise InputError("module: fill in what it is in truth")
    return {} if now.modules[at].module == new else {at: new}


def event(bench: Workbench, form: Filed, name: str) -> str:
    """Add an event; without a time of its own it happened now."""
    bench.store.add_event(name, made(Event, {
        "what": form.need("what", "event"), "module": form.text("module"), "part": form.text("part"),
        "answer": form.text("answer"), "note": form.text("note"), "at": form.moment("at", "time of the event")}))
    return "events"


def reading(bench: Workbench, form: Filed, name: str) -> str:
    """Add a measurement."""
    unit = form.text("unit")
    value = form.number("value", "value", -1e9, 1e9)
    if value is None:
        raise InputError("value: nothing was filled in")
    bench.store.add_reading(name, made(Reading, {
        "name": form.need("what", "measurement"), "value": value, "unit": None if unit == "other" else unit,
        "module": form.text("module")}))
    return "measurements"


def trace(bench: Workbench, form: Filed, name: str) -> str:
    """Keep a voltage trace that can be read."""
    file, text = form.files.get("file"), form.fields.get("text", "")
    label = None
    if file is not None:
        label, text = file[0] or None, decode(file[1], file[0] or None)
    if not text.strip():
        raise InputError("no trace was chosen and no rows were pasted")
    found, notices = bench.trace(text, label)
    if found is None:
        raise InputError(notices[0].message if notices else "no voltages found")
    entry = bench.store.add_trace(name, text, label)
    return f"/trace?{query({'name': name, 'entry': entry})}"


def vehicle(bench: Workbench, form: Filed, name: str) -> str:
    """Correct what is known of the vehicle."""
    new = vehicle_of(form).model_dump()
    known = bench.store.session(name).vehicle
    old = (known or Vehicle()).model_dump()
    changes = {field: new[field] for field in VEHICLE_FIELDS if field in form.fields and new[field] != old[field]
               and (new[field], old[field]) != (None, "unknown")}
    if not changes:
        raise InputError("nothing was corrected: every field stands as it stood")
    bench.store.correct_vehicle(name, **changes)
    return "vehicle"


def vehicle_of(form: Filed) -> Vehicle:
    """The vehicle as the form has it."""
    return made(Vehicle, {field: form.text(field) for field in VEHICLE_FIELDS})


def undo(bench: Workbench, form: Filed, name: str) -> str:
    """Strike out the last entry, if it is still the one that was shown."""
    shown = form.whole("entry", "entry")
    standing = [entry.id for entry in bench.store.entries(name)]
    if not standing or standing[-1] != shown:
        raise InputError("another entry was added meanwhile: nothing was struck out; look again at the record")
    bench.store.undo(name)
    return "record"


ACTS: dict[str, Act] = {"paste": paste, "correct": correct, "event": event, "reading": reading, "trace": trace,
                        "vehicle": vehicle, "undo": undo}


async def act(request: Request) -> Response:
    """Any form of the session page."""
    parts = parts_of(request)
    form = await filed(request, parts.tokens, parts.limits.body)
    kind, name = request.path_params["act"], form.text("name")
    if kind not in ACTS:
        raise InputError("there is no such form")
    if name is None:
        raise InputError("the form names no session")
    if not form.own:
        return parts.pages.page(request, "told.html", 403, words=OLD_FORM, asks_key=False,
                                kept_text=form.fields.get("text", ""), kept_name=name)
    return await run_in_threadpool(_act, request, parts.bench, form, kind, name)


def _act(request: Request, bench: Workbench, form: Filed, kind: str, name: str) -> Response:
    try:
        place = bench.acted(name, lambda: ACTS[kind](bench, form, name))
    except TriageError as error:
        # A name that leads nowhere has no page of its own to tell it on.
        if isinstance(error, StoreError) and all(one.name != name for one in bench.store.sessions()):
            raise
        return session_page(request, name, str(error), Draft({**form.fields, "form": kind}))
    return RedirectResponse(place if place.startswith("/") else f"/session?{query({'name': name})}#{place}", 303)


async def open_session(request: Request) -> Response:
    """A new session, with what is known of its vehicle."""
    parts = parts_of(request)
    form = await filed(request, parts.tokens, parts.limits.body)
    if not form.own:
        return await run_in_threadpool(sessions_page, request, OLD_FORM, Draft(form.fields))
    return await run_in_threadpool(_open, request, parts.bench, form)


def _open(request: Request, bench: Workbench, form: Filed) -> Response:
    try:
        name = form.need("name", "name of the session")
        if len(name) > 200 or not name.isprintable():
            raise InputError("name of the session: expected up to 200 printable characters")
        known = vehicle_of(form)
        bench.store.open_session(name, known if known.model_dump(exclude_none=True) else None)
    except TriageError as error:
        return sessions_page(request, str(error), Draft(form.fields))
    return RedirectResponse(f"/session?{query({'name': name})}", 303)


async def come_in(request: Request) -> Response:
    """Try an access key; the right one sets the cookie."""
    parts = parts_of(request)
    form = await filed(request, parts.tokens, 4096)
    if parts.keyring is None:
        return RedirectResponse("/", 303)
    wrong = parts.guard_key(form.fields.get("key", "").strip(), client_of(request.scope))
    if wrong is not None:
        return parts.pages.page(request, "told.html", wrong.status, words=wrong.words, asks_key=True)
    answer = RedirectResponse("/", 303)
    answer.headers.append("Set-Cookie", parts.keyring.set_cookie())
    return answer


routes = [
    Route("/open", open_session, methods=["POST"]), Route("/session/{act}", act, methods=["POST"]),
    Route("/key", come_in, methods=["POST"]),
]
