"""What every drawing of one corner asks first: the axle, a sane thickness, the disc, and a picture when there is none."""

from __future__ import annotations

import math

from hubwright.drawings.marks import paragraph, shortened, wrapped
from hubwright.drawings.scene import Label, Scene
from hubwright.errors import OutsideValidity
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import StockDisc
from hubwright.selection.plans import shelf

MOST_THICKNESS_MM = 150.0


def axle_of(job: Job, axle_name: AxleName) -> Axle | None:
    """The axle, or None where the job says nothing about it."""
    return job.front if axle_name == "front" else job.rear


def checked_thickness(thickness_mm: float) -> None:
    """Refuse what no disc can be.

    Raises:
        OutsideValidity: outside 0 to 150 mm.
    """
    if not (math.isfinite(thickness_mm) and 0.0 <= thickness_mm <= MOST_THICKNESS_MM):
        raise OutsideValidity("A drawing", "disc thickness", thickness_mm, "0 to 150 mm", "limit of the job file")


def disc_of(job: Job, thickness_mm: float, kind: str | None) -> StockDisc | None:
    """The disc of the shelf with this thickness (and kind); None where the shelf has none."""
    found = [disc for disc in shelf(job) if disc.thickness_mm == thickness_mm and kind in (None, disc.kind)]
    return found[0] if found else None


def empty_scene(kind: str, title: str, why: str) -> Scene:
    """A drawing that says why there is nothing to draw."""
    lines = wrapped(why, 380.0, 12.0)
    items = (Label((14.0, -22.0), shortened(title, 46), 14.0, bold=True), *paragraph((14.0, -44.0), lines, 1.0, 12.0))
    return Scene(kind, title, why, items, 0.0, -60.0 - 16.0 * len(lines), 410.0, 0.0)
