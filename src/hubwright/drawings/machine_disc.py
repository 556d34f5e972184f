"""A disc as a machine shop makes it: every size with where it comes from, and the profile of its section.

Sizes are read on the car, stated for the disc, or proposed. A proposal is a habit of the trade without a source and says
so; an engineer confirms or changes it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from hubwright.drawings.scene import Spot
from hubwright.errors import BadInput, Fault, OutsideValidity
from hubwright.language import say
from hubwright.parts.hole_circle import hole_circle_or_none
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.shop import Policy, StockDisc
from hubwright.parts.wheel import Wheel
from hubwright.quantities.text import pointed
from hubwright.tables.iso286 import size_limits
from hubwright.tables.threads import thread

BORE_CLASS, LIP_CLASS = "H7", "g6"
HOLE_OVER_THREAD_MM = 1.5
"""Clearance hole over the thread: ISO 273, medium, M12 to M14 (13.5 and 15.5 mm; from memory)."""
METAL_AROUND_HOLES_MM, CHAMFER_MM, LIP_CHAMFER_MM, LIP_LENGTH_MM, FILLET_AIR_MM = 8.0, 1.0, 1.0, 8.0, 0.5
SPIGOT_AIR_MM, LEAST_JOIN_MM = 0.3, 0.5
"""Proposals, common practice, no source."""


class Origin(StrEnum):
    """Where a size comes from."""

    READ = "read on the car"
    STATED = "stated for the disc"
    PROPOSED = "proposal, no source"


@dataclass(frozen=True)
class Size:
    """One size in mm with its origin, and its tolerance class where it has one."""

    mm: float
    origin: Origin
    fit: str = ""

    @property
    def limits_mm(self) -> tuple[float, float] | None:
        """Least and greatest size by its class (ISO 286); None without a class or outside the tables."""
        if not self.fit:
            return None
        try:
            found = size_limits(self.fit, self.mm)
        except (OutsideValidity, BadInput):
            return None
        return self.mm + found.lower_um / 1000, self.mm + found.upper_um / 1000


@dataclass(frozen=True)
class MachineDisc:
    """A plain or lipped disc to be made, per side.

    Attributes:
        thickness: Between its faces.
        bore: On the hub's spigot.
        outer: Outside.
        holes: How many.
        circle: Circle through their middles.
        hole: Their diameter.
        chamfer: Of the bore, on the hub's side, at 45 degrees.
        lip_outer, lip_inner, lip_length: Of the lip; None for a plain disc.
        recess: How deep the bore of the spigot reaches from the hub's face; None = all through.
        lip_chamfer: Of the lip's end.
        screw_pocket: Depth of a pocket for the brake disc's retaining screw; None = none needed.
    """

    thickness: Size
    bore: Size
    outer: Size
    holes: int
    circle: Size
    hole: Size
    chamfer: Size
    lip_outer: Size | None = None
    lip_inner: Size | None = None
    lip_length: Size | None = None
    recess: Size | None = None
    lip_chamfer: Size | None = None
    screw_pocket: Size | None = None

    @property
    def join_mm(self) -> float | None:
        """Least metal that joins lip and disc, along the axis or across it; None where no recess thins it."""
        if self.recess is None or self.lip_outer is None:
            return None
        return max(self.thickness.mm - self.recess.mm, (self.lip_outer.mm - self.bore.mm) / 2)

    @property
    def depth_mm(self) -> float:
        """Over all: thickness and lip."""
        return self.thickness.mm + (self.lip_length.mm if self.lip_length is not None else 0.0)


def machine_disc(hub: Hub, wheel: Wheel, fastener: Fastener | None, disc: StockDisc, policy: Policy) -> MachineDisc:
    """The sizes of a plain or lipped disc for one hub and wheel.

    Raises:
        BadInput: for a bolted adapter; with every reading that is missing for the drawing; or where the sizes leave no metal.
    """
    if disc.kind == "bolted":
        wanted = say("a plain or a lipped disc")
        todo = say("An adapter with fasteners of its own is an engineer's design.")
        raise BadInput(say("drawing of a disc"), (Fault("kind", wanted, say("a bolted adapter"), todo),))
    faults: list[Fault] = []
    circle = hole_circle_or_none(hub.bolt_circle)
    if circle is None:
        faults.append(Fault("hub.bolt_circle", say("holes and circle, such as 5x112"), say("nothing")))
    thread_mm = thread(fastener.thread).d_mm if fastener is not None and fastener.thread is not None else None
    if thread_mm is None:
        faults.append(Fault("fastener.thread", say("the thread of the fasteners, such as M14x1.5"), say("nothing")))
    bore = _bore(hub, disc)
    if bore is None:
        faults.append(Fault("hub.spigot_diameter_mm", say("the diameter of the spigot, by calliper"), say("nothing")))
    if faults or circle is None or thread_mm is None or bore is None:
        raise BadInput(say("drawing of a disc"), tuple(faults))
    hole = Size(thread_mm + HOLE_OVER_THREAD_MM, Origin.PROPOSED)
    made = MachineDisc(
        Size(disc.thickness_mm, Origin.STATED),
        bore,
        _outer(hub, wheel, disc, circle.diameter_mm, hole.mm),
        circle.holes,
        Size(circle.diameter_mm, Origin.READ),
        hole,
        _chamfer(hub, disc),
        screw_pocket=_pocket(hub, disc),
    )
    if disc.kind == "lipped":
        made = _with_lip(made, hub, wheel, disc, policy)
    _refuse_thin(made)
    return made


def _bore(hub: Hub, disc: StockDisc) -> Size | None:
    fit = disc.bore_class or BORE_CLASS
    if disc.bore_mm is not None:
        return Size(disc.bore_mm, Origin.STATED, fit)
    return None if hub.spigot_diameter_mm is None else Size(hub.spigot_diameter_mm.value, Origin.READ, fit)


def _outer(hub: Hub, wheel: Wheel, disc: StockDisc, circle_mm: float, hole_mm: float) -> Size:
    """As stated, else as wide as the wheel's pad or the hub's ring, else as much metal as the holes need."""
    if disc.outer_diameter_mm is not None:
        return Size(disc.outer_diameter_mm, Origin.STATED)
    read = [wheel.pad_diameter_mm.value] if wheel.pad_diameter_mm is not None else []
    read += [hub.face_outer_mm] if hub.face_outer_mm is not None else []
    least = circle_mm + hole_mm + 2 * METAL_AROUND_HOLES_MM
    if read and max(read) >= least:
        return Size(max(read), Origin.READ)
    return Size(float(round(least)), Origin.PROPOSED)


def _chamfer(hub: Hub, disc: StockDisc) -> Size:
    if disc.hub_chamfer_mm is not None:
        return Size(disc.hub_chamfer_mm, Origin.STATED)
    if hub.fillet_mm is not None:
        return Size(max(hub.fillet_mm + FILLET_AIR_MM, CHAMFER_MM), Origin.READ)
    return Size(CHAMFER_MM, Origin.PROPOSED)


def _pocket(hub: Hub, disc: StockDisc) -> Size | None:
    if disc.screw_pocket_mm is not None:
        return Size(disc.screw_pocket_mm, Origin.STATED)
    return Size(hub.screw_proud_mm + FILLET_AIR_MM, Origin.READ) if hub.screw_proud_mm else None


def _with_lip(made: MachineDisc, hub: Hub, wheel: Wheel, disc: StockDisc, policy: Policy) -> MachineDisc:
    faults = []
    outer_mm = disc.lip_outer_mm if disc.lip_outer_mm is not None else wheel.bore_mm.value if wheel.bore_mm else None
    if outer_mm is None:
        faults.append(Fault("wheel.bore_mm", say("the bore of the wheel, by calliper"), say("nothing")))
    if hub.spigot_length_mm is None:
        faults.append(Fault("hub.spigot_length_mm", say("the length of the spigot, by depth gauge"), say("nothing")))
    if faults or outer_mm is None or hub.spigot_length_mm is None:
        raise BadInput(say("drawing of a disc"), tuple(faults))
    outer = Size(outer_mm, Origin.READ if disc.lip_outer_mm is None else Origin.STATED, disc.lip_class or LIP_CLASS)
    inner = Size(disc.lip_inner_mm, Origin.STATED) if disc.lip_inner_mm is not None else _inner(made, outer, policy)
    long = (
        Size(LIP_LENGTH_MM, Origin.PROPOSED) if disc.lip_length_mm is None else Size(disc.lip_length_mm, Origin.STATED)
    )
    recess = None
    if inner.mm < made.bore.mm:
        recess = Size(hub.spigot_length_mm.value + SPIGOT_AIR_MM, Origin.READ)
    end = Size(min(LIP_CHAMFER_MM, (outer.mm - inner.mm) / 4), Origin.PROPOSED)
    return replace(made, lip_outer=outer, lip_inner=inner, lip_length=long, recess=recess, lip_chamfer=end)


def _inner(made: MachineDisc, outer: Size, policy: Policy) -> Size:
    """As wide as the spigot where that leaves the least wall, else as wide as the wall allows."""
    widest = outer.mm - 2 * policy.least_lip_wall_mm
    return replace(made.bore, fit="") if made.bore.mm <= widest else Size(widest, Origin.PROPOSED)


def _refuse_thin(made: MachineDisc) -> None:
    """No drawing of a disc that is no solid.

    Raises:
        BadInput: naming every place without metal.
    """
    low, high = made.circle.mm / 2 - made.hole.mm / 2, made.circle.mm / 2 + made.hole.mm / 2
    foot = made.lip_outer.mm / 2 if made.lip_outer is not None else made.bore.mm / 2 + made.chamfer.mm
    none = say("none")
    bad: list[tuple[bool, str, str]] = [
        (made.bore.mm / 2 + made.chamfer.mm >= low or foot > low, say("metal between bore or lip and the holes"), none),
        (high >= made.outer.mm / 2, say("metal outside the holes"), none),
        (made.chamfer.mm >= made.thickness.mm, say("a chamfer smaller than the thickness"), f"{made.chamfer.mm:g} mm"),
    ]
    if made.lip_outer is not None and made.lip_inner is not None:
        bad.append((made.lip_inner.mm >= made.lip_outer.mm, say("a wall of the lip"), none))
    if made.recess is not None and made.join_mm is not None:
        bad.append(
            (
                made.join_mm < LEAST_JOIN_MM,
                say("at least {least} mm to join lip and disc", least=pointed(f"{LEAST_JOIN_MM:g}")),
                f"{made.join_mm:.1f} mm",
            )
        )
        bad.append(
            (made.recess.mm <= made.chamfer.mm, say("a recess deeper than its chamfer"), f"{made.recess.mm:g} mm")
        )
        bad.append((made.recess.mm + CHAMFER_MM > made.depth_mm, say("a floor under the recess"), none))
    faults = tuple(Fault(say("sizes of the disc"), wanted, given) for is_bad, wanted, given in bad if is_bad)
    if faults:
        raise BadInput(say("drawing of a disc"), faults)


def inner_profile(made: MachineDisc) -> tuple[Spot, ...]:
    """The half section from the bore to the holes: along the axis from the hub's face, distance from the axis."""
    t, bore, c, end = made.thickness.mm, made.bore.mm / 2, made.chamfer.mm, made.circle.mm / 2 - made.hole.mm / 2
    return (*_inside(made, t, bore, c), *_lip_back(made, t), (t, end), (0.0, end))


def whole_profile(made: MachineDisc) -> tuple[Spot, ...]:
    """The half section where no hole is cut: from the bore to the outside."""
    t, bore, c, end = made.thickness.mm, made.bore.mm / 2, made.chamfer.mm, made.outer.mm / 2
    return (*_inside(made, t, bore, c), *_lip_back(made, t), (t, end), (0.0, end))


def outer_profile(made: MachineDisc) -> tuple[Spot, ...]:
    """The half section outside the holes."""
    t, low, high = made.thickness.mm, made.circle.mm / 2 + made.hole.mm / 2, made.outer.mm / 2
    return ((0.0, low), (t, low), (t, high), (0.0, high))


def _inside(made: MachineDisc, t: float, bore: float, c: float) -> tuple[Spot, ...]:
    mouth = ((0.0, bore + c), (c, bore))
    if made.lip_inner is None:
        return (*mouth, (t, bore))
    end = made.depth_mm
    if made.recess is None:
        return (*mouth, (end, bore)) if made.lip_inner.mm >= made.bore.mm else (*mouth, (end, made.lip_inner.mm / 2))
    return (*mouth, (made.recess.mm, bore), (made.recess.mm, made.lip_inner.mm / 2), (end, made.lip_inner.mm / 2))


def _lip_back(made: MachineDisc, t: float) -> tuple[Spot, ...]:
    if made.lip_outer is None or made.lip_chamfer is None:
        return ()
    outer, c, end = made.lip_outer.mm / 2, made.lip_chamfer.mm, made.depth_mm
    return ((end, outer - c), (end - c, outer), (t, outer))
