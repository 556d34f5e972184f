"""From the nouns of a job to the shapes of the sums: wheel, tyre and package as far as somebody read or marked them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from hubwright.engineering.tyrewheel.build import build_from
from hubwright.engineering.tyrewheel.dimensions import Habit, worn_diameter_mm
from hubwright.engineering.tyrewheel.from_sizes import Which, design_of, rim_of, tyre_of
from hubwright.engineering.tyrewheel.outline import Outline, Package, outline
from hubwright.engineering.tyrewheel.rim import Rim
from hubwright.engineering.tyrewheel.sidewall import MountedTyre
from hubwright.engineering.tyrewheel.surface import bend_to_readings
from hubwright.engineering.tyrewheel.wheel import Points, Weight, WheelShape, wheel_parts
from hubwright.errors import BadInput, HubwrightError, MissingReading
from hubwright.language import marked, say
from hubwright.parts.hole_circle import hole_circle_or_none
from hubwright.parts.rim_size import RimSize, read_rim_size
from hubwright.parts.tyre_size import TyreSize, read_tyre_size
from hubwright.parts.wheel import Tyre, Wheel
from hubwright.quantities.reading import Reading

HABIT: Habit = "decimal_inch"
"""Unmeasured tyres are drawn up without the standard's rounding: 235/40R18 is 645.2 mm, not 645."""
WHY = marked("to draw up the outline of wheel and tyre")


@dataclass(frozen=True)
class Built:
    """Wheel and tyre of a job, drawn up.

    Attributes:
        package: For the sums, without a disc.
        tyre_size, rim_size: The designations read.
        guessed: Names of what nobody measured and the outline still needs.
    """

    package: Package
    tyre_size: TyreSize
    rim_size: RimSize
    guessed: tuple[str, ...]

    @property
    def tyre(self) -> MountedTyre:
        """The tyre on its rim."""
        assert self.package.tyre is not None  # built with one
        return self.package.tyre

    @property
    def wheel(self) -> WheelShape:
        """The wheel."""
        return self.package.wheel

    def outline(self, thickness_mm: float = 0.0) -> Outline:
        """The outline in the hub frame with a disc."""
        return outline(replace(self.package, thickness_mm=thickness_mm))


@lru_cache(maxsize=256)
def built(wheel: Wheel, tyre: Tyre, which: Which = "design") -> Built:
    """Wheel and tyre drawn up: readings first, then the markings, then named estimates.

    Args:
        wheel: As it meets the hub.
        tyre: As marked and measured.
        which: What an unmeasured tyre is taken for: the design, or the largest or smallest tyre of its size.

    Raises:
        MissingReading: without a designation of tyre or rim, or without an inset.
        BadInput: for a designation that cannot be read.
        OutsideValidity: where the shapes do not go together.
    """
    if tyre.designation is None:
        raise MissingReading(say("the tyre's designation"), say(WHY), say("Copy it from the sidewall."))
    rim_size, size = rim_size_of(wheel), read_tyre_size(tyre.designation)
    shape = wheel_shape(wheel)
    wheel_parts(shape)  # refuses a weight beside the barrel here, where the reason is told
    mounted = _mounted(tyre, size, shape.rim, which)
    widths = () if tyre.section_width_mm is not None or tyre.half_width else ("section_width_mm",)
    return Built(
        Package(mounted, shape), size, rim_size, (*widths, *mounted.carcass.build.estimated, *shape.rim.estimated)
    )


def try_built(wheel: Wheel, tyre: Tyre, which: Which = "design") -> tuple[Built | None, str]:
    """As `built`; where there is no answer, None and why."""
    try:
        return built(wheel, tyre, which), ""
    except HubwrightError as error:
        return None, _plain(error)


def _plain(error: HubwrightError) -> str:
    if isinstance(error, BadInput):
        return "; ".join(str(fault) for fault in error.faults)
    return str(error)


def rim_size_of(wheel: Wheel) -> RimSize:
    """The rim's designation as figures.

    Raises:
        MissingReading: without one.
        BadInput: when it cannot be read.
    """
    if wheel.rim is None:
        raise MissingReading(say("the rim's designation"), say(WHY), say("Copy it from the wheel, such as 8Jx18 ET45."))
    return read_rim_size(wheel.rim)


def inset_of(wheel: Wheel) -> float:
    """The inset: as measured, else as marked with the rim's designation.

    Raises:
        MissingReading: where neither says it.
    """
    marked = rim_size_of(wheel).inset_mm if wheel.rim is not None else None
    if wheel.inset_mm is None and marked is None:
        raise MissingReading(say("the wheel's inset"), say(WHY), say("Read the ET figure, or measure it."))
    return wheel.inset_mm.value if wheel.inset_mm is not None else marked or 0.0


def rim_shape(wheel: Wheel) -> Rim:
    """The rim by its designation, overruled by readings of the flanges."""
    flange, overall = wheel.flange_radius_mm, wheel.overall_width_mm
    return rim_of(
        rim_size_of(wheel),
        flange_radius_read_mm=flange.value if flange else None,
        overall_width_read_mm=overall.value if overall else None,
    )


def wheel_shape(wheel: Wheel) -> WheelShape:
    """The wheel with every line somebody measured; weights count only where the barrel is known.

    Raises:
        MissingReading: see `inset_of`, `rim_size_of`.
        BadInput: for a designation that cannot be read.
        OutsideValidity: for a rim the tables do not have.
    """
    lines: dict[str, Points] = {}
    more: list[tuple[str, Points]] = []
    for line in wheel.profile:
        points = line.points_mm
        if points is None:
            continue
        if line.part in lines or line.part in ("brake side", "other"):
            more.append((line.part, points))
        else:
            lines[line.part] = points
    barrel = lines.get("barrel")
    weights = tuple(Weight(w.position_mm, w.width_mm, w.thickness_mm) for w in wheel.weight)
    return WheelShape(
        rim_shape(wheel),
        inset_of(wheel),
        pad_diameter_mm=_value(wheel.pad_diameter_mm),
        bore_diameter_mm=_value(wheel.bore_mm),
        bore_chamfer_mm=_value(wheel.bore_chamfer_mm),
        bore_depth_mm=_value(wheel.bore_depth_mm),
        holes=hole_circle_or_none(wheel.bolt_circle),
        spoke_face=lines.get("spoke face"),
        spoke_back=lines.get("spoke back"),
        cap=lines.get("cap"),
        valve=lines.get("valve"),
        barrel=barrel,
        weights=weights if barrel else (),
        measured=tuple(more),
    )


def _mounted(tyre: Tyre, size: TyreSize, rim: Rim, which: Which) -> MountedTyre:
    design = design_of(size, None, HABIT)
    mounted = tyre_of(
        size,
        rim,
        which,
        section_width_read_mm=_value(tyre.section_width_mm),
        overall_diameter_read_mm=_diameter(tyre, design.overall_diameter_mm, which),
        build=build_from(
            design.nominal_width_mm,
            design.aspect_percent,
            tread_width_mm=_value(tyre.tread_width_mm),
            shoulder_drop_mm=_value(tyre.shoulder_drop_mm),
        ),
        habit=HABIT,
    )
    points = [(item.radius_mm, item.half_width_mm) for item in tyre.half_width]
    return bend_to_readings(mounted, points) if points else mounted


def _diameter(tyre: Tyre, design_mm: float, which: Which) -> float | None:
    """Twice the free radius read; else the design less the wear stated; else left to the envelope."""
    if tyre.free_radius_mm is not None:
        return 2.0 * tyre.free_radius_mm.value
    now, new = tyre.tread_depth_mm, tyre.new_tread_depth_mm
    if which == "design" and now is not None and new is not None and now.value <= new.value:
        return worn_diameter_mm(design_mm, new.value, now.value)
    return None


def _value(reading: Reading | None) -> float | None:
    return None if reading is None else reading.value
