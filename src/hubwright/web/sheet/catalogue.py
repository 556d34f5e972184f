"""Which single fields the measuring sheet asks, where each stands, how it is read and which sketch shows it."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.language import marked

STAND = marked("How the car stands")
WHEEL = marked("Wheel and tyre")
HUB = marked("Hub")
STUDS = marked("Studs, where the hub has them")
BOLTS = marked("Bolts or nuts")
BRAKE = marked("Brake")
TRAVEL = marked("Travel and lock")


@dataclass(frozen=True)
class Entry:
    """One field.

    Attributes:
        key: Below the axle, corner or fitted wheel set.
        group: Heading, in English.
        view, what: Of the sketch; what "" = the last word of the key.
        how: Where and how, in English; empty = the field's own description.
        apart: Left and right further apart are questioned.
        steered: Only on an axle that steers.
        first: Read before anything is taken off.
    """

    key: str
    group: str
    view: str
    what: str = ""
    how: str = ""
    apart: float = 0.0
    steered: bool = False
    first: bool = False


OF_CORNER: tuple[Entry, ...] = (
    Entry(
        "ride_height_mm",
        STAND,
        "behind",
        "ride_height",
        marked("Wheel centre to arch edge, straight up, tyres at placard pressure."),
        15.0,
        first=True,
    ),
    Entry(
        "camber_deg",
        STAND,
        "behind",
        "camber",
        marked("Parked, on a level floor. Top inboard is negative."),
        1.0,
        first=True,
    ),
    Entry(
        "toe_deg",
        STAND,
        "above",
        "toe",
        marked("Steering wheel centred, car rolled. Toe-in is positive."),
        0.6,
        True,
        True,
    ),
    Entry(
        "cover_mm",
        STAND,
        "behind",
        "cover",
        marked("Plumb line from the arch edge, level to the tread at the top. Negative where the tread stands out."),
        8.0,
        first=True,
    ),
    Entry(
        "brake.axial_gap_mm",
        BRAKE,
        "brake",
        "",
        marked("Modelling clay or feeler between spokes and caliper, along the axis. Turn the wheel once round."),
        4.0,
    ),
    Entry("brake.radial_gap_mm", BRAKE, "brake", "", marked("Between barrel and caliper, square to the axis."), 4.0),
    Entry(
        "brake.ramp_deg",
        BRAKE,
        "brake",
        "",
        marked("Slope of the barrel over the caliper, towards the wheel's centre; 0 for a straight one."),
    ),
    Entry(
        "brake.ramp_start_mm",
        BRAKE,
        "brake",
        "",
        marked("How far the wheel can move outboard before the slope begins to take room."),
    ),
    Entry("brake.new_lining_mm", BRAKE, "brake", "", marked("How far new linings would bring the caliper outboard.")),
    Entry(
        "brake.weight_height_mm",
        BRAKE,
        "brake",
        "",
        marked("Stick-on weights in the barrel over the caliper; 0 without."),
    ),
)
OF_FITTED: tuple[Entry, ...] = (
    Entry("tyre.designation", WHEEL, "marking", "tyre", marked("Copy it from the sidewall, such as 235/40R18 95W.")),
    Entry("wheel.rim", WHEEL, "marking", "rim", marked("Copy it from the rim, such as 8Jx18.")),
    Entry(
        "wheel.inset_mm",
        WHEEL,
        "tyre",
        "",
        marked("Copy it from the rim; positive when the rim centre lies inboard of the mounting face."),
    ),
    Entry(
        "tyre.section_width_mm",
        WHEEL,
        "tyre",
        "",
        marked("Calliper over the widest part of the tyre, inflated, protector included."),
    ),
    Entry("tyre.free_radius_mm", WHEEL, "tyre", "", marked("Wheel off the ground: spin axis to the tread.")),
    Entry("wheel.bore_mm", WHEEL, "hub", "", marked("Calliper across the centre bore of the wheel.")),
    Entry(
        "wheel.bore_chamfer_mm", WHEEL, "hub", "", marked("Depth of the chamfer at the bore, measured along the axis.")
    ),
    Entry("wheel.bore_depth_mm", WHEEL, "hub", "", marked("Cylindrical part of the bore behind the chamfer.")),
    Entry("wheel.seat", BOLTS, "stud", "length_mm", marked("The seat cut into the wheel.")),
    Entry(
        "wheel.pad_to_thread_mm",
        STUDS,
        "stud",
        "",
        marked("Depth gauge through the wheel's hole with the nut in its seat."),
    ),
)
OF_AXLE: tuple[Entry, ...] = (
    Entry(
        "hub.bolt_circle",
        HUB,
        "face",
        "bolt_circle",
        marked("Count the holes; circle through their centres, such as 5x112."),
    ),
    Entry(
        "hub.chord_mm",
        HUB,
        "face",
        "",
        marked("Over the outer and over the inner edges of two neighbouring holes; the mean of both."),
    ),
    Entry("hub.spigot_diameter_mm", HUB, "hub"),
    Entry(
        "hub.spigot_length_mm",
        HUB,
        "hub",
        "",
        marked("Depth gauge from the seating face, brake disc fitted, to where the chamfer begins."),
    ),
    Entry(
        "hub.nose_length_mm",
        HUB,
        "hub",
        "",
        marked("How far the axle end stands out beyond the spigot; 0 without one."),
    ),
    Entry("hub.nose_diameter_mm", HUB, "hub"),
    Entry(
        "hub.hat_thickness_mm",
        HUB,
        "hub",
        "",
        marked("Calliper at the mounting face of the brake disc; 0 without one."),
    ),
    Entry("hub.flange_thickness_mm", HUB, "hub", "", marked("Length of the thread in the hub flange, brake disc off.")),
    Entry(
        "hub.free_behind_mm",
        HUB,
        "hub",
        "",
        marked("Air behind the flange up to the first part, hub turned once round."),
    ),
    Entry("hub.blind_depth_mm", HUB, "hub", "", marked("Only where the threaded hole has a bottom.")),
    Entry(
        "hub.screw_proud_mm",
        HUB,
        "hub",
        "",
        marked("Head of the brake disc's screw above the seating face; 0 when it is flush."),
    ),
    Entry(
        "hub.face_outer_mm",
        HUB,
        "face",
        "",
        marked("Calliper over the ring the wheel or disc sits on, brake disc fitted."),
    ),
    Entry("hub.face_inner_mm", HUB, "face", "", marked("Inside of that ring; without a step there it is the spigot.")),
    Entry(
        "hub.fillet_mm",
        HUB,
        "hub",
        "",
        marked("Radius gauge into the corner between face and spigot; 0 for a sharp one."),
    ),
    Entry(
        "hub.runout_pilot_mm",
        HUB,
        "hub",
        "",
        marked("Dial gauge on the spigot, hub turned once round: greatest less least reading."),
    ),
    Entry(
        "hub.runout_face_mm",
        HUB,
        "hub",
        "",
        marked("Dial gauge on the face far out, hub turned once round: greatest less least reading."),
    ),
    Entry("hub.stud_length_mm", STUDS, "stud", "", marked("From the bare hub flange, brake disc off, to the tip.")),
    Entry("hub.stud_lead_mm", STUDS, "stud", "", marked("Part of the tip without full thread.")),
    Entry("hub.stud_proud_mm", STUDS, "stud", "", marked("Beyond the seating face, brake disc fitted.")),
    Entry("fastener.kind", BOLTS, "stud", "length_mm"),
    Entry("fastener.thread", BOLTS, "stud", "length_mm", marked("Thread gauge; such as M14x1.5 or 1/2-20.")),
    Entry("fastener.seat", BOLTS, "stud", "length_mm", marked("Shape of the seat under the head or on the nut.")),
    Entry("fastener.seat_radius_mm", BOLTS, "stud", "length_mm", marked("Only for a ball seat.")),
    Entry(
        "fastener.length_mm",
        BOLTS,
        "stud",
        "length_mm",
        marked("From the end of the seat to the tip; a flat seat from under the flange."),
    ),
    Entry(
        "fastener.engagement_mm",
        BOLTS,
        "stud",
        "engagement_mm",
        marked("Bolt length through the wheel that is in the thread now, brake disc fitted."),
    ),
    Entry(
        "fastener.engagement_turns",
        BOLTS,
        "stud",
        "engagement_mm",
        marked("Count the turns from loose until it falls out, brake disc fitted."),
    ),
    Entry("fastener.closed_depth_mm", BOLTS, "stud", "closed_depth_mm", marked("Closed nuts only: inside depth.")),
    Entry(
        "fastener.open_end", BOLTS, "stud", "closed_depth_mm", marked("Nuts only: may the stud come out of its end?")
    ),
    Entry(
        "bump_travel_mm",
        TRAVEL,
        "behind",
        "travel",
        marked("Spring out: raise the wheel from parked height to the stop. Or the free travel of the damper."),
    ),
    Entry(
        "droop_travel_mm",
        TRAVEL,
        "behind",
        "droop",
        marked("Parked height to where the wheel hangs, car lifted on stands."),
    ),
    Entry(
        "steer_max_deg",
        TRAVEL,
        "above",
        "lock",
        marked("Turn plates: the larger angle of both wheels at full lock."),
        steered=True,
    ),
)
OF_HUB: tuple[Entry, ...] = tuple(entry for entry in OF_AXLE if entry.key.startswith("hub."))
"""What the two hubs of an axle may differ in; a side that says nothing has what the axle says."""
HALF_WIDTHS: tuple[tuple[str, str], ...] = (
    ("lip", marked("at the height of the arch lip")),
    ("widest", marked("at the widest place")),
    ("flange", marked("at the rim flange")),
)
"""Radii at which half widths are worth reading."""
