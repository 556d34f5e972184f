"""A spoken text kept as data, so that whoever reads it later reads it in their own language."""

from __future__ import annotations

from collections.abc import Mapping

from hubwright.language import LANGUAGES, SOURCE, catalogue, say, say_as
from hubwright.language.said import Said

Kept = str | dict[str, object]


def kept(text: str) -> Kept:
    """The text for a JSON document: what it was made of, beside the words it had; a text nobody spoke as it is."""
    if not isinstance(text, Said):
        return text
    values = {name: _kept_value(value) for name, value in text.values.items()}
    return {"shown": str(text), "text": text.text, "about": text.about, "values": values}


def _kept_value(value: object) -> object:
    if isinstance(value, str):
        return kept(value)
    return value if value is None or isinstance(value, bool | int | float) else str(value)


def said_again(data: object) -> str:
    """A kept text in the language spoken here.

    Only a text of the program is put together anew; of anything else the words it had are given.

    Raises:
        ValueError: for data that hold no text.
    """
    if isinstance(data, str):
        return data
    if not isinstance(data, Mapping) or not isinstance(data.get("shown"), str):
        raise ValueError("no kept text")
    shown, text, about, values = (data.get(key) for key in ("shown", "text", "about", "values"))
    if not (isinstance(text, str) and isinstance(about, str) and isinstance(values, Mapping) and _known(text, about)):
        return str(shown)
    places = {str(name): said_again(value) if isinstance(value, Mapping) else value for name, value in values.items()}
    try:
        return say_as(about, text, **places) if about else say(text, **places)
    except (KeyError, IndexError, ValueError):
        return str(shown)


def _known(text: str, about: str) -> bool:
    others = [catalogue(language) for language in LANGUAGES if language != SOURCE]
    return any((other.pgettext(about, text) if about else other.gettext(text)) != text for other in others)
