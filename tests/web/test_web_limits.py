"""Limits of size and rate, broken forms, and that nothing calls another host."""

from __future__ import annotations

import re
import socket
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest
from web_support import DEMO, Site, opened, sent

from triage.web import app as web
from triage.web.keys import is_loopback
from triage.web.limits import Buckets, Limits, Rate

# How much, how often


def test_a_body_too_large_is_refused_whether_it_says_so_or_not(serve: Callable[..., Site]) -> None:
    site = serve(limits=Limits(body=20_000))
    with site.client() as client:
        good = opened(client)
        answer = client.post("/session/paste", data={"token": good, "name": "van 7", "text": "x" * 30_000})
        assert answer.status_code == 413

        def chunks() -> Iterator[bytes]:
            yield b"token=" + good.encode() + b"&name=van+7&text="
            for _ in range(30):
                yield b"x" * 1000

        headers = {"Content-Type": "application/x-www-form-urlencoded"}
        assert client.post("/session/paste", content=chunks(), headers=headers).status_code == 413
        assert client.post("/api/read", content=(b" " for _ in range(30_000)),
                           headers={"Content-Type": "application/json"}).status_code == 413
        assert site.store.entries("van 7") == []


def test_a_body_that_says_it_is_too_large_is_not_read(site: Site) -> None:
    host, _, port = site.base.removeprefix("http://").rpartition(":")
    with socket.create_connection((host, int(port)), 10) as raw:
        raw.sendall(b"POST /open HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 99999999\r\n\r\n")
        assert raw.recv(100).startswith(b"HTTP/1.1 413 ")


def test_an_upload_is_never_a_file_outside_the_store(
    serve: Callable[..., Site], monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*_: Any, **__: Any) -> None:
        raise AssertionError("a temporary file")

    monkeypatch.setattr("tempfile.TemporaryFile", fail)
    monkeypatch.setattr("tempfile.mkstemp", fail)
    with serve().client() as client:
        opened(client)
        scan = DEMO[0].read_bytes() + b"\n# " + b"x" * 3_000_000
        assert sent(client, "paste", files={"file": ("scan.txt", scan)}).status_code == 303


def test_too_many_requests_wait(serve: Callable[..., Site]) -> None:
    now = [0.0]
    site = serve(limits=Limits(requests=Rate(5, 1)), clock=lambda: now[0])
    with site.client() as client:
        assert [client.get("/").status_code for _ in range(7)] == [200] * 5 + [429] * 2
        answer = client.get("/")
        assert answer.headers["retry-after"] == "5"
        assert client.get("/static/page.css").status_code == 200
        now[0] += 2
        assert [client.get("/").status_code for _ in range(3)] == [200, 200, 429]


def test_writing_is_held_back_sooner(serve: Callable[..., Site]) -> None:
    site = serve(limits=Limits(writes=Rate(3, 0.001)))
    with site.client() as client:
        opened(client)
        answers = [sent(client, "event", what="drove").status_code for _ in range(4)]
        assert answers == [303, 303, 429, 429]
        assert client.get("/").status_code == 200


def test_a_bucket_fills_up_to_its_rim_only_and_forgets_old_clients() -> None:
    now = [0.0]
    bucket = Buckets(Rate(2, 1), lambda: now[0])
    assert [bucket.take("a") for _ in range(3)] == [True, True, False]
    now[0] = 1000.0
    assert [bucket.take("a") for _ in range(3)] == [True, True, False]
    for number in range(3000):
        bucket.take(str(number))
    assert bucket.take("a")


@pytest.mark.parametrize("body", [
    b"", b"--x", b"--x\r\nContent-Disposition: form-data\r\n\r\n\r\n--x--",
    b"--x\r\nContent-Disposition: form-data; name=\"a\"",
    b"--x\r\n" * 2000, b"\xff" * 100,
])
def test_a_broken_form_is_refused_in_one_line(client: httpx.Client, body: bytes) -> None:
    answer = client.post("/session/paste", content=body, headers={"Content-Type": "multipart/form-data; boundary=x"})
    assert answer.status_code in (400, 403)
    answer = client.post("/session/paste", content=body, headers={"Content-Type": "multipart/form-data"})
    assert answer.status_code in (400, 403)


# No other host


def test_no_call_to_any_other_host(serve: Callable[..., Site], monkeypatch: pytest.MonkeyPatch) -> None:
    """Every connection and every name looked up in this process, while the whole program is used, stays here."""
    asked: list[str] = []
    active = True

    def hook(event: str, arguments: tuple[Any, ...]) -> None:
        if not active:
            return
        if event == "socket.connect" and isinstance(arguments[1], tuple):
            asked.append(str(arguments[1][0]))
        elif event in ("socket.getaddrinfo", "socket.gethostbyname"):
            asked.append(str(arguments[0]))

    sys.addaudithook(hook)
    try:
        with serve().client() as client:
            opened(client, vin="1M8GDM9AXKP042788", complaint="see http://elsewhere.example/x")
            for file in DEMO:
                text = file.read_text(encoding="utf-8") + "\nhttp://elsewhere.example/track.png\n"
                assert sent(client, "paste", text=text).status_code == 303
            sent(client, "trace", text="0,12\n1,12.1\n2,12.2\n3,12.2\n")
            for path in ("/", "/session?name=van+7", "/handoff?name=van+7", "/api/session/verdict?name=van+7"):
                page = client.get(path).text
                assert not re.search(r"(?:src|href|action|url)\s*[=(]\s*[\"']?(?:https?:)?//", page), path
    finally:
        active = False
    assert asked
    assert all(is_loopback(host) for host in asked), set(asked)


def test_no_page_or_file_of_the_looks_names_a_host() -> None:
    folder = Path(web.__file__).parent
    files = [*(folder / "templates").iterdir(), *(folder / "static").iterdir()]
    assert len(files) > 10
    for file in files:
        assert not re.search(r"https?:|//[a-z]+\.", file.read_text(encoding="utf-8")), file


def test_it_listens_on_this_machine_alone_by_default() -> None:
    from typer.main import get_command

    from triage.cli.main import app

    command = get_command(app)
    options = {option.name: option for option in command.commands["serve"].params}  # type: ignore[attr-defined]
    assert options["host"].default == "127.0.0.1"
    assert socket.inet_aton(options["host"].default)[0] == 127
