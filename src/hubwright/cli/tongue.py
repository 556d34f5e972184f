"""``--language``: in which language a command answers, its help texts too."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from hubwright.language import SOURCE, speaking_in, spoken

VARIABLE = "HUBWRIGHT_LANGUAGE"


class Tongue(StrEnum):
    """Languages the program speaks."""

    EN = "en"
    DE = "de"


def _speak(context: typer.Context, language: Tongue | None) -> Tongue | None:
    """Speak it until the command is done. What was asked for before the command's name holds unless the command says else."""
    if language is None:
        return None
    stated = getattr(context.get_parameter_source("language"), "name", "") == "COMMANDLINE"
    if not stated and spoken() != SOURCE:
        return Tongue(spoken())
    context.with_resource(speaking_in(language.value))
    return language


Language = Annotated[
    Tongue, typer.Option(help="Language of the answer.", envvar=VARIABLE, callback=_speak, is_eager=True)
]
