"""What a rule may ask for: a fixed list, so that a rule file cannot ask for something nobody works out."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Quantity:
    """One thing a rule may limit.

    Attributes:
        name: As written in the rule files; unit last.
        unit: Unit of value and limit.
        per: Whether there is one figure per ``axle``, per ``side`` of an axle or per ``vehicle``.
        meaning: What exactly is compared, with its sign.
        base: What share-type limits are taken of; empty where no such limit exists.
    """

    name: str
    unit: str
    per: str
    meaning: str
    base: str = ""


_ALL = (
    Quantity("track_increase_ratio", "ratio", "axle", "new track over the reference track named by the rule, minus 1"),
    Quantity("track_increase_mm", "mm", "axle", "new track minus the reference track named by the rule"),
    Quantity("track_increase_side_mm", "mm", "side", "how far the wheel centre plane moved outboard on this side"),
    Quantity("disc_thickness_mm", "mm", "side", "thickness of the disc"),
    Quantity("disc_not_original_mm", "mm", "side", "thickness of a disc the vehicle maker did not fit; 0 without one"),
    Quantity("gap_body_mm", "mm", "side", "smallest gap of tyre to body over all states"),
    Quantity("gap_chassis_mm", "mm", "side", "smallest gap of tyre to chassis parts over all states"),
    Quantity("gap_steered_any_mm", "mm", "side", "smallest gap of the tyre to any part over all states of lock"),
    Quantity("gap_lock_bump_mm", "mm", "side", "smallest gap of wheel and tyre to any part at full lock and full bump"),
    Quantity("gap_largest_tyre_mm", "mm", "side", "smallest gap over all states with the largest tyre of the size"),
    Quantity(
        "cover_upper_half_mm",
        "mm",
        "side",
        "cover beyond the tread, least value over the upper half of the wheel; negative: tread bare",
    ),
    Quantity(
        "poke_30_50_tyre_mm",
        "mm",
        "side",
        "tyre beyond the cover, greatest value between the planes 30 deg ahead of and 50 deg behind the axle",
    ),
    Quantity("poke_30_50_wheel_mm", "mm", "side", "the same for wheel, cap and fasteners"),
    Quantity("poke_bodywork_mm", "mm", "side", "outermost part of wheel and tyre beyond bodywork and flares, ahead"),
    Quantity("poke_bodywork_tread_mm", "mm", "side", "tread beyond bodywork and flares, wheels straight ahead"),
    Quantity("flare_width_mm", "mm", "side", "how far an added flare widens the body"),
    Quantity("guard_width_over_tyre_mm", "mm", "side", "width of the wheel guard minus width of the tyre"),
    Quantity("guard_rear_edge_height_mm", "mm", "side", "rear edge of the guard above the wheel axis; negative: below"),
    Quantity("guard_lip_depth_mm", "mm", "side", "depth of the guard's outer edge, within the covered sector"),
    Quantity("guard_edge_radius_ratio", "ratio", "side", "guard's lower edge to wheel axis over static tyre radius"),
    Quantity("tyre_diameter_change_mm", "mm", "axle", "overall tyre diameter minus the standard one"),
    Quantity("wheel_width_increase_mm", "mm", "axle", "rim width minus the standard one"),
    Quantity("speedometer_over_kmh", "km/h", "vehicle", "indicated minus true speed", base="true speed in km/h"),
    Quantity("odometer_error_ratio", "ratio", "vehicle", "indicated over true distance, minus 1"),
    Quantity("lock_difference_turns", "turns", "vehicle", "turns of the steering wheel to the left minus to the right"),
    Quantity("bolt_circle_change_mm", "mm", "axle", "bolt circle of the wheel against the one tested, without sign"),
    Quantity("fixing_count", "count", "side", "bolts or nuts that hold the wheel"),
    Quantity("speed_symbol_spare_kmh", "km/h", "axle", "speed of the tyre's symbol minus the car's greatest speed"),
    Quantity("tyre_symbol_speed_kmh", "km/h", "axle", "speed of the tyre's symbol"),
    Quantity("suspension_travel_reduction_ratio", "ratio", "axle", "travel lost over standard travel"),
)

QUANTITIES: dict[str, Quantity] = {each.name: each for each in _ALL}
