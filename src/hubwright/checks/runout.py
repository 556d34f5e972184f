"""How far off centre a wheel may end up behind a disc, and the run-out and imbalance that follow."""

from __future__ import annotations

from hubwright.checks.effect import Effect, missing, unknown
from hubwright.checks.rolling import radius_of
from hubwright.engineering.centring.fit import fit_clearance_um
from hubwright.engineering.centring.runout import imbalance_force_n, off_centre, radial_runout_mm, static_imbalance_gmm
from hubwright.errors import BadInput, OutsideValidity
from hubwright.findings import Step
from hubwright.parts.hub import Hub
from hubwright.parts.job import Axle, Job
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.text import figure, length, number
from hubwright.tables.iso286 import size_limits
from hubwright.tables.practice import practices

NAME, TOPIC = "run-out from centring", "centring"
FIT = "ISO 286-1, fits; greatest clearance"
SEATED = "cone and ball seats may pull the wheel truer than its bore does; then less"
SPEED_KMH = 130.0
"""Speed at which the turning force is told; a choice."""
Gap = tuple[float, Step]


def effects_of(job: Job, axle: Axle, disc: StockDisc) -> tuple[Effect, ...]:
    """Run-out and imbalance of the fitted wheels over one disc, worst case; or what is missing."""
    hub, wheel_set = axle.hub, axle.fitted or WheelSet(role="fitted")
    standard, with_disc = _stack(hub, wheel_set, None), _stack(hub, wheel_set, disc)
    if isinstance(standard, str) or isinstance(with_disc, str):
        needs = tuple(dict.fromkeys(item for item in (standard, with_disc) if isinstance(item, str)))
        return (unknown(NAME, TOPIC, "mm", *needs),)
    before, after = off_centre(*standard[:2]), off_centre(*with_disc[:2])
    runs = radial_runout_mm(before.worst_mm), radial_runout_mm(after.worst_mm)
    limit = practices("run-out, alloy wheel")
    words = "; ".join(f"{item.words} ({item.how_seen})" for item in limit)
    greatest = max((item.length_high_mm for item in limit if item.length_high_mm), default=None)
    least = min((item.length_low_mm for item in limit if item.length_low_mm), default=None)
    above = least is not None and runs[1] > least
    beyond = greatest is not None and runs[1] > greatest
    judged = (
        "beyond every limit makers print"
        if beyond
        else "above the strictest limit makers print"
        if above
        else "within what makers print"
    )
    likely = radial_runout_mm(after.likely_mm)
    sentence = (
        f"From bore to bore the wheel may run out by up to {length(runs[1], 2)}"
        f" ({length(runs[0], 2)} without disc; likely {length(likely, 2)}): {judged}."
    )
    steps = (
        *with_disc[2],
        Step(
            f"worst 2 × ({figure(after.worst_mm, 3)}) = {length(runs[1], 2)}, likely 2 × {figure(after.likely_mm, 3)}",
            "sum and root of squares (derived)",
        ),
        Step(words, "wheel mounting practice as printed"),
        *_pilot(hub),
        Step(SEATED, "common practice, no source"),
    )
    found = Effect(NAME, TOPIC, "mm", sentence, runs[0], runs[1], alarm=above, working=steps)
    return (found, _imbalance(job, wheel_set, before.worst_mm, after.worst_mm))


def _pilot(hub: Hub) -> tuple[Step, ...]:
    """What was read on the hub itself, beside the printed limits."""
    read = [
        f"{what} {length(value, 2)}"
        for value, what in ((hub.runout_pilot_mm, "spigot"), (hub.runout_face_mm, "face"))
        if value is not None
    ]
    limits = "; ".join(f"{item.topic}: {item.words}" for item in practices("run-out, hub"))
    return (Step(f"hub as read: {', '.join(read)}; printed: {limits}", "dial gauge; workshop manual"),) if read else ()


def _stack(
    hub: Hub, wheel_set: WheelSet, disc: StockDisc | None
) -> tuple[tuple[float, ...], tuple[float, ...], tuple[Step, ...]] | str:
    """Greatest clearances and eccentricities from hub to wheel; or what is missing."""
    wheel, spigot = wheel_set.wheel, hub.spigot_diameter_mm
    if spigot is None:
        return "the diameter of the spigot"
    bore = wheel.bore_mm
    own = (hub.runout_pilot_mm / 2,) if hub.runout_pilot_mm else ()
    shaft = (spigot.value, hub.spigot_class)
    hole = (None if bore is None else bore.value, wheel.bore_class)
    if disc is None or disc.kind == "plain":
        gap = _gap(shaft, hole, "spigot", "wheel")
        return gap if isinstance(gap, str) else ((gap[0],), own, (gap[1],))
    inner = _gap(shaft, (disc.bore_mm, disc.bore_class), "spigot", "disc bore")
    outer = _gap((disc.lip_outer_mm, disc.lip_class), hole, "disc lip", "wheel")
    if isinstance(inner, str) or isinstance(outer, str):
        return inner if isinstance(inner, str) else str(outer)
    if disc.concentricity_mm is None:
        return "the concentricity of the disc"
    step = Step(
        f"disc: lip to bore {length(disc.concentricity_mm, 2)} full reading, half of it counts", "drawing of the disc"
    )
    return (inner[0], outer[0]), (*own, disc.concentricity_mm / 2), (inner[1], outer[1], step)


def _gap(
    shaft: tuple[float | None, str | None], hole: tuple[float | None, str | None], inside: str, outside: str
) -> Gap | str:
    """Greatest diametral clearance: from classes on one nominal size, else from the two diameters read."""
    if shaft[1] is not None and hole[1] is not None and shaft[0] is not None:
        try:
            fit = fit_clearance_um(size_limits(hole[1], round(shaft[0], 1)), size_limits(shaft[1], round(shaft[0], 1)))
        except (BadInput, OutsideValidity) as error:
            return str(error)
        return fit.high / 1000, Step(f"{inside} {shaft[1]} in {outside} {hole[1]}: up to {number(fit.high, 0)} µm", FIT)
    if shaft[0] is None or hole[0] is None:
        return f"the diameter of the {outside if hole[0] is None else inside}"
    gap = hole[0] - shaft[0]
    if gap == 0:
        return f"fit classes or finer readings of {inside} and {outside} (both read {length(hole[0])})"
    return max(gap, 0.0), Step(
        f"{outside} {length(hole[0], 2)} less {inside} {length(shaft[0], 2)} = {length(gap, 2)}", "as read"
    )


def _imbalance(job: Job, wheel_set: WheelSet, before_mm: float, after_mm: float) -> Effect:
    mass, radius = wheel_set.wheel.mass_kg, radius_of(wheel_set.tyre)
    needs = missing((mass, "the mass of the wheel with its tyre"), (radius, "the size of the tyre"))
    if needs or mass is None or radius is None:
        return unknown("imbalance from centring", TOPIC, "g·mm", *needs)
    before, after = static_imbalance_gmm(mass, before_mm), static_imbalance_gmm(mass, after_mm)
    force = imbalance_force_n(after, SPEED_KMH, radius[0])
    sentence = (
        f"Mounted that far off, a balanced wheel shakes with {number(force, 0)} N at {SPEED_KMH:.0f} km/h:"
        " balance on the car or seat it again."
    )
    step = Step(
        f"{mass:g} kg × {length(after_mm, 3)} = {number(after, 0)} g·mm; force = U ω²", "ISO 21940-1 (definition)"
    )
    return Effect("imbalance from centring", TOPIC, "g·mm", sentence, before, after, working=(step, radius[1]))
