"""Clamp force at assembly: at a share of yield, and the range that a recorded torque may have left behind.

The way back, from a wanted clamp force to a torque, does not exist here on purpose: a torque is a record.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from hubwright.engineering.joint.seat import Seat, friction_arm_mm
from hubwright.engineering.validity import require_not_negative, require_positive, require_within
from hubwright.tables.threads import Thread
from hubwright.uncertainty.band import Band, about, corners, envelope

VDI = "VDI 2230 Part 1"


@dataclass(frozen=True)
class TorqueRecord:
    """What the vehicle's record says about one fastener, and how well its friction is known.

    Attributes:
        torque_nm: Torque from the record.
        tool_tolerance: How far the wrench may be off, as a fraction (0.04 for 4 %).
        thread_friction: Coefficient of friction in the thread for the recorded state of lubrication.
        seat_friction: The same under head, nut or cone.
        scatter_factor: Tightening factor alpha_A of the method, greatest over least clamp force (VDI 2230).
        prevailing_torque_nm: Torque that a locking thread eats before any clamp arises.
    """

    torque_nm: float
    tool_tolerance: float
    thread_friction: Band
    seat_friction: Band
    scatter_factor: float
    prevailing_torque_nm: float = 0.0


@dataclass(frozen=True)
class PreloadRange:
    """Clamp force per fastener right after tightening.

    Attributes:
        from_friction_n: Ends of the friction bands and of the tool, every fastener alike.
        from_scatter_n: The tightening factor about the nominal clamp force.
        envelope_n: Both together. The two are not multiplied: the factor already holds the friction of one state.
    """

    from_friction_n: Band
    from_scatter_n: Band
    envelope_n: Band


def yield_preload_n(thread: Thread, yield_mpa: float, thread_friction: float, utilisation: float = 0.9) -> float:
    """Clamp force at which the bolt, pulled and twisted by tightening, reaches a share of its yield strength.

    Equation:
        FM = As nu Rp0,2 / sqrt(1 + 3 [3/2 (d2/d0) (P/(pi d2) + 1.155 mu_G)]^2), nu = 0.9.

    Source:
        VDI 2230 Part 1 (permitted assembly preload FMzul; its preload tables are made with it).

    Args:
        thread: Thread of the bolt, whose stress area is its weakest section (no waisted shank).
        yield_mpa: 0.2 % proof strength Rp0,2, MPa.
        thread_friction: mu_G.
        utilisation: nu, share of yield, 0 to 1.

    Returns:
        Clamp force, N.

    Raises:
        OutsideValidity: for strengths not positive, friction outside 0 to 1, shares outside 0 to 1.
    """
    require_positive("the preload at yield", VDI, yield_mpa=yield_mpa, utilisation=utilisation)
    require_within("the preload at yield", VDI, 0, 1, thread_friction=thread_friction, utilisation=utilisation)
    return thread.stress_area_mm2 * utilisation * yield_mpa / _twist_factor(thread, thread_friction)


def yield_share(thread: Thread, yield_mpa: float, thread_friction: float, preload_n: float) -> float:
    """Combined stress while tightening over yield strength, for a given clamp force.

    Equation:
        sigma_red / Rp0,2 = FM / (As Rp0,2) sqrt(1 + 3 [3/2 (d2/d0) (P/(pi d2) + 1.155 mu_G)]^2).

    Source:
        VDI 2230 Part 1 (as `yield_preload_n`, solved for nu). Above 1 the bolt yields; the figure then only says so.
    """
    require_positive("the share of yield", VDI, yield_mpa=yield_mpa)
    require_not_negative("the share of yield", VDI, preload_n=preload_n)
    return preload_n * _twist_factor(thread, thread_friction) / (thread.stress_area_mm2 * yield_mpa)


def _twist_factor(thread: Thread, thread_friction: float) -> float:
    d2, d0 = thread.d2_mm, math.sqrt(4 * thread.stress_area_mm2 / math.pi)
    twist = 1.5 * (d2 / d0) * (thread.pitch_mm / (math.pi * d2) + 1.155 * thread_friction)
    return math.sqrt(1 + 3 * twist**2)


def torque_arm_mm(thread: Thread, thread_friction: float, seat_arm_mm: float, seat_friction: float) -> float:
    """Tightening torque per clamp force.

    Equation:
        MA / FM = 0.16 P + 0.58 d2 mu_G + (DKm/2) mu_K.

    Source:
        VDI 2230 Part 1 (tightening torque); 0.16 = 1/(2 pi), 0.58 = 1/(2 cos 30), kept unrounded here. For a seat
        that is not flat, DKm/2 is the arm of `friction_arm_mm`.
    """
    require_positive("the torque equation", VDI, seat_arm_mm=seat_arm_mm)
    require_within("the torque equation", VDI, 0, 1, thread_friction=thread_friction, seat_friction=seat_friction)
    lead = thread.pitch_mm / (2 * math.pi)
    flank = thread.d2_mm * thread_friction / (2 * math.cos(math.pi / 6))
    return lead + flank + seat_arm_mm * seat_friction


def preload_n(
    torque_nm: float, thread: Thread, thread_friction: float, seat_arm_mm: float, seat_friction: float
) -> float:
    """Clamp force that a torque leaves at given friction.

    Equation:
        FM = MA / (0.16 P + 0.58 d2 mu_G + (DKm/2) mu_K).

    Source:
        VDI 2230 Part 1 (tightening torque, read from right to left; arm as `torque_arm_mm`).

    Returns:
        Clamp force, N, for ``torque_nm`` in N*m.
    """
    require_not_negative("the torque equation", VDI, torque_nm=torque_nm)
    return torque_nm * 1000 / torque_arm_mm(thread, thread_friction, seat_arm_mm, seat_friction)


def scatter_band_n(mean_n: float, scatter_factor: float) -> Band:
    """Least and greatest clamp force of a tightening method about its mean.

    Equation:
        alpha_A = FM,max / FM,min with (FM,max + FM,min)/2 = FM,m: FM,min = 2 FM,m/(1 + alpha_A).

    Source:
        VDI 2230 Part 1 (definition of the tightening factor; scatter = (alpha_A - 1)/(alpha_A + 1)).
    """
    require_within("the tightening factor", VDI, 1, 5, scatter_factor=scatter_factor)
    least = 2 * mean_n / (1 + scatter_factor)
    return Band(least, mean_n, max(mean_n, least * scatter_factor))


def preload_range(record: TorqueRecord, thread: Thread, seat: Seat) -> PreloadRange:
    """Range of clamp force per fastener that a recorded torque may have left.

    Equation:
        FM = (MA (1 +- tool) - M_prevailing) / (0.16 P + 0.58 d2 mu_G + arm mu_K) at every end of the friction bands;
        beside it FM,m 2/(1 + alpha_A) .. FM,m 2 alpha_A/(1 + alpha_A).

    Source:
        VDI 2230 Part 1 (tightening torque, tightening factor); the corner search is exact because the clamp force falls
        throughout with either friction and rises with torque.

    Raises:
        OutsideValidity: when the prevailing torque is not below the recorded one, or friction is outside 0 to 1.
    """
    arm_mm = friction_arm_mm(seat)
    turning = record.torque_nm * (1 - record.tool_tolerance) - record.prevailing_torque_nm
    require_positive("the torque equation", VDI, torque_left_for_clamping_nm=turning)

    def clamp_n(torque_nm: float, thread_friction: float, seat_friction: float) -> float:
        left_nm = torque_nm - record.prevailing_torque_nm
        return preload_n(left_nm, thread, thread_friction, arm_mm, seat_friction)

    torque_nm = about(record.torque_nm, record.tool_tolerance)
    by_friction = corners(clamp_n, torque_nm, record.thread_friction, record.seat_friction)
    by_scatter = scatter_band_n(by_friction.nominal, record.scatter_factor)
    return PreloadRange(by_friction, by_scatter, envelope(by_friction, by_scatter))
