"""Writing a file somebody asked for."""

from __future__ import annotations

from pathlib import Path

from hubwright.cli.commands import leave
from hubwright.jobs.writer import write_whole
from hubwright.language import say


def refuse_existing(file: Path) -> None:
    """Out, where something stands there already: nothing is written over."""
    if file.exists():
        leave(say("{file}: wanted a new name; given a file that exists.", file=file.name))


def write_out(file: Path, data: bytes) -> None:
    """The whole file or none of it; out with the reason where it cannot be written."""
    try:
        write_whole(file, data)
    except OSError as error:
        leave(say("{file}: could not be written: {error}.", file=file.name, error=error.strerror or error))
