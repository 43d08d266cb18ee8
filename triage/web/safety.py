"""The guard in front of every request: host, size, rate, key and origin; and the headers behind every answer."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Iterable
from typing import NamedTuple
from urllib.parse import parse_qsl, quote, urlencode

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from triage.web.keys import Hosts, Keyring, is_own_form
from triage.web.limits import Buckets, Limits, TooLargeError, held_to

POLICY = ("default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; form-action 'self'; "
          "frame-ancestors 'none'; base-uri 'none'")
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    # With "no-referrer" a browser would hide the origin of our own forms too.
    "Referrer-Policy": "same-origin",
    "Cache-Control": "no-store",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}
SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
#: Open without a key: the form that asks for it, and the looks of the page.
OPEN = ("/key", "/static/")


class Refusal(NamedTuple):
    """Why a request goes no further. ``status`` as in RFC 9110."""

    status: int
    words: str
    wait_seconds: int | None = None


TOO_MANY_KEYS = Refusal(429, "too many wrong keys: wait a minute", 60)
FAILED = Refusal(500, "the program failed at this; what was kept before is safe")
LOG = logging.getLogger("triage.web")
#: Makes the answer for a refusal; the scope tells whether a person or a program reads it.
Refuse = Callable[[Scope, Refusal], Response]


class Guard:
    """ASGI middleware around the whole application."""

    def __init__(
        self, app: ASGIApp, *, refuse: Refuse, bound: str, names: Iterable[str] = (), keyring: Keyring | None = None,
        limits: Limits | None = None, clock: Callable[[], float] = time.monotonic,
    ) -> None:
        """``bound``: the address served on; ``names``: further host names; ``keyring`` None: no key is asked for."""
        self._app, self._refuse, self._keyring = app, refuse, keyring
        self._hosts = Hosts(bound, names)
        self._limits = limits or Limits()
        self._requests = Buckets(self._limits.requests, clock)
        self._writes = Buckets(self._limits.writes, clock)
        self._wrong_keys = Buckets(self._limits.wrong_keys, clock)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let the request pass, or answer it here."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self._app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        started = False

        async def send_on(message: Message) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                answer = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    answer[name] = value
            await send(message)

        answer = self._answer(scope, headers)
        if answer is not None:
            await answer(scope, receive, send_on)
            return
        try:
            await self._app(scope, held_to(receive, self._limits.body), send_on)
        except TooLargeError:
            if not started:
                await self._refuse(scope, self._too_large())(scope, receive, send_on)
        except Exception:
            # Told here, so that this answer too has its headers; what went wrong goes to the log alone.
            LOG.exception("a request failed")
            if started:
                raise
            await self._refuse(scope, FAILED)(scope, receive, send_on)

    def _answer(self, scope: Scope, headers: Headers) -> Response | None:
        """The answer to a request that goes no further; None lets it pass."""
        refusal = self._checked(scope, headers)
        if refusal is not None:
            return self._refuse(scope, refusal)
        return None if self._keyring is None else self._asked_for_key(self._keyring, scope, headers)

    def _checked(self, scope: Scope, headers: Headers) -> Refusal | None:
        client = client_of(scope)
        if len(headers.getlist("host")) != 1 or not self._hosts.answers_to(headers["host"]):
            return Refusal(421, "this server does not answer to that name: open it by its address, or start it with "
                                "--name NAME")
        if not scope["path"].startswith("/static/") and not self._requests.take(client):
            return Refusal(429, "too many requests at once: wait a moment", 5)
        length = headers.get("content-length", "0")
        if not length.isdecimal() or len(length) > 18 or int(length) > self._limits.body:
            return self._too_large()
        if scope["method"] in SAFE:
            return None
        if not is_own_form(scope["scheme"], headers):
            return Refusal(403, "this was sent from a page of another site: nothing was done; open the session here "
                                "and do it there")
        if not self._writes.take(client):
            return Refusal(429, "too much was sent at once: wait ten seconds and send it again", 10)
        return None

    def _too_large(self) -> Refusal:
        most = f"{self._limits.body / 1e6:g} MB"
        return Refusal(413, f"too large: at most {most} are taken; save the scan alone, or thin out the trace")

    def _asked_for_key(self, keyring: Keyring, scope: Scope, headers: Headers) -> Response | None:
        """Nothing for those who may come in; the cookie for who brings the key; else a refusal."""
        client = client_of(scope)
        query = parse_qsl(scope["query_string"].decode("latin-1"), keep_blank_values=True)
        tried = [value for name, value in query if name == "key"]
        if tried and scope["method"] in SAFE and not scope["path"].startswith(OPEN):
            wrong = self.wrong_key(tried[-1], client)
            if wrong is not None:
                return self._refuse(scope, wrong)
            # The key leaves the address line at once, and with it the history.
            rest = urlencode([(name, value) for name, value in query if name != "key"])
            path = "/" + scope["path"].lstrip("/\\")
            return Response(status_code=303, headers={
                "Location": quote(path) + (f"?{rest}" if rest else ""), "Set-Cookie": keyring.set_cookie()})
        if keyring.has_bearer(headers) and self._wrong_keys.is_empty(client):
            return self._refuse(scope, TOO_MANY_KEYS)
        if scope["path"].startswith(OPEN) or keyring.may_come_in(headers):
            return None
        if keyring.has_bearer(headers):
            self._wrong_keys.take(client)
        return self._refuse(scope, Refusal(401, "this address needs the access key that was shown when the server "
                                                "was started"))

    def wrong_key(self, tried: str, client: str) -> Refusal | None:
        """None if ``tried`` is the key; a refusal if not, or if this client tried too often."""
        if self._wrong_keys.is_empty(client):
            return TOO_MANY_KEYS
        if self._keyring is None or self._keyring.is_key(tried):
            return None
        self._wrong_keys.take(client)
        return Refusal(401, "that is not the access key")


def client_of(scope: Scope) -> str:
    """The address of the client; a proxy is none of ours, so no header is believed."""
    client = scope.get("client")
    return client[0] if client else "unknown"
