"""How far bolt and clamped parts give per newton: the springs of the joint."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from hubwright.engineering.validity import require_ascending, require_not_negative, require_positive
from hubwright.language import marked
from hubwright.tables.threads import Thread

VDI = marked("VDI 2230 Part 1, resilience of bolt and clamped parts")


@dataclass(frozen=True)
class Layer:
    """One clamped part along the bolt: wheel, disc, brake disc hat, hub flange.

    Attributes:
        thickness_mm: Length along the bolt.
        outer_diameter_mm: Material available round this bolt (for wide parts: twice the distance to the next edge).
        bore_mm: Clearance hole.
        modulus_mpa: Young's modulus.
        expansion_per_k: Thermal expansion, 1/K.
    """

    thickness_mm: float
    outer_diameter_mm: float
    bore_mm: float
    modulus_mpa: float
    expansion_per_k: float = 0.0


@dataclass(frozen=True)
class Bolt:
    """What stretches: plain shank and free thread between head and first engaged turn.

    Attributes:
        thread: Thread.
        shank_length_mm: Plain shank inside the clamped length.
        shank_diameter_mm: Its diameter.
        free_thread_mm: Thread inside the clamped length that carries no nut.
        modulus_mpa: Young's modulus of the bolt.
        nut_modulus_mpa: Young's modulus of nut or tapped hub.
        tapped: True where the bolt screws into the hub, False for stud or bolt with a nut.
    """

    thread: Thread
    shank_length_mm: float
    shank_diameter_mm: float
    free_thread_mm: float
    modulus_mpa: float
    nut_modulus_mpa: float
    tapped: bool


def bolt_compliance_mm_per_n(bolt: Bolt) -> float:
    """Stretch of the bolt per newton, head and engaged thread included.

    Equation:
        delta_S = (1/E_S) [0.5 d/A_N + l_1/A_1 + l_Gew/A_d3 + 0.5 d/A_d3] + l_M/(E_M A_N); l_M = 0.4 d with a nut,
        0.33 d tapped.

    Source:
        VDI 2230 Part 1, section on the resilience of the bolt (substitute lengths of hexagon head, engaged thread and
        nut from memory).

    Raises:
        OutsideValidity: for negative lengths or sizes that are not positive.
    """
    require_not_negative(
        "the bolt's resilience", VDI, shank_length_mm=bolt.shank_length_mm, free_thread_mm=bolt.free_thread_mm
    )
    sizes = {"shank_diameter_mm": bolt.shank_diameter_mm, "modulus_mpa": bolt.modulus_mpa}
    require_positive("the bolt's resilience", VDI, **sizes, nut_modulus_mpa=bolt.nut_modulus_mpa)
    d = bolt.thread.d_mm
    A_N = math.pi / 4 * d**2
    A_1 = math.pi / 4 * bolt.shank_diameter_mm**2
    A_d3 = math.pi / 4 * bolt.thread.d3_mm**2
    stretch = 0.5 * d / A_N + bolt.shank_length_mm / A_1 + bolt.free_thread_mm / A_d3 + 0.5 * d / A_d3
    l_M = (0.33 if bolt.tapped else 0.4) * d
    return stretch / bolt.modulus_mpa + l_M / (bolt.nut_modulus_mpa * A_N)


def cone_tangent(clamped_mm: float, bearing_diameter_mm: float, outer_diameter_mm: float, tapped: bool) -> float:
    """Slope of the pressure cone that stands for the clamped parts.

    Equation:
        with a nut: tan phi = 0.362 + 0.032 ln(beta_L/2) + 0.153 ln y; tapped: 0.348 + 0.013 ln beta_L + 0.193 ln y;
        beta_L = l_K/d_W, y = D_A'/d_W.

    Source:
        VDI 2230 Part 1, section on the resilience of the clamped parts (from memory).

    Raises:
        OutsideValidity: when the parts are not wider than the seat.
    """
    require_positive("the pressure cone", VDI, clamped_mm=clamped_mm, bearing_diameter_mm=bearing_diameter_mm)
    sizes = {"bearing_diameter_mm": bearing_diameter_mm, "outer_diameter_mm": outer_diameter_mm}
    require_ascending("the pressure cone", VDI, **sizes)
    beta_L, y = clamped_mm / bearing_diameter_mm, outer_diameter_mm / bearing_diameter_mm
    if tapped:
        return 0.348 + 0.013 * math.log(beta_L) + 0.193 * math.log(y)
    return 0.362 + 0.032 * math.log(beta_L / 2) + 0.153 * math.log(y)


def clamped_compliance_mm_per_n(
    layers: tuple[Layer, ...], near_diameter_mm: float, far_diameter_mm: float | None, tangent: float
) -> float:
    """How far the clamped parts give per newton, layer by layer.

    A cone spreads from the seat, a second one from the far side where a nut or stud head bears; each part is cut out of
    the narrower of the two and of its own outer diameter. One uniform part gives the closed form of the source.

    Equation:
        delta_P = integral dz / (E(z) pi/4 (D(z)^2 - d_h^2)),
        D = min(d_W + 2 z tan phi, d_W' + 2 (l_K - z) tan phi, D_A); each straight piece:
        ln[(D_2 - d_h)(D_1 + d_h) / ((D_2 + d_h)(D_1 - d_h))] / (E pi d_h tan phi).

    Source:
        VDI 2230 Part 1 (cone and sleeve), and Shigley's Mechanical Engineering Design 9th ed., eq. 8-20 (frustum), both
        taken piece by piece for parts of different material (derived).

    Args:
        layers: Parts from the seat inwards.
        near_diameter_mm: Bearing diameter d_W under head or nut.
        far_diameter_mm: Bearing diameter at the far end; None where the bolt is tapped into the last part.
        tangent: tan phi of the cone, from `cone_tangent` or 0.577 (30 degrees).

    Raises:
        OutsideValidity: when a hole is as wide as the cone that should bear on it.
    """
    total_mm = sum(layer.thickness_mm for layer in layers)
    require_positive("the clamped parts", VDI, near_diameter_mm=near_diameter_mm, tangent=tangent, total_mm=total_mm)

    def cone_mm(z: float) -> float:
        near = near_diameter_mm + 2 * z * tangent
        return near if far_diameter_mm is None else min(near, far_diameter_mm + 2 * (total_mm - z) * tangent)

    compliance, start = 0.0, 0.0
    for layer in layers:
        require_positive(
            "a clamped part", VDI, thickness_mm=layer.thickness_mm, bore_mm=layer.bore_mm, modulus_mpa=layer.modulus_mpa
        )
        end = start + layer.thickness_mm
        kinks = [(layer.outer_diameter_mm - near_diameter_mm) / (2 * tangent)]
        if far_diameter_mm is not None:
            kinks.append(total_mm - (layer.outer_diameter_mm - far_diameter_mm) / (2 * tangent))
            kinks.append(total_mm / 2 + (far_diameter_mm - near_diameter_mm) / (4 * tangent))
        stations = [start, *sorted(z for z in kinks if start < z < end), end]
        for lower, upper in pairwise(stations):
            widths = [min(cone_mm(z), layer.outer_diameter_mm) for z in (lower, upper)]
            compliance += _frustum(upper - lower, widths[0], widths[1], layer)
        start = end
    return compliance


def _frustum(length_mm: float, D1: float, D2: float, layer: Layer) -> float:
    dh, E = layer.bore_mm, layer.modulus_mpa
    require_ascending("a clamped part", VDI, bore_mm=dh, pressed_diameter_mm=min(D1, D2))
    if abs(D2 - D1) < 1e-9 * D1:
        return length_mm / (E * math.pi / 4 * (D1**2 - dh**2))
    slope = (D2 - D1) / (2 * length_mm)
    return math.log((D2 - dh) * (D1 + dh) / ((D2 + dh) * (D1 - dh))) / (E * math.pi * dh * slope)
