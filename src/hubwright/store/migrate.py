"""Bringing the tables of a cupboard up to date when it is opened; never without a backup, never backwards."""

from __future__ import annotations

from collections.abc import Callable

from sqlalchemy import Connection, Engine, inspect, text

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store import dialects

STEPS = ("0001", "0002", "0003", "0004", "0005")
"""Every version of the tables, oldest first; a test holds them against the files in `migrations/versions`."""
NEWEST = STEPS[-1]


def version_of(connection: Connection) -> str | None:
    """The version of the tables; None for an empty database.

    Raises:
        StoreRefusal: when the database holds other people's tables.
    """
    names = inspect(connection).get_table_names()
    if "alembic_version" in names:
        found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
        return None if found is None else str(found)
    if names:
        why = say("it holds tables that are not hubwright's ({list})", list=", ".join(sorted(names)[:3]))
        raise StoreRefusal(say("The database"), why, say("Name an empty one."))
    return None


def bring_up_to_date(engine: Engine, backup: Callable[[Connection, str], None]) -> None:
    """Make or change the tables, all in one transaction.

    Args:
        engine: The database.
        backup: Called before tables that hold something are changed, with their version.

    Raises:
        StoreRefusal: when a newer program made the tables, or they cannot be changed.
    """
    if dialects.read_bare(engine, version_of) == NEWEST:
        return

    def work(connection: Connection) -> None:
        dialects.hold_everything(connection)
        version = version_of(connection)
        if version == NEWEST:
            return
        if version is not None:
            refuse_newer(version)
            backup(connection, version)
        upgrade(connection, NEWEST)

    dialects.write(engine, work)


def refuse_newer(version: str) -> None:
    """Hold back from tables this program does not know.

    Raises:
        StoreRefusal: when the version is none of this program's.
    """
    if version not in STEPS:
        why = say(
            "a newer hubwright made it (tables {version}; this one knows up to {newest})",
            version=version,
            newest=NEWEST,
        )
        raise StoreRefusal(say("The store"), why, say("Use the newer program. Nothing was touched."))


def upgrade(connection: Connection, version: str) -> None:
    """Run the steps up to a version inside the transaction of the connection."""
    from alembic import command  # noqa: PLC0415 - slow to import, needed once in the life of a store
    from alembic.config import Config  # noqa: PLC0415

    config = Config()
    config.set_main_option("script_location", "hubwright.store:migrations")
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    command.upgrade(config, version)
