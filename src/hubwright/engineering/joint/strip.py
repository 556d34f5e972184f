"""Threads that strip: shear areas with their tolerance extremes, and the force that tears them out."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.validity import require_not_negative, require_positive, require_within
from hubwright.language import marked
from hubwright.uncertainty.band import Band, corners

H28 = "FED-STD-H28/2B (ASME B1.1 appendix B), thread shear areas"
ALEXANDER = marked(
    "Alexander, Analysis and Design of Threaded Assemblies, SAE 770420, as used in VDI 2230 (from memory)"
)


@dataclass(frozen=True)
class ThreadLimits:
    """Limits of size of one pair of threads, mm (ISO 965 or ASME B1.1 tables)."""

    pitch_mm: float
    bolt_major_min_mm: float
    bolt_major_max_mm: float
    bolt_pitch_min_mm: float
    bolt_pitch_max_mm: float
    nut_minor_min_mm: float
    nut_minor_max_mm: float
    nut_pitch_min_mm: float
    nut_pitch_max_mm: float


@dataclass(frozen=True)
class StripStrength:
    """Force at which each part of one screwed joint gives way, N.

    Attributes:
        bolt_thread_n: Bolt thread stripped by the nut's crests.
        nut_thread_n: Nut or hub thread stripped by the bolt's crests.
        bolt_break_n: Bolt broken in the free thread.
    """

    bolt_thread_n: Band
    nut_thread_n: Band
    bolt_break_n: float


def bolt_shear_area_mm2(engaged_mm: float, pitch_mm: float, nut_minor_mm: float, bolt_pitch_mm: float) -> float:
    """Area that must shear to strip the bolt (external) thread.

    Equation:
        AS_s = pi n Le D1max [1/(2n) + 0.57735 (d2min - D1max)], n = 1/P.

    Source:
        FED-STD-H28/2B; ASME B1.1 appendix B.

    Raises:
        OutsideValidity: when the threads do not overlap at all.
    """
    require_not_negative("the stripping area", H28, engaged_mm=engaged_mm)
    require_positive("the stripping area", H28, pitch_mm=pitch_mm)
    tooth = pitch_mm / 2 + math.tan(math.pi / 6) * (bolt_pitch_mm - nut_minor_mm)
    require_within("the stripping area", H28, 0, pitch_mm, tooth_thickness_mm=tooth)
    return math.pi * nut_minor_mm * engaged_mm / pitch_mm * tooth


def nut_shear_area_mm2(engaged_mm: float, pitch_mm: float, bolt_major_mm: float, nut_pitch_mm: float) -> float:
    """Area that must shear to strip the nut or hub (internal) thread.

    Equation:
        AS_n = pi n Le dmin [1/(2n) + 0.57735 (dmin - D2max)], n = 1/P.

    Source:
        FED-STD-H28/2B; ASME B1.1 appendix B.

    Raises:
        OutsideValidity: when the threads do not overlap at all.
    """
    require_not_negative("the stripping area", H28, engaged_mm=engaged_mm)
    require_positive("the stripping area", H28, pitch_mm=pitch_mm)
    tooth = pitch_mm / 2 + math.tan(math.pi / 6) * (bolt_major_mm - nut_pitch_mm)
    require_within("the stripping area", H28, 0, pitch_mm, tooth_thickness_mm=tooth)
    return math.pi * bolt_major_mm * engaged_mm / pitch_mm * tooth


def shear_area_bands_mm2(limits: ThreadLimits, engaged_mm: float) -> tuple[Band, Band]:
    """Bolt and nut stripping areas between their worst and best limits of size.

    Equation:
        worst: D1max with d2min, dmin with D2max; best: the other ends; nominal is the middle.

    Source:
        FED-STD-H28/2B for the worst ends; the best ends alike (derived).
    """

    def band(low: float, high: float) -> Band:
        return Band(low, (low + high) / 2, high)

    P = limits.pitch_mm
    bolt = band(
        bolt_shear_area_mm2(engaged_mm, P, limits.nut_minor_max_mm, limits.bolt_pitch_min_mm),
        bolt_shear_area_mm2(engaged_mm, P, limits.nut_minor_min_mm, limits.bolt_pitch_max_mm),
    )
    nut = band(
        nut_shear_area_mm2(engaged_mm, P, limits.bolt_major_min_mm, limits.nut_pitch_max_mm),
        nut_shear_area_mm2(engaged_mm, P, limits.bolt_major_max_mm, limits.nut_pitch_min_mm),
    )
    return bolt, nut


def strength_reduction(bolt_area_strength_n: float, nut_area_strength_n: float) -> tuple[float, float]:
    """Factors by which threads that bend under load strip earlier: C2 (bolt thread), C3 (nut thread).

    Equation:
        R_s = (Rm,nut AS_n)/(Rm,bolt AS_s); C2 = 5.594 - 13.682 R_s + 14.107 R_s^2 - 6.057 R_s^3 + 0.9353 R_s^4 for
        1 < R_s < 2.2, 0.897 below, 1.187 above; C3 = 0.728 + 1.769 R_s - 2.896 R_s^2 + 1.296 R_s^3 for 0.4 < R_s < 1,
        0.897 above; below 0.4, where the source ends, C3 = 1 (its curve gives 1.06 there: safe side).

    Source:
        Alexander, SAE 770420, as used in VDI 2230 Part 1 (coefficients from memory).
    """
    strengths = {"bolt_area_strength_n": bolt_area_strength_n, "nut_area_strength_n": nut_area_strength_n}
    require_positive("thread bending", ALEXANDER, **strengths)
    R_s = nut_area_strength_n / bolt_area_strength_n
    C2 = 0.897
    if R_s > 1:
        x = min(R_s, 2.2)
        C2 = 5.594 - 13.682 * x + 14.107 * x**2 - 6.057 * x**3 + 0.9353 * x**4
    C3 = 0.897
    if R_s < 1:
        C3 = 0.728 + 1.769 * R_s - 2.896 * R_s**2 + 1.296 * R_s**3 if R_s > 0.4 else 1.0
    return C2, C3


def strip_strength(
    limits: ThreadLimits,
    *,
    engaged_mm: float,
    stress_area_mm2: float,
    bolt_strength_mpa: float,
    nut_strength_mpa: float,
    bolt_shear_ratio: float,
    nut_shear_ratio: float,
) -> StripStrength:
    """What gives way first: bolt thread, nut or hub thread, or the bolt itself.

    Equation:
        F_s = AS_s tau_s C2, F_n = AS_n tau_n C3, tau = (tau_B/Rm) Rm; F_break = As Rm.

    Source:
        FED-STD-H28/2B (areas), Alexander SAE 770420 and VDI 2230 Part 1 (strengths; no nut dilation: C1 = 1, a hub
        flange is solid).

    Args:
        limits: Limits of size.
        engaged_mm: Full thread in engagement.
        stress_area_mm2: As.
        bolt_strength_mpa: Tensile strength of the bolt.
        nut_strength_mpa: Tensile strength of nut or hub.
        bolt_shear_ratio: tau_B/Rm of the bolt, about 0.62 for class 10.9 (from memory).
        nut_shear_ratio: tau_B/Rm of the hub, about 0.6 steel, 0.7 wrought aluminium, 0.9 grey iron (from memory).
    """
    require_positive("thread stripping", H28, engaged_mm=engaged_mm, stress_area_mm2=stress_area_mm2)
    bolt_area, nut_area = shear_area_bands_mm2(limits, engaged_mm)

    def forces(bolt_mm2: float, nut_mm2: float) -> tuple[float, float]:
        C2, C3 = strength_reduction(bolt_strength_mpa * bolt_mm2, nut_strength_mpa * nut_mm2)
        bolt_n = bolt_mm2 * bolt_shear_ratio * bolt_strength_mpa * C2
        return bolt_n, nut_mm2 * nut_shear_ratio * nut_strength_mpa * C3

    return StripStrength(
        bolt_thread_n=corners(lambda b, n: forces(b, n)[0], bolt_area, nut_area),
        nut_thread_n=corners(lambda b, n: forces(b, n)[1], bolt_area, nut_area),
        bolt_break_n=stress_area_mm2 * bolt_strength_mpa,
    )
