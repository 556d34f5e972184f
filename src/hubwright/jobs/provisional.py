"""What can be said before everything is measured. Never a thickness to fit."""

from __future__ import annotations

from hubwright.checks import centring
from hubwright.checks.clearance import provisional_mm, room_of
from hubwright.checks.house import House
from hubwright.language import say
from hubwright.language.place_words import place_word
from hubwright.language.words import side_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import figure, length, thickness
from hubwright.selection.plans import Maps, shelf

USUAL_CHAMFER_MM = 2.5
"""Chamfer of a wheel's bore where nobody measured it; a guess, no source."""


def provisional(job: Job, name: AxleName, axle: Axle, house: House, maps: Maps | None = None) -> tuple[str, ...]:
    """Sentences for an axle whose clearance or centring is not settled; empty when both are."""
    steered, known = job.is_steered(name), maps or {}
    rooms = [room_of(axle, side, house, steered=steered, with_work=False, mapped=known.get(side)) for side in SIDES]
    said: list[str] = []
    likely = None
    if any(room.missing for room in rooms):
        found = [best for room in rooms if (best := provisional_mm(room)) is not None]
        if found:
            likely, pinch = min(found, key=lambda best: best[0])
            curve, swept = pinch.swept.curve, pinch.swept
            gap, travel = float(curve.gap_mm[pinch.state]), float(curve.travel_mm[pinch.state])

            reach = max((disc.thickness_mm for disc in shelf(job) if disc.thickness_mm <= likely), default=None)
            leaves = {
                "gap": length(gap),
                "point": place_word(curve.point.name),
                "side": side_word(curve.side),
                "likely": length(max(likely, 0.0)),
                "margin": length(swept.margin_mm),
            }
            said.append(_likely(reach, never_shrank=travel <= 0, leaves=leaves))
    if likely is not None:
        said += _pilot(job, axle, house, likely)
    return tuple(said)


def _likely(reach_mm: float | None, *, never_shrank: bool, leaves: dict[str, str]) -> str:
    if reach_mm is None and never_shrank:
        return say(
            "No disc can be called likely: {gap} at {point}, {side}, leaves {likely} after the margin of {margin}, even if "
            "the gap never shrank in bump.",
            **leaves,
        )
    if reach_mm is None:
        return say(
            "No disc can be called likely: {gap} at {point}, {side}, leaves {likely} after the margin of {margin}.",
            **leaves,
        )
    if never_shrank:
        return say(
            "Nothing above {reach} can be called likely: {gap} at {point}, {side}, leaves {likely} after the margin of "
            "{margin}, even if the gap never shrank in bump.",
            reach=thickness(reach_mm),
            **leaves,
        )
    return say(
        "Nothing above {reach} can be called likely: {gap} at {point}, {side}, leaves {likely} after the margin of {margin}.",
        reach=thickness(reach_mm),
        **leaves,
    )


def _spigot_needed(thickness_mm: float, chamfer_mm: float, pilot_mm: float, *, guessed: bool) -> str:
    places = {
        "thickness": thickness(thickness_mm),
        "spigot": length(thickness_mm + chamfer_mm + pilot_mm),
        "sum": f"{figure(thickness_mm)} + {figure(chamfer_mm)} + {figure(pilot_mm)}",
    }
    if guessed:
        return say("{thickness} would need a spigot of at least {spigot}: {sum} (chamfer guessed).", **places)
    return say("{thickness} would need a spigot of at least {spigot}: {sum}.", **places)


def _pilot(job: Job, axle: Axle, house: House, likely_mm: float) -> list[str]:
    """The spigot each plain disc that is not ruled out would need."""
    fitted = axle.fitted
    missing = (
        [item for side in SIDES for item in centring.missing_for(axle.hub_at(side), fitted, side)] if fitted else []
    )
    if fitted is not None and not missing:
        return []
    chamfer = fitted.wheel.bore_chamfer_mm.value if fitted and fitted.wheel.bore_chamfer_mm else None
    c = USUAL_CHAMFER_MM if chamfer is None else chamfer
    e = centring.least_pilot_mm(fitted.wheel, house) if fitted else house.policy.least_pilot_mm
    return [
        _spigot_needed(disc.thickness_mm, c, e, guessed=chamfer is None)
        for disc in shelf(job)
        if disc.kind == "plain" and disc.thickness_mm <= likely_mm
    ]
