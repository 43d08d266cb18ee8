"""The guard: who may come in, what is let through, what every answer bears, and that nothing leaves the machine."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import httpx
import pytest
from web_support import DEMO, Site, opened, sent, token

from triage.errors import InputError
from triage.web.app import create_app
from triage.web.keys import Hosts, host_of, is_loopback
from triage.web.limits import Limits, Rate

KEY = "a-key-of-the-shop"
HOSTILE = [
    "<script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "</textarea><script>alert(1)</script>",
    "{{ 1103*1009 }}{% raw %}", "' onmouseover='alert(1)", "javascript:alert(1)", "\u202eevil\u2066", "a\x00b\x1b[31m",
]


def test_every_answer_bears_the_headers(serve: Callable[..., Site]) -> None:
    site = serve(key=KEY, host="192.0.2.7")
    with site.client() as client:
        answers = [client.get("/"), client.get("/?key=" + KEY), client.get("/static/page.css"), client.get("/nowhere"),
                   client.post("/open"), client.get("/", headers={"Host": "evil.example"}), client.get("/api/sessions")]
    for answer in answers:
        policy = answer.headers["content-security-policy"]
        assert "default-src 'none'" in policy, answer
        assert "unsafe" not in policy
        assert "frame-ancestors 'none'" in policy
        assert "form-action 'self'" in policy
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["referrer-policy"] == "same-origin"
        assert answer.headers["cache-control"] == "no-store"
        assert "access-control-allow-origin" not in answer.headers


def test_a_failure_of_the_program_bears_them_too_and_tells_nothing(
    site: Site, client: httpx.Client, monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*_: Any) -> None:
        raise RuntimeError("secret of a customer")

    monkeypatch.setattr(site.store, "sessions", fail)
    for path in ("/", "/api/sessions"):
        answer = client.get(path)
        assert answer.status_code == 500
        assert "secret" not in answer.text
        assert "content-security-policy" in answer.headers


def test_what_the_engine_fails_at_is_kept_and_can_be_struck_out(
    site: Site, client: httpx.Client, monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*_: Any) -> None:
        raise RuntimeError

    opened(client)
    monkeypatch.setattr("triage.web.workbench.assess", fail)
    assert sent(client, "paste", text=DEMO[0].read_text(encoding="utf-8")).status_code == 303
    page = client.get("/session", params={"name": "van 7"})
    assert (page.status_code, "failed at this session" in page.text) == (200, True)
    assert sent(client, "undo", entry=str(site.store.entries("van 7")[-1].id)).status_code == 303


# Names and addresses


@pytest.mark.parametrize(("bound", "header", "taken"), [
    ("127.0.0.1", "127.0.0.1:8750", True), ("127.0.0.1", "localhost:8750", True), ("127.0.0.1", "[::1]:8750", True),
    ("127.0.0.1", "evil.example", False), ("127.0.0.1", "127.0.0.1.evil.example", False),
    ("127.0.0.1", "192.168.1.4:8750", False), ("127.0.0.1", "", False), ("127.0.0.1", "localhost@evil.example", False),
    ("0.0.0.0", "192.168.1.4:8750", True), ("0.0.0.0", "[fe80::1]:8750", True), ("0.0.0.0", "evil.example", False),
    ("0.0.0.0", "van.local", True), ("192.168.1.4", "192.168.1.4", True), ("127.0.0.1", "localhost:99999999", False),
    ("127.0.0.1", "127.1", False), ("127.0.0.1", "2130706433", False), ("127.0.0.1", "localhost/x", False),
])
def test_only_its_own_names_are_answered(bound: str, header: str, taken: bool) -> None:
    """Against DNS rebinding: a page elsewhere can point its own name here, but can't make an address its name."""
    assert Hosts(bound, ["van.local"] if bound == "0.0.0.0" else []).answers_to(header) is taken


def test_a_strange_host_is_refused_before_anything_is_read(client: httpx.Client) -> None:
    for path in ("/", "/session?name=x", "/api/sessions", "/static/page.css"):
        assert client.get(path, headers={"Host": "rebound.example"}).status_code == 421


def test_hosts_and_loopback() -> None:
    assert [host_of(header) for header in ("LocalHost.:80", "[::1]", "a b", "x:y")] == ["localhost", "::1", "a b", ""]
    assert not is_loopback("127.0.0.1.example")
    assert is_loopback("127.8.9.1")  # the whole of 127.0.0.0/8 (RFC 1122, 3.2.1.3)


# The access key


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.168.1.4", "van.local", ""])
def test_no_other_address_without_a_key(tmp_path: Path, host: str) -> None:
    with pytest.raises(InputError, match="access key"):
        create_app(tmp_path / "s.db", host=host)
    with pytest.raises(InputError, match="12 or more"):
        create_app(tmp_path / "s.db", host=host, key="short")


@pytest.fixture
def keyed(serve: Callable[..., Site]) -> Iterator[httpx.Client]:
    """A client of a server that asks for the key."""
    with serve(key=KEY, host="0.0.0.0").client() as client:
        yield client


def test_nothing_is_open_without_the_key_but_the_looks(keyed: httpx.Client) -> None:
    for path in ("/", "/session?name=x", "/handoff?name=x", "/api/sessions", "/api/openapi.json", "/nowhere"):
        answer = keyed.get(path)
        assert answer.status_code == 401, path
    assert keyed.post("/open", data={"name": "x"}).status_code == 401
    assert keyed.get("/static/page.css").status_code == 200
    assert 'action="/key"' in keyed.get("/").text


def test_the_key_opens_once_and_leaves_the_address(keyed: httpx.Client) -> None:
    answer = keyed.get("/session", params={"name": "a b", "key": KEY})
    assert answer.status_code == 303
    assert answer.headers["location"] == "/session?name=a+b"
    cookie = answer.headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    assert KEY not in cookie
    assert keyed.get("/").status_code == 200


def test_the_key_can_be_typed(keyed: httpx.Client) -> None:
    assert keyed.post("/key", data={"key": "not the key at all"}).status_code == 401
    assert keyed.get("/").status_code == 401
    assert keyed.post("/key", data={"key": KEY}).status_code == 303
    assert keyed.get("/").status_code == 200


def test_a_program_brings_the_key_as_a_bearer_token(keyed: httpx.Client) -> None:
    assert keyed.get("/api/sessions", headers={"Authorization": f"Bearer {KEY}"}).json() == []
    assert keyed.get("/api/sessions", headers={"Authorization": "Bearer wrong"}).status_code == 401


@pytest.mark.parametrize("path", ["//evil.example/", "/%5Cevil.example/", "///evil.example"])
def test_the_redirect_stays_on_this_server(keyed: httpx.Client, path: str) -> None:
    """A browser takes "//name" and, by the URL Standard, "/\\name" for another host."""
    answer = keyed.get(f"{str(keyed.base_url).rstrip('/')}{path}?key={KEY}")
    assert (answer.status_code, answer.headers["location"][:13]) == (303, "/evil.example")


@pytest.mark.parametrize("cookie", ["", "x", "0" * 64, "é"])
def test_a_wrong_cookie_is_none(keyed: httpx.Client, cookie: str) -> None:
    name = keyed.get("/", params={"key": KEY}).headers["set-cookie"].partition("=")[0]
    keyed.cookies.clear()
    header = f"{name}={cookie}".encode()
    assert keyed.get("/", headers=[(b"Cookie", header)]).status_code == 401


def test_wrong_keys_run_out(serve: Callable[..., Site]) -> None:
    """A guesser is stopped even if the last guess is right."""
    now = [0.0]
    site = serve(key=KEY, host="0.0.0.0", limits=Limits(wrong_keys=Rate(3, 0.1)), clock=lambda: now[0])
    with site.client() as client:
        tries = [client.get("/", params={"key": f"wrong key {number}"}).status_code for number in range(5)]
        assert tries == [401, 401, 401, 429, 429]
        assert client.get("/", params={"key": KEY}).status_code == 429
        assert client.get("/", headers={"Authorization": f"Bearer {KEY}"}).status_code == 429
        now[0] += 20
        assert client.get("/", params={"key": KEY}).status_code == 303


# Posting across sites


@pytest.mark.parametrize("headers", [
    {"Origin": "http://evil.example"}, {"Origin": "null"}, {"Origin": "http://127.0.0.1:1"}, {"Origin": "https://{own}"},
    {"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"},
])
def test_a_form_of_another_site_is_refused(site: Site, client: httpx.Client, headers: dict[str, str]) -> None:
    """As a browser sends it (Fetch Standard; Fetch Metadata): with the cookie, were it not SameSite, and its origin."""
    good = token(client.get("/").text)
    own = site.base.removeprefix("http://")
    answer = client.post("/open", data={"token": good, "name": "x"},
                         headers={name: value.replace("{own}", own) for name, value in headers.items()})
    assert (answer.status_code, site.store.sessions()) == (403, [])
    answer = client.post("/api/sessions", json={"name": "x"}, headers={"Origin": "http://evil.example"})
    assert (answer.status_code, site.store.sessions()) == (403, [])


def test_its_own_form_is_taken(site: Site, client: httpx.Client) -> None:
    good = token(client.get("/").text)
    headers = {"Origin": site.base, "Sec-Fetch-Site": "same-origin"}
    assert client.post("/open", data={"token": good, "name": "x"}, headers=headers).status_code == 303


@pytest.mark.parametrize("wrong", ["", "0" * 64, "é"])
def test_a_form_without_the_token_is_refused_and_the_text_is_not_lost(
    site: Site, client: httpx.Client, wrong: str,
) -> None:
    opened(client)
    answer = client.post("/session/paste", data={"name": "van 7", "text": "typed <by hand>", "token": wrong})
    assert answer.status_code == 403
    assert "typed &lt;by hand&gt;</textarea>" in answer.text
    assert site.store.entries("van 7") == []


def test_the_token_of_another_browser_is_refused(site: Site, client: httpx.Client) -> None:
    opened(client)
    with site.client() as other:
        strange = token(other.get("/").text)
    answer = client.post("/session/event", data={"name": "van 7", "what": "drove", "token": strange})
    assert (answer.status_code, site.store.entries("van 7")) == (403, [])


def test_the_programs_interface_takes_nothing_a_form_could_send(site: Site, client: httpx.Client) -> None:
    body = '{"name": "x"}'
    for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data"):
        answer = client.post("/api/sessions", content=body, headers={"Content-Type": kind})
        assert (answer.status_code, site.store.sessions()) == (415, [])


def test_reading_changes_nothing(site: Site, with_demo: httpx.Client) -> None:
    revision = site.store.session("van 7").revision
    for path in ("/", "/session?name=van+7", "/handoff?name=van+7", "/compare?name=van+7", "/session/undo?name=van+7",
                 "/open?name=y", "/api/session/undo?name=van+7"):
        with_demo.get(path)
    assert site.store.session("van 7").revision == revision
    assert len(site.store.sessions()) == 1


# What is pasted


class Elements(HTMLParser):
    """The elements of a page as a browser takes them apart; its text outside of form fields."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.names: set[str] = set()
        self.attributes: set[tuple[str, str]] = set()
        self.scripts: set[str | None] = set()
        self.text = ""
        self._field = False
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.names.add(tag)
        self._field = tag == "textarea"
        self.attributes |= {(name, value or "") for name, value in attrs}
        if tag == "script":
            self.scripts.add(dict(attrs).get("src"))

    def handle_endtag(self, tag: str) -> None:
        self._field = False

    def handle_data(self, data: str) -> None:
        if not self._field:
            self.text += data


def test_the_parser_of_the_next_test_sees_what_a_browser_would_run() -> None:
    seen = Elements("<p onclick=x>a</p><script>alert(1)</script><textarea></textarea><img src=x>")
    assert seen.scripts == {None}
    assert seen.names == {"p", "script", "textarea", "img"}
    assert ("onclick", "x") in seen.attributes

@pytest.mark.parametrize("hostile", HOSTILE)
def test_everything_typed_or_pasted_is_escaped(client: httpx.Client, hostile: str) -> None:
    opened(client, complaint=hostile, label=hostile)
    scan = f"{hostile}\nECM {hostile}\n  P0118 {hostile} current\nbattery 12.4 V {hostile}\n"
    answers = [
        sent(client, "paste", files={"file": (hostile, scan.encode())}), sent(client, "paste", text=scan),
        sent(client, "event", what="other", module=hostile, note=hostile),
        sent(client, "reading", what=hostile, value="1", unit="other"), sent(client, "event", what=hostile),
        sent(client, "trace", files={"file": (hostile, b"0,12\n1,12.1\n2,12.2\n3,12.2\n")}),
        sent(client, "correct", snapshot=hostile, volts=hostile),
    ]
    pages = [answer.text for answer in answers] + [client.get(path).text for path in (
        "/", "/session?name=van+7", "/handoff?name=van+7", "/paste?name=van+7&entry=1", "/paste?name=van+7&entry=2",
        "/trace?name=van+7&entry=6", "/compare?name=van+7")]
    for page in pages:
        seen = Elements(page)
        assert seen.scripts <= {"/static/page.js"}
        assert not seen.names & {"img", "iframe", "object", "embed", "base", "b", "style"}
        names = {name for name, _ in seen.attributes}
        assert not names & {"style", "srcdoc", "formaction"}
        assert not any(name.startswith("on") for name in names)
        assert all(value.startswith(("/", "#", "data:,")) for name, value in seen.attributes
                   if name in ("href", "src", "action"))
        assert "1112927" not in html.unescape(page)
        assert not re.search("[\x1b\u202a-\u202e\u2066-\u2069]", seen.text)


def test_a_paste_that_is_a_page_is_never_served_as_one(client: httpx.Client) -> None:
    opened(client)
    page = b"<html><script>alert(1)</script><table><tr><td>ECM</td><td>P0118</td></tr></table></html>"
    assert sent(client, "paste", files={"file": ("scan.html", page)}).status_code == 303
    link = re.search(r'href="(/paste\?[^"#]*)"', client.get("/session?name=van+7").text)
    assert link is not None
    shown = html.unescape(link[1])
    assert "<script>alert" not in client.get(shown).text
    answer = client.get(shown.replace("/paste?", "/paste/file?"))
    assert answer.content == page
    assert answer.headers["content-type"] == "application/octet-stream"
