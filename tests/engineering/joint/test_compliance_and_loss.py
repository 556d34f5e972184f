from __future__ import annotations

import math
from dataclasses import replace

import pytest
from scipy.integrate import quad

from hubwright.engineering.joint.compliance import (
    Bolt,
    Layer,
    bolt_compliance_mm_per_n,
    clamped_compliance_mm_per_n,
    cone_tangent,
)
from hubwright.engineering.joint.loss import (
    Settling,
    clamp_budget,
    embedding_loss_n,
    inner_interfaces,
    settling_um,
    temperature_loss_n,
)
from hubwright.engineering.joint.seat import ConeSeat
from hubwright.engineering.joint.springs import joint_springs
from hubwright.errors import OutsideValidity
from hubwright.tables.threads import thread
from hubwright.uncertainty.band import Band, exactly

STEEL, ALUMINIUM = 205_000.0, 70_000.0
WHEEL = Layer(14, 40, 14.5, ALUMINIUM, 23e-6)
DISC = Layer(15, 36, 15, ALUMINIUM, 23e-6)
HAT = Layer(6.5, 36, 15, STEEL, 11e-6)
BOLT = Bolt(thread("M14x1.5"), 15, 14, 5.5, STEEL, STEEL, tapped=True)


def test_the_stack_of_unlike_parts_agrees_with_quadrature() -> None:
    layers, near, far, tan = (WHEEL, DISC, HAT), 20.0, 24.0, 0.45
    total = sum(layer.thickness_mm for layer in layers)

    def softness(z: float) -> float:
        depth = 0.0
        for layer in layers:
            depth += layer.thickness_mm
            if z <= depth:
                break
        width = min(near + 2 * z * tan, far + 2 * (total - z) * tan, layer.outer_diameter_mm)
        return 4 / (layer.modulus_mpa * math.pi * (width**2 - layer.bore_mm**2))

    expected, _ = quad(softness, 0, total, points=[14, 29], limit=400, epsabs=0, epsrel=1e-9)
    assert clamped_compliance_mm_per_n(layers, near, far, tan) == pytest.approx(expected, rel=1e-6)


def test_a_hole_wider_than_the_seat_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="pressed_diameter_mm"):
        clamped_compliance_mm_per_n((WHEEL,), 14.0, None, 0.5)


def test_bolt_stretch_is_that_of_its_pieces() -> None:
    # One plain rod of the same length and area stretches l/(E A); the difference of two bolts is pure shank.
    longer = replace(BOLT, shank_length_mm=BOLT.shank_length_mm + 10)
    rod = 10 / (STEEL * math.pi / 4 * 14**2)
    assert bolt_compliance_mm_per_n(longer) - bolt_compliance_mm_per_n(BOLT) == pytest.approx(rod)


def test_a_wheel_bolt_stretches_by_the_sum_of_its_printed_lengths() -> None:
    # Worked by hand for M14x1.5: A_N 153.94, A_d3 116.13 mm2; head 7/153.94, shank 15/153.94, free thread 5.5/116.13,
    # engaged thread 7/116.13, hub 4.62/153.94 when tapped, nut 5.6/153.94; all over 205 000 MPa.
    tapped = (7 + 15 + 4.62) / 153.94 + (5.5 + 7) / 116.13
    nutted = (7 + 15 + 5.6) / 153.94 + (5.5 + 7) / 116.13
    assert bolt_compliance_mm_per_n(BOLT) == pytest.approx(tapped / STEEL, rel=1e-4)
    assert bolt_compliance_mm_per_n(replace(BOLT, tapped=False)) == pytest.approx(nutted / STEEL, rel=1e-4)


def test_the_pressure_cone_of_a_wheel_joint_opens_at_about_25_degrees() -> None:
    # VDI 2230 regressions (from memory) where their length term vanishes: 0.348 + 0.193 ln 2, 0.362 + 0.153 ln 2.
    assert cone_tangent(20, 20, 40, tapped=True) == pytest.approx(0.4818, abs=5e-5)
    assert cone_tangent(40, 20, 40, tapped=False) == pytest.approx(0.4681, abs=5e-5)


def test_each_disc_adds_one_face_that_settles() -> None:
    # VDI 2230:2003 table 5, Rz 10 to 40, shear: 3, 4.5, 2.5 um (from memory).
    rough = Settling(3, 4.5, 2.5)
    assert settling_um(rough, inner_interfaces(3)) == 12.5
    assert settling_um(rough, inner_interfaces(4)) - settling_um(rough, inner_interfaces(3)) == 2.5


def test_parts_that_outgrow_the_bolt_tighten_it() -> None:
    soft = (3e-6, 1e-6)
    hot = temperature_loss_n(
        (WHEEL,), (100,), bolt_expansion_per_k=11.5e-6, bolt_rise_k=100, bolt_mm_per_n=soft[0], clamped_mm_per_n=soft[1]
    )
    # (11.5 - 23)e-6 x 14 mm x 100 K / 4e-6 mm/N
    assert hot == pytest.approx(-4025)
    bolt_only = temperature_loss_n(
        (WHEEL,), (0,), bolt_expansion_per_k=11.5e-6, bolt_rise_k=100, bolt_mm_per_n=soft[0], clamped_mm_per_n=soft[1]
    )
    assert bolt_only == pytest.approx(4025)


def test_what_is_left_takes_the_worst_of_every_stage_and_never_goes_below_zero() -> None:
    budget = clamp_budget(Band(26_000, 32_000, 44_000), Band(1000, 2000, 4000), exactly(-500))
    assert budget.remaining_n == Band(22_500, 30_500, 43_500)
    assert clamp_budget(exactly(1000), exactly(5000), exactly(0)).remaining_n == exactly(0)


def test_ten_micrometres_cost_what_the_springs_say() -> None:
    assert embedding_loss_n(10, 3e-6, 1e-6) == pytest.approx(2500)


def test_a_disc_and_a_longer_bolt_together_soften_the_joint_so_each_micrometre_costs_less() -> None:
    seat = ConeSeat(19, 60)
    plain = joint_springs(replace(BOLT, shank_length_mm=15, free_thread_mm=5.5), (WHEEL, HAT), seat, None)
    spaced = joint_springs(replace(BOLT, shank_length_mm=30, free_thread_mm=5.5), (WHEEL, DISC, HAT), seat, None)
    rough = Settling(3, 4.5, 2.5)
    losses = [
        embedding_loss_n(um, springs.bolt_mm_per_n, springs.clamped_mm_per_n)
        for um, springs in ((settling_um(rough, 2), plain), (settling_um(rough, 3), spaced))
    ]
    # One more face settles, yet the softer joint loses less than the same settling would cost the short one.
    assert losses[1] < embedding_loss_n(settling_um(rough, 3), plain.bolt_mm_per_n, plain.clamped_mm_per_n)
    assert 1000 < losses[0] < 10_000
    assert 0 < spaced.bolt_share < 1


def test_a_bolt_that_does_not_match_its_stack_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="bolt_mm"):
        joint_springs(BOLT, (WHEEL, DISC, HAT), ConeSeat(19, 60), None)
