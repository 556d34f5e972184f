"""What comes to the screen, a pipe or a file: told in one line where it cannot be written."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from functools import wraps

NOT_WRITTEN = 2
PIPE_CLOSED = 1
"""As the library of the command line leaves, where it notices first."""


def told(run: Callable[[], None]) -> Callable[[], None]:
    """The command line, with a full disk or a closed pipe told as such and nothing left for Python to stumble over."""

    @wraps(run)
    def running() -> None:
        try:
            try:
                run()
            finally:
                sys.stdout.flush()
        except BrokenPipeError:
            _drop_the_rest()
            raise SystemExit(PIPE_CLOSED) from None
        except OSError as error:
            _drop_the_rest()
            sys.stderr.write(f"{_words(error)}\n")
            raise SystemExit(NOT_WRITTEN) from None

    return running


def _words(error: OSError) -> str:
    from hubwright.cli.spoken_help import language_asked  # noqa: PLC0415 - nothing is imported before it is needed
    from hubwright.cli.tongue import VARIABLE  # noqa: PLC0415
    from hubwright.language import say, speaking_in  # noqa: PLC0415

    about = f" ({error.filename})" if error.filename else ""
    with speaking_in(language_asked(sys.argv[1:], os.environ, VARIABLE)):
        return say("It could not be written: {error}.", error=f"{error.strerror or error}{about}")


def _drop_the_rest() -> None:
    """What is still waiting for the screen goes nowhere, else Python would try it again at its end."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)
