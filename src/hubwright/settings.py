"""What the surroundings say, read once: where the data lies, which database, who is at work."""

from __future__ import annotations

import getpass
import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import platformdirs

from hubwright.errors import BadInput, Fault
from hubwright.language import say

DATA, DATABASE, AUTHOR = "HUBWRIGHT_DATA", "HUBWRIGHT_DATABASE", "HUBWRIGHT_AUTHOR"


@dataclass(frozen=True)
class Settings:
    """Where the store lives.

    Attributes:
        data: Folder of the database (unless `database` names another), of photographs and scans.
        database: URL of a PostgreSQL database; None = SQLite in the data folder.
        author: Name written beside what the command line enters.
    """

    data: Path
    database: str | None
    author: str


def read_settings(environ: Mapping[str, str] | None = None) -> Settings:
    """Settings from the environment: ``HUBWRIGHT_DATA``, ``HUBWRIGHT_DATABASE``, ``HUBWRIGHT_AUTHOR``.

    Args:
        environ: The environment; that of the process when missing.

    Raises:
        BadInput: when the data folder is not an absolute path.
    """
    environ = os.environ if environ is None else environ
    given = environ.get(DATA, "").strip()
    folder = Path(given).expanduser() if given else platformdirs.user_data_path("hubwright", appauthor=False)
    if not folder.is_absolute():
        fault = Fault(
            DATA,
            say("a folder from the root on"),
            given,
            say("Otherwise each working folder would have its own store."),
        )
        raise BadInput(say("settings"), (fault,))
    return Settings(folder, environ.get(DATABASE, "").strip() or None, environ.get(AUTHOR, "").strip() or _login())


def _login() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError):
        return "nobody named"
