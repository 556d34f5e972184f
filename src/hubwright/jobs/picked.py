"""The hub as picked in a scan: its centre, its axes, and how well the picks agree."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.parts.scan import UNIT_MM, Scan
from hubwright.quantities.axes import Side

Floats = np.ndarray[Any, np.dtype[np.float64]]


@dataclass(frozen=True, eq=False)
class PickedHub:
    """The hub in the file's axes, in mm.

    Attributes:
        centre_mm: (3,) of the face a disc sits on.
        turn: (3, 3) rows forward, outboard, up in the file's axes; up mirrored on the right as corner axes are.
        plane_mm: (n, 3) picked on the face; empty where the spin axis itself was stated.
        plane_off_mm: (n,) how far each lies from the plane.
        circle_mm: (n, 3) picked round the hub; empty where the centre itself was picked.
        circle_off_mm: (n,) how far each lies outside the circle.
        circle_radius_mm: Of the circle; 0 without.
    """

    centre_mm: Floats
    turn: Floats
    plane_mm: Floats
    plane_off_mm: Floats
    circle_mm: Floats
    circle_off_mm: Floats
    circle_radius_mm: float

    def doubt_mm(self, away_mm: float) -> float | None:
        """Standard doubt of a place so far from the hub; None where there are no more picks than are needed."""
        from hubwright.engineering.envelope.picks import Circle, circle_doubt_mm, plane_doubt_mm  # noqa: PLC0415

        circle = Circle(self.centre_mm, self.circle_radius_mm, self.circle_off_mm)
        found = [
            doubt for doubt in (plane_doubt_mm(self.plane_mm, away_mm), circle_doubt_mm(circle)) if doubt is not None
        ]
        return float(np.hypot.reduce(found)) if found else None


def pick_faults(scan: Scan) -> Iterator[tuple[str, str, str, str]]:
    """Key, wanted, given and what to do, of picks that do not belong together; an empty key is the scan itself."""
    centre, plane = bool(scan.hub_centre or scan.hub_circle), bool(scan.hub_plane or scan.normal)
    there = (centre, plane, scan.forward is not None)
    if any(there) and not all(there):
        missing = ("hub_centre", "hub_plane", "forward")[there.index(False)]
        wanted = say("hub_centre or hub_circle, hub_plane or normal, and forward")
        yield "", wanted, say("no {missing}", missing=missing), ""
    if scan.hub_centre and scan.hub_circle:
        yield "hub_circle", say("either hub_centre or hub_circle"), say("both"), say("Take one of them out.")
    for key, picks in (("hub_plane", scan.hub_plane), ("hub_circle", scan.hub_circle)):
        if 0 < len(picks) < 3:
            yield key, say("three points and more"), str(len(picks)), say("Pick more.")


def picked_hub(scan: Scan, side: Side) -> PickedHub | None:
    """The hub of a scan with picks; None of one that lies in the car's axes.

    Raises:
        BadInput: picks that make no alignment.
    """
    from hubwright.engineering.envelope.alignment import align  # noqa: PLC0415 - only scans need it
    from hubwright.engineering.envelope.picks import fit_circle, off_plane, outboard_of  # noqa: PLC0415

    if scan.forward is None:
        return None
    if not any(scan.forward):
        raise BadInput("picks", (Fault("forward", say("a direction that points forward"), "0, 0, 0"),))
    unit, none = UNIT_MM[scan.unit], np.empty((0, 3))
    forward = np.array(scan.forward, float)
    picks, around = none, none
    if not scan.hub_plane:
        if scan.normal is None or not any(scan.normal):
            wanted = say("a direction outboard along the spin axis")
            raise BadInput("picks", (Fault("normal", wanted, say("nothing") if scan.normal is None else "0, 0, 0"),))
        outboard = np.array(scan.normal, float) / np.linalg.norm(scan.normal)
        one = np.cross(outboard, forward)
        plane = np.array([np.zeros(3), one, np.cross(outboard, one)])
        middle = None
    else:
        picks = plane = unit * np.array(scan.hub_plane, float)
        outboard = outboard_of(plane) if scan.normal is None else np.array(scan.normal, float)
        middle = plane.mean(axis=0)
    turn = align(np.zeros(3), plane, outboard, forward).turn
    off, radius = np.empty(0), 0.0
    if scan.hub_circle:
        around = unit * np.array(scan.hub_circle, float)
        circle = fit_circle(around, turn[1])
        centre, off, radius = circle.centre_mm, circle.off_mm, circle.radius_mm
        if middle is not None:  # the circle may lie at any depth: the face is where the plane is
            centre = centre + float((middle - centre) @ turn[1]) * turn[1]
    else:
        centre = unit * np.array(scan.hub_centre, float)
    if side == "right":
        turn = np.stack([turn[0], turn[1], -turn[2]])
    return PickedHub(centre, turn, picks, off_plane(picks) if len(picks) else np.empty(0), around, off, radius)
