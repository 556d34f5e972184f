"""A job file to fill in."""

from __future__ import annotations

import json
from datetime import date
from importlib.resources import files

BOLTS = """\
# [rear.fastener]
# kind = "bolt"
# thread = "M14x1.5"
# seat = "cone"                # cone, ball (with seat_radius_mm) or flat
# length_mm = 27               # cone and ball: end of the seat to the tip; flat: under the flange to the tip
# engagement_turns = 9         # counted with the brake disc fitted; or engagement_mm
"""
STUDS = """\
# [rear.fastener]
# kind = "nut"
# thread = "M12x1.5"
# seat = "cone"
# closed_depth_mm = 24         # or open_end = true where the stud may come out
"""
BOLT_HUB = """\
# flange_thickness_mm = 15     # thread length in the hub flange
# free_behind_mm = 4           # air behind it, wheel turned once round; or blind_depth_mm for a blind hole
"""
STUD_HUB = """\
# hat_thickness_mm = 6.5       # brake disc hat; 0 without one
# stud_length_mm = 38          # from the bare hub flange to the tip
# stud_lead_mm = 1.5           # tip without full thread
"""


def new_job(title: str, *, studs: bool, day: date | None = None) -> str:
    """The text of a new job file: sound as it is, every reading still missing and explained.

    Args:
        title: What the job is called.
        studs: Studs and nuts instead of bolts.
        day: Day of the visit; today when missing.
    """
    text = files("hubwright.jobs").joinpath("template.toml").read_text(encoding="utf-8")
    for mark, value in (
        ("@TITLE@", json.dumps(title, ensure_ascii=False)),
        ("@DATE@", (day or date.today()).isoformat()),
        ("@HUB@\n", STUD_HUB if studs else BOLT_HUB),
        ("@FASTENER@\n", STUDS if studs else BOLTS),
    ):
        text = text.replace(mark, value)
    return text
