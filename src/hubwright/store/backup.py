"""A copy of everything as it stands at one moment, taken while others work; and the way back, into either database.

The rows are written as they are, with the version of their tables. A backup of any earlier version can be restored: its own
tables are made first, filled, and then brought up to date.
"""

from __future__ import annotations

import base64
import json
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, LargeBinary, MetaData, Table, func, insert, select

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store import archive, blobs, dialects, migrate, tables
from hubwright.store.archive import Archive, Member, spoilt

KIND = "backup"
VERSION_TABLE = "alembic_version"
ROWS_AT_ONCE = 200
KEPT = (tables.job, tables.person, tables.shop)
"""Tables without which there is nothing anybody would miss."""


@dataclass(frozen=True)
class BackupNote:
    """What went into a backup.

    Attributes:
        rows: Rows by table.
        files: How many attachments' files.
        missing: Files that should be there and are not whole: hash and what is wrong.
    """

    path: Path
    version: str
    rows: dict[str, int]
    files: int
    missing: tuple[str, ...]


def write_backup(engine: Engine, files: Path, target: Path, made_at: str) -> BackupNote:
    """Write everything into one archive, and read it again.

    Raises:
        StoreRefusal: when it cannot be written or does not read back.
    """

    def work(connection: Connection) -> BackupNote:
        version = migrate.version_of(connection)
        if version is None:
            raise StoreRefusal(say("The store"), say("it is empty"), say("There is nothing to back up."))
        return write_tables(connection, version, target, made_at, files)

    note = dialects.read(engine, work)
    with archive.opened(target, (KIND,)) as box:
        box.prove()
    return note


def write_tables(connection: Connection, version: str, target: Path, made_at: str, files: Path | None) -> BackupNote:
    """Write all rows a connection sees, and with a folder of files those too.

    Raises:
        StoreRefusal: when it cannot be written.
    """
    found = _tables(connection)
    hashes = (
        list(connection.execute(select(found["attachment"].c.sha256).distinct()).scalars())
        if "attachment" in found
        else []
    )
    problems = {name: blobs.problem_with(files, name) for name in hashes} if files is not None else {}
    whole = [name for name, problem in problems.items() if problem is None]
    missing = tuple(f"{name}: {problem}" for name, problem in problems.items() if problem is not None)
    rows = {
        name: connection.execute(select(func.count()).select_from(table)).scalar_one() for name, table in found.items()
    }
    facts = {
        "tables": version,
        "made_at": made_at,
        "rows": rows,
        "missing_files": missing,
        "with_files": files is not None,
    }

    def members(folder: Path) -> Iterator[Member]:
        for name, table in found.items():
            spool = folder / name
            with spool.open("w", encoding="utf-8") as file:
                for row in connection.execute(select(table).execution_options(yield_per=ROWS_AT_ONCE)).mappings():
                    file.write(json.dumps({key: _plain(value) for key, value in row.items()}) + "\n")
            yield f"tables/{name}.jsonl", spool
            spool.unlink()
        for name in whole:
            if files is not None:
                yield f"files/{name}", blobs.path_of(files, name)

    try:
        with tempfile.TemporaryDirectory(dir=target.parent, prefix=".backup.") as folder:
            archive.write(target, KIND, facts, members(Path(folder)))
    except OSError as error:
        raise StoreRefusal(
            say("The backup was not written"), error.strerror or str(error), say("Choose another place.")
        ) from error
    return BackupNote(target, version, rows, len(whole), missing)


def _tables(connection: Connection) -> dict[str, Table]:
    """The tables as they are in the database, those others point to first."""
    found = MetaData()
    found.reflect(connection)
    return {table.name: table for table in found.sorted_tables if table.name != VERSION_TABLE}


def _plain(value: Any) -> Any:
    return {"base64": base64.b64encode(value).decode()} if isinstance(value, bytes) else value


def is_empty(connection: Connection) -> bool:
    """Whether nothing that anybody would miss is in the cupboard."""
    return all(connection.execute(select(table).limit(1)).first() is None for table in KEPT)


def read_backup(engine: Engine, files: Path, source: Path, *, force: bool, before: Path, made_at: str) -> BackupNote:
    """Make the cupboard what it was when the backup was taken, in one transaction.

    Args:
        engine: The database, its tables up to date.
        files: The folder of files; those of the backup are added.
        source: The backup.
        force: Also when jobs, people or settings are in the cupboard; they are backed up first.
        before: Where that backup goes.
        made_at: The moment, as text.

    Raises:
        StoreRefusal: when the backup is spoilt or newer than this program, or the cupboard is not empty; nothing is changed.
    """
    with archive.opened(source, (KIND,)) as box:
        version, rows = _facts(box)
        migrate.refuse_newer(version)
        box.prove()
        if not force and not dialects.read(engine, is_empty):
            raise _occupied()
        for name in box.names("files"):
            if not blobs.NAME.fullmatch(name.removeprefix("files/")) or box.hashes[name] != name.removeprefix("files/"):
                raise spoilt(box.name, say("{name} is not what its name says", name=name))
            if blobs.problem_with(files, box.hashes[name]) is not None:
                blobs.keep(files, box.stream(name))

        def work(connection: Connection) -> None:
            dialects.hold_everything(connection)
            if not is_empty(connection):
                if not force:
                    raise _occupied()
                before.unlink(missing_ok=True)
                _keep_first(connection, files, before, made_at)
            _replace(connection, box, version, rows)

        dialects.write(engine, work)
        return BackupNote(source, version, rows, len(box.names("files")), tuple(box.facts.get("missing_files", ())))


def _keep_first(connection: Connection, files: Path, before: Path, made_at: str) -> None:
    """Back up what is about to be replaced, while nobody else can write: not one entry falls between the two."""
    write_tables(connection, migrate.NEWEST, before, made_at, files)
    with archive.opened(before, (KIND,)) as box:
        box.prove()


def _occupied() -> StoreRefusal:
    todo = say("Restore into an empty place (HUBWRIGHT_DATA), or use --force: what is here is backed up first.")
    return StoreRefusal(
        say("The backup was not restored"), say("there are jobs, people or settings in this cupboard"), todo
    )


def _facts(box: Archive) -> tuple[str, dict[str, int]]:
    version, rows = box.facts.get("tables"), box.facts.get("rows")
    if not isinstance(version, str) or not isinstance(rows, dict):
        raise spoilt(box.name, say("the manifest does not say which tables it holds"))
    if {f"tables/{name}.jsonl" for name in rows} != set(box.names("tables")):
        raise spoilt(box.name, say("its tables are not those of its manifest"))
    return version, rows


def _replace(connection: Connection, box: Archive, version: str, rows: dict[str, int]) -> None:
    old = MetaData()
    old.reflect(connection)
    old.drop_all(connection)
    migrate.upgrade(connection, version)
    made = _tables(connection)
    if set(made) != set(rows):
        raise spoilt(box.name, say("its tables are not those of version {version}", version=version))
    for name, table in made.items():
        if _fill(connection, box, name, table) != rows[name]:
            raise spoilt(box.name, say("{name} has not as many rows as its manifest says", name=name))
    if version != migrate.NEWEST:
        migrate.upgrade(connection, migrate.NEWEST)


def _fill(connection: Connection, box: Archive, name: str, table: Table) -> int:
    count = 0
    batch: list[dict[str, Any]] = []
    for line in _lines(box.stream(f"tables/{name}.jsonl")):
        try:
            batch.append(_row(table, json.loads(line)))
        except (ValueError, TypeError, KeyError, AttributeError) as error:
            raise spoilt(
                box.name, say("{name}, row {number}: {error}", name=name, number=count + 1, error=error)
            ) from None
        count += 1
        if len(batch) >= ROWS_AT_ONCE:
            connection.execute(insert(table), batch)
            batch = []
    if batch:
        connection.execute(insert(table), batch)
    return count


def _row(table: Table, row: dict[str, Any]) -> dict[str, Any]:
    if set(row) != set(table.c.keys()):
        raise ValueError(say("other columns than the table has"))
    return {
        column.name: base64.b64decode(row[column.name]["base64"])
        if isinstance(column.type, LargeBinary) and row[column.name] is not None
        else row[column.name]
        for column in table.c
    }


def _lines(pieces: Iterator[bytes]) -> Iterator[bytes]:
    rest = b""
    for piece in pieces:
        *whole, rest = (rest + piece).split(b"\n")
        yield from whole
    if rest:
        yield rest
