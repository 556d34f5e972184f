"""The command line: `hubwright --help`."""

from __future__ import annotations

import codecs
import gc
import os
import sys

from hubwright.cli.streams import told

PLAIN = {"−": "-", "→": "->", "≥": ">=", "≤": "<=", "·": "*", "×": "x", "°": " deg", "±": "+-", "–": "-", "≈": "~"}
"""What is written where a terminal cannot show a sign; a minus must never get lost."""
SELDOM = 100_000
"""New objects before Python looks for cycles among them: its usual 700 costs a short command a tenth of its time."""


@told
def run() -> None:
    """Run the command line and leave with its exit code."""
    gc.set_threshold(SELDOM)
    codecs.register_error("plain", _plain)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="plain")
    from hubwright.cli.commands import app  # noqa: PLC0415 - nothing is imported before it is needed
    from hubwright.cli.spoken_help import language_asked, speak_help  # noqa: PLC0415
    from hubwright.cli.tongue import VARIABLE  # noqa: PLC0415
    from hubwright.language import SOURCE, speaking_in  # noqa: PLC0415

    language = language_asked(sys.argv[1:], os.environ, VARIABLE)
    if language == SOURCE:
        app()
    from typer.main import get_command  # noqa: PLC0415

    from hubwright.cli.spoken_faults import run_spoken  # noqa: PLC0415

    with speaking_in(language):
        command = get_command(app)
        speak_help(command)
        run_spoken(command)


def _plain(error: UnicodeError) -> tuple[str, int]:
    """The error handler of the streams: a sign in plain letters, any other character as a question mark."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(PLAIN.get(sign, "?") for sign in error.object[error.start : error.end]), error.end
