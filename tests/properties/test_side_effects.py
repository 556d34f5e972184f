"""What must hold of joint and side effects whatever the job says and whatever it leaves out."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.checks.cases import GONE, disc_of, front, job_with

from hubwright.checks import bearing, effects, joints, load
from hubwright.checks.clamp import preload_of
from hubwright.checks.given import Given
from hubwright.checks.given import given as clamp_given
from hubwright.checks.joint import Choice
from hubwright.checks.law import law_of
from hubwright.checks.rolling import GRAVITY_M_S2
from hubwright.engineering.handling.bearing_rows import ball_unit, row_loads
from hubwright.findings import Verdict
from hubwright.jobs.assess import assess

OPTIONAL = (
    "car.mass_kg", "car.cg_height_mm", "car.wheelbase_mm", "car.top_speed_kmh", "car.tow", "front.track_mm",
    "front.scrub_radius_mm", "front.parked_load_kg", "front.plate_load_kg", "front.suspension", "front.steering",
    "front.bearing", "front.torque", "front.hub.bolt_circle", "front.hub.spigot_diameter_mm", "front.hub.spigot_class",
    "front.hub.face_outer_mm", "front.hub.material", "front.hub.hat_thickness_mm", "front.fastener.property_class",
    "front.fastener.length_mm", "front.fastener.engagement_mm", "front.fastener.seat", "front.fastener.lubrication",
    "front.fastener.thread", "front.wheel_set", "front.wheel_set.0.wheel.inset_mm", "front.wheel_set.0.tyre", "rear",
    "front.fastener", "shop.disc.1.bore_mm",
)  # fmt: skip
BOLTS = Choice("bolt", "M14x1.5", "cone seat", 43, 15.5, 10.3, True, "alloy wheels")


def ordered(paths: set[str]) -> dict[str, Any]:
    """Deepest first, so that nothing is taken out of what is gone."""
    return dict.fromkeys(sorted(paths, key=lambda path: -path.count(".")), GONE)


@settings(max_examples=40)
@given(st.sets(st.sampled_from(OPTIONAL), max_size=12))
def test_whatever_is_left_out_there_is_an_answer_and_the_unknown_never_becomes_a_figure(gone: set[str]) -> None:
    job = job_with(ordered(gone))
    axle, disc = front(job), disc_of(job, 15)
    for effect in effects.effects_of(job, "front", axle, disc).effects:
        assert effect.known == (not effect.sentence.count(": unknown"))
        if not effect.known:
            assert effect.with_disc is None and effect.change is None
    assert assess(job).axle("front").torque.sentence


@pytest.mark.parametrize(
    ("field", "word"),
    [
        ("front.torque", "clamp force"), ("front.fastener.seat", "clamp force"),
        ("front.fastener.lubrication", "clamp force"), ("front.wheel_set.0.wheel.inset_mm", "slip and gape"),
        ("front.wheel_set.0.tyre", "slip and gape"), ("front.fastener.property_class", "thread stripping"),
    ],
)  # fmt: skip
def test_a_joint_with_a_needed_reading_missing_never_passes(field: str, word: str) -> None:
    changes = {field: GONE} | ({"front.torque": []} if field == "front.torque" else {})
    if field == "front.fastener.lubrication":
        changes |= {"front.torque.0.lubrication": "as is", "front.torque.1.lubrication": "as is"}
    job = job_with(changes)
    found = joints.judge(job, "front", front(job), disc_of(job, 15), (BOLTS,))
    assert any(item.verdict is Verdict.UNKNOWN and word in item.sentence for item in found)
    assert joints.summary(found).verdict is not Verdict.PASS


@given(st.sets(st.sampled_from(("front.plate_load_kg", "car.top_speed_kmh", "front.wheel_set.0.tyre.designation"))))
def test_load_without_its_figures_is_unknown(gone: set[str]) -> None:
    job = job_with(ordered(gone))
    assert job.date is not None
    found = load.judge(job, "front", front(job), law_of(job, job.date))
    fitted = [item for item in found if item.case is not None and item.case.item == "alloy wheels"]
    if "front.wheel_set.0.tyre.designation" in gone:
        assert {item.verdict for item in fitted} == {Verdict.UNKNOWN}
    if "front.plate_load_kg" in gone:
        assert {item.verdict for item in fitted if item.case and item.case.state != "speed symbol"} == {Verdict.UNKNOWN}


@given(st.floats(0.05, 0.3), st.floats(0.0, 0.2), st.floats(12, 25))
def test_more_friction_never_raises_the_clamp_of_a_record(mu: float, more: float, contact_mm: float) -> None:
    def clamp(friction: float) -> Any:
        changes = {"front.fastener.friction": [friction], "front.fastener.seat_contact_diameter_mm": contact_mm}
        job = job_with(changes)
        found = clamp_given(job, front(job), "left", front(job).wheel_set[0])
        assert isinstance(found, Given)
        return preload_of(found)

    smooth, rough = clamp(mu), clamp(mu + more)
    assert rough.low <= smooth.low + 1e-6 and rough.high <= smooth.high + 1e-6


@given(st.floats(0, 40), st.floats(0, 20), st.floats(0, 20))
def test_straight_ahead_a_thicker_disc_never_lowers_the_load_of_the_row_beyond_whose_middle_the_load_line_lies(
    thickness_mm: float, more_mm: float, load_line_mm: float
) -> None:
    unit, load_n = ball_unit(60, load_line_mm), 465 * GRAVITY_M_S2
    thin, thick = (row_loads(unit, load_n, 0.0, 317, t) for t in (thickness_mm, thickness_mm + more_mm))
    assert thick.outboard_radial_n >= thin.outboard_radial_n - 1e-9


@settings(max_examples=15)
@given(st.floats(1, 20), st.floats(1, 20))
def test_on_straight_roads_a_thicker_disc_never_lengthens_bearing_life(first_mm: float, more_mm: float) -> None:
    changes = {"front.bearing.duty": [{"share": 1.0, "side_g": 0.0}]}
    job = job_with(changes)
    thin, thick = (bearing.effect_of(job, front(job), t) for t in (first_mm, first_mm + more_mm))
    assert thin.with_disc is not None and thick.with_disc is not None
    assert thick.with_disc <= thin.with_disc + 1e-12 <= 1 + 1e-9


WILD: dict[str, st.SearchStrategy[float]] = {
    "car.mass_kg": st.floats(101, 12000),
    "car.cg_height_mm": st.floats(101, 2500),
    "car.wheelbase_mm": st.floats(1, 10000),
    "front.parked_load_kg": st.floats(1, 10000),
    "front.plate_load_kg": st.floats(1, 10000),
    "front.suspension.arm_mm": st.floats(1, 10000),
    "front.suspension.roll_stiffness_nm_per_deg": st.floats(1, 10000),
    "front.suspension.roll_centre_height_mm": st.floats(-300, 800),
    "front.suspension.unsprung_mass_kg": st.floats(1, 10000),
    "front.bearing.spread_mm": st.floats(1, 10000),
    "front.bearing.spread_doubt_mm": st.floats(0, 3000),
    "front.bearing.load_line_mm": st.floats(-200, 200),
    "front.steering.outer_lock_deg": st.floats(5, 70),
    "front.fastener.seat_contact_diameter_mm": st.floats(0.1, 10000),
    "front.fastener.seat_angle_deg": st.floats(20, 180),
    "front.fastener.shank_length_mm": st.floats(0, 3000),
    "front.fastener.shank_diameter_mm": st.floats(0.1, 10000),
    "front.fastener.engagement_mm": st.floats(0, 400),
    "front.hub.face_outer_mm": st.floats(67, 10000),
    "front.hub.hat_thickness_mm": st.floats(0, 400),
    "front.hub.fillet_mm": st.floats(0, 3000),
    "front.hub.thread_strength_mpa": st.floats(0.1, 10000),
    "front.torque.0.torque_nm": st.floats(0.1, 1500),
    "front.wheel_set.0.wheel.inset_mm": st.floats(-500, 500),
    "front.wheel_set.0.wheel.mass_kg": st.floats(0.1, 10000),
    "front.wheel_set.0.wheel.rated_circumference_mm": st.floats(0.1, 10000),
    "shop.assumptions.roughness_um": st.floats(0.1, 159),
    "shop.assumptions.side_g": st.floats(0.01, 1.5),
    "shop.disc.1.concentricity_mm": st.floats(0, 3000),
}
"""Figures a job file lets through, sensible or not."""


@settings(max_examples=60)
@given(
    st.lists(st.sampled_from(sorted(WILD)), max_size=8, unique=True).flatmap(
        lambda names: st.fixed_dictionaries({name: WILD[name] for name in names})
    )
)
def test_no_figure_that_a_job_file_lets_through_ends_in_an_error(changes: dict[str, Any]) -> None:
    answer = assess(job_with(changes))
    for axle in answer.axles:
        for disc in axle.effects:
            for effect in disc.effects:
                figures = (effect.standard, effect.with_disc, effect.low, effect.high)
                assert all(value is None or abs(value) < 1e300 for value in figures)
                assert "nan" not in effect.sentence and "inf " not in effect.sentence
