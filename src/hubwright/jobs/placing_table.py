"""How every scan of a job lies, as plain figures and words: for the command line and for other programs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from hubwright.jobs.placing import Placing, placing_of, scan_turn
from hubwright.jobs.placing_words import facts_of, questions_of
from hubwright.parts.job import AxleName, Job
from hubwright.parts.scan import Scan
from hubwright.quantities.axes import Side


@dataclass(frozen=True, eq=False)
class PlacedScan:
    """One scan of a job, placed; `number` counts from 1 as in the job file."""

    axle: AxleName
    side: Side
    number: int
    scan: Scan
    placing: Placing

    @property
    def field(self) -> str:
        """Its place in the job file."""
        return f"{self.axle}.{self.side}.scan[{self.number}]"


def placed_scans(job: Job, corners: list[tuple[AxleName, Side]]) -> Iterator[PlacedScan]:
    """Every scan of these corners, laid on the car.

    Raises:
        BadInput: a file that cannot be used, picks that make no alignment.
    """
    axles = dict(job.axles)
    for name, side in corners:
        for number, scan in enumerate(axles[name].corner(side).scan if name in axles else (), 1):
            yield PlacedScan(name, side, number, scan, placing_of(job, name, side, scan, Path(scan.file)))


def plain_placing(placing: Placing) -> dict[str, Any]:
    """Residuals, what was taken out, where it lies and what is asked, as JSON takes it."""
    picks, placed = placing.picks, placing.placed
    turn, shift = scan_turn(placing)
    low, high = (np.percentile(placing.on_hub_mm.reshape(-1, 3), share, axis=0) for share in (0.0, 100.0))
    return {
        "triangles_or_points": len(placing.shape.triangles_mm), "is_points": placing.shape.is_points,
        "length_in_own_unit": placing.size.length, "length_mm": placing.size.mm(placing.scan.unit),
        "unit_guessed": placing.size.guess,
        "hub_plane_off_mm": [] if picks is None else _rounded(picks.plane_off_mm),
        "hub_circle_off_mm": [] if picks is None else _rounded(picks.circle_off_mm),
        "hub_circle_radius_mm": None if picks is None or not len(picks.circle_mm) else round(picks.circle_radius_mm, 3),
        "picks_doubt_mm": placed.picks_mm, "noise_mm": placed.noise_mm, "spacing_mm": placed.spacing_mm,
        "outliers_removed": placed.removed, "outlier_rule": placed.rule, "left_out": placed.left_out,
        "forward_outboard_up_of_hub_mm": [_rounded(low), _rounded(high)],
        "turn_to_vehicle": [_rounded(row, 9) for row in turn], "shift_to_vehicle_mm": _rounded(shift),
        "wheel_stands_by_the_job": placing.stands_on_motion,
        "facts": list(facts_of(placing)),
        "questions": [{"code": q.code, "text": q.text, "what_to_do": q.todo, "grave": q.grave} for q in questions_of(placing)],
    }  # fmt: skip


def _rounded(values: np.ndarray, digits: int = 3) -> list[float]:
    return [round(float(value), digits) + 0.0 for value in values]
