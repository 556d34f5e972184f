"""``--language``: in which language a command answers. Its help texts stay English."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from hubwright.language import speaking_in

VARIABLE = "HUBWRIGHT_LANGUAGE"


class Tongue(StrEnum):
    """Languages the program speaks."""

    EN = "en"
    DE = "de"


def _speak(context: typer.Context, language: Tongue | None) -> Tongue | None:
    """Speak it until the command is done."""
    if language is not None:
        context.with_resource(speaking_in(language.value))
    return language


Language = Annotated[
    Tongue, typer.Option(help="Language of the answer.", envvar=VARIABLE, callback=_speak, is_eager=True)
]
