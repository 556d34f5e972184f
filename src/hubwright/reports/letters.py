"""Signs the fonts of the paper lack become something readable: their name, or their number, in square brackets.

What the fonts hold stands in ``fonts/signs.txt`` as ranges of Unicode numbers; a test asks the compiler about each.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from importlib.resources import files

JOINERS = "\u200d\ufe0e\ufe0f"
"""Tie signs to one picture, or choose its look; alone they say nothing."""
ZERO_WIDTH = "\u00ad\u200b\u200c\u200e\u200f\u2060"


@cache
def held() -> re.Pattern[str]:
    """Finds every run of signs that can be printed as they are."""
    text = files("hubwright.reports").joinpath("fonts/signs.txt").read_text(encoding="ascii")
    spans = [part.partition("-") for part in text.split()]
    inside = "".join(f"{_escaped(low)}-{_escaped(high or low)}" for low, _, high in spans)
    return re.compile(f"[{inside}{JOINERS}{ZERO_WIDTH}\t\n\r]+")


def _escaped(number: str) -> str:
    return f"\\U{int(number, 16):08x}"


def lacks(text: str) -> bool:
    """Whether a text has signs that cannot be printed."""
    return not text.isascii() and bool(held().sub("", text))


def readable(text: str) -> str:
    """The text with every sign the fonts lack written out: ``[wheel]`` for a picture, ``[U+20BB7]`` for a letter."""
    if not lacks(text):
        return text
    made, after = [], False
    for sign in text:
        if held().fullmatch(sign):
            if after and sign in JOINERS:
                continue
            made.append(sign)
            after = False
        else:
            made.append(_written(sign))
            after = True
    return "".join(made)


def _written(sign: str) -> str:
    """A picture by its Unicode name; a letter, whose name says less than its number, by that; the rest not at all."""
    group = unicodedata.category(sign)[0]
    if group == "C":
        return "\ufffd" if unicodedata.category(sign) in ("Cn", "Co", "Cs") else ""
    name = unicodedata.name(sign, "") if group == "S" else ""
    return f"[{name.lower()}]" if name else f"[U+{ord(sign):04X}]"


def numbered(text: str) -> str:
    """The text with everything beyond Latin, Greek and Cyrillic as numbers: what is left to print when all else fails."""
    return "".join(sign if ord(sign) < 0x0530 else f"[U+{ord(sign):04X}]" for sign in text)
