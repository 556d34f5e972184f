"""What drive, brake, bend and kerb ask of one wheel's joint."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hubwright.checks import assumed
from hubwright.checks.rolling import GRAVITY_M_S2, radius_of, wheel_load_n
from hubwright.engineering.joint.wheel_load import WheelLoad, braking, cornering, driving, kerb
from hubwright.findings import Step
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.text import figure, length, number
from hubwright.uncertainty.band import Band

TRANSFER = "m a h over base or track (Barton & Fieldhouse p. 174)"


@dataclass(frozen=True)
class Forces:
    """Load cases at the least and the greatest grip, each with the grip it belongs to.

    Attributes:
        cases: All load cases.
        left_out: Cases that could not be told, and why.
        guesses: What was assumed.
        working: With sources.
    """

    cases: tuple[WheelLoad, ...]
    left_out: tuple[str, ...]
    guesses: tuple[str, ...]
    working: tuple[Step, ...]


def forces_on(job: Job, name: AxleName, axle: Axle, wheel_set: WheelSet) -> Forces | tuple[str, ...]:
    """The load cases of one wheel, or what is missing before there can be any."""
    load, radius = wheel_load_n(axle), radius_of(wheel_set.tyre)
    if load is None or radius is None:
        words = ((load, "the plate load of the axle"), (radius, "the size of the tyre"))
        return tuple(text for value, text in words if value is None)
    static_n, radius_mm = load[0], radius[0]
    own = job.shop.assumptions
    grip, kerbs = assumed.grip(own), assumed.kerb_factors(own)
    guesses = [item.step.text for item in (grip, kerbs[0]) if item.guessed]
    steps = [load[1], radius[1], grip.step, *(item.step for item in kerbs)]
    left_out: list[str] = []
    braked = static_n + _dive_n(job, name, grip.band.high, left_out, steps)
    cases = [braking(braked, grip.band.high, radius_mm)]
    if axle.driven is not False:
        drive = axle.wheel_drive_nm or grip.band.high * static_n * radius_mm / 1000
        cases.append(driving(static_n, drive, grip.band.high, radius_mm))
    cases += _bends(job, axle, static_n, radius_mm, grip.band, left_out, steps)
    vertical, sideways, along = (item.band.nominal for item in kerbs)
    cases.append(kerb(static_n, vertical, sideways, along, radius_mm))
    return Forces(tuple(cases), tuple(left_out), tuple(guesses), tuple(steps))


def _dive_n(job: Job, name: AxleName, grip: float, left_out: list[str], steps: list[Step]) -> float:
    """What braking adds to one wheel; a rear wheel is left at its standing load, which is on the safe side."""
    if name == "rear":
        return 0.0
    car = job.car
    if car.mass_kg is None or car.cg_height_mm is None or car.wheelbase_mm is None:
        left_out.append("the load that braking brings to the front (needs mass, centre of gravity and wheelbase)")
        return 0.0
    added = car.mass_kg * GRAVITY_M_S2 * grip * car.cg_height_mm / car.wheelbase_mm / 2
    steps.append(Step(f"braking brings {number(added / 1000, 2)} kN to each front wheel", TRANSFER))
    return added


def _bends(
    job: Job, axle: Axle, static_n: float, radius_mm: float, grip: Band, left_out: list[str], steps: list[Step]
) -> list[WheelLoad]:
    """Outer and inner wheel, each at the least and the greatest grip: the moment of a bend turns over with inset."""
    height, track = job.car.cg_height_mm, axle.track_mm
    if height is None or track is None:
        left_out.append("cornering (needs track and height of the centre of gravity)")
        return []
    found = []
    for side_grip in sorted({grip.low, grip.high}):
        share = min(2 * side_grip * height / track, 1.0)
        for outer in (True, False):
            vertical = static_n * (1 + share if outer else 1 - share)
            case = cornering(vertical, side_grip, radius_mm, outer)
            found.append(replace(case, name=f"{case.name}, grip {number(side_grip, 1)}"))
    text = f"bend: wheel load times 1 ± 2 × grip × {figure(height, 0)} / {length(track, 0)}"
    steps.append(Step(text, TRANSFER))
    return found
