"""How a spring is worked by its wheel, from its own ends."""

from __future__ import annotations

from typing import Any

import numpy as np

from hubwright.parts.hardpoints import CornerPoints
from hubwright.parts.hardpoints import Spring as SpringPart
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import Side


def spring_points(job: Job, name: AxleName, side: Side) -> tuple[SpringPart, bool] | None:
    """The spring of one corner, and whether its ends are those of the other side, to be mirrored."""
    axle = dict(job.axles)[name]
    if axle.hardpoints is None:
        return None
    own = axle.hardpoints.points(side)
    if own is not None:
        return (own.spring, False) if own.spring is not None else None
    twin: CornerPoints | None = axle.hardpoints.points("left" if side == "right" else "right")
    if twin is None or twin.spring is None or not axle.hardpoints.same_both_sides:
        return None
    return twin.spring, True


def motion_ratio_at(job: Job, name: AxleName, side: Side, travel_mm: float) -> tuple[float, float] | None:
    """Motion ratio of the spring of one corner at a travel, and its rate; None where nobody gave its ends."""
    from hubwright.engineering.kinematics.solve import solve  # noqa: PLC0415 - compiled sums
    from hubwright.jobs.linkages import linkage_at  # noqa: PLC0415

    axle = dict(job.axles)[name]
    given = spring_points(job, name, side)
    if given is None or axle.hardpoints is None:
        return None
    found = linkage_at(axle.hardpoints, side, steered=job.is_steered(name))
    if found is None:
        return None
    ratio = ratios(solve(found[0], [travel_mm]), found[1], given)
    return float(ratio[0]), given[0].rate_n_per_mm


def ratios(states: Any, number: int, given: tuple[SpringPart, bool]) -> Any:
    """Motion ratio in each state (n,)."""
    from hubwright.engineering.kinematics.linkage import as_point  # noqa: PLC0415
    from hubwright.engineering.kinematics.springs import Spring, spring_motion  # noqa: PLC0415
    from hubwright.quantities.axes import mirrored  # noqa: PLC0415

    spring, mirror = given
    ends = [as_point(mirrored(end) if mirror else np.array(end)) for end in (spring.body_end_mm, spring.moving_end_mm)]
    body = states.linkage.wheels[number].body
    return spring_motion(states, Spring(ends[0], ends[1], spring.on, body), number).motion_ratio
