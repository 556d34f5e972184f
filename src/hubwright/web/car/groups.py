"""Which fields stand together on the page of car and request, those that matter first before all others."""

from __future__ import annotations

FIRST = ("car.plate", "car.description", "request.reason", "request.use")
STANDING = ("car.level_floor", "car.springs_age_days", "car.suspension", "car.suspension_mode")
CAR = (
    "title", "date", "car.frame", "car.category", "car.seats", "car.wheelbase_mm", "car.mass_kg", "car.cg_height_mm",
    "car.top_speed_kmh", "car.speedometer_lead_percent", "car.tow.nose_weight_kg", "car.tow.behind_axle_mm",
)  # fmt: skip
WISH = ("wish.aim", "wish.thickness_mm", "wish.discs")
AXLE = (
    "bump_travel_mm", "droop_travel_mm", "track_mm", "largest_series_track_mm", "series_tyre", "series_rim",
    "axle_load_kg", "parked_load_kg", "plate_load_kg", "steered", "steer_max_deg", "driven", "original",
)  # fmt: skip
HUB = ("hub.bolt_circle", "hub.material", "hub.thread_strength_mpa", "hub.spigot_class")
OWN_HUB = ("hub.material", "hub.thread_strength_mpa", "hub.spigot_class")
FASTENER = ("kind", "thread", "seat", "seat_radius_mm", "property_class", "lubrication")
FASTENER_MORE = (
    "length_mm", "engagement_mm", "engagement_turns", "closed_depth_mm", "open_end", "seat_contact_diameter_mm",
    "seat_angle_deg", "seat_outer_mm", "seat_inner_mm", "washer_outer_mm", "shank_length_mm", "shank_diameter_mm",
    "friction",
)  # fmt: skip
SET_HEAD = ("role", "name", "discs")
PACKAGE_HEAD = ("name",)
WHEEL_FIRST = (
    "tyre.designation", "wheel.rim", "wheel.inset_mm", "wheel.material", "wheel.seat", "wheel.bore_mm", "wheel.bore_chamfer_mm",
)  # fmt: skip
WHEEL_MORE = (
    "wheel.bolt_circle", "wheel.bore_depth_mm", "wheel.bore_class", "wheel.cap_room_mm", "wheel.seat_radius_mm",
    "wheel.pad_to_thread_mm", "wheel.pad_diameter_mm", "wheel.relief_depth_mm", "wheel.relief_width_mm",
    "wheel.relief_angle_deg", "wheel.relief_circle_mm", "wheel.overall_width_mm", "wheel.flange_radius_mm",
    "wheel.load_rating_kg", "wheel.rating_circumference_mm",
    "wheel.rating_kg", "wheel.rated_circumference_mm", "wheel.mass_kg", "tyre.section_width_mm",
    "tyre.free_radius_mm", "tyre.tread_width_mm", "tyre.shoulder_drop_mm", "tyre.tread_depth_mm",
    "tyre.new_tread_depth_mm", "tyre.pressure_kpa", "tyre.vertical_stiffness_n_mm", "tyre.approved_rim_widths_mm",
)  # fmt: skip
SET_FASTENER = tuple(f"fastener.{key}" for key in (*FASTENER, *FASTENER_MORE))
TORQUE = (
    "torque_nm", "source", "lubrication", "stages", "order", "recheck", "vehicle", "wheel", "fastener", "date",
)  # fmt: skip
EFFECTS = (
    "suspension.kind", "suspension.wheel_rate_n_per_mm", "suspension.spring_rate_n_per_mm", "suspension.motion_ratio",
    "suspension.roll_stiffness_nm_per_deg", "suspension.arm_mm", "suspension.roll_centre_height_mm",
    "suspension.unsprung_mass_kg", "scrub_radius_mm", "steering.kingpin_inclination_deg", "steering.caster_deg",
    "steering.steering_arm_mm", "steering.drive_offset_mm", "steering.outer_lock_deg", "wheel_drive_nm",
    "bearing.spread_mm", "bearing.spread_doubt_mm", "bearing.load_line_mm", "bearing.load_line_doubt_mm",
    "compliance.side_force_kn", "compliance.camber_deg_per_kn", "compliance.lateral_mm_per_kn",
)  # fmt: skip
WORK = ("name", "gain_mm")
PLACE = ("name", "room", "kind", "toward", "method", "u_mm", "by")
PLACE_MORE = ("height_mm", "return_mm", "drop_mm")
SCAN = ("name", "file", "unit", "kind", "region", "u_mm")
SCAN_PICKS = ("hub_centre", "normal", "forward")
HOLLOW = ("wish", "fastener", "compliance")
"""Tables of an axle that go out whole once every field of theirs is emptied, since an empty one would be a fault."""
MESHES = (".ply", ".obj", ".stl", ".gltf", ".glb", ".csv")
"""Ends of names of attached files that can be a scan."""
