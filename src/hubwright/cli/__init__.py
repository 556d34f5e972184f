"""The command line: `hubwright --help`."""

from __future__ import annotations


def run() -> None:
    """Run the command line and leave with its exit code."""
    from hubwright.cli.commands import app  # noqa: PLC0415 - nothing is imported before it is needed

    app()
