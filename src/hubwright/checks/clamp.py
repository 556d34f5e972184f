"""Clamp force left per fastener by the torque on record: with today's stack and with one more part in it.

It only goes one way: a record in, a range of force out. Nothing here leads from a force back to a torque.
"""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks import assumed
from hubwright.checks.given import Given
from hubwright.engineering.joint.compliance import Bolt, Layer
from hubwright.engineering.joint.loss import (
    ClampBudget,
    Settling,
    clamp_budget,
    embedding_loss_n,
    inner_interfaces,
    settling_um,
    temperature_loss_n,
)
from hubwright.engineering.joint.preload import TorqueRecord as Tightened
from hubwright.engineering.joint.preload import preload_range
from hubwright.engineering.joint.seat import bearing_diameter_mm
from hubwright.engineering.joint.springs import JointSprings, joint_springs
from hubwright.findings import Step
from hubwright.language import marked, say
from hubwright.language.part_words import seen_word
from hubwright.quantities.text import number, plain
from hubwright.tables.embedding import embedding_guide
from hubwright.uncertainty.band import Band, corners, envelope, exactly

MATERIAL = {
    "aluminium": (70_000.0, 23.5e-6),
    "alloy": (70_000.0, 23.5e-6),
    "steel": (205_000.0, 11.5e-6),
    "iron": (110_000.0, 10.5e-6),
}
"""Young's modulus in MPa and expansion in 1/K; handbook figures, from memory."""
VDI = marked("VDI 2230 Part 1")


@dataclass(frozen=True)
class Clamp:
    """Clamp force per fastener in newtons, standard and with disc, its springs and working."""

    standard: ClampBudget
    with_disc: ClampBudget
    preload_n: Band
    springs: JointSprings
    springs_with_disc: JointSprings
    working: tuple[Step, ...]
    guesses: tuple[str, ...]


def clamp_of(found: Given, thickness_mm: float, disc_material: str | None) -> Clamp:
    """Clamp force per fastener today and with a disc of ``thickness_mm``, the torque on record being kept.

    Raises:
        OutsideValidity: where the parts make no joint the sums hold for.
    """
    preload = preload_of(found)
    settle = embedding_guide(assumed.roughness(found.own).band.nominal)
    before, springs, layers = _budget(found, preload, 0.0, disc_material)
    after, with_springs, _ = _budget(found, preload, thickness_mm, disc_material)
    parts = len(layers) + 1
    steps = (
        found.friction.step,
        found.seat.step,
        assumed.wrench(found.own).step,
        Step(
            say(
                "method {method}: factor {factor_low} to {factor_high}",
                method=say(found.method.name),
                factor_low=plain(found.method.factor_low),
                factor_high=plain(found.method.factor_high),
            ),
            found.method.source,
        ),
        Step(
            say("clamp after tightening {preload}, friction and scatter as an envelope", preload=_kn(preload)),
            say("{vdi}, tightening torque and factor", vdi=say(VDI)),
        ),
        Step(
            say(
                "{parts} inner faces today, {parts2} with disc; settling per face {interface} µm, thread {threads}, seat {head}",
                parts=inner_interfaces(parts),
                parts2=inner_interfaces(parts + (thickness_mm > 0)),
                interface=plain(settle.interface_um),
                threads=plain(settle.threads_um),
                head=plain(settle.head_um),
            ),
            f"{settle.source} ({seen_word(settle.how_seen)})",
        ),
        Step(
            say(
                "springs: bolt {bolt_mm_per} µm/kN today, {bolt_mm_per2} with disc; parts {clamped_mm_per} and {clamped_mm_per2}",
                bolt_mm_per=number(springs.bolt_mm_per_n * 1e6, 2),
                bolt_mm_per2=number(with_springs.bolt_mm_per_n * 1e6, 2),
                clamped_mm_per=number(springs.clamped_mm_per_n * 1e6, 2),
                clamped_mm_per2=number(with_springs.clamped_mm_per_n * 1e6, 2),
            ),
            say("{vdi}, resilience of bolt and parts", vdi=say(VDI)),
        ),
        Step(
            say(
                "lost by settling {embedding_loss} today, {embedding_loss2} with disc",
                embedding_loss=_kn(before.embedding_loss_n),
                embedding_loss2=_kn(after.embedding_loss_n),
            ),
            say(VDI),
        ),
        assumed.hat_rise(found.own).step,
        assumed.rest_rise(found.own).step,
        Step(
            say(
                "lost by heat {temperature_loss} today, {temperature_loss2} with disc",
                temperature_loss=_kn(before.temperature_loss_n),
                temperature_loss2=_kn(after.temperature_loss_n),
            ),
            say(VDI),
        ),
        Step(
            say(
                "left per fastener {remaining} today, {remaining2} with disc",
                remaining=_kn(before.remaining_n),
                remaining2=_kn(after.remaining_n),
            ),
            say(VDI),
        ),
    )
    guesses = found.guesses if disc_material else (*found.guesses, say("an aluminium disc"))
    return Clamp(before, after, preload, springs, with_springs, steps, guesses)


def preload_of(found: Given) -> Band:
    """Clamp force right after tightening: over friction, wrench, scatter, seats and every torque on record."""
    wrench = assumed.wrench(found.own).band.nominal / 100
    bands = [
        preload_range(
            Tightened(record.torque_nm, wrench, found.friction.band, found.friction.band, found.method.factor_high),
            found.thread,
            seat,
        ).envelope_n
        for record in found.records
        for seat in (found.seat.seats[len(found.seat.seats) // 2], *found.seat.seats)
    ]
    return envelope(*bands)


def _budget(
    found: Given, preload: Band, thickness_mm: float, disc_material: str | None
) -> tuple[ClampBudget, JointSprings, tuple[Layer, ...]]:
    seat = found.seat.seats[len(found.seat.seats) // 2]
    outer = max(found.room_mm, bearing_diameter_mm(seat) + 4)
    bore = min(found.thread.d_mm + 1, bearing_diameter_mm(seat) - 0.5)

    def layer(thick: float, material: str) -> Layer:
        modulus, expansion = MATERIAL[material]
        return Layer(thick, outer, bore, modulus, expansion)

    parts = [layer(found.clamped_mm - found.hat_mm, found.wheel_set.wheel.material)]
    rises = [False]
    if thickness_mm > 0:
        parts.append(layer(thickness_mm, disc_material or "aluminium"))
        rises.append(False)
    if found.hat_mm > 0:
        parts.append(layer(found.hat_mm, "iron"))
        rises.append(True)
    layers, total = tuple(parts), found.clamped_mm + thickness_mm
    shank = min(found.fastener.shank_length_mm or 0.0, total)
    steel, expansion = MATERIAL["steel"]
    hub_modulus = MATERIAL[found.hub.material or "steel"][0] if found.fastener.kind == "bolt" else steel
    bolt = Bolt(
        found.thread,
        shank,
        found.fastener.shank_diameter_mm or found.thread.d_mm,
        total - shank,
        steel,
        hub_modulus,
        True,
    )
    springs = joint_springs(bolt, layers, seat, None)
    settle = embedding_guide(assumed.roughness(found.own).band.nominal)
    settled = settling_um(
        Settling(settle.threads_um, settle.head_um, settle.interface_um), inner_interfaces(len(layers) + 1)
    )
    embedding = exactly(embedding_loss_n(settled, springs.bolt_mm_per_n, springs.clamped_mm_per_n))

    def heat(hat_k: float, rest_k: float) -> float:
        return temperature_loss_n(
            layers,
            tuple(hat_k if hot else rest_k for hot in rises),
            bolt_expansion_per_k=expansion,
            bolt_rise_k=rest_k,
            bolt_mm_per_n=springs.bolt_mm_per_n,
            clamped_mm_per_n=springs.clamped_mm_per_n,
        )

    loss = corners(heat, assumed.hat_rise(found.own).band, assumed.rest_rise(found.own).band)
    return clamp_budget(preload, embedding, loss), springs, layers


def kilonewtons(band: Band, decimals: int = 0) -> str:
    """Such as ``32 to 64 kN``."""
    low, high = number(band.low / 1000, decimals), number(band.high / 1000, decimals)
    return f"{low} kN" if low == high else say("{low} to {high} kN", low=low, high=high)


def _kn(band: Band) -> str:
    return kilonewtons(band, 1)
