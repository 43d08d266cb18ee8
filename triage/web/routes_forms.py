"""Forms that add to a session. Each is one act, then a redirect, so that going back or reloading repeats nothing."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from triage.errors import InputError, StoreError, TriageError
from triage.web.acts import ACTS, vehicle_of
from triage.web.forms import WHO_MOST, Filed, filed, set_who
from triage.web.parts import parts_of
from triage.web.render import Draft, query
from triage.web.routes_learn import outcomes_page
from triage.web.routes_pages import session_page, sessions_page
from triage.web.safety import client_of
from triage.web.workbench import Workbench

OLD_FORM = ("this form is older than the server that got it (it was started anew, or the browser keeps no cookies): "
            "nothing was kept; send it again from here")



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
        page = outcomes_page if kind == "outcome" else session_page
        return page(request, name, str(error), Draft({**form.fields, "form": kind}))
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


async def remember_who(request: Request) -> Response:
    """Remember in the browser who makes the entries; an empty name forgets it."""
    parts = parts_of(request)
    form = await filed(request, parts.tokens, 4096)
    name, who = form.text("name"), form.text("who") or ""
    if not form.own or len(who) > WHO_MOST or not who.isprintable():
        words = OLD_FORM if form.own is False else f"your name: expected up to {WHO_MOST} printable characters"
        return parts.pages.page(request, "told.html", 400 if form.own else 403, words=words, asks_key=False)
    answer = RedirectResponse(f"/session?{query({'name': name})}#record" if name else "/", 303)
    answer.headers.append("Set-Cookie", set_who(who))
    return answer


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
    Route("/key", come_in, methods=["POST"]), Route("/who", remember_who, methods=["POST"]),
]
