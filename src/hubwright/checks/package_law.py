"""Rules that look at tyre and wheel themselves: speedometer, odometer, diameter, width."""

from __future__ import annotations

from hubwright.checks.law import Measure, facts_of, held
from hubwright.checks.outlines import HABIT, Built
from hubwright.checks.package import Swapped, series_size
from hubwright.engineering.tyrewheel.from_sizes import design_of
from hubwright.engineering.tyrewheel.replace import indicated_speed_kmh, indicated_speed_limits_kmh
from hubwright.errors import BadInput, HubwrightError
from hubwright.findings import Case, Finding
from hubwright.language import say
from hubwright.parts.rim_size import read_rim_size
from hubwright.quantities.text import length, number, percent, plain
from hubwright.rules.model import RuleSet

R39_SPEEDS_KMH = (40.0, 80.0, 120.0)
"""True speeds at which UN R39 5.2.5 tests; from memory."""


def judge(swapped: Swapped, rules: RuleSet) -> tuple[Finding, ...]:
    """Every rule that looks at tyre and wheel themselves, answered for the package."""
    facts = {**facts_of(swapped.job, swapped.name, swapped.axle), "wheel": "replacement"}
    found = []
    for rule in rules.rules:
        measure = _measure(rule.quantity, swapped)
        finding = held(rule, facts, measure) if measure is not None else None
        if finding is not None:
            found.append(finding)
    return tuple(found)


def _measure(quantity: str, swapped: Swapped) -> Measure | None:
    ways = {
        "speedometer_over_kmh": _speedometer,
        "odometer_error_ratio": _odometer,
        "tyre_diameter_change_mm": _diameter,
        "wheel_width_increase_mm": _width,
    }
    return ways[quantity](swapped) if quantity in ways else None


def _speedometer(swapped: Swapped) -> Measure:
    """The test speed at which the speedometer comes nearest to either limit, or what is missing."""
    case = Case("both", say("speedometer"))
    if swapped.fitted is None:
        return Measure(None, say("the diameter of the fitted tyre is not known"), case)
    old, new = 2.0 * swapped.fitted.tyre.radius_mm, 2.0 * swapped.new.tyre.radius_mm
    lead = swapped.job.car.speedometer_lead_percent
    if lead is None:
        low, high = lead_window_percent(old, new)
        words = say(
            "kept where the speedometer now shows {low} to {high} % too much; that was not read",
            low=number(low, 1),
            high=number(high, 1),
        )
        return Measure(None, words, case)
    worst = min(R39_SPEEDS_KMH, key=lambda true: _room(true, indicated_speed_kmh(true, old, new, lead)))
    shown = indicated_speed_kmh(worst, old, new, lead)
    return Measure(
        shown - worst,
        say("shows {shown} km/h at a true {worst}", shown=number(shown, 1), worst=plain(worst)),
        case,
        worst,
    )


def _room(true_kmh: float, shown_kmh: float) -> float:
    low, high = indicated_speed_limits_kmh(true_kmh)
    return min(shown_kmh - low, high - shown_kmh) / true_kmh


def lead_window_percent(old_diameter_mm: float, new_diameter_mm: float) -> tuple[float, float]:
    """How much too high the speedometer must show with the old tyres so that it is lawful with the new ones, percent."""
    share = new_diameter_mm / old_diameter_mm
    limits = [indicated_speed_limits_kmh(true) for true in R39_SPEEDS_KMH]
    low = max(least / true for (least, _), true in zip(limits, R39_SPEEDS_KMH, strict=True))
    high = min(most / true for (_, most), true in zip(limits, R39_SPEEDS_KMH, strict=True))
    return 100.0 * (low * share - 1.0), 100.0 * (high * share - 1.0)


def _series_diameter(swapped: Swapped) -> float | None:
    series = series_size(swapped.axle)
    try:
        return None if series is None else design_of(series, None, HABIT).overall_diameter_mm
    except HubwrightError:
        return None


def _odometer(swapped: Swapped) -> Measure:
    case, series, new = Case("both", say("odometer")), _series_diameter(swapped), _design_diameter(swapped.new)
    if series is None:
        return Measure(None, say("the series tyre is not stated"), case)
    error = series / new - 1.0
    return Measure(error, say("odometer {error}, exact with the series tyre", error=percent(error)), case)


def _design_diameter(built: Built) -> float:
    return design_of(built.tyre_size, None, HABIT).overall_diameter_mm


def _diameter(swapped: Swapped) -> Measure:
    case, series = Case("both", say("tyre diameter")), _series_diameter(swapped)
    if series is None:
        return Measure(None, say("the series tyre is not stated"), case)
    change = _design_diameter(swapped.new) - series
    return Measure(change, say("diameter {change} against the series tyre", change=length(change)), case)


def _width(swapped: Swapped) -> Measure:
    case = Case("both", say("wheel width"))
    try:
        series = read_rim_size(swapped.axle.series_rim) if swapped.axle.series_rim else None
    except BadInput:
        series = None
    if series is None:
        return Measure(None, say("the widest series wheel is not stated"), case)
    change = swapped.new.rim_size.width_mm - series.width_mm
    return Measure(change, say("rim {change} wider than the series one", change=length(change)), case)
