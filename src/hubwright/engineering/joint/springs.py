"""Both springs of a wheel joint in one step: bolt and clamped parts."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.engineering.joint.compliance import (
    Bolt,
    Layer,
    bolt_compliance_mm_per_n,
    clamped_compliance_mm_per_n,
    cone_tangent,
)
from hubwright.engineering.joint.seat import Seat, bearing_diameter_mm
from hubwright.engineering.joint.working_load import bolt_share
from hubwright.engineering.validity import require_within


@dataclass(frozen=True)
class JointSprings:
    """Resilience of bolt and clamped parts, and the part of an outside pull that the bolt feels."""

    bolt_mm_per_n: float
    clamped_mm_per_n: float
    bolt_share: float


def joint_springs(bolt: Bolt, layers: tuple[Layer, ...], seat: Seat, far_diameter_mm: float | None) -> JointSprings:
    """Springs of one fastener with everything it clamps.

    Equation:
        delta_S, delta_P with the cone slope for beta_L = l_K/d_W and y = D_A'/d_W, D_A' the narrowest part;
        C = delta_P/(delta_S + delta_P).

    Source:
        VDI 2230 Part 1 (equations in `compliance`); Shigley 9th ed., section 8-7 (C).

    Args:
        bolt: Shank and free thread must add up to the clamped length.
        layers: Clamped parts from the seat inwards; a disc is one more of them.
        seat: Seat of head or nut.
        far_diameter_mm: Bearing diameter of stud head or nut at the far end; None where the bolt is tapped.

    Raises:
        OutsideValidity: when bolt and parts differ in length by more than 0.1 mm, or a part is narrower than the seat.
    """
    clamped_mm = sum(layer.thickness_mm for layer in layers)
    bolt_mm = bolt.shank_length_mm + bolt.free_thread_mm
    require_within("the joint's springs", "VDI 2230 Part 1", clamped_mm - 0.1, clamped_mm + 0.1, bolt_mm=bolt_mm)
    near_mm = bearing_diameter_mm(seat)
    narrowest_mm = min(layer.outer_diameter_mm for layer in layers)
    tangent = cone_tangent(clamped_mm, near_mm, narrowest_mm, bolt.tapped)
    stretch = bolt_compliance_mm_per_n(bolt)
    squeeze = clamped_compliance_mm_per_n(layers, near_mm, far_diameter_mm, tangent)
    return JointSprings(stretch, squeeze, bolt_share(stretch, squeeze))
