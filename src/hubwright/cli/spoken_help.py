"""Help texts in the language asked for. Commands are described in English; nothing is looked up while English is spoken."""

from __future__ import annotations

import gettext
import os
from collections.abc import Mapping, Sequence
from importlib.resources import files
from typing import Any

from hubwright.language import DOMAIN, LANGUAGES, SOURCE, marked, say, spoken

FRAME = (
    marked("Arguments"), marked("Options"), marked("Commands"), marked("required"), marked("default: {default}"),
    marked("env var: {var}"), marked("(dynamic)"), marked("Aborted!"), marked("Missing command."),
    marked("No such command {name!r}."), marked("[OPTIONS]"), marked("COMMAND [ARGS]..."),
    marked("Show this message and exit."), marked("Install completion for the current shell."),
    marked("Show completion for the current shell, to copy it or customize the installation."),
)  # fmt: skip
"""What the library of the command line writes itself; it asks the standard library's gettext."""


def language_asked(arguments: Sequence[str], environment: Mapping[str, str], variable: str) -> str:
    """The language of the whole call: of ``--language``, wherever it stands, else of the environment, else English."""
    found = environment.get(variable, "")
    for word, following in zip(arguments, (*arguments[1:], ""), strict=True):
        if word == "--":
            break
        if word == "--language":
            found = following
        elif word.startswith("--language="):
            found = word.partition("=")[2]
    return found if found in LANGUAGES else SOURCE


def speak_help(command: Any) -> None:  # a command of a library that keeps its classes to itself
    """Put every help text below a command into the language spoken, and what the library writes around them."""
    gettext.bindtextdomain(DOMAIN, str(files("hubwright.language").joinpath("locale")))
    gettext.textdomain(DOMAIN)
    os.environ["LANGUAGE"] = spoken()
    _speak(command)


def _speak(command: Any) -> None:
    for name in ("help", "short_help", "epilog", "options_metavar", "subcommand_metavar"):
        if text := getattr(command, name, None):
            setattr(command, name, str(say(text)))
    for parameter in command.params:
        if getattr(parameter, "help", None):
            parameter.help = str(say(parameter.help))
    command.context_class = _context(command.context_class)
    for inner in getattr(command, "commands", {}).values():
        _speak(inner)


def _context(usual: Any) -> Any:
    class Formatter(usual.formatter_class):  # type: ignore[misc]  # the class the library uses, whatever it is
        def write_usage(self, prog: str, args: str = "", prefix: str | None = None) -> None:
            super().write_usage(prog, args, prefix or f"{say('Usage:')} ")

        def write_dl(self, rows: Sequence[tuple[str, str]], *widths: int, **named: int) -> None:
            # the library makes its own --help only now
            super().write_dl([(first, str(say(second))) for first, second in rows], *widths, **named)

    class Context(usual):  # type: ignore[misc]  # as above
        formatter_class = Formatter

    return Context
