"""How a pull from outside shares itself between bolt and clamp."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.joint.wheel_load import InterfaceDemand
from hubwright.engineering.validity import require_positive, require_within

SHIGLEY = "Shigley's Mechanical Engineering Design 9th ed., section 8-7"


@dataclass(frozen=True)
class WorkingLoad:
    """One fastener under an outside pull.

    Attributes:
        share: C, part of the pull that the bolt feels.
        bolt_n: Force in the bolt.
        clamp_n: Force left between the parts; zero once they part.
    """

    share: float
    bolt_n: float
    clamp_n: float


def bolt_share(bolt_mm_per_n: float, clamped_mm_per_n: float) -> float:
    """Part of an outside pull that the bolt feels.

    Equation:
        C = k_b/(k_b + k_m) = delta_P/(delta_S + delta_P).

    Source:
        Shigley's Mechanical Engineering Design 9th ed., section 8-7 (stiffness constant of the joint).
    """
    require_positive("the bolt's share", SHIGLEY, bolt_mm_per_n=bolt_mm_per_n, clamped_mm_per_n=clamped_mm_per_n)
    return clamped_mm_per_n / (bolt_mm_per_n + clamped_mm_per_n)


def under_pull(preload_n: float, pull_n: float, share: float) -> WorkingLoad:
    """Bolt force and clamp left under a pull.

    Equation:
        F_b = C P + F_i; F_m = F_i - (1 - C) P; once F_m = 0 the bolt carries P alone.

    Source:
        Shigley's Mechanical Engineering Design 9th ed., eq. 8-24 and 8-25.
    """
    clamp = preload_n - (1 - share) * pull_n
    if clamp <= 0:
        return WorkingLoad(share, max(pull_n, 0.0), 0.0)
    return WorkingLoad(share, share * pull_n + preload_n, clamp)


def fastener_pull_n(demand: InterfaceDemand, fasteners: int, circle_mm: float) -> float:
    """Greatest pull that tilting moment and separating force bring to one fastener of a closed face.

    Equation:
        P = M y_i / sum y_i^2 + A/n with sum y_i^2 = n r^2/2: at most 2 M/(n r) + A/n.

    Source:
        Rigid flange turning about the middle of its bolt circle (derived).

    Raises:
        OutsideValidity: for fewer than three fasteners.
    """
    require_within("the pull of one fastener", SHIGLEY, 3, math.inf, fasteners=fasteners)
    require_positive("the pull of one fastener", SHIGLEY, circle_mm=circle_mm)
    return 2 * demand.moment_nm / (fasteners * circle_mm / 2000) + demand.separating_n / fasteners
