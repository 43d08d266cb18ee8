"""A throw-away PostgreSQL cluster from the system's packages, and one store of each kind."""

import glob
import itertools
import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text

from triage.store.store import Store

COUNTER = itertools.count()


def _binaries() -> Path | None:
    """The newest folder with initdb and pg_ctl: Debian keeps them off the search path."""
    folders = [Path(path).parent for path in glob.glob("/usr/lib/postgresql/*/bin/initdb")]
    on_path = shutil.which("initdb")
    folders += [Path(on_path).resolve().parent] if on_path else []
    usable = [folder for folder in folders if (folder / "pg_ctl").exists()]
    return max(usable, key=lambda folder: [int(part) for part in folder.parts if part.isdigit()], default=None)


def _other_user() -> str | None:
    """PostgreSQL refuses to run as root; then another user owns the cluster."""
    if os.geteuid() != 0:
        return None
    known = {entry.pw_name for entry in pwd.getpwall()}
    return "postgres" if "postgres" in known else "nobody"


@pytest.fixture(scope="session")
def postgres() -> Iterator[str]:
    """URL of a server that listens on a socket in its own folder only, without its database's name."""
    folder = _binaries()
    if folder is None:
        pytest.skip("no initdb and pg_ctl: install the system's PostgreSQL server (Debian: postgresql)")
    user = _other_user()
    home = Path(tempfile.mkdtemp(prefix="store-pg-"))
    if user is not None:
        shutil.chown(home, user)

    def run(program: str, *arguments: str) -> None:
        as_user = {} if user is None else {"user": user, "group": pwd.getpwnam(user).pw_gid, "extra_groups": []}
        subprocess.run(
            [folder / program, "-D", home / "data", *arguments], check=True, cwd=home, timeout=120,
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, env={"PATH": os.defpath, "LC_ALL": "C"}, **as_user)

    try:
        run("initdb", "-U", "keeper", "-A", "trust", "-E", "UTF8", "--no-locale", "--no-sync")
        run("pg_ctl", "start", "-w", "-l", str(home / "log"),
            "-o", f"-k {home} -c listen_addresses='' -c fsync=off -c max_connections=40")
        try:
            yield f"postgresql://keeper@/{{name}}?host={home}"
        finally:
            run("pg_ctl", "stop", "-w", "-m", "immediate")
    finally:
        shutil.rmtree(home, ignore_errors=True)


def new_database(postgres: str) -> str:
    """URL of a new empty database."""
    name = f"store{next(COUNTER)}"
    engine = create_engine(postgres.format(name="postgres").replace("postgresql:", "postgresql+psycopg:"))
    with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
        connection.execute(text(f"CREATE DATABASE {name}"))
    engine.dispose()
    return postgres.format(name=name)


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """An empty place for a store, of both kinds."""
    if request.param == "sqlite":
        return str(tmp_path / "kept" / "sessions.db")
    return new_database(request.getfixturevalue("postgres"))


@pytest.fixture
def store(place: str) -> Iterator[Store]:
    """An open store of both kinds."""
    with Store(place) as opened:
        yield opened
