"""A body mesh, hard points and a noisy scan of the same arch, through a job file: what the answer shows."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import hubwright
from hubwright.findings import Evidence, Verdict
from hubwright.jobs.room_table import RoomTable, room_table
from hubwright.parts.job import Job

pytestmark = pytest.mark.slow
Shared = Callable[[str], Path]

JOB = """
hubwright_job = 1
title = "Body mesh and hard points"
date = 2026-06-22
request = {{ use = "street" }}
shop = {{ disc = [{{ thickness_mm = 40, kind = "lipped" }}], policy = {{ doubt_k = 1.0 }} }}
[front]
bump_travel_mm = {{ value = 80, u = 0 }}
droop_travel_mm = {{ value = 50, u = 0 }}
wish = {{ aim = "thickness", thickness_mm = 40 }}
[front.hardpoints]
kind = "double wishbone"
rack_travel_mm = {rack}
left = {points}
[[front.wheel_set]]
role = "fitted"
wheel = {{ rim = "8Jx17", inset_mm = {{ value = 0, u = 0 }} }}
tyre = {{ designation = "245/45R17", free_radius_mm = {{ value = 326.6, u = 0 }}, section_width_mm = {{ value = 245, u = 0 }} }}
[[front.left.scan]]
name = "body"
file = "{file}"
unit = "{unit}"
shift_mm = [-1388, 0, -250]
"""
NAMES = {
    "UF": "upper_front_mm", "UB": "upper_rear_mm", "UO": "upper_outer_mm", "LF": "lower_front_mm",
    "LB": "lower_rear_mm", "LO": "lower_outer_mm", "TI": "tie_inner_mm", "TO": "tie_outer_mm",
}  # fmt: skip


def sedan(shared: Shared, file: str, unit: str) -> Job:
    points: dict[str, Any] = json.loads(shared("kinematics/hardpoints.json").read_text())["sets"]["dw_sedan"]
    figures = {"wheel_centre_mm": points["W"], **{name: points[key] for key, name in NAMES.items()}}
    typed = ", ".join(f"{name} = [{', '.join(f'{1000 * v:.3f}' for v in place)}]" for name, place in figures.items())
    text = JOB.format(
        rack=1000 * points["rack"], points=f"{{ {typed}, loaded_radius_mm = 326.6 }}", file=shared(file), unit=unit
    )
    return hubwright.parse(text, folder=Path())


@cache
def _room(job: Job) -> RoomTable:
    found = room_table(job, "front", "left", 40.0, counts=(9, 25))
    assert found is not None
    return found


@pytest.fixture(scope="module")
def mesh(shared: Shared) -> Job:
    return sedan(shared, "meshes/sedan_body.obj", "m")


@pytest.fixture(scope="module")
def scan(shared: Shared) -> Job:
    return sedan(shared, "clearance/arch_scan_synthetic.csv", "mm")


def test_a_40_mm_disc_leaves_the_straight_ahead_clearance_as_it_was_and_overlaps_at_full_lock(mesh: Job) -> None:
    room = _room(mesh)
    assert room.parked_mm[0.0] == pytest.approx(56.73, abs=0.5)  # clearance_reference.csv, rack 0, bump 0
    assert room.parked_mm[40.0] == pytest.approx(room.parked_mm[0.0], abs=1.0)  # a round crown, not a cylinder
    assert room.straight_mm[40.0] == pytest.approx(room.straight_mm[0.0], abs=1.0)
    worst = room.with_disc[0]
    assert worst.gap_mm < 0
    assert worst.steer_deg is not None
    assert abs(worst.steer_deg) > 0.8 * abs(room.mapped.steer_deg).max()


def test_the_answer_shows_the_overlap_at_lock_as_predicted_and_never_released(mesh: Job) -> None:
    answer = hubwright.assess(mesh).axle("front")
    disc = answer.plan.discs[0]
    found = next(one for one in disc.every if one.question == "clearance" and one.case and one.case.side == "left")
    assert found.verdict is Verdict.FAIL
    assert "overlap" in found.sentence
    assert "steered" in found.sentence
    assert found.evidence is Evidence.PREDICTED
    assert not disc.released


def test_the_scan_recovers_the_mesh_within_its_noise_and_says_how_noisy_it_is(mesh: Job, scan: Job) -> None:
    by_scan, by_mesh = _room(scan), _room(mesh)
    noise = next(iter(by_scan.mapped.room.neighbours.values()))
    assert 0.35 <= noise.doubt_mm <= 0.65  # made with 0.4; the body's own curvature between points adds to it
    assert "scan noise" in noise.words
    assert "outliers taken out" in noise.words
    for thickness in (0.0, 40.0):
        assert by_scan.parked_mm[thickness] == pytest.approx(by_mesh.parked_mm[thickness], abs=3 * 0.4 + 0.3)
