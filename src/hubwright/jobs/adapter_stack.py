"""What a bolted adapter stacks on one stud: counterbore, inner nut, what stands proud, and the wheel's pocket."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks.adapter import proud_mm
from hubwright.checks.house import House
from hubwright.engineering.joint.adapter import inner_joint
from hubwright.errors import HubwrightError
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.shop import StockDisc
from hubwright.parts.wheel import WheelSet
from hubwright.tables.threads import thread


@dataclass(frozen=True)
class AdapterStack:
    """Figures along one original stud, mm from the seating face of the hub; None where not read.

    Attributes:
        thickness_mm: Of the adapter.
        d_mm: Of the stud.
        proud_mm: Stud beyond the seating face.
        counterbore_mm, inner_height_mm: Of the adapter: depth from its outer face, and height of the inner nuts.
        web_mm: Left under the nuts; ``least_web_mm`` is wanted.
        beyond_mm: Stud beyond the adapter's outer face; negative where it ends inside.
        pocket_depth_mm, pocket_width_mm: Of the wheel's back; depth 0 = flat.
    """

    thickness_mm: float
    d_mm: float | None
    proud_mm: float | None
    counterbore_mm: float | None
    inner_height_mm: float | None
    web_mm: float | None
    least_web_mm: float
    beyond_mm: float | None
    pocket_depth_mm: float | None
    pocket_width_mm: float | None


def adapter_stack(
    hub: Hub, wheel_set: WheelSet, fastener: Fastener | None, house: House, disc: StockDisc
) -> AdapterStack:
    """The stack of one wheel set on a bolted adapter."""
    proud, wheel, web = proud_mm(hub), wheel_set.wheel, None
    if disc.counterbore_mm is not None and disc.inner_height_mm is not None:
        web = inner_joint(disc.thickness_mm, disc.counterbore_mm, disc.inner_height_mm).web_mm
    return AdapterStack(
        disc.thickness_mm, _diameter(fastener), proud, disc.counterbore_mm, disc.inner_height_mm, web,
        house.policy.least_web_mm, None if proud is None else proud - disc.thickness_mm,
        None if wheel.relief_depth_mm is None else wheel.relief_depth_mm.value,
        None if wheel.relief_width_mm is None else wheel.relief_width_mm.value,
    )  # fmt: skip


def _diameter(fastener: Fastener | None) -> float | None:
    try:
        return None if fastener is None or fastener.thread is None else thread(fastener.thread).d_mm
    except HubwrightError:
        return None
