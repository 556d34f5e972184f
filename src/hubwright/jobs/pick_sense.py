"""Which side of the picked hub plane is outboard: found from where the scan lies, so that nobody has to pick in order."""

from __future__ import annotations

import dataclasses

import numpy as np

from hubwright.errors import BadInput
from hubwright.jobs.picked import picked_hub
from hubwright.jobs.placing import BESIDE_AXIS_MM, above, sampled, weighted
from hubwright.jobs.scans import Shape
from hubwright.parts.scan import UNIT_MM, Scan
from hubwright.quantities.axes import Side

DIGITS = 6
"""Of a unit vector in a job file."""


def with_sense(scan: Scan, side: Side, shape: Shape) -> Scan:
    """The scan with ``normal`` beside its picked plane, in whichever order the plane was picked.

    With forward and the side given, turning the axis round turns the scan upside down and inside out; so bodywork is laid
    with its greater part above the hub, and what the knuckle carries (or a hose) with its greater part inboard of the hub
    face. A scan that lies wrong either way is asked about (`hubwright.jobs.placing`).
    """
    if len(scan.hub_plane) < 3 or scan.forward is None:
        return scan
    plane = UNIT_MM[scan.unit] * np.array(scan.hub_plane, float)
    normal = np.linalg.svd(plane - plane.mean(axis=0))[2][2]
    tried = [_turned(scan, sense) for sense in (normal, -normal)]
    try:
        shares = [_share_where_it_belongs(one, side, shape) for one in tried]
    except BadInput:
        return scan  # said where the scan is placed
    return tried[0] if shares[0] >= shares[1] else tried[1]


def _turned(scan: Scan, normal: np.ndarray) -> Scan:
    x, y, z = (round(float(value), DIGITS) + 0.0 for value in normal)
    return dataclasses.replace(scan, normal=(x, y, z))


def _share_where_it_belongs(scan: Scan, side: Side, shape: Shape) -> float:
    picks = picked_hub(scan, side)
    assert picks is not None  # it has a forward direction
    middles, weight = weighted((sampled(shape.triangles_mm) - picks.centre_mm) @ picks.turn.T)
    if scan.kind != "body":
        return float(weight[middles[:, 1] < 0.0].sum() / weight.sum())
    weight = np.where(np.hypot(middles[:, 0], middles[:, 2]) > BESIDE_AXIS_MM, weight, 0.0)
    return above(middles, weight) if weight.sum() > 0.0 else 0.5
