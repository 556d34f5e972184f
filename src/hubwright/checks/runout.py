"""How far off centre a wheel may end up behind a disc, and the run-out and imbalance that follow."""

from __future__ import annotations

from hubwright.checks.effect import Effect, missing, unknown
from hubwright.checks.rolling import radius_of
from hubwright.engineering.centring.fit import fit_clearance_um
from hubwright.engineering.centring.runout import imbalance_force_n, off_centre, radial_runout_mm, static_imbalance_gmm
from hubwright.errors import BadInput, OutsideValidity
from hubwright.findings import Step
from hubwright.language import marked, say
from hubwright.language.part_words import seen_word
from hubwright.parts.hub import Hub
from hubwright.parts.job import Axle, Job
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.text import figure, length, number, plain
from hubwright.tables.iso286 import size_limits
from hubwright.tables.practice import practices

NAME, TOPIC = marked("run-out from centring"), "centring"
FIT = marked("ISO 286-1, fits; greatest clearance")
SEATED = marked("cone and ball seats may pull the wheel truer than its bore does; then less")
SPEED_KMH = 130.0
"""Speed at which the turning force is told; a choice."""
Gap = tuple[float, Step]


def effects_of(job: Job, axle: Axle, disc: StockDisc) -> tuple[Effect, ...]:
    """Run-out and imbalance of the fitted wheels over one disc, worst case; or what is missing."""
    hub, wheel_set = axle.hub, axle.fitted or WheelSet(role="fitted")
    standard, with_disc = _stack(hub, wheel_set, None), _stack(hub, wheel_set, disc)
    if isinstance(standard, str) or isinstance(with_disc, str):
        needs = tuple(dict.fromkeys(item for item in (standard, with_disc) if isinstance(item, str)))
        return (unknown(say(NAME), TOPIC, "mm", *needs),)
    before, after = off_centre(*standard[:2]), off_centre(*with_disc[:2])
    runs = radial_runout_mm(before.worst_mm), radial_runout_mm(after.worst_mm)
    limit = practices("run-out, alloy wheel")
    words = "; ".join(f"{say(item.words)} ({seen_word(item.how_seen)})" for item in limit)
    greatest = max((item.length_high_mm for item in limit if item.length_high_mm), default=None)
    least = min((item.length_low_mm for item in limit if item.length_low_mm), default=None)
    above = least is not None and runs[1] > least
    beyond = greatest is not None and runs[1] > greatest
    judged = (
        say("beyond every limit makers print")
        if beyond
        else say("above the strictest limit makers print")
        if above
        else say("within what makers print")
    )
    likely = radial_runout_mm(after.likely_mm)
    sentence = say(
        "From bore to bore the wheel may run out by up to {runs} ({runs2} without disc; likely {likely}): {judged}.",
        runs=length(runs[1], 2),
        runs2=length(runs[0], 2),
        likely=length(likely, 2),
        judged=judged,
    )
    steps = (
        *with_disc[2],
        Step(
            say(
                "worst 2 × ({worst}) = {runs}, likely 2 × {likely}",
                worst=figure(after.worst_mm, 3),
                runs=length(runs[1], 2),
                likely=figure(after.likely_mm, 3),
            ),
            say("sum and root of squares (derived)"),
        ),
        Step(words, say("wheel mounting practice as printed")),
        *_pilot(hub),
        Step(say(SEATED), say("common practice, no source")),
    )
    found = Effect(say(NAME), TOPIC, "mm", sentence, runs[0], runs[1], alarm=above, working=steps)
    return (found, _imbalance(job, wheel_set, before.worst_mm, after.worst_mm))


def _pilot(hub: Hub) -> tuple[Step, ...]:
    """What was read on the hub itself, beside the printed limits."""
    read = [
        f"{what} {length(value, 2)}"
        for value, what in ((hub.runout_pilot_mm, say("spigot")), (hub.runout_face_mm, say("face")))
        if value is not None
    ]
    limits = "; ".join(f"{say(item.topic)}: {say(item.words)}" for item in practices("run-out, hub"))
    return (
        (
            Step(
                say("hub as read: {read}; printed: {limits}", read=", ".join(read), limits=limits),
                say("dial gauge; workshop manual"),
            ),
        )
        if read
        else ()
    )


def _stack(
    hub: Hub, wheel_set: WheelSet, disc: StockDisc | None
) -> tuple[tuple[float, ...], tuple[float, ...], tuple[Step, ...]] | str:
    """Greatest clearances and eccentricities from hub to wheel; or what is missing."""
    wheel, spigot = wheel_set.wheel, hub.spigot_diameter_mm
    if spigot is None:
        return say("the diameter of the spigot")
    bore = wheel.bore_mm
    own = (hub.runout_pilot_mm / 2,) if hub.runout_pilot_mm else ()
    shaft = (spigot.value, hub.spigot_class)
    hole = (None if bore is None else bore.value, wheel.bore_class)
    if disc is None or disc.kind == "plain":
        gap = _gap(shaft, hole, say("spigot"), say("wheel"))
        return gap if isinstance(gap, str) else ((gap[0],), own, (gap[1],))
    inner = _gap(shaft, (disc.bore_mm, disc.bore_class), say("spigot"), say("disc bore"))
    outer = _gap((disc.lip_outer_mm, disc.lip_class), hole, say("disc lip"), say("wheel"))
    if isinstance(inner, str) or isinstance(outer, str):
        return inner if isinstance(inner, str) else str(outer)
    if disc.concentricity_mm is None:
        return say("the concentricity of the disc")
    step = Step(
        say(
            "disc: lip to bore {concentricity} full reading, half of it counts",
            concentricity=length(disc.concentricity_mm, 2),
        ),
        say("drawing of the disc"),
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
        return fit.high / 1000, Step(
            say(
                "{inside} {shaft} in {outside} {hole}: up to {fit_high} µm",
                inside=inside,
                shaft=shaft[1],
                outside=outside,
                hole=hole[1],
                fit_high=number(fit.high, 0),
            ),
            say(FIT),
        )
    if shaft[0] is None or hole[0] is None:
        return say("the diameter of the {outside}", outside=outside if hole[0] is None else inside)
    gap = hole[0] - shaft[0]
    if gap == 0:
        return say(
            "fit classes or finer readings of {inside} and {outside} (both read {hole})",
            inside=inside,
            outside=outside,
            hole=length(hole[0]),
        )
    return max(gap, 0.0), Step(
        say(
            "{outside} {hole} less {inside} {shaft} = {gap}",
            outside=outside,
            hole=length(hole[0], 2),
            inside=inside,
            shaft=length(shaft[0], 2),
            gap=length(gap, 2),
        ),
        say("as read"),
    )


def _imbalance(job: Job, wheel_set: WheelSet, before_mm: float, after_mm: float) -> Effect:
    mass, radius = wheel_set.wheel.mass_kg, radius_of(wheel_set.tyre)
    needs = missing((mass, say("the mass of the wheel with its tyre")), (radius, say("the size of the tyre")))
    if needs or mass is None or radius is None:
        return unknown(say("imbalance from centring"), TOPIC, "g·mm", *needs)
    before, after = static_imbalance_gmm(mass, before_mm), static_imbalance_gmm(mass, after_mm)
    force = imbalance_force_n(after, SPEED_KMH, radius[0])
    sentence = say(
        "Mounted that far off, a balanced wheel shakes with {force} N at {speed} km/h: balance on the car or seat it again.",
        force=number(force, 0),
        speed=number(SPEED_KMH, 0),
    )
    step = Step(
        say(
            "{mass} kg × {after} = {after2} g·mm; force = U ω²",
            mass=plain(mass),
            after=length(after_mm, 3),
            after2=number(after, 0),
        ),
        say("ISO 21940-1 (definition)"),
    )
    return Effect(say("imbalance from centring"), TOPIC, "g·mm", sentence, before, after, working=(step, radius[1]))
