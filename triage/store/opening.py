"""Opens the database: finds it, brings it to the present revision, and hands out transactions.

SQLite runs with a write-ahead log, every commit synced, foreign keys on, and a writer takes the write lock when
its transaction begins: a transaction that read first and wrote later could fail half-way against another writer.
On PostgreSQL a writer locks the row of its session, and a reader sees one moment (repeatable read).
"""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, inspect, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.orm import Session as Work

from triage.errors import StoreError
from triage.store.kept import Memory
from triage.store.place import default_path, is_url
from triage.store.tables import REVISIONS, VERSION_TABLE, Base

#: A writer waits this long for another before it gives up; writes take milliseconds.
BUSY_SECONDS = 30.0
#: Key of the advisory lock that guards opening and naming on PostgreSQL (any constant number would do).
LOCK = 0x74726961


class Database:
    """An open database. ``shown`` names it without its password."""

    def __init__(self, place: str | Path | None = None) -> None:
        """Open, creating or migrating as needed. Raises StoreError with one line."""
        url = _url(place)
        self.shown = url.database or "" if url.get_backend_name() == "sqlite" else url.render_as_string()
        self._engine = _engine(url, self.shown)
        self._info = {"memory": Memory()}
        try:
            with one_line(self.shown):
                if url.get_backend_name() == "sqlite":
                    _use_write_ahead_log(self._engine)
                _bring_to_present(self._engine.execution_options(writes=True), self.shown)
        except BaseException:
            self._engine.dispose()
            raise

    def close(self) -> None:
        """Close every connection."""
        self._engine.dispose()

    @contextmanager
    def writing(self) -> Iterator[Work]:
        """A transaction that is kept whole when the block ends, or not at all when it raises."""
        with one_line(self.shown), Work(
                self._engine.execution_options(writes=True), info=self._info) as work, work.begin():
            yield work

    @contextmanager
    def reading(self) -> Iterator[Work]:
        """A transaction in which every read sees the same moment."""
        options: dict[str, Any] = {}
        if self._engine.dialect.name == "postgresql":
            options["isolation_level"] = "REPEATABLE READ"
        with one_line(self.shown), Work(self._engine.execution_options(**options), info=self._info) as work:
            yield work


def lock_names(work: Work) -> None:
    """Hold off other writers that look for a name and add it if absent (SQLite holds them off already)."""
    if work.get_bind().dialect.name == "postgresql":
        work.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": LOCK + 1})


@contextmanager
def one_line(shown: str) -> Iterator[None]:
    """Turns what a database or the file system raises into a StoreError of one line."""
    try:
        yield
    except (SQLAlchemyError, sqlite3.Error, OSError) as error:
        cause = getattr(error, "orig", None) or error
        lines = str(cause).strip().splitlines() or [type(cause).__name__]
        raise StoreError(f"{shown}: {lines[0]}") from error


def _url(place: str | Path | None) -> URL:
    if place is None:
        place = default_path()
    if isinstance(place, Path) or not is_url(place):
        return URL.create("sqlite", database=str(Path(place).expanduser().absolute()))
    try:
        url = make_url(place)
        backend = url.get_backend_name()
    except (ArgumentError, ValueError):
        # The text itself is not shown: it may hold a password.
        raise StoreError("the database URL can't be read; expected postgresql://user@host/name, or a file") from None
    if backend in ("postgresql", "postgres"):
        return url.set(drivername="postgresql+psycopg")
    if backend != "sqlite":
        raise StoreError(f"no store on {backend!r}: give a file, or a URL that starts with postgresql://")
    if not url.database or url.database == ":memory:" or url.query:
        raise StoreError(f"{url}: a store needs a plain file, for example sqlite:///sessions.db")
    return url


def _engine(url: URL, shown: str) -> Engine:
    if url.get_backend_name() != "sqlite":
        try:
            return create_engine(url, pool_pre_ping=True)
        except ModuleNotFoundError as error:
            raise StoreError(
                f"PostgreSQL needs {error.name}: pip install 'lowvolt-triage[postgres]'") from error
        except NoSuchModuleError as error:  # pragma: no cover - an installation without the dialect
            raise StoreError(f"{shown}: {error}") from error
    _make_private_file(Path(url.database or ""))
    engine = create_engine(url, connect_args={"timeout": BUSY_SECONDS})

    @event.listens_for(engine, "connect")
    def connect(connection: sqlite3.Connection, _record: object) -> None:
        connection.isolation_level = None  # the driver must not begin transactions of its own
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA synchronous = FULL")

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        writes = connection.get_execution_options().get("writes", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine


def _make_private_file(path: Path) -> None:
    """Create folder and file for the owner alone: sessions hold customers' data."""
    with one_line(str(path)):
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        if not path.exists():
            path.touch(mode=0o600)


def _use_write_ahead_log(engine: Engine) -> None:
    """Switch a new file over. SQLite does not wait for another that does the same, so this tries again."""
    until = time.monotonic() + BUSY_SECONDS
    while True:
        connection = engine.raw_connection()
        try:
            connection.cursor().execute("PRAGMA journal_mode = WAL")
            return
        except sqlite3.OperationalError as error:
            if "locked" not in str(error) or time.monotonic() > until:
                raise
            time.sleep(0.01)
        finally:
            connection.close()


def _bring_to_present(engine: Engine, shown: str) -> None:
    with engine.connect() as connection:
        if _revision(connection, shown) == REVISIONS[-1]:
            return
    # Under the lock the revision is read again: another may have done the work meanwhile.
    with engine.begin() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": LOCK})
        if _revision(connection, shown) != REVISIONS[-1]:
            _migrate(connection)


def _revision(connection: Connection, shown: str) -> str | None:
    """The store's revision, None in an empty database."""
    there = set(inspect(connection).get_table_names())
    if VERSION_TABLE not in there:
        foreign = there if connection.dialect.name == "sqlite" else there & set(Base.metadata.tables)
        if foreign:
            raise StoreError(
                f"{shown}: holds tables of another program ({', '.join(sorted(foreign)[:3])}); give another place")
        return None
    revision = connection.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).scalar()
    if revision is not None and revision not in REVISIONS:
        raise StoreError(
            f"{shown}: written by a newer version of this program (store revision {revision}, known up to "
            f"{REVISIONS[-1]}); update the program, nothing was changed")
    return None if revision is None else str(revision)


def _migrate(connection: Connection) -> None:
    # Alembic is slow to import and only needed here.
    from alembic import command
    from alembic.config import Config

    config = Config()
    folder = str(Path(__file__).parent / "migrations")
    config.set_main_option("script_location", folder.replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
