"""``triage serve``: the local web page."""

from __future__ import annotations

import secrets
from typing import Annotated

import typer

from triage.cli.keep_options import Db
from triage.errors import InputError


def serve(
    db: Db = None,
    host: Annotated[str, typer.Option("--host", help="Address to serve on; any but this machine's own asks for the "
                                                     "access key.")] = "127.0.0.1",
    port: Annotated[int, typer.Option("--port", min=1, max=65535, help="Port to serve on.")] = 8750,
    key: Annotated[str | None, typer.Option(
        "--key", envvar="TRIAGE_KEY", help="Access key, 12 characters or more; made up and shown where one is needed. "
                                           "Better in the environment than on the command line.")] = None,
    name: Annotated[list[str] | None, typer.Option(
        "--name", help="A further host name the page is opened by; addresses need none.")] = None,
) -> None:
    """Serve the sessions as a web page on this machine, for a laptop or a phone."""
    try:
        import uvicorn

        from triage.web.app import create_app
        from triage.web.keys import is_loopback
    except ModuleNotFoundError as error:
        if (error.name or "").partition(".")[0] in ("uvicorn", "starlette", "jinja2", "markupsafe", "python_multipart",
                                                    "sqlalchemy", "alembic"):
            raise InputError(f"the web page needs {error.name}: pip install 'lowvolt-triage[web]'") from None
        raise
    if key is None and not is_loopback(host):
        key = secrets.token_urlsafe(16)
    app = create_app(db, key=key, host=host, names=name or ())
    typer.echo("\n".join(told(host, port, key)), err=True)
    # No access log: the first address of a phone holds the key. Headers of a proxy are never believed.
    uvicorn.run(app, host=host, port=port, log_level="warning", access_log=False, proxy_headers=False,
                server_header=False, limit_concurrency=64, timeout_keep_alive=10, ws="none")


def told(host: str, port: int, key: str | None) -> list[str]:
    """What to open, and what to know about it."""
    shown = f"[{host}]" if ":" in host else host
    if host in ("0.0.0.0", "::"):
        shown = "ADDRESS-OF-THIS-MACHINE"
    lines = [f"Open http://{shown}:{port}/" + (f"?key={key}" if key else "") + "  (Ctrl-C ends it)"]
    if key:
        lines.append("Who has the key can read and write every session kept here. What is sent is not encrypted: use "
                     "it on a network of your own.")
    return lines


def register(app: typer.Typer) -> None:
    """Put the command on ``app``."""
    app.command("serve")(serve)
