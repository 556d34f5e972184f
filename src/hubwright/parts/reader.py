"""Read a short designation from left to right and say exactly which piece was not understood."""

from __future__ import annotations

import re
from typing import NoReturn

from hubwright.errors import BadInput, Fault


class Reader:
    """A place in a text. `take` moves it on; `refuse` names what stands there."""

    def __init__(self, text: str, noun: str) -> None:
        self.text, self.noun, self.place = " ".join(text.split()), noun, 0

    @property
    def rest(self) -> str:
        """What has not been read yet."""
        return self.text[self.place :].strip()

    def take(self, pattern: str) -> re.Match[str] | None:
        """The match of `pattern` at the present place (blanks skipped, capitals and small letters alike), or None."""
        match = re.compile(rf"\s*(?:{pattern})", re.IGNORECASE | re.ASCII).match(self.text, self.place)
        if match is not None:
            self.place = match.end()
        return match

    def need(self, pattern: str, piece: str, wanted: str) -> re.Match[str]:
        """Like `take`, but the piece must be there.

        Raises:
            BadInput: naming the piece, what was wanted and what stood there.
        """
        match = self.take(pattern)
        if match is None:
            self.refuse(piece, wanted, self.rest)
        return match

    def refuse(self, piece: str, wanted: str, given: str) -> NoReturn:
        """Say that `piece` of this designation is not understood."""
        shown = repr(given) if given else "nothing"
        raise BadInput(f"{self.noun} {self.text!r}", (Fault(f"{self.noun}.{piece}", wanted, shown),))


def number(text: str) -> float:
    """A number as people write it: `8.5`, `8,5`, `6 1/2` or `6½`."""
    plain = text.replace(",", ".").replace("½", " 1/2").strip()
    if plain.endswith("1/2"):
        return float(plain[: -len("1/2")].strip() or 0.0) + 0.5
    return float(plain)
