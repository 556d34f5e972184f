"""A number becomes text once, on the way out; this is where."""

from __future__ import annotations

from typing import Literal

from hubwright.quantities.rounding import down, up
from hubwright.quantities.units import MM_PER_INCH, NM_PER_POUND_FOOT

System = Literal["metric", "inch"]
MINUS = "\u2212"


def number(value: float, decimals: int) -> str:
    """``value`` with a fixed number of decimals and a proper minus sign; never minus zero."""
    text = f"{value:.{decimals}f}"
    if float(text) == 0:
        text = text.lstrip("-")
    return text.replace("-", MINUS)


def length(value_mm: float, system: System = "metric", decimals: int = 1) -> str:
    """A length with its unit: ``11.5 mm`` or ``0.45 in``."""
    if system == "inch":
        return f"{number(value_mm / MM_PER_INCH, decimals + 1)} in"
    return f"{number(value_mm, decimals)} mm"


def spare(value_mm: float, system: System = "metric") -> str:
    """What is left, rounded down so that nobody counts on more than there is: ``0.5 mm to spare``."""
    step = MM_PER_INCH / 100 if system == "inch" else 0.1
    return f"{length(down(value_mm, step), system)} to spare"


def short(value_mm: float, system: System = "metric") -> str:
    """What is missing, rounded up so that nobody counts on less than is needed: ``1.5 mm short``."""
    step = MM_PER_INCH / 100 if system == "inch" else 0.1
    return f"{length(up(value_mm, step), system)} short"


def thickness(value_mm: float, system: System = "metric") -> str:
    """A disc thickness as it is sold: no decimals where none are needed."""
    if system == "inch":
        return length(value_mm, system)
    return f"{number(value_mm, 0 if value_mm == round(value_mm) else 1)} mm"


def torque(value_nm: float, system: System = "metric") -> str:
    """A torque with its unit: ``120 N*m`` or ``89 lb-ft``."""
    if system == "inch":
        return f"{number(value_nm / NM_PER_POUND_FOOT, 0)} lb-ft"
    return f"{number(value_nm, 0)} N·m"


def percent(ratio: float, decimals: int = 2) -> str:
    """A ratio as a signed percentage: 0.0065 -> ``+0.65 %``."""
    text = number(100 * ratio, decimals)
    return f"{text if text.startswith(MINUS) else '+' + text} %"


def joined(words: list[str] | tuple[str, ...], last: str = "and") -> str:
    """``a, b and c``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"
