"""What can be said before everything is measured. Never a thickness to fit."""

from __future__ import annotations

from hubwright.checks import centring
from hubwright.checks.clearance import provisional_mm, room_of
from hubwright.checks.house import House
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
            ends = ", even if the gap never shrank in bump." if travel <= 0 else "."
            reach = max((disc.thickness_mm for disc in shelf(job) if disc.thickness_mm <= likely), default=None)
            ceiling = "no disc" if reach is None else f"nothing above {thickness(reach)}"
            said.append(
                f"{ceiling[0].upper()}{ceiling[1:]} can be called likely: {length(gap)} at {curve.point.name}, {curve.side}, "
                f"leaves {length(max(likely, 0.0))} after the margin of {length(swept.margin_mm)}{ends}"
            )
    if likely is not None:
        said += _pilot(job, axle, house, likely)
    return tuple(said)


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
    guess = " (chamfer guessed)" if chamfer is None else ""
    return [
        f"{thickness(disc.thickness_mm)} would need a spigot of at least {length(disc.thickness_mm + c + e)}: "
        f"{figure(disc.thickness_mm)} + {figure(c)} + {figure(e)}{guess}."
        for disc in shelf(job)
        if disc.kind == "plain" and disc.thickness_mm <= likely_mm
    ]
