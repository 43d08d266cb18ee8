"""Forms: read within limits and in memory only, and checked for the token of the page they were on."""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Mapping
from datetime import datetime
from typing import NamedTuple
from urllib.parse import quote, unquote

from starlette.datastructures import FormData, Headers, UploadFile
from starlette.formparsers import FormParser, MultiPartException, MultiPartParser
from starlette.requests import Request

from triage.errors import InputError
from triage.web.keys import cookies_of

COOKIE = "triage_form"
WHO = "triage_who"
WHO_MOST = 60
FIELD = "token"
#: Most fields and files that any form of ours has, with room to spare.
FIELDS, FILES = 40, 2


class InMemory(MultiPartParser):
    """Keeps an upload in memory, where the limit on the body bounds it: it never becomes a file outside the store."""

    spool_max_size = 1 << 62


class Filed(NamedTuple):
    """A form as it was filled in. ``own`` False: the token is not that of a page of this server."""

    fields: Mapping[str, str]
    files: Mapping[str, tuple[str, bytes]]  # name and bytes of the files that were chosen
    own: bool
    who: str | None = None  # who makes the entry, as the browser remembers it

    def text(self, name: str) -> str | None:
        """The field without spaces around it; None where it is empty or absent."""
        return self.fields.get(name, "").strip() or None

    def need(self, name: str, what: str) -> str:
        """The field, or InputError that says what is missing."""
        text = self.text(name)
        if text is None:
            raise InputError(f"{what}: nothing was filled in")
        return text

    def number(self, name: str, what: str, least: float, most: float) -> float | None:
        """The field as a number, decimal comma allowed; None where it is empty. Raises InputError out of range."""
        text = self.text(name)
        if text is None:
            return None
        try:
            number = float(text.rstrip("VvA ").replace(",", "."))
        except ValueError:
            raise InputError(f"{what}: seen {text[:40]!r}, expected a number such as 12.4") from None
        if not least <= number <= most:
            raise InputError(f"{what}: seen {text[:40]!r}, expected {least:g} to {most:g}")
        return number

    def whole(self, name: str, what: str) -> int:
        """The field as a whole number. Raises InputError where it is none."""
        text = self.text(name) or ""
        if not text.isdecimal() or len(text) > 15:
            raise InputError(f"{what}: seen {text[:40]!r}, expected a whole number")
        return int(text)

    def moment(self, name: str, what: str) -> datetime | None:
        """The field as a time; one without a zone is taken in the zone of this machine."""
        text = self.text(name)
        if text is None:
            return None
        try:
            moment = datetime.fromisoformat(text)
            return moment.astimezone() if moment.tzinfo is None else moment
        except (ValueError, OverflowError):
            raise InputError(f"{what}: seen {text[:40]!r}, expected a time such as 2026-02-09T08:55") from None


class Tokens:
    """Tokens against posting across sites: a random cookie, and in each form a digest of it that only we can make."""

    def __init__(self) -> None:
        self._secret = secrets.token_bytes(32)

    def seed(self, headers: Headers) -> tuple[str, bool]:
        """The browser's random value, and whether it is new and must be set."""
        held = cookies_of(headers).get(COOKIE, "")
        if len(held) == 43 and held.isascii():
            return held, False
        return secrets.token_urlsafe(32), True

    def token(self, seed: str) -> str:
        """What the forms of a page bear."""
        return hmac.digest(self._secret, seed.encode(), "sha256").hex()

    def is_own(self, headers: Headers, token: str) -> bool:
        """Whether the token belongs to the cookie."""
        seed = cookies_of(headers).get(COOKIE, "")
        return bool(seed) and hmac.compare_digest(self.token(seed).encode(), token.encode("utf-8", "replace"))

    @staticmethod
    def set_cookie(seed: str) -> str:
        """The header that gives the browser its random value."""
        return f"{COOKIE}={seed}; HttpOnly; SameSite=Strict; Path=/"


async def filed(request: Request, tokens: Tokens, most: int) -> Filed:
    """The form that was sent, its text at most ``most`` bytes a field. Raises InputError where it is no form."""
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    parser: MultiPartParser | FormParser
    if kind == "multipart/form-data":
        parser = InMemory(request.headers, request.stream(), max_files=FILES, max_fields=FIELDS, max_part_size=most)
    elif kind == "application/x-www-form-urlencoded":
        parser = FormParser(request.headers, request.stream(), max_fields=FIELDS, max_part_size=most)
    else:
        raise InputError("a form was expected")
    try:
        data = await parser.parse()
    except (MultiPartException, KeyError, UnicodeDecodeError) as error:
        raise InputError(f"the form can't be read: {getattr(error, 'message', 'it is broken')}") from None
    try:
        return await _sorted(data, request.headers, tokens)
    finally:
        await data.close()


async def _sorted(data: FormData, headers: Headers, tokens: Tokens) -> Filed:
    """Fields and files apart. A browser sends an empty file where none was chosen."""
    fields: dict[str, str] = {}
    files: dict[str, tuple[str, bytes]] = {}
    for name, value in data.multi_items():
        if isinstance(value, UploadFile):
            body = await value.read()
            if body or value.filename:
                # The name is shown and kept, never used as a path.
                files[name] = ((value.filename or "")[-120:], body)
        else:
            fields[name] = value
    return Filed(fields, files, tokens.is_own(headers, fields.get(FIELD, "")), who_of(headers))


def who_of(headers: Headers) -> str | None:
    """Who makes the entries, as the browser remembers it."""
    name = unquote(cookies_of(headers).get(WHO, ""), errors="replace").strip()
    return name if name and name.isprintable() and len(name) <= WHO_MOST else None


def set_who(name: str) -> str:
    """The header by which the browser remembers it for a year, or forgets it."""
    age = 365 * 86400 if name else 0
    return f"{WHO}={quote(name, safe='')}; HttpOnly; SameSite=Strict; Path=/; Max-Age={age}"
