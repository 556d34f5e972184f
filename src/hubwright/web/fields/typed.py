"""From what a person types to a value: decimal comma or point, fractions of an inch, one or several repeats.

Inches and their kin become mm and its kin here and nowhere else (see `hubwright.quantities.units`). A converted figure
keeps nine digits behind the point, so that typing what was shown gives the very value that was stored.
"""

from __future__ import annotations

import datetime
import math
import re
from dataclasses import dataclass
from typing import Any

from hubwright.language import say
from hubwright.quantities.text import System, plain
from hubwright.quantities.units import INSIDE, OUTSIDE
from hubwright.web.fields.spec import Spec

KEPT_DIGITS = 9
NUMBER = re.compile(
    r"(?P<sign>[+\-−–])?\s*(?:(?P<whole>\d+)[ ]+)?(?:(?P<top>\d+)\s*/\s*(?P<under>\d+)|(?P<plain>\d*[.,]?\d+|\d+[.,]))",
    re.ASCII,
)
MOST_DIGITS = 30
LONGEST_TEXT = 400
UNIT_WORDS = {
    "mm": "mm", "in": "in", "deg": "°", "nm": "N·m", "lbft": "lb-ft", "kg": "kg", "lb": "lb", "kpa": "kPa", "psi": "psi",
    "kmh": "km/h", "mph": "mph", "percent": "%", "mpa": "MPa", "kn": "kN",
}  # fmt: skip
ALWAYS_INCH = ("approved_rim_widths_mm",)
"""Rims are named in inches everywhere."""
RATES = {"_n_per_mm": "N/mm", "_nm_per_deg": "N·m/°", "_deg_per_kn": "°/kN", "_mm_per_kn": "mm/kN", "_n_mm": "N/mm"}


@dataclass(frozen=True)
class NotThat:
    """Why a text is no value of its field, in the person's words."""

    wanted: str
    given: str


def factor_of(spec: Spec, system: System) -> float:
    """What a typed figure is multiplied by to get the value stored."""
    return INSIDE[OUTSIDE[spec.unit]][1] if _converts(spec, system) else 1.0


def unit_word(spec: Spec, system: System) -> str:
    """The unit beside the field, as the person reads it."""
    for end, word in RATES.items():
        if spec.name.endswith(end):
            return word
    if spec.unit == "days":
        return say("days")
    return UNIT_WORDS.get(OUTSIDE[spec.unit] if _converts(spec, system) else spec.unit, "")


def _converts(spec: Spec, system: System) -> bool:
    if spec.name in ALWAYS_INCH:
        return True
    return system == "inch" and spec.unit in OUTSIDE and not any(spec.name.endswith(end) for end in RATES)


def number_of(text: str) -> float | None:
    """A number as people write it: ``12,5``, ``12.5``, ``-3``, ``5/8``, ``1 5/8``; None when it is none."""
    match = NUMBER.fullmatch(text.strip().replace("\u00a0", " ").replace("½", " 1/2").replace("¼", " 1/4").replace("¾", " 3/4").strip())  # fmt: skip
    if match is None or len(text) > MOST_DIGITS or not text.strip().isprintable():
        return None
    if match["under"]:
        under = int(match["under"])
        if not under:
            return None
        size = int(match["whole"] or 0) + int(match["top"]) / under
    elif match["whole"]:
        return None  # "12 5" is neither 12.5 nor 125
    else:
        size = float(match["plain"].replace(",", "."))
    return -size if match["sign"] and match["sign"] != "+" else size


def inside(value: float, spec: Spec, system: System) -> float:
    """A typed figure in the unit stored; a whole figure of its own unit stays as typed."""
    factor = factor_of(spec, system)
    return value if factor == 1.0 else round(value * factor, KEPT_DIGITS)


def figures(text: str) -> list[str]:
    """The single figures of a list: apart by semicolons, new lines, or blanks where no fraction needs them."""
    parts = [part.strip() for part in re.split(r"[;\n]", text) if part.strip()]
    if len(parts) == 1 and "/" not in text and not re.search(r"[¼½¾]", text):
        parts = parts[0].split()
    return parts


def read(spec: Spec, text: str, system: System) -> Any | NotThat | None:
    """The value of a typed text: a number, a text, a list; None = nothing was typed, the field is taken out.

    A reading comes back as the list of its repeats.
    """
    text = text.strip()
    if not text:
        return None
    if spec.kind == "text":
        return _short(text)
    if spec.kind in ("choice", "choices"):
        return text if text in spec.choices else NotThat(say("one of the choices"), text[:60])
    if spec.kind == "yesno":
        return {"yes": True, "no": False}.get(text) if text in ("yes", "no") else NotThat(say("yes or no"), text[:60])
    if spec.kind == "day":
        return _day(text)
    if spec.kind == "texts":
        return text.split()
    return _numbers(spec, text, system)


def _short(text: str) -> str | NotThat:
    if len(text) > LONGEST_TEXT:
        return NotThat(say("at most {count} letters", count=LONGEST_TEXT), say("{count} letters", count=len(text)))
    return text if "\0" not in text else NotThat(say("text"), say("a sign that is none"))


def _day(text: str) -> datetime.date | NotThat:
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        return NotThat(say("a day such as 2026-05-04"), text[:60])


def _numbers(spec: Spec, text: str, system: System) -> Any | NotThat:
    single = spec.kind in ("number", "whole")
    parts = [text] if single else figures(text)
    values = []
    for part in parts:
        found = number_of(part)
        if found is None or not math.isfinite(found):
            return NotThat(_number_words(spec, system), part[:60])
        value = inside(found, spec, system)
        if not within(spec, value):
            return NotThat(limit_words(spec, system), part)
        values.append(value)
    if spec.most is not None and len(values) > spec.most:
        return NotThat(say("at most {count} figures", count=spec.most), str(len(values)))
    if spec.kind == "whole":
        return int(values[0]) if values[0] == int(values[0]) else NotThat(say("a whole number"), text[:60])
    return values[0] if single else values


def within(spec: Spec, value: float) -> bool:
    """Whether a stored value lies inside the limits of its field."""
    low, high = spec.low, spec.high
    if low is not None and (value < low or (spec.open_low and value == low)):
        return False
    return not (high is not None and (value > high or (spec.open_high and value == high)))


def _number_words(spec: Spec, system: System) -> str:
    if system == "inch" and _converts(spec, system) and spec.unit == "mm":
        return say("a number such as 0.5 or 1/2")
    return say("a number such as 12.5")


def limit_words(spec: Spec, system: System) -> str:
    """The limits of a field in the person's unit."""
    factor, unit = factor_of(spec, system), unit_word(spec, system)

    def said(value: float) -> str:
        return f"{plain(float(f'{value / factor:.4g}'))} {unit}".strip()

    if spec.low is not None and spec.high is not None:
        return say("a number from {low} to {high}", low=said(spec.low), high=said(spec.high))
    if spec.low is not None:
        return say("a number of {low} or more", low=said(spec.low))
    return say("a number of {high} or less", high=said(spec.high or 0.0))
