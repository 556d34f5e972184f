"""A text that remembers what it was made of, so that it can be said of both sides, and known again in any language."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any


class Said(str):
    """A spoken text.

    Attributes:
        text: The English text, places empty.
        values: What stands in the places.
        about: Which meaning of the text; empty where it has but one.
    """

    text: str
    values: dict[str, object]
    about: str
    _speak: Callable[..., str] | None

    def __new__(
        cls, spoken: str, text: str = "", values: dict[str, object] | None = None,
        speak: Callable[..., str] | None = None, about: str = "",
    ) -> Said:  # fmt: skip
        """The text as spoken, and what it was made of."""
        self = super().__new__(cls, spoken)
        self.text, self.values, self.about, self._speak = text or spoken, values or {}, about, speak
        return self

    def with_values(self, values: dict[str, object]) -> str:
        """The same text with other words in its places."""
        if self._speak is None:
            return self
        return self._speak(self.about, self.text, **values) if self.about else self._speak(self.text, **values)

    def __deepcopy__(self, memo: dict[int, Any]) -> Said:
        """Never changes, so it is its own copy."""
        return self


def code_of(text: object) -> object:
    """What a text says, the same in every language: for telling texts apart."""
    if not isinstance(text, Said):
        return text
    return (text.about, text.text, tuple((name, code_of(value)) for name, value in text.values.items()))


def swapped(text: object, swap: Callable[[Said], str | None]) -> object:
    """The text with every part said anew for which ``swap`` has another word."""
    if not isinstance(text, Said):
        return text
    other = swap(text)
    if other is not None:
        return other
    values = {name: swapped(value, swap) for name, value in text.values.items()}
    return text if all(values[name] is value for name, value in text.values.items()) else text.with_values(values)
