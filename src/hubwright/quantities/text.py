"""A number becomes text once, on the way out; this is where. How, `speaking` says: in which units and which language."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from datetime import date, datetime
from typing import Literal

from hubwright.language import COMMA, DAYS, say, speaking_in, spoken
from hubwright.quantities.rounding import NOISE, down, up
from hubwright.quantities.units import MM_PER_INCH, NM_PER_POUND_FOOT

System = Literal["metric", "inch"]
MINUS = "\u2212"
FORGIVEN_MM = 0.02
"""A fifth of the last digit printed: what a curve drawn through readings may be off without a word."""
_UNIT: dict[System, str] = {"metric": "mm", "inch": "in"}
_STEP_MM: dict[System, float] = {"metric": 0.1, "inch": MM_PER_INCH / 100}
_SPOKEN: ContextVar[System] = ContextVar("system of units spoken", default="metric")


def number(value: float, decimals: int) -> str:
    """``value`` with a fixed number of decimals and a proper minus sign; never minus zero."""
    text = f"{value:.{decimals}f}"
    if float(text) == 0:
        text = text.lstrip("-")
    return pointed(text.replace("-", MINUS))


def plain(value: float) -> str:
    """A number as short as it is: ``12.5``, ``8``."""
    return pointed(f"{value:g}")


def pointed(text: str) -> str:
    """A number that is text already, with the decimal mark of the language spoken."""
    return text.replace(".", ",") if spoken() in COMMA else text


def day(value: date) -> str:
    """A day: ``2026-05-04`` or ``04.05.2026``."""
    form = DAYS.get(spoken())
    return value.strftime(form) if form else value.strftime("%Y-%m-%d")


def moment(value: datetime) -> str:
    """A day with the time, without its zone: ``2026-05-04 16:30``."""
    return f"{day(value)} {value:%H:%M}"


@contextmanager
def speaking(system: System = "metric", language: str | None = None) -> Iterator[None]:
    """Within this block numbers and sentences become text in one system of units and one language.

    The door sets both, once. Without a language it stays as it is around the block. Threads and tasks each speak for
    themselves.

    Raises:
        ValueError: for a language there is no catalogue of.
    """
    with speaking_in(language or spoken()):
        token = _SPOKEN.set(system)
        try:
            yield
        finally:
            _SPOKEN.reset(token)


def length(value_mm: float, decimals: int = 1) -> str:
    """A length with its unit: ``11.5 mm`` or ``0.45 in``."""
    return f"{figure(value_mm, decimals)} {_UNIT[_SPOKEN.get()]}"


def figure(value_mm: float, decimals: int = 1) -> str:
    """A length without its unit, for lines of working whose result carries it."""
    if _SPOKEN.get() == "inch":
        return number(value_mm / MM_PER_INCH, decimals + 1)
    return number(value_mm, decimals)


def spare(value_mm: float) -> str:
    """What is left, rounded down so that nobody counts on more than there is: ``0.5 mm spare``."""
    return say("{length} spare", length=length(down(value_mm, _STEP_MM[_SPOKEN.get()])))


def short(value_mm: float) -> str:
    """What is missing, rounded up so that nobody counts on less than is needed: ``1.5 mm short``."""
    return say("{length} short", length=length(_missing(-value_mm, _STEP_MM[_SPOKEN.get()])))


def _missing(value_mm: float, step_mm: float) -> float:
    """What a negative margin lacks: rounded up, a hundredth or two forgiven, never nothing."""
    return max(step_mm, up(-value_mm - FORGIVEN_MM, step_mm))


def left_over(value_mm: float) -> str:
    """A margin for a column of figures, signed and rounded down: ``+0.5``, ``−2.5``."""
    step = _STEP_MM[_SPOKEN.get()]
    if value_mm < -NOISE:
        return figure(-_missing(value_mm, step))
    return f"+{figure(down(value_mm + NOISE, step))}"


def change_of(value_mm: float) -> str:
    """A change of a length with its sign, without its unit: ``+7.7``, ``−1.3``."""
    text = figure(value_mm)
    return text if text.startswith(MINUS) else f"+{text}"


def unit() -> str:
    """The unit lengths are spoken in."""
    return _UNIT[_SPOKEN.get()]


def thickness(value_mm: float) -> str:
    """A disc thickness as it is sold: no decimals where none are needed."""
    if _SPOKEN.get() == "inch":
        return f"{length(value_mm)} ({number(value_mm, 0 if value_mm == round(value_mm) else 1)} mm)"
    return length(value_mm, 0 if value_mm == round(value_mm) else 1)


def unit_mm() -> float:
    """How many mm the unit has that lengths are spoken in: 1 or 25.4."""
    return MM_PER_INCH if _SPOKEN.get() == "inch" else 1.0


def step_mm() -> float:
    """The last digit of a length as it is spoken: 0.1 mm or 0.01 in, in mm."""
    return _STEP_MM[_SPOKEN.get()]


def torque(value_nm: float) -> str:
    """A torque with its unit: ``120 N·m`` or ``89 lb-ft``."""
    if _SPOKEN.get() == "inch":
        return f"{number(value_nm / NM_PER_POUND_FOOT, 0)} lb-ft"
    return f"{number(value_nm, 0)} N·m"


def percent(ratio: float, decimals: int = 2) -> str:
    """A ratio as a signed percentage: 0.0065 -> ``+0.65 %``."""
    text = number(100 * ratio, decimals)
    return f"{text if text.startswith(MINUS) else '+' + text} %"


def joined(words: list[str] | tuple[str, ...], last: Literal["and", "or"] = "and") -> str:
    """``a, b and c``, or ``a, b or c``."""
    if len(words) < 2:
        return "".join(words)
    if last == "or":
        return say("{words} or {last}", words=", ".join(words[:-1]), last=words[-1])
    return say("{words} and {last}", words=", ".join(words[:-1]), last=words[-1])


def titled(text: str) -> str:
    """The text with a capital at its beginning."""
    return text[:1].upper() + text[1:]
