"""The clearance table of the shared data: sedan body mesh, plain cylinder, 72 states (see PROVENANCE.md there)."""

from __future__ import annotations

import csv

import numpy as np
import pytest
from tests.engineering.envelope import sedan

from hubwright.engineering.envelope.meridian.build import draw_map, view_for
from hubwright.engineering.envelope.obstacles import Obstacle
from hubwright.engineering.envelope.poses import Poses
from hubwright.engineering.envelope.query import ReadyMap, contacts
from hubwright.engineering.envelope.sweep import gap_at_every_state, smallest_gap


def body(shared: sedan.Shared) -> Obstacle:
    return Obstacle("body", "body", sedan.body_triangles(shared("meshes/sedan_body.obj")))


def poses_at(shared: sedan.Shared, bump: list[float], rack: list[float]) -> Poses:
    return sedan.solve_poses(shared("kinematics/hardpoints.json"), np.array(bump), np.array(rack))


@pytest.mark.slow
def test_every_row_of_the_table_comes_out_within_a_tenth_of_a_millimetre(shared: sedan.Shared) -> None:
    with shared("clearance/clearance_reference.csv").open() as file:
        rows = list(csv.DictReader(file))
    states = sorted({(float(r["bump_mm"]), float(r["rack_mm"])) for r in rows})
    poses = poses_at(shared, [b for b, _ in states], [r for _, r in states])
    obstacle = body(shared)
    for row in rows:
        k = states.index((float(row["bump_mm"]), float(row["rack_mm"])))
        one = Poses(poses.origin_mm[k : k + 1], poses.axis[k : k + 1])
        pinch = smallest_gap(sedan.tyre(float(row["spacer_mm"])), obstacle, one)
        assert pinch is not None
        assert pinch.gap_mm == pytest.approx(float(row["min_clearance_mm"]), abs=0.1), row


def test_a_40_mm_disc_changes_nothing_straight_ahead_and_touches_at_full_lock(shared: sedan.Shared) -> None:
    obstacle, poses = body(shared), poses_at(shared, [0.0, 0.0], [0.0, 81.2])
    gaps = {}
    for k, name in enumerate(("ahead", "lock")):
        drawn = ReadyMap(
            draw_map(
                [obstacle], Poses(poses.origin_mm[k : k + 1], poses.axis[k : k + 1]), view_for(sedan.tyre(), 150.0)
            )
        )
        gaps[name] = [contacts(drawn, sedan.tyre(), t)[0].gap_mm for t in (0.0, 40.0)]
    assert gaps["ahead"] == pytest.approx([56.73, 56.73], abs=0.05)
    assert gaps["lock"] == pytest.approx([14.31, -6.82], abs=0.05)


@pytest.mark.slow
def test_a_general_collision_library_measures_the_same_distances(shared: sedan.Shared) -> None:
    fcl = pytest.importorskip("fcl")
    obstacle = body(shared)
    corners = obstacle.triangles_mm.reshape(-1, 3)
    model = fcl.BVHModel()
    model.beginModel(len(corners) // 3, len(corners))
    model.addSubModel(corners, np.arange(len(corners)).reshape(-1, 3))
    model.endModel()
    thing = fcl.CollisionObject(model, fcl.Transform())
    bump, rack = sedan.grid(7, 7)
    poses = sedan.solve_poses(shared("kinematics/hardpoints.json"), bump, rack)
    ours = gap_at_every_state(sedan.tyre(), obstacle, poses)
    clear = np.flatnonzero(ours.gap_mm > 0.5)
    assert clear.size > 30
    for k in clear:
        axis = poses.axis[k]
        side = np.cross([1.0, 0.0, 0.0], axis)
        side /= np.linalg.norm(side)
        turn = np.column_stack([np.cross(side, axis), side, axis])
        wheel = fcl.Cylinder(sedan.RADIUS_MM, sedan.WIDTH_MM)
        placed = fcl.CollisionObject(wheel, fcl.Transform(turn, poses.origin_mm[k]))
        theirs = fcl.distance(thing, placed, fcl.DistanceRequest(), fcl.DistanceResult())
        assert theirs == pytest.approx(float(ours.gap_mm[k]), abs=0.01)
