"""The sketch of each reading, drawn from what the job knows; the same sketch is drawn once."""

from __future__ import annotations

from hashlib import sha256

from hubwright.drawings.reading_sketch import SIDED, reading_sketch
from hubwright.errors import BadInput
from hubwright.parts.hole_circle import read_hole_circle
from hubwright.parts.tyre_size import read_tyre_size
from hubwright.quantities.units import MM_PER_INCH
from hubwright.web.drawn import Drawn, drawn
from hubwright.web.sheet.slots import Ask, Slot, fitted_index

HUB = (
    "spigot_diameter_mm", "spigot_length_mm", "nose_length_mm", "nose_diameter_mm", "hat_thickness_mm", "flange_thickness_mm",
    "free_behind_mm", "blind_depth_mm", "screw_proud_mm", "stud_length_mm", "stud_lead_mm", "stud_proud_mm",
    "face_outer_mm", "face_inner_mm", "fillet_mm",
)  # fmt: skip
WHEEL = ("bore_mm", "bore_chamfer_mm", "bore_depth_mm", "pad_to_thread_mm", "inset_mm")
FASTENER = ("length_mm", "engagement_mm", "closed_depth_mm")
BRAKE = ("axial_gap_mm", "radial_gap_mm", "ramp_deg", "ramp_start_mm")


def sketches_of(ask: Ask, slots: tuple[Slot, ...]) -> tuple[dict[str, str], dict[str, Drawn]]:
    """For each reading the key of its sketch, and the sketches by key."""
    known = known_of(ask)
    keys: dict[str, str] = {}
    made: dict[tuple[object, ...], str] = {}
    drawings: dict[str, Drawn] = {}
    for slot in slots:
        figures = {**known, **_of_corner(ask, slot), **dict(slot.figures)}
        side = slot.side if slot.view in SIDED else None
        asked = (slot.view, slot.what, side, tuple(sorted(figures.items())), slot.spec.label)
        if asked not in made:
            svg = reading_sketch(slot.view, slot.what, figures, "?", slot.spec.label, side)
            made[asked] = f"s{sha256(svg.encode()).hexdigest()[:10]}"
            drawings[made[asked]] = drawn(svg)
        keys[slot.id] = made[asked]
    return keys, drawings


def known_of(ask: Ask) -> dict[str, float]:
    """What the job knows of an axle's hub, fasteners, travel, wheel and tyre, for sketches to scale."""
    found: dict[str, float] = {}

    def add(name: str, value: float | None) -> None:
        if value is not None and value >= 0:
            found[name] = value

    for key in HUB:
        add(key, ask.number(f"hub.{key}"))
    for key in FASTENER:
        add(key, ask.number(f"fastener.{key}"))
    for key in ("bump_travel_mm", "droop_travel_mm", "steer_max_deg"):
        add(key, ask.number(key))
    number = fitted_index(ask.tree, ask.axle)
    base = f"wheel_set[{number}]" if number else "wheel_set[+]"
    for key in WHEEL:
        add(key, ask.number(f"{base}.wheel.{key}"))
    found |= _of_tyre(str(ask.tree.at(f"{ask.axle}.{base}.tyre.designation") or ""))
    add("width_mm", ask.number(f"{base}.tyre.section_width_mm"))
    add("radius_mm", ask.number(f"{base}.tyre.free_radius_mm"))
    try:
        circle = read_hole_circle(str(ask.tree.at(f"{ask.axle}.hub.bolt_circle") or ""))
        found |= {"circle_mm": circle.diameter_mm, "holes": float(circle.holes)}
    except BadInput:
        pass  # drawn as usual
    if found.get("radius_mm", 320.0) <= found.get("rim_mm", 229.0) + 20:
        found.pop("radius_mm", None)  # a figure that cannot be: the sketch stays a sketch
    return found


def _of_tyre(designation: str) -> dict[str, float]:
    try:
        size = read_tyre_size(designation)
    except BadInput:
        return {}
    if size.aspect_percent is None:
        return {}
    rim = size.rim_code * MM_PER_INCH / 2
    radius = rim + size.section_width_mm * size.aspect_percent / 100
    return {"width_mm": size.section_width_mm, "radius_mm": radius, "rim_mm": rim, "height_mm": radius - 8}


def _of_corner(ask: Ask, slot: Slot) -> dict[str, float]:
    if slot.side is None:
        return {}
    found: dict[str, float] = {}
    for key in BRAKE:
        value = ask.number(f"{slot.side}.brake.{key}")
        if value is not None and value > 0:
            found[key] = value
    height = ask.number(f"{slot.side}.ride_height_mm")
    if height is not None and slot.what == "ride_height":
        found["ride_height_mm"] = height
    for index, point in enumerate(ask.tree.at(f"{ask.axle}.{slot.side}.point") or (), 1):
        if slot.place is not None and point.get("name") == slot.place.name:
            for key in ("height_mm", "return_mm"):
                value = ask.number(f"{slot.side}.point[{index}].{key}")
                if value:
                    found[key] = value
    return found
