"""What the clamp force loses after the wrench is put away: surfaces that settle, parts that warm unequally."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.engineering.joint.compliance import Layer
from hubwright.engineering.validity import require_not_negative, require_positive
from hubwright.uncertainty.band import Band, corners

VDI = "VDI 2230 Part 1"


@dataclass(frozen=True)
class Settling:
    """How far one joint of each kind settles, micrometres (VDI 2230 table of embedding amounts, by roughness)."""

    threads_um: float
    head_um: float
    interface_um: float


@dataclass(frozen=True)
class ClampBudget:
    """Clamp force per fastener, stage by stage; a loss is positive, a gain by heat negative."""

    preload_n: Band
    embedding_loss_n: Band
    temperature_loss_n: Band
    remaining_n: Band


def inner_interfaces(parts: int) -> int:
    """Touching faces between ``parts`` clamped parts; each disc adds one.

    Equation:
        n = parts - 1.

    Source:
        Counting (derived).
    """
    require_positive("the count of interfaces", "counting", parts=parts)
    return parts - 1


def settling_um(settling: Settling, interfaces: int) -> float:
    """Total settling of one bolted joint.

    Equation:
        f_Z = f_thread + f_head + n f_interface.

    Source:
        VDI 2230 Part 1, table of guide values for embedding (one thread, one head or nut seat, n inner interfaces).

    Returns:
        Micrometres.
    """
    require_not_negative("embedding", VDI, interfaces=interfaces)
    return settling.threads_um + settling.head_um + interfaces * settling.interface_um


def embedding_loss_n(settled_um: float, bolt_mm_per_n: float, clamped_mm_per_n: float) -> float:
    """Clamp force lost by settling. A longer, softer bolt loses less per micrometre.

    Equation:
        F_Z = f_Z / (delta_S + delta_P).

    Source:
        VDI 2230 Part 1 (loss of preload by embedding).

    Returns:
        Newtons, for ``settled_um`` in micrometres and resiliences in mm/N.
    """
    require_not_negative("embedding", VDI, settled_um=settled_um)
    require_positive("embedding", VDI, bolt_mm_per_n=bolt_mm_per_n, clamped_mm_per_n=clamped_mm_per_n)
    return settled_um / 1000 / (bolt_mm_per_n + clamped_mm_per_n)


def temperature_loss_n(
    layers: tuple[Layer, ...],
    layer_rise_k: tuple[float, ...],
    *,
    bolt_expansion_per_k: float,
    bolt_rise_k: float,
    bolt_mm_per_n: float,
    clamped_mm_per_n: float,
) -> float:
    """Clamp force lost by a temperature step; negative where the parts outgrow the bolt and pull it tighter.

    Equation:
        dF_Vth = (alpha_S l_K dT_S - sum alpha_P,i l_i dT_P,i) / (delta_S + delta_P).

    Source:
        VDI 2230 Part 1 (change of preload by temperature, moduli taken as unchanged).

    Args:
        layers: Clamped parts.
        layer_rise_k: Temperature rise of each part since tightening, same order.
        bolt_expansion_per_k: Thermal expansion of the bolt, 1/K.
        bolt_rise_k: Temperature rise of the bolt.
        bolt_mm_per_n: delta_S.
        clamped_mm_per_n: delta_P.

    Returns:
        Newtons.
    """
    require_positive("the temperature step", VDI, bolt_mm_per_n=bolt_mm_per_n, clamped_mm_per_n=clamped_mm_per_n)
    length_mm = sum(layer.thickness_mm for layer in layers)
    growth_mm = sum(
        layer.expansion_per_k * layer.thickness_mm * rise for layer, rise in zip(layers, layer_rise_k, strict=True)
    )
    return (bolt_expansion_per_k * length_mm * bolt_rise_k - growth_mm) / (bolt_mm_per_n + clamped_mm_per_n)


def clamp_budget(preload_n: Band, embedding_loss_n: Band, temperature_loss_n: Band) -> ClampBudget:
    """What is left of the clamp force per fastener.

    Equation:
        F_V = F_M - F_Z - dF_Vth, not below zero.

    Source:
        VDI 2230 Part 1 (calculation steps from assembly preload to minimum clamp load).
    """
    remaining = corners(lambda f, z, th: max(0.0, f - z - th), preload_n, embedding_loss_n, temperature_loss_n)
    return ClampBudget(preload_n, embedding_loss_n, temperature_loss_n, remaining)
