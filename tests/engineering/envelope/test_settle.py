"""Gaps settled between the states of a coarse grid against a dense sweep of the same motion."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from hubwright.engineering.envelope.obstacles import Obstacle, polyline
from hubwright.engineering.envelope.outline import cylinder_outline
from hubwright.engineering.envelope.poses import Poses
from hubwright.engineering.envelope.settle import settled_gap, state_field
from hubwright.engineering.envelope.sweep import gap_at_every_state

Floats = np.ndarray[Any, np.dtype[np.float64]]


def hubs(travel: Floats, steer_deg: Floats) -> tuple[Floats, Floats, Any]:
    """A wheel that rises, leans a little, moves out and turns about an upright axis 60 mm inboard of it."""
    turn, lean = np.radians(steer_deg), np.radians(0.02 * travel)
    axis = np.stack([-np.sin(turn) * np.cos(lean), np.cos(turn) * np.cos(lean), np.sin(lean)], axis=1)
    origin = 60.0 * axis + np.stack([0.0 * travel, -60.0 + 0.05 * travel - 4e-4 * travel**2, travel], axis=1)
    return origin, axis, np.ones(len(travel), bool)


@pytest.mark.slow
@pytest.mark.parametrize("thickness_mm", [0.0, 6.0])
def test_the_settled_gap_is_that_of_a_dense_sweep_and_its_error_is_what_it_says(thickness_mm: float) -> None:
    edge = polyline(np.array([[345.0, 60.0, 40.0], [360.0, 140.0, 10.0], [367.0, 190.0, -60.0], [250.0, 190.0, 260.0]]))
    obstacle, outline = Obstacle("edge", "body", edge), cylinder_outline(310.0, 205.0, thickness_mm)
    field = state_field(hubs, np.linspace(-40.0, 60.0, 7), np.linspace(-30.0, 30.0, 13))
    found = settled_gap(outline, obstacle, hubs, field, within_mm=0.05)
    a, b = (part.ravel() for part in np.meshgrid(np.linspace(-40, 60, 161), np.linspace(-30, 30, 241), indexing="ij"))
    origin, axis, _ = hubs(a, b)
    dense = float(gap_at_every_state(outline, obstacle, Poses(origin, axis)).gap_mm.min())
    assert found.gap_mm > 0
    assert found.error_mm <= 0.06
    assert found.gap_mm - found.error_mm <= dense + 1e-9
    assert found.gap_mm <= dense + 0.06
