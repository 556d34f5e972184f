"""What drive, brake, bend and kerb ask of one wheel's joint."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.checks import assumed
from hubwright.checks.rolling import GRAVITY_M_S2, radius_of, wheel_load_n
from hubwright.engineering.joint.wheel_load import WheelLoad, braking, cornering, driving, kerb
from hubwright.findings import Step
from hubwright.language import marked, say
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.text import number

TRANSFER = marked("m a h over base or track (Barton & Fieldhouse p. 174)")


@dataclass(frozen=True)
class LoadCase:
    """One case, at the least, the middle and the greatest grip."""

    name: str
    loads: tuple[WheelLoad, ...]


@dataclass(frozen=True)
class Forces:
    """What one wheel's joint is asked.

    Attributes:
        cases: All load cases.
        left_out: Cases that could not be told, and why.
        guesses: What was assumed.
        working: With sources.
    """

    cases: tuple[LoadCase, ...]
    left_out: tuple[str, ...]
    guesses: tuple[str, ...]
    working: tuple[Step, ...]

    @property
    def greatest_shear_n(self) -> float:
        """Greatest force across the face over all cases."""
        return max(math.hypot(load.vertical_n, load.fore_aft_n) for case in self.cases for load in case.loads)


def forces_on(job: Job, name: AxleName, axle: Axle, wheel_set: WheelSet) -> Forces | tuple[str, ...]:
    """The load cases of one wheel, or what is missing before there can be any."""
    load, radius = wheel_load_n(axle), radius_of(wheel_set.tyre)
    if load is None or radius is None:
        words = ((load, say("the plate load of the axle")), (radius, say("the size of the tyre")))
        return tuple(text for value, text in words if value is None)
    static_n, radius_mm = load[0], radius[0]
    own = job.shop.assumptions
    grip, kerbs = assumed.grip(own), assumed.kerb_factors(own)
    grips = tuple(sorted({grip.band.low, grip.band.nominal, grip.band.high}))
    dive, bend = _dive(job, name), _bend(job, axle)
    cases = [LoadCase("braking", tuple(braking(static_n + (dive or 0.0) * at, at, radius_mm) for at in grips))]
    if axle.driven is not False:
        most = axle.wheel_drive_nm or math.inf
        drives = (driving(static_n, min(most, at * static_n * radius_mm / 1000), at, radius_mm) for at in grips)
        cases.append(LoadCase("driving", tuple(drives)))
    if bend is not None:
        cases += [_cornering(static_n, radius_mm, grips, bend, outer) for outer in (True, False)]
    vertical, sideways, along = (item.band.nominal for item in kerbs)
    cases.append(LoadCase("kerb", (kerb(static_n, vertical, sideways, along, radius_mm),)))
    steps = [load[1], radius[1], grip.step, *(item.step for item in kerbs)]
    if dive:
        steps.append(
            Step(say("braking at 1 g brings {dive} kN to each front wheel", dive=number(dive / 1000, 2)), say(TRANSFER))
        )
    if bend is not None:
        steps.append(Step(say("bend: wheel load × (1 ± {bend} × grip)", bend=number(bend, 3)), say(TRANSFER)))
    left_out = [
        words
        for words, lacking in (
            (
                say("the load that braking brings to the front (needs mass, centre of gravity and wheelbase)"),
                dive is None,
            ),
            (say("cornering (needs track and height of the centre of gravity)"), bend is None),
        )
        if lacking
    ]
    guesses = [item.words for item in (grip, kerbs[0]) if item.guessed]
    return Forces(tuple(cases), tuple(left_out), tuple(guesses), tuple(steps))


def _dive(job: Job, name: AxleName) -> float | None:
    """Load that braking at 1 g brings to one front wheel, N; a rear wheel keeps its own, which is on the safe side."""
    if name == "rear":
        return 0.0
    car = job.car
    if car.mass_kg is None or car.cg_height_mm is None or car.wheelbase_mm is None:
        return None
    return car.mass_kg * GRAVITY_M_S2 * car.cg_height_mm / car.wheelbase_mm / 2


def _bend(job: Job, axle: Axle) -> float | None:
    """Share of the wheel load that a bend of 1 g moves: 2 h/T."""
    height, track = job.car.cg_height_mm, axle.track_mm
    return None if height is None or track is None else 2 * height / track


def _cornering(static_n: float, radius_mm: float, grips: tuple[float, ...], bend: float, outer: bool) -> LoadCase:
    """One wheel of a bend; the outer and the inner one are both looked at, since a disc relieves one and loads the other."""
    loads = []
    for at in grips:
        share = min(bend * at, 1.0)
        loads.append(cornering(static_n * (1 + share if outer else 1 - share), at, radius_mm, outer))
    return LoadCase(loads[0].name, tuple(loads))
