"""The only place that knows SQLite from PostgreSQL: opening, locking, trying again, and what an error means."""

from __future__ import annotations

import sqlite3
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import Any, TypeVar

from sqlalchemy import Connection, Engine, Table, create_engine, event, inspect, select, text
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError
from sqlalchemy.exc import TimeoutError as NoLineFree
from sqlalchemy.pool import QueuePool

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store import tables

T = TypeVar("T")

WAIT_S = 30
"""How long an entry waits for its turn before it is refused, to be sent again."""
POOL: dict[str, Any] = {"pool_size": 10, "max_overflow": 50, "pool_timeout": WAIT_S}
"""Lines to the database that stay open: the last one to close makes SQLite tidy its log, which takes long."""
WRITES = "hubwright_writes"
SQLITE_BUSY, SQLITE_LOCKED, SQLITE_FULL = 5, 6, 13
SQLITE_BROKEN = (11, 26)
PG_AGAIN = ("40001", "40P01", "55P03")
PG_FULL = ("53100",)
ADVISORY_LOCK = 0x48_55_42_57
"""Held in PostgreSQL while tables are made or changed."""

_turn = threading.Lock()
"""SQLite has one writer. Threads of one process queue here, in turn; only other processes meet its busy wait."""


def open_engine(url: str) -> Engine:
    """A way to the database, nothing connected yet.

    Raises:
        StoreRefusal: when the URL names no database this program can use.
    """
    try:
        made = make_url(url)
        if made.get_backend_name() in ("postgresql", "postgres"):
            made = made.set(drivername="postgresql+psycopg")
            return create_engine(made, pool_pre_ping=True, **POOL)
        if made.get_backend_name() != "sqlite":
            raise NoSuchModuleError
    except (ArgumentError, NoSuchModuleError):
        # The URL may hold a password: it is never shown.
        raise StoreRefusal(
            say("The database URL"), say("wanted sqlite:///... or postgresql://..."), say("Check HUBWRIGHT_DATABASE.")
        ) from None
    engine = create_engine(
        made, poolclass=QueuePool, connect_args={"timeout": WAIT_S, "check_same_thread": False}, **POOL
    )
    event.listen(engine, "connect", _prepare_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def is_sqlite(engine: Engine) -> bool:
    """Whether the database is a file."""
    return engine.dialect.name == "sqlite"


def _prepare_sqlite(connection: Any, _record: Any) -> None:
    connection.isolation_level = None  # the driver would begin too late; _begin_sqlite does it
    cursor = connection.cursor()
    for pragma in (
        f"busy_timeout = {WAIT_S * 1000}",
        "foreign_keys = ON",
        "synchronous = FULL",
        "trusted_schema = OFF",
    ):
        cursor.execute(f"PRAGMA {pragma}")
    _keep_log(cursor)
    cursor.close()


def _keep_log(cursor: sqlite3.Cursor) -> None:
    """Switch to the write-ahead log; while another program does the same, SQLite refuses without its busy wait."""
    until = time.monotonic() + WAIT_S
    while True:
        try:
            if cursor.execute("PRAGMA journal_mode").fetchone()[0] == "wal":
                return
            cursor.execute("PRAGMA journal_mode = WAL")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode & 0xFF not in (SQLITE_BUSY, SQLITE_LOCKED) or time.monotonic() > until:
                raise
            time.sleep(0.02)


def _begin_sqlite(connection: Connection) -> None:
    writes = connection.get_execution_options().get(WRITES)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """One unchanging view of everything, for as long as it lasts; writers go on meanwhile.

    PostgreSQL takes its view with the first query, which may then wait while a restore puts new tables in place, and
    would find them empty. Locking comes before the view is taken, so the wait is over by then.
    """
    with engine.connect() as connection:
        if not is_sqlite(engine):
            connection = connection.execution_options(isolation_level="REPEATABLE READ", postgresql_readonly=True)  # noqa: PLW2901
        with connection.begin():
            if not is_sqlite(engine):
                connection.exec_driver_sql(f"LOCK TABLE {tables.job.name} IN ACCESS SHARE MODE")
            yield connection


@contextmanager
def _bare(engine: Engine) -> Iterator[Connection]:
    """A view of a place that may have no tables yet."""
    with engine.connect() as connection, connection.begin():
        yield connection


@contextmanager
def _in_turn(engine: Engine) -> Iterator[None]:
    if not is_sqlite(engine):
        yield
        return
    if not _turn.acquire(timeout=WAIT_S):
        raise _no_turn()
    try:
        yield
    finally:
        _turn.release()


@contextmanager
def _writing(engine: Engine) -> Iterator[Connection]:
    with _in_turn(engine), engine.connect() as connection:
        connection = connection.execution_options(**{WRITES: True})  # noqa: PLW2901
        with connection.begin():
            if not is_sqlite(engine):
                connection.exec_driver_sql("SET LOCAL synchronous_commit TO on")
            yield connection


def write(engine: Engine, work: Callable[[Connection], T]) -> T:
    """Run work in one transaction, again when it met another writer or the line broke; back only when the disk has it.

    Work is run from its start each time, so it must look first whether it was done already.

    Raises:
        StoreRefusal: when nothing could be stored: no turn in time, a full disk, a lost connection.
    """
    return _patiently(engine, _writing, work)


def read(engine: Engine, work: Callable[[Connection], T]) -> T:
    """Run work that only reads, all of it on one unchanging view.

    Raises:
        StoreRefusal: when the database cannot be read.
    """
    return _patiently(engine, reading, work)


def read_bare(engine: Engine, work: Callable[[Connection], T]) -> T:
    """As `read`, where there may be no tables yet.

    Raises:
        StoreRefusal: when the database cannot be read.
    """
    return _patiently(engine, _bare, work)


def _patiently(
    engine: Engine, way: Callable[[Engine], AbstractContextManager[Connection]], work: Callable[[Connection], T]
) -> T:
    until = time.monotonic() + WAIT_S
    pause_s = 0.01
    while True:
        try:
            with way(engine) as connection:
                return work(connection)
        except DBAPIError as error:
            if not _may_pass(error) or time.monotonic() > until:
                raise refusal(error) from error
        except NoLineFree as error:
            raise _no_turn() from error
        time.sleep(pause_s)
        pause_s = min(2 * pause_s, 0.5)


def head_for_update(connection: Connection, job_id: str) -> int | None:
    """The newest revision of a job, held until the transaction ends; None when there is no such job."""
    found = connection.execute(select(tables.job.c.head).where(tables.job.c.id == job_id).with_for_update()).scalar()
    return None if found is None else int(found)


def hold(connection: Connection, table: Table) -> None:
    """Keep other writers out of one small table until the transaction ends, so that a rule over all its rows holds."""
    if connection.dialect.name == "postgresql":
        connection.execute(text(f"LOCK TABLE {table.name} IN SHARE ROW EXCLUSIVE MODE"))


def hold_everything(connection: Connection) -> None:
    """Keep every other writer out until the transaction ends."""
    if connection.dialect.name != "postgresql":
        return  # BEGIN IMMEDIATE has done it
    connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": ADVISORY_LOCK})
    for name in sorted(set(inspect(connection).get_table_names()) & set(tables.metadata.tables)):
        connection.execute(text(f"LOCK TABLE {name} IN ACCESS EXCLUSIVE MODE"))


def _may_pass(error: DBAPIError) -> bool:
    if error.connection_invalidated or _sqlstate(error).startswith("08"):
        return True
    return _sqlite_code(error) in (SQLITE_BUSY, SQLITE_LOCKED) or _sqlstate(error) in PG_AGAIN


def _sqlite_code(error: DBAPIError) -> int | None:
    code = getattr(error.orig, "sqlite_errorcode", None)
    return None if code is None else int(code) & 0xFF


def _sqlstate(error: DBAPIError) -> str:
    return str(getattr(error.orig, "sqlstate", None) or "")


def _no_turn() -> StoreRefusal:
    return StoreRefusal(
        say("Not stored"), say("no turn within {wait} s", wait=WAIT_S), say("Send it again; what was stored is safe.")
    )


def refusal(error: DBAPIError) -> StoreRefusal:
    """What a database error means to the person in front of the screen."""
    code, state = _sqlite_code(error), _sqlstate(error)
    if code == SQLITE_FULL or state in PG_FULL:
        return StoreRefusal(
            say("Not stored"), say("the disk is full"), say("Make room, then send it again; what was stored is safe.")
        )
    if code in (SQLITE_BUSY, SQLITE_LOCKED) or state in PG_AGAIN:
        return _no_turn()
    if code in SQLITE_BROKEN:
        return StoreRefusal(
            say("The database file"),
            say("it is damaged or no database"),
            say("Keep the file, restore the last backup elsewhere."),
        )
    if error.connection_invalidated or state.startswith(("08", "57P")) or (not state and code is None):
        return StoreRefusal(
            say("The database"), say("it cannot be reached"), say("See that it runs, then send it again.")
        )
    return StoreRefusal(
        say("The database"),
        say("it said: {error}", error=str(error.orig).strip()),
        say("What was stored before is safe."),
    )
