"""Which fields of the shop's settings stand on which page."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.language import marked


@dataclass(frozen=True)
class Part:
    """One page of settings.

    Attributes:
        key: In the address.
        title, words: In English, spoken when shown.
        first: Fields always seen; in a list the fields of one item.
        more: Fields behind a fold.
        ticks: Lists of codes to tick.
        lines: Lists of texts, one in each line.
        listed: Whether the page is one item of a list.
        new: How the button to a new item is called.
    """

    key: str
    title: str
    words: str
    first: tuple[str, ...]
    more: tuple[str, ...] = ()
    ticks: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()
    listed: bool = False
    new: str = ""


ABOUT = Part(
    "about", marked("Name, address, usual use"),
    marked("Printed on paper; a new job begins with the use and the countries."),
    ("name", "use"), ticks=("countries", "law_packs"), lines=("address",),
)  # fmt: skip
RULES = Part(
    "rules", marked("House rules"),
    marked("Every one is a default of the program that the shop may replace. An empty box means: as usual."),
    (
        "policy.least_pilot_mm", "policy.least_pilot_steel_mm", "policy.lip_beyond_spigot_mm", "policy.least_lip_wall_mm",
        "policy.engagement_floor_d", "policy.engagement_wanted_steel_d", "policy.engagement_wanted_aluminium_d",
        "policy.tip_clearance_mm", "policy.next_length_within_mm", "policy.largest_bolt_through_mm",
        "policy.margins.body_mm", "policy.margins.carried_mm", "policy.margins.caliper_mm", "policy.margins.hose_mm",
        "policy.circle_conversion", "policy.equal_sides",
    ),
    (
        "policy.doubt_k", "policy.lip_nose_clearance_mm", "policy.least_web_mm", "policy.pocket_spare_mm",
        "policy.least_ligament_mm", "policy.sidewall_curvature_mm", "policy.side_ride_height_mm", "policy.settle_days",
    ),
)  # fmt: skip
ASSUMPTIONS = Part(
    "assumptions", marked("Engineering assumptions"),
    marked("Missing ones come from tables or guesses and are printed as such. One that is stated here no longer counts as a guess."),
    (
        "assumptions.tightened_with", "assumptions.wrench_percent", "assumptions.face_friction",
        "assumptions.roughness_um", "assumptions.grip", "assumptions.kerb_factors", "assumptions.hat_rise_k",
        "assumptions.rest_rise_k", "assumptions.side_g", "assumptions.seat_error_deg",
    ),
    lines=("assumptions.notes",),
)  # fmt: skip
DISC = Part(
    "disc", marked("Discs on the shelf"), marked("Without any the usual series is looked through."),
    ("thickness_mm", "kind", "name", "bolt_circle", "lip_outer_mm", "lip_inner_mm", "lip_length_mm", "material"),
    (
        "bore_mm", "bore_class", "lip_class", "hub_chamfer_mm", "outer_diameter_mm", "concentricity_mm", "screw_pocket_mm",
        "wheel_circle", "counterbore_mm", "inner_height_mm", "inner_hole_mm", "outer_hole_mm", "turned_deg",
    ),
    listed=True, new=marked("Add a disc"),
)  # fmt: skip
FASTENER = Part(
    "fastener", marked("Fasteners on the shelf"), marked("Each sort once, with all the lengths kept."),
    ("kind", "thread", "seat", "seat_radius_mm", "lengths_mm", "closed_depth_mm"),
    listed=True, new=marked("Add a sort of fastener"),
)  # fmt: skip
TOOL = Part(
    "tool", marked("Tools and their doubt"),
    marked("What is measured and tightened with. The doubt is a standard uncertainty: about two readings in three lie within it."),
    ("name", "mark", "u_mm", "u_deg", "off_percent", "checked", "check_by", "note"),
    listed=True, new=marked("Add a tool"),
)  # fmt: skip
PARTS = {part.key: part for part in (ABOUT, RULES, ASSUMPTIONS, DISC, FASTENER, TOOL)}
"""Pages by their key, in the order of the overview."""
