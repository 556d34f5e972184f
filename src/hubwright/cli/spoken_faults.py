"""What the library of the command line says about a call that cannot be, in the language spoken."""

from __future__ import annotations

import re
import sys
from typing import Any, NoReturn

from hubwright.language import marked, say

SAID = (
    (r"Missing argument '(?P<name>[^']*)'\..*", marked("The argument {name} is missing.")),
    (r"Missing option '(?P<name>[^']*)'\..*", marked("The option {name} is missing.")),
    (r"No such option: (?P<name>\S+)", marked("There is no option {name}.")),
    (r"No such option: (?P<name>\S+) \(?(?:Did you mean|Possible options:) (?P<known>.*?)\??\)?",
     marked("There is no option {name}; there is {known}.")),
    (r"Got unexpected extra argument(?:s|\(s\))? \((?P<name>.*)\)", marked("Too many arguments: {name}.")),
    (r"Option '(?P<name>[^']*)' requires .*", marked("The option {name} needs a value.")),
    (r"Option '(?P<name>[^']*)' does not take a value\.", marked("The option {name} takes no value.")),
    (r"Invalid value for '(?P<name>[^']*)': (?:Value error, )?'(?P<given>[^']*)' is not one of (?P<known>.*?)\.",
     marked("{name}: wanted one of {known}; given {given}.")),
    (r"Invalid value for '(?P<name>[^']*)': Input should be a valid (?:integer|number).*",
     marked("{name}: wanted a number.")),
    (r"Invalid value for '(?P<name>[^']*)': (?P<given>.*)", marked("{name}: the value cannot be used ({given}).")),
)  # fmt: skip
"""The library's English with ours beside it; what is not here is told as the library says it."""


def run_spoken(command: Any) -> NoReturn:  # a command of a library that keeps its classes to itself
    """Run a command and leave with its exit code, as the library does, but for the words of a refusal."""
    try:
        code = command(standalone_mode=False)
    except Exception as error:
        if not hasattr(error, "format_message"):
            raise
        context = getattr(error, "ctx", None)
        if context is not None:
            hint = say("{command} {option} shows what there is.", command=context.command_path, option="--help")
            sys.stderr.write(f"{context.get_usage()}\n{hint}\n\n")
        sys.stderr.write(f"{in_words(str(error.format_message()))}\n")
        code = getattr(error, "exit_code", 2)
    sys.exit(code if isinstance(code, int) else 0)


def in_words(message: str) -> str:
    """A message of the library in the language spoken."""
    for pattern, text in SAID:
        if found := re.fullmatch(pattern, message, re.S):
            return say(text, **found.groupdict())
    return message
