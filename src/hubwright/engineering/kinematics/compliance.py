"""What rubber and metal give under a side force: the top of the loaded outer wheel moves outboard.

Source: derived from stated compliances.
"""

from __future__ import annotations

import math

from hubwright.errors import OutsideValidity
from hubwright.language import marked


def compliance_move(
    side_force_kn: float, camber_deg_per_kn: float, sideways_mm_per_kn: float, height_mm: float
) -> float:
    """Outboard move of a point of the loaded outer wheel at a height over the wheel centre, mm.

    ``h tan(c F) - s F``: the side force at the ground pushes the whole wheel inboard by s per kN and leans its top
    outboard by c per kN. Asked at the height of the arch lip, not at the top of the tyre. Derived. 5 kN, 0.25 deg/kN,
    0.4 mm/kN, 320 mm: +5.0 mm.

    Args:
        side_force_kn: On this wheel, at the ground, towards the car's middle; 0 or more.
        camber_deg_per_kn: Lean of the wheel, top outboard, per kN.
        sideways_mm_per_kn: Inboard move of the wheel centre per kN.
        height_mm: Of the point over the wheel centre; negative below it.

    Raises:
        OutsideValidity: a force below 0, or a lean above 5 deg, where nothing stays in proportion.
    """
    lean_deg = camber_deg_per_kn * side_force_kn
    if side_force_kn < 0.0 or abs(lean_deg) > 5.0:
        wanted = marked("forces from 0 up and leans to 5 deg")
        raise OutsideValidity("compliance_move", "side_force_kn", side_force_kn, wanted, "derived")
    return height_mm * math.tan(math.radians(lean_deg)) - sideways_mm_per_kn * side_force_kn
