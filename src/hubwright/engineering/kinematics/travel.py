"""How far the wheels travel: springs, anti-roll bar, progressive bump stops and read limits in balance with a load.

Everything is taken at the wheel: rates in N per mm of wheel travel, travel in mm over parked, positive = bump, loads in
N of sprung weight on that wheel. Equilibrium of vertical forces; nothing here comes from a book but statics.

Source: statics (derived).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.quantities.text import plain

FAR_MM = 1e4


@dataclass(frozen=True)
class BumpStop:
    """A progressive stop as read or from its drawing, at the wheel.

    Attributes:
        free_mm: Wheel travel from parked until it touches; negative where it is touched when parked.
        squeeze_mm: Wheel travel after touching at each point of its curve, rising from 0.
        force_n: Force at the wheel there, rising from 0, steeper and steeper or straight.
    """

    free_mm: float
    squeeze_mm: tuple[float, ...]
    force_n: tuple[float, ...]


@dataclass(frozen=True)
class SprungWheel:
    """One wheel's springing.

    Attributes:
        parked_load_n: Sprung weight on the wheel at travel 0.
        rate_n_per_mm: Wheel rate of the spring alone (see `wheel_rate`).
        bump_stop: None where there is none or nobody has read it.
        bump_limit_mm: Full bump read with the spring out; overrules every estimate. None = not read.
        droop_limit_mm: Full droop read with the wheel hanging, negative; None = not read.
    """

    parked_load_n: float
    rate_n_per_mm: float
    bump_stop: BumpStop | None = None
    bump_limit_mm: float | None = None
    droop_limit_mm: float | None = None


@dataclass(frozen=True)
class AxleSprings:
    """Both wheels and the bar: ``bar_n_per_mm`` = force on each wheel per mm of height difference between them."""

    left: SprungWheel
    right: SprungWheel
    bar_n_per_mm: float = 0.0


@dataclass(frozen=True)
class WheelTravel:
    """Where a wheel comes to rest.

    Attributes:
        travel_mm: Positive = bump.
        at_limit: A limit read with the spring out stopped it there; the springs alone would have gone on.
        beyond_stop_curve: The stop is squeezed past the last point of its curve, continued along its last slope.
    """

    travel_mm: float
    at_limit: bool
    beyond_stop_curve: bool


def wheel_rate(rate_n_per_mm: float, ratio: float, force_n: float = 0.0, ratio_change_per_mm: float = 0.0) -> float:
    """Rate at the wheel of a spring with motion ratio ``ratio`` (compression per mm of wheel travel), N/mm.

    ``k_w = k r^2 + F dr/dz``. Source: virtual work; the first term is Barton & Fieldhouse, Automotive Chassis
    Engineering, p. 174 (300 lb/in at 0.75 gives 168.75).
    """
    return rate_n_per_mm * ratio**2 + force_n * ratio_change_per_mm


def spring_force(wheel: SprungWheel, travel_mm: float) -> float:
    """Force of spring and bump stop at a travel, N: the parked load at travel 0; bar and limits not in it."""
    stops = _stop_force(wheel, travel_mm) - _stop_force(wheel, 0.0)
    return wheel.parked_load_n + wheel.rate_n_per_mm * travel_mm + stops


def spring_energy(wheel: SprungWheel, travel_mm: float) -> float:
    """Work from parked to a bump travel, less that of the parked load, N mm; exact for straight pieces."""
    stop = wheel.bump_stop
    work = 0.5 * wheel.rate_n_per_mm * travel_mm**2
    if stop is None:
        return work
    knots = [stop.free_mm + s for s in stop.squeeze_mm if 0.0 < stop.free_mm + s < travel_mm]
    places = np.array([0.0, *knots, travel_mm])
    forces = np.array([_stop_force(wheel, float(z)) for z in places]) - _stop_force(wheel, 0.0)
    return work + float(np.sum(0.5 * (forces[1:] + forces[:-1]) * np.diff(places)))


def equilibrium(axle: AxleSprings, load_left_n: float, load_right_n: float) -> tuple[WheelTravel, WheelTravel]:
    """Where both wheels of an axle come to rest under a sprung load each.

    ``F_l(z_l) + b (z_l - z_r) = L_l`` and the same for the right, where F is the parked load at travel 0 (whether or
    not the stop is touched there) and the bar is free of load when parked. Limits read with the spring out hold a wheel
    where it would pass them; the other wheel then finds its own balance.

    Raises:
        BadInput: a rate that is not above 0, a bar below 0, a stop curve that does not rise from 0.
    """
    _refuse(axle)
    wheels, loads, bar = (axle.left, axle.right), (load_left_n, load_right_n), axle.bar_n_per_mm
    free = _both(wheels, loads, bar)
    held = [_held(wheel, z) for wheel, z in zip(wheels, free, strict=True)]
    for one, other in ((0, 1), (1, 0)):
        if held[one] != free[one]:
            held[other] = _held(wheels[other], _balance(wheels[other], loads[other], bar, held[one]))
            break
    left, right = (
        WheelTravel(z, _beyond(wheel, _balance(wheel, load, bar, other)), _past_curve(wheel, z))
        for wheel, load, z, other in zip(wheels, loads, held, reversed(held), strict=True)
    )
    return left, right


def _both(wheels: tuple[SprungWheel, SprungWheel], loads: tuple[float, float], bar: float) -> tuple[float, float]:
    """Balance without limits: the left travel at which the right wheel, following it, is in balance too."""

    def left_over(z: float) -> float:
        follows = _balance(wheels[1], loads[1], bar, z)
        return spring_force(wheels[0], z) + bar * (z - follows) - loads[0]

    left = float(brentq(left_over, -FAR_MM, FAR_MM, xtol=1e-9))
    return left, _balance(wheels[1], loads[1], bar, left)


def _balance(wheel: SprungWheel, load_n: float, bar: float, other_mm: float) -> float:
    """Travel of one wheel while the other stands still."""
    return float(brentq(lambda z: spring_force(wheel, z) + bar * (z - other_mm) - load_n, -FAR_MM, FAR_MM, xtol=1e-9))


def _held(wheel: SprungWheel, travel_mm: float) -> float:
    low = -FAR_MM if wheel.droop_limit_mm is None else wheel.droop_limit_mm
    high = FAR_MM if wheel.bump_limit_mm is None else wheel.bump_limit_mm
    return min(max(travel_mm, low), high)


def _beyond(wheel: SprungWheel, travel_mm: float) -> bool:
    return abs(_held(wheel, travel_mm) - travel_mm) > 1e-6


def _past_curve(wheel: SprungWheel, travel_mm: float) -> bool:
    stop = wheel.bump_stop
    return stop is not None and travel_mm - stop.free_mm > stop.squeeze_mm[-1]


def _stop_force(wheel: SprungWheel, travel_mm: float) -> float:
    stop = wheel.bump_stop
    if stop is None or travel_mm <= stop.free_mm:
        return 0.0
    squeeze = travel_mm - stop.free_mm
    x, f = stop.squeeze_mm, stop.force_n
    if squeeze <= x[-1]:
        return float(np.interp(squeeze, x, f))
    # going on along the last slope gives more travel than a stop gone solid would: the safe side for a clearance
    return f[-1] + (squeeze - x[-1]) * (f[-1] - f[-2]) / (x[-1] - x[-2])


def _shown(first: object, second: object) -> str:
    return say("{first} and {second}", first=first, second=second)


def _refuse(axle: AxleSprings) -> None:
    faults = []
    for name, wheel in (("left", axle.left), ("right", axle.right)):
        if not wheel.rate_n_per_mm > 0.0:
            faults.append(Fault(f"{name}.rate_n_per_mm", say("a rate above 0"), plain(wheel.rate_n_per_mm)))
        stop = wheel.bump_stop
        if stop is not None:
            x, f = np.array(stop.squeeze_mm), np.array(stop.force_n)
            good = len(x) == len(f) >= 2 and x[0] == f[0] == 0.0 and np.all(np.diff(x) > 0) and np.all(np.diff(f) > 0)
            if not good:
                faults.append(
                    Fault(
                        f"{name}.bump_stop",
                        say("a curve rising from 0 mm, 0 N"),
                        _shown(stop.squeeze_mm, stop.force_n),
                    )
                )
        if (wheel.bump_limit_mm or 0.0) < 0.0 or (wheel.droop_limit_mm or 0.0) > 0.0:
            faults.append(
                Fault(
                    f"{name}.limits",
                    say("bump at or above 0, droop at or below 0"),
                    _shown(wheel.bump_limit_mm, wheel.droop_limit_mm),
                )
            )
    if not axle.bar_n_per_mm >= 0.0:
        faults.append(Fault("bar_n_per_mm", say("0 or more"), plain(axle.bar_n_per_mm)))
    if faults:
        raise BadInput(say("springs"), tuple(faults))
