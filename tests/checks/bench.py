"""A street car's house rules and small nouns for the tests of the checks."""

from __future__ import annotations

from typing import Any

from hubwright.checks.house import House
from hubwright.parts.corner import Brake, Corner, Point
from hubwright.parts.hub import Hub
from hubwright.parts.job import Axle
from hubwright.parts.shop import Policy, StockDisc
from hubwright.parts.wheel import Wheel, WheelSet

MARGINS = {"body": 10.0, "carried": 5.0, "hose": 10.0, "caliper": 3.0}


def house(**policy: Any) -> House:
    """Margins of a street car; a doubt counts once unless said otherwise."""
    return House(dict(MARGINS), dict.fromkeys(MARGINS, "test"), Policy(**{"doubt_k": 1.0, **policy}))


def disc(thickness_mm: float, kind: str = "plain", **more: Any) -> StockDisc:
    """A stock disc."""
    return StockDisc(thickness_mm=thickness_mm, kind=kind, **more)


def fitted(**wheel: Any) -> WheelSet:
    """The wheels fitted now."""
    return WheelSet(role="fitted", name="wheels", wheel=Wheel(**wheel))


def hub(**more: Any) -> Hub:
    """A hub."""
    return Hub(**more)


def point(room: str = "outside", *gaps: tuple[Any, ...], **more: Any) -> Point:
    """A point with gaps given as travel, gap and, where it is not straight ahead, steer."""
    keys = ("travel_mm", "gap_mm", "steer_deg")
    readings = [dict(zip(keys, gap, strict=False)) for gap in gaps]
    return Point(**{"name": "lip", "room": room, "u_mm": 0.0, "reading": readings, **more})


def axle(*points: Point, brake: Brake | None = None, **more: Any) -> Axle:
    """An axle whose left corner has these points."""
    camber = more.pop("camber_deg", 0.0)
    corner = Corner(point=points, camber_deg=camber, brake=brake or Brake())
    return Axle(**{"bump_travel_mm": 70, "left": corner, **more})
