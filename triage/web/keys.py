"""Who may come in: the names the server answers to, the access key, and where a form may come from."""

from __future__ import annotations

import hashlib
import hmac
import ipaddress
from collections.abc import Iterable
from urllib.parse import urlsplit

from starlette.datastructures import Headers
from starlette.requests import cookie_parser

#: A key shorter than this could be guessed.
KEY_LEAST = 12
LOOPBACK_NAMES = frozenset({"localhost", "ip6-localhost"})


def is_loopback(host: str) -> bool:
    """Whether ``host`` (a name or an address, without port) is this machine and no other.

    >>> [is_loopback(host) for host in ("127.0.0.1", "::1", "localhost", "0.0.0.0", "192.168.1.5", "van.example")]
    [True, True, True, False, False, False]
    """
    address = _address(host)
    return host.lower() in LOOPBACK_NAMES if address is None else address.is_loopback


def _address(host: str) -> ipaddress.IPv4Address | ipaddress.IPv6Address | None:
    try:
        return ipaddress.ip_address(host.strip("[]"))
    except ValueError:
        return None


def host_of(header: str) -> str:
    """The host of a Host header, without its port and brackets; empty where it is none.

    >>> host_of("127.0.0.1:8765"), host_of("[::1]:80"), host_of("a@b"), host_of("Van.Local.")
    ('127.0.0.1', '::1', '', 'van.local')
    """
    try:
        parts = urlsplit(f"//{header}")
        port_is_sound = parts.port is None or 0 < parts.port < 65536
    except ValueError:
        return ""
    if not port_is_sound or parts.netloc != header or "@" in header or parts.path or parts.query or parts.fragment:
        return ""
    return (parts.hostname or "").rstrip(".").lower()


class Hosts:
    """The names this server answers to.

    A page elsewhere can make its own name point here (DNS rebinding), but it can't make an address its name: on
    other addresses than loopback any literal address is taken, and names only where they were given.
    """

    def __init__(self, bound: str, names: Iterable[str] = ()) -> None:
        """``bound``: the address served on; ``names``: further host names."""
        self._local = is_loopback(bound)
        self._names = {name.lower().rstrip(".") for name in (bound, *names)} | LOOPBACK_NAMES

    def answers_to(self, header: str) -> bool:
        """Whether a request with this Host header is meant for this server."""
        host = host_of(header)
        address = _address(host)
        if address is None:
            return host in self._names
        return address.is_loopback or not self._local or host in self._names


class Keyring:
    """The access key. The cookie holds a digest, never the key itself."""

    def __init__(self, key: str) -> None:
        """``key``: what a person types or opens once."""
        self._key = key.encode()
        self._digest = hmac.digest(self._key, b"triage: may come in", "sha256").hex()
        # Cookies are shared by all ports of a host: two servers must not overwrite each other's.
        self.cookie = f"triage_key_{hashlib.sha256(self._digest.encode()).hexdigest()[:8]}"

    def is_key(self, tried: str) -> bool:
        """Whether ``tried`` is the key, in a time that does not tell how much of it is right."""
        return hmac.compare_digest(tried.encode("utf-8", "surrogatepass"), self._key)

    def may_come_in(self, headers: Headers) -> bool:
        """Whether the request bears the cookie, or the key as a bearer token."""
        held = cookies_of(headers).get(self.cookie, "")
        if hmac.compare_digest(held.encode("utf-8", "surrogatepass"), self._digest.encode()):
            return True
        kind, _, token = headers.get("authorization", "").partition(" ")
        return kind.lower() == "bearer" and self.is_key(token.strip())

    def has_bearer(self, headers: Headers) -> bool:
        """Whether a token was tried at all."""
        return headers.get("authorization", "").lower().startswith("bearer ")

    def set_cookie(self) -> str:
        """The header that lets this browser in until it is closed."""
        return f"{self.cookie}={self._digest}; HttpOnly; SameSite=Strict; Path=/"


def cookies_of(headers: Headers) -> dict[str, str]:
    """The cookies of a request."""
    return cookie_parser(headers.get("cookie", ""))


def is_own_form(scheme: str, headers: Headers) -> bool:
    """Whether a writing request comes from a page of this server, or from a program that is no browser.

    Every browser of the last years sends Origin or Sec-Fetch-Site with a form that is posted across sites.
    """
    origin = headers.get("origin")
    if origin is not None:
        return origin.lower() == f"{scheme}://{headers.get('host', '')}".lower()
    return headers.get("sec-fetch-site", "none") in ("same-origin", "none")
