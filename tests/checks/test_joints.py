from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from scipy import integrate
from tests.checks.cases import GONE, disc_of, front, job_with, said

from hubwright.checks import joints
from hubwright.checks.clamp import clamp_of, preload_of
from hubwright.checks.given import Given, given
from hubwright.checks.joint import Choice
from hubwright.checks.slip import verdict_of
from hubwright.engineering.joint.slip import Face, friction_radius_mm, gape_ratio
from hubwright.engineering.joint.wheel_load import InterfaceDemand
from hubwright.findings import Evidence, Finding, Verdict
from hubwright.uncertainty.band import Band

BOLTS = Choice("bolt", "M14x1.5", "cone seat", 43, 15.5, 10.3, True, "alloy wheels")
STATED = {
    "shop.assumptions.face_friction": [0.15, 0.15],
    "shop.assumptions.grip": [1.0, 1.0],
    "shop.assumptions.kerb_factors": [1.0, 0.5, 0.5],
    "shop.assumptions.roughness_um": 25,
    "shop.assumptions.hat_rise_k": 0,
    "shop.assumptions.rest_rise_k": 0,
    "front.fastener.friction": [0.12, 0.12],
}
"""Every assumption stated, so that nothing is a guess."""


def judged(changes: dict[str, Any] | None = None, thickness_mm: float = 15) -> tuple[Finding, ...]:
    job = job_with(changes)
    return joints.judge(job, "front", front(job), disc_of(job, thickness_mm), (BOLTS,))


def inputs(changes: dict[str, Any] | None = None) -> Given:
    job = job_with(changes)
    found = given(job, front(job), "left", front(job).wheel_set[0])
    assert isinstance(found, Given), found
    return found


@pytest.mark.parametrize(
    ("changes", "needs"),
    [
        ({"front.torque": []}, "a torque record"),
        ({"front.fastener.seat": GONE, "front.wheel_set.0.wheel.seat": GONE}, "the kind of seat"),
        ({"front.fastener.length_mm": GONE}, "length and engagement of the bolts"),
        ({"front.fastener.thread": GONE}, "the thread of the fasteners"),
        ({"front.fastener.lubrication": "as my uncle does it"}, "the state of lubrication"),
    ],
)
def test_clamp_is_unknown_and_says_what_it_needs(changes: dict[str, Any], needs: str) -> None:
    found = said(judged(changes), "clamp force")
    assert found.verdict is Verdict.UNKNOWN
    assert needs in found.sentence


def test_a_ball_seat_wants_the_circle_on_which_it_really_touches() -> None:
    ball = {"front.fastener.seat": "ball", "front.fastener.seat_radius_mm": 13, "front.fastener.seat_angle_deg": GONE}
    for contact in (GONE, 26):
        found = said(judged(ball | {"front.fastener.seat_contact_diameter_mm": contact}), "clamp force")
        assert found.verdict is Verdict.UNKNOWN
        assert "really touches (smaller than 26 mm)" in found.sentence
    assert said(judged(ball | {"front.fastener.seat_contact_diameter_mm": 19}), "leaves").verdict is Verdict.PASS


def test_clamp_of_m12_on_a_cone_agrees_with_figures_worked_beforehand() -> None:
    # Derived beforehand: M12x1.5, 110 N*m, cone of 60 deg on about 16 mm: 44, 32 and 26 kN at 0.10, 0.14 and 0.18.
    base = {
        "front.fastener.thread": "M12x1.5", "front.fastener.seat_contact_diameter_mm": 16, "front.torque.1": GONE,
        "front.torque.0.torque_nm": 110, "shop.assumptions.wrench_percent": 0,
        "shop.assumptions.tightened_with": "yield controlled", "front.fastener.shank_diameter_mm": 12,
    }  # fmt: skip
    for friction, clamp_kn in ((0.10, 44), (0.14, 32), (0.18, 26)):
        found = inputs(base | {"front.fastener.friction": [friction, friction]})
        assert clamp_of(found, 0, "aluminium").preload_n.nominal / 1000 == pytest.approx(clamp_kn, abs=0.7)


def test_a_disc_adds_one_face_that_settles_and_a_softer_stack() -> None:
    clamp = clamp_of(inputs(STATED), 15, "aluminium")
    working = " ".join(step.text for step in clamp.working)
    assert "2 inner faces today, 3 with disc" in working
    assert clamp.springs_with_disc.bolt_mm_per_n > clamp.springs.bolt_mm_per_n
    # One face more, 2.5 um, over the longer springs: the sum of both must reproduce the loss.
    springs = clamp.springs_with_disc
    settled_um = 3 + 4.5 + 3 * 2.5
    loss = settled_um / 1000 / (springs.bolt_mm_per_n + springs.clamped_mm_per_n)
    assert clamp.with_disc.embedding_loss_n.nominal == pytest.approx(loss)


def test_a_hot_aluminium_wheel_pulls_its_bolts_tighter_and_a_cold_one_looser() -> None:
    warm = clamp_of(inputs(STATED | {"shop.assumptions.rest_rise_k": 80}), 15, "aluminium")
    cold = clamp_of(inputs(STATED | {"shop.assumptions.hat_rise_k": 150}), 15, "aluminium")
    level = clamp_of(inputs(STATED), 15, "aluminium")
    assert warm.with_disc.temperature_loss_n.nominal < 0
    assert level.with_disc.temperature_loss_n.nominal == pytest.approx(0)
    assert cold.with_disc.temperature_loss_n.nominal < 0


def test_every_load_case_is_shown_at_both_faces() -> None:
    slip = said(judged(), " slips ")
    text = " ".join(step.text for step in slip.working)
    for face in ("hub face", "wheel face"):
        for case in ("braking", "driving", "cornering, outer wheel", "cornering, inner wheel", "kerb"):
            assert f"slip, {face}, {case}:" in text


def test_guesses_are_printed_and_never_refuse() -> None:
    found = judged({"front.torque.0.torque_nm": 20, "front.torque.1": GONE, "front.torque.0.stages": []})
    assert all(item.verdict is not Verdict.FAIL for item in found)
    slip = said(found, " slips ")
    assert slip.verdict is Verdict.CAUTION and slip.evidence is Evidence.PREDICTED
    assert "guess: friction of the faces 0.10 to 0.20" in [step.text for step in slip.working]
    assert not any(joints.counts(item) for item in found)


def test_with_nothing_guessed_a_range_wholly_below_one_refuses() -> None:
    weak = STATED | {"front.torque.0.torque_nm": 20, "front.torque.1": GONE, "front.torque.0.stages": []}
    slip = said(judged(weak), " slips")
    assert slip.verdict is Verdict.FAIL and slip.evidence is Evidence.MEASURED
    assert joints.counts(slip)


@pytest.mark.parametrize(
    ("band", "guessed", "verdict"),
    [
        (Band(1.0, 2.0, 3.0), True, Verdict.PASS),
        (Band(0.9, 2.0, 3.0), False, Verdict.CAUTION),
        (Band(0.1, 0.2, 0.9), True, Verdict.CAUTION),
        (Band(0.1, 0.2, 0.9), False, Verdict.FAIL),
    ],
)
def test_a_range_passes_whole_fails_whole_and_cautions_between(band: Band, guessed: bool, verdict: Verdict) -> None:
    assert verdict_of(band, guessed=guessed) is verdict


def test_slip_is_unknown_without_load_tyre_or_inset_and_cornering_is_left_out_without_a_centre_of_gravity() -> None:
    for field in ("front.plate_load_kg", "front.wheel_set.0.wheel.inset_mm", "front.hub.bolt_circle"):
        changes = {field: GONE} | ({"front.parked_load_kg": GONE} if "load" in field else {})
        assert said(judged(changes), "slip and gape: unknown").verdict is Verdict.UNKNOWN
    slip = said(judged({"car.cg_height_mm": GONE}), " slips ")
    assert "cornering (needs track and height of the centre of gravity)" in slip.todo


def test_the_bolt_breaks_before_a_full_thread_in_steel_strips_and_a_short_one_in_aluminium_strips_first() -> None:
    full = said(judged({"front.hub.thread_strength_mpa": 800}), "the bolt breaks before")
    assert full.verdict is Verdict.PASS and full.evidence is Evidence.MEASURED
    soft = said(judged({"front.hub.material": "aluminium"}), "may strip")
    assert soft.verdict is Verdict.CAUTION
    assert "hub or nut thread may strip" in soft.sentence
    assert "tightening reaches" in soft.sentence


@pytest.mark.parametrize(
    ("changes", "needs"),
    [
        ({"front.fastener.property_class": GONE}, "the property class"),
        ({"front.fastener.property_class": "soft"}, "a property class the table knows"),
    ],
)
def test_stripping_is_unknown_without_a_property_class(changes: dict[str, Any], needs: str) -> None:
    found = said(judged(changes), "thread stripping: unknown")
    assert found.verdict is Verdict.UNKNOWN and needs in found.sentence


def test_a_long_fastener_is_warned_of_with_what_it_would_carry_if_the_disc_slipped() -> None:
    long = {"front.fastener.length_mm": 45, "front.fastener.engagement_mm": 14.5}
    found = said(judged(long), "diameters")
    assert found.verdict is Verdict.CAUTION and "times their yield strength" in found.sentence
    assert not [item for item in judged() if "diameters" in item.sentence]


def test_a_bolted_adapter_is_answered_with_unknown_for_both_its_joints() -> None:
    changes = {"shop.disc.1.kind": "bolted", "shop.disc.1.counterbore_mm": 8, "shop.disc.1.inner_height_mm": 8}
    found = judged(changes)
    assert [item.verdict for item in found] == [Verdict.UNKNOWN]
    assert "inner and an outer joint" in found[0].sentence


def test_drawn_friction_seats_records_and_temperatures_stay_inside_the_range_and_come_near_its_ends() -> None:
    found = inputs({"front.fastener.seat_contact_diameter_mm": GONE})
    clamp = clamp_of(found, 15, "aluminium")
    rng = np.random.default_rng(7)
    springs = clamp.springs_with_disc
    give = springs.bolt_mm_per_n + springs.clamped_mm_per_n
    expansion, lengths = {"wheel": 23.5e-6, "disc": 23.5e-6, "hat": 10.5e-6}, {"wheel": 5.5, "disc": 15.0, "hat": 7.0}
    assert sum(lengths.values()) == pytest.approx(found.clamped_mm + 15)
    left = []
    for _ in range(4000):
        mu, contact = rng.uniform(0.14, 0.24, 2), rng.uniform(16.5, 20.5)
        arm_mm = 0.2387 + 0.5774 * found.thread.d2_mm * mu[0] + contact * mu[1]
        tightened = rng.choice([120.0, 140.0]) * 1000 * rng.uniform(0.96, 1.04) / arm_mm
        hat_k, rest_k = rng.uniform(0, 150), rng.uniform(-40, 80)
        growth = sum(expansion[part] * lengths[part] * (hat_k if part == "hat" else rest_k) for part in lengths)
        heat = (11.5e-6 * sum(lengths.values()) * rest_k - growth) / give
        left.append(tightened - 0.015 / give - heat)
    band = clamp.with_disc.remaining_n
    assert band.low <= min(left) and max(left) <= band.high
    # The band also holds the scatter of the wrench's method, so it is wider than friction alone, but not twice as wide.
    assert max(left) - min(left) > 0.4 * band.width


def test_the_ring_rubs_and_opens_where_quadrature_says() -> None:
    face = Face(5, 66, 142, Band(0.15, 0.15, 0.15))
    inner, outer = 33.0, 71.0
    moment, _ = integrate.quad(lambda r: 2 * math.pi * r * r, inner, outer)
    area, _ = integrate.quad(lambda r: 2 * math.pi * r, inner, outer)
    assert friction_radius_mm(face) == pytest.approx(moment / area)
    second, _ = integrate.quad(lambda r: math.pi * r**3, inner, outer)
    clamp = Band(30_000, 30_000, 30_000)
    demand = InterfaceDemand("bend", 0.0, 0.0, 0.0, 1.0)
    opens_nm = gape_ratio(face, clamp, demand).capacity.nominal
    # Edge pressure 5 F/A - M R/I is zero there.
    assert opens_nm * 1000 * outer / second == pytest.approx(5 * 30_000 / area)


def test_a_record_that_stretches_the_bolt_beyond_yield_is_cautioned() -> None:
    strong = {"front.torque.0.torque_nm": 400, "front.torque.0.stages": [], "front.torque.1": GONE}
    found = said(judged(strong | {"front.fastener.property_class": "8.8"}), "leaves")
    assert found.verdict is Verdict.CAUTION and "beyond its yield strength" in found.sentence
    assert said(judged(), "leaves").verdict is Verdict.PASS


def test_a_hub_of_unstated_material_may_be_aluminium_so_its_thread_gets_no_pass() -> None:
    found = said(judged({"front.hub.material": GONE}), "thread may strip")
    assert found.verdict is Verdict.CAUTION


def test_a_loose_washer_turns_where_it_turns_more_easily_and_so_raises_the_clamp() -> None:
    plain, washer = inputs(STATED), inputs(STATED | {"front.fastener.washer_outer_mm": 24})
    assert clamp_of(washer, 15, "aluminium").preload_n.nominal > clamp_of(plain, 15, "aluminium").preload_n.nominal


def test_a_flat_seat_wants_its_outside_and_clamps_harder_than_a_cone_for_the_same_record() -> None:
    flat = {"front.fastener.seat": "flat", "front.fastener.seat_angle_deg": GONE}
    assert "outside diameter of the flat seat" in said(judged(flat), "clamp force").sentence
    measured = inputs(STATED | flat | {"front.fastener.seat_outer_mm": 24, "front.fastener.seat_inner_mm": 15})
    assert preload_of(measured).nominal > preload_of(inputs(STATED)).nominal


def test_nuts_on_studs_are_worked_out_from_hat_and_pad() -> None:
    studs = {
        "front.fastener.kind": "nut", "front.fastener.length_mm": GONE, "front.fastener.engagement_mm": GONE,
        "front.fastener.shank_length_mm": 0,
    }  # fmt: skip
    assert "hat and pad under the nut" in said(judged(studs), "clamp force").sentence
    found = inputs(studs | {"front.wheel_set.0.wheel.pad_to_thread_mm": 11})
    assert found.clamped_mm == 7 + 11
