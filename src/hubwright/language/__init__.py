"""In which language the program speaks. Texts are written in English in the code; catalogues hold the others.

A text is one whole sentence with named places: ``say("{gap} of air, {wanted} wanted.", gap=length(gap_mm), wanted=...)``.
Outside `speaking_in` it is English. Codes such as ``left`` or ``not known`` are spoken by `hubwright.language.words`.
"""

from __future__ import annotations

import gettext
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from importlib.resources import files

from hubwright.language.said import Said

SOURCE = "en"
"""The language of the code."""
LANGUAGES = {"en": "English", "de": "Deutsch"}
"""Languages by code, each in its own words."""
DOMAIN = "hubwright"
COMMA = ("de",)
"""Languages that write 12,5."""
DAYS = {"de": "%d.%m.%Y"}
"""How a language writes a day; elsewhere as ISO 8601 has it."""

_SPOKEN: ContextVar[str] = ContextVar("language spoken", default=SOURCE)


def spoken() -> str:
    """The code of the language spoken here, such as ``en``."""
    return _SPOKEN.get()


@contextmanager
def speaking_in(language: str) -> Iterator[None]:
    """Within this block texts come in one language; the door sets it, once.

    Raises:
        ValueError: for a language there is no catalogue of.
    """
    if language not in LANGUAGES:
        raise ValueError(f"wanted one of {', '.join(LANGUAGES)}, given {language!r}")
    token = _SPOKEN.set(language)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


def say(text: str, /, **values: object) -> str:
    """The text in the language spoken, its named places filled."""
    said = catalogue(_SPOKEN.get()).gettext(text) if text else text
    return Said(said.format(**values) if values else said, text, values, say)


def say_as(about: str, text: str, /, **values: object) -> str:
    """A text that means different things in different places: ``about`` tells them apart, such as ``side``."""
    said = catalogue(_SPOKEN.get()).pgettext(about, text)
    return Said(said.format(**values) if values else said, text, values, say_as, about)


def say_n(one: str, many: str, count: int, /, **values: object) -> str:
    """The text for one or for many; ``{count}`` may stand in it."""
    return catalogue(_SPOKEN.get()).ngettext(one, many, count).format(count=count, **values)


def marked(text: str) -> str:
    """The text unchanged, but found by the collector of texts: for words that are data here and spoken later."""
    return text


def marked_as(about: str, text: str) -> str:
    """As `marked`, for a text that is spoken by `say_as`."""
    return text


@cache
def catalogue(language: str) -> gettext.NullTranslations:
    """The texts of one language; of the code's own language, or of one without a catalogue: the texts themselves."""
    if language == SOURCE:
        return gettext.NullTranslations()
    path = files("hubwright.language").joinpath("locale", language, "LC_MESSAGES", f"{DOMAIN}.mo")
    if not path.is_file():
        return gettext.NullTranslations()
    with path.open("rb") as opened:
        return gettext.GNUTranslations(opened)
