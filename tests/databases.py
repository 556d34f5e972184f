"""Databases for tests: SQLite in a folder, PostgreSQL on a server of our own, started on first use and stopped at the end."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text

from hubwright.store.cupboard import Cupboard

SERVER_USER = "postgres"
numbers = count(1)


@dataclass(frozen=True)
class Place:
    """Where a cupboard may be opened, again and again."""

    data: Path
    database: str | None

    def open(self) -> Cupboard:
        return Cupboard.open(self.data, self.database)


def _programs() -> Path | None:
    found = shutil.which("initdb")
    if found:
        return Path(found).resolve().parent
    return max(Path("/usr/lib/postgresql").glob("*/bin"), default=None)


@pytest.fixture(scope="session")
def postgres() -> Iterator[str]:
    """The URL of a server of our own, without a database name: it listens on a socket in a folder of its own."""
    programs = _programs()
    if programs is None:
        pytest.skip("PostgreSQL is not installed (Debian package postgresql)")
    folder = Path(tempfile.mkdtemp(prefix="hubwright-pg-"))
    user: str | None = None
    if os.geteuid() == 0:  # the server refuses to run as root
        try:
            pwd.getpwnam(SERVER_USER)
        except KeyError:
            pytest.skip("running as root, and there is no user postgres to run the server as")
        user = SERVER_USER
        shutil.chown(folder, user)

    def run(*command: str) -> None:
        done = subprocess.run(
            [str(programs / command[0]), *command[1:]], cwd=folder, capture_output=True, text=True, check=False,
            **({"user": user, "group": user, "extra_groups": []} if user else {}),
        )  # fmt: skip
        assert done.returncode == 0, done.stdout + done.stderr

    options = f"-c listen_addresses='' -c unix_socket_directories='{folder}' -c max_connections=120"
    run(
        "initdb",
        "-D",
        str(folder / "cluster"),
        "-A",
        "trust",
        "-U",
        "shop",
        "-E",
        "UTF8",
        "--locale=C",
        "--no-instructions",
    )
    run("pg_ctl", "-D", str(folder / "cluster"), "-w", "-l", str(folder / "log"), "-o", options, "start")
    try:
        yield f"postgresql+psycopg://shop@/@?host={folder}"
    finally:
        run("pg_ctl", "-D", str(folder / "cluster"), "-m", "immediate", "-w", "stop")
        shutil.rmtree(folder, ignore_errors=True)


def fresh_database(server: str) -> str:
    """The URL of an empty database on a server."""
    name = f"shop_{next(numbers)}"
    engine = create_engine(server.replace("@?", "postgres?"), isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(f"CREATE DATABASE {name}"))
    engine.dispose()
    return server.replace("@?", f"{name}?")


@pytest.fixture
def new_database(postgres: str) -> str:
    """The URL of an empty PostgreSQL database."""
    return fresh_database(postgres)


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Place:
    """An empty place on each database in turn."""
    database = None if request.param == "sqlite" else str(request.getfixturevalue("new_database"))
    return Place(tmp_path / "data", database)
