"""Every kind of suspension from a job file to motion and room, and what is said of hard points that cannot be."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import numpy as np
import pytest

import hubwright
from hubwright.errors import BadInput
from hubwright.jobs.mapping import MappedCorner
from hubwright.jobs.motion_table import motion_table
from hubwright.jobs.room_table import RoomTable, room_table
from hubwright.parts.job import Job

from .suspension_jobs import POINTS, job_text

Floats = np.ndarray[Any, np.dtype[np.float64]]
CLOCK = np.radians([-60.0, -40.0, -20.0, 0.0, 20.0, 40.0, 60.0])
RADIUS = np.array([375.0, 372.0, 369.0, 368.0, 369.0, 372.0, 375.0])
OUTBOARD = np.array([52.0, 58.0, 62.0, 64.0, 62.0, 58.0, 52.0])
ARM = np.array([[-30.0, 622.0, -215.0], [20.0, 626.0, -225.0]])
INSET_MM = 42.0
KINDS = list(POINTS)


def read(text: str) -> Job:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "car.toml"
        path.write_text(text, encoding="utf-8")
        return hubwright.load(path)


@cache
def job(kind: str) -> Job:
    return read(job_text(kind))


@cache
def room(kind: str) -> RoomTable:
    found = room_table(job(kind), "rear", "left", 15.0, counts=(9, 9))
    assert found is not None
    return found


def dense(points: Floats, pieces: int = 400) -> Floats:
    """Points along a polyline."""
    at = np.linspace(0.0, len(points) - 1.0, pieces)
    return np.column_stack([np.interp(at, np.arange(len(points)), points[:, k]) for k in range(3)])


def least_gap(mapped: MappedCorner, points: Floats, centre: Floats, axis: Floats, disc_mm: float) -> float:
    """Written independently of the sweep: points seen from one hub, and the distance of each from the outline."""
    seen = points - (centre + (INSET_MM + disc_mm) * axis)
    y = seen @ axis
    rho = np.linalg.norm(seen - y[:, None] * axis, axis=1)
    return float(mapped.outline.signed_distance_mm(rho, y).min())


def parked_lip(mapped: MappedCorner) -> Floats:
    """The lip by clock angle round the parked wheel centre (0, 740, 0), outboard of the parked hub face."""
    _, axis = mapped.motion.parked()
    face = 740.0 + INSET_MM * axis[1]
    return dense(np.column_stack([-RADIUS * np.sin(CLOCK), face + OUTBOARD, RADIUS * np.cos(CLOCK)]))


@pytest.mark.parametrize("kind", KINDS)
def test_every_state_of_every_kind_is_solved_and_parked_is_as_it_was_read(kind: str) -> None:
    table = motion_table(job(kind), "rear", "left")
    assert not table.unsolved
    parked = int(np.abs(table.travel_mm).argmin())
    assert table.travel_mm[parked] == 0.0
    assert table.by_travel["camber_deg"][parked] == pytest.approx(-1.4, abs=1e-6)
    assert table.by_travel["toe_deg"][parked] == pytest.approx(0.15, abs=1e-6)
    assert all(np.isfinite(table.by_travel["camber_deg"]))


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_the_lip_by_clock_angle_comes_as_near_as_points_tried_one_by_one(kind: str) -> None:
    found = room(kind)
    mapped, lip = found.mapped, parked_lip(found.mapped)
    centre, axis = mapped.motion.parked()
    assert found.parked_mm[0.0] == pytest.approx(least_gap(mapped, lip, centre, axis, 0.0), abs=0.06)
    assert found.parked_mm[15.0] == pytest.approx(least_gap(mapped, lip, centre, axis, 15.0), abs=0.06)
    low, high = mapped.motion.reach.low_mm, mapped.motion.reach.high_mm
    a, b = (g.ravel() for g in np.meshgrid(np.linspace(low, high, 23), np.linspace(*mapped.motion.second_range, 5)))
    centres, axes, good = mapped.motion.solve(a, b)
    assert good.all()
    tried = min(least_gap(mapped, lip, c, x, 15.0) for c, x in zip(centres, axes, strict=True))
    row = next(row for row in found.with_disc if row.obstacle == "arch lip")
    assert row.gap_mm - row.error_mm - 0.02 <= tried
    assert row.gap_mm == pytest.approx(tried, abs=0.25)  # the states tried here lie up to 5 mm apart


@pytest.mark.slow
@pytest.mark.parametrize("kind", ["five link", "twist beam", "live axle, Watt linkage"])
def test_what_the_knuckle_carries_keeps_its_gap_at_every_state(kind: str) -> None:
    found = room(kind)
    mapped = found.mapped
    centre, axis = mapped.motion.parked()
    row = next(row for row in found.bare if row.obstacle == "end of the arm")
    assert (row.kind, row.travel_mm, row.at_least) == ("carried", None, False)
    assert row.gap_mm == pytest.approx(least_gap(mapped, dense(ARM), centre, axis, 0.0), abs=0.06)
    thicker = next(row for row in found.with_disc if row.obstacle == "end of the arm")
    assert thicker.gap_mm > row.gap_mm + 10.0  # it stands inside: a disc moves the wheel away from it


FIVE, ARM_KIND, BEAM, WATT = (POINTS[k] for k in ("five link", "semi-trailing arm", "twist beam", KINDS[5]))
PANHARD = POINTS["live axle, Panhard rod"]
WRONG = {
    "a link without length": (FIVE.replace("[-150, 690, -30]", "[-190, 390, -20]"), "left.link[5].inner_mm", "1 mm away"),
    "a steered link of no name known": (
        FIVE.replace("toe_deg = 0.15\n", 'toe_deg = 0.15\nsteered_link = "tie"\n', 1), "left.steered_link", "toe link",
    ),
    "four of five links": (FIVE[: FIVE.rindex("[[rear")], "left.link", "five links"),
    "a hinge line that is a point": (ARM_KIND.replace("[430, 620, 25]", "[330, 250, 10]"), "left.pivot_inner_mm", "away"),
    "no shear centre": (BEAM.replace("shear_centre_mm = [250, 0, 60]\n", ""), "shear_centre_mm", "twist beam"),
    "both mounts on one side": (BEAM.replace("[430, -560, 30]", "[430, 560, 30]"), "mount_left_mm", "further left"),
    "an axle nothing holds sideways": (PANHARD[: PANHARD.rindex("[[rear")], "hardpoints.link", "Panhard rod"),
    "a crank without an arm": (WATT.replace("crank_end_a_mm = [-160, 0, 100]", "crank_end_a_mm = [-160, 0, 20]"),
                               "watt.crank_end_a_mm", "pivot_mm"),
    "a Watt link without length": (WATT.replace("[-160, 450, 100]", "[-160, 0, 100]"), "watt.far_end_a_mm", "crank_end_a_mm"),
}  # fmt: skip


@pytest.mark.parametrize("what", WRONG)
def test_hard_points_that_cannot_be_are_named_with_field_and_wish(what: str) -> None:
    points, field, wish = WRONG[what]
    with pytest.raises(BadInput) as caught:
        read(job_text("one that cannot be", points))
    fault = next(one for one in caught.value.faults if field in one.field)
    assert wish in fault.wanted
    assert fault.line is not None


def test_links_that_cannot_hold_the_parked_wheel_are_told_of_and_not_drawn() -> None:
    points = BEAM.replace("[430, 560, 30]", "[0, 560, 0]").replace("[430, -560, 30]", "[0, -560, 0]")
    with pytest.raises(BadInput, match=r"dead point|cannot"):
        room_table(read(job_text("mounts at the wheel centres", points)), "rear", "left", counts=(3, 3))
