"""The package to be checked (tyre, rim, disc) as a closed outline in the half-plane (rho, y).

Source: a body of revolution meets a point in the meridian plane of the point (derived).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from hubwright.engineering.envelope.outline import kernels
from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.quantities.text import plain

Floats = np.ndarray[Any, np.dtype[np.float64]]
Singles = np.ndarray[Any, np.dtype[np.float32]]

CELL_MM = 4.0
SKIRT_MM = 60.0
DIRECTIONS = 512
SUPPORT_STEPS = 1024


@dataclass(frozen=True, eq=False)
class Outline:
    """A solid of revolution about the spin axis: everything inside a closed polygon of the half-plane.

    Attributes:
        rho_mm: (m,) distance of each corner from the spin axis, >= 0.
        y_mm: (m,) position of each corner along the spin axis from the hub face, positive outboard.
    """

    rho_mm: Floats
    y_mm: Floats

    def __post_init__(self) -> None:
        rho, y = np.array(self.rho_mm, float), np.array(self.y_mm, float)
        faults = _faults(rho, y)
        if faults:
            raise BadInput(say("package outline"), faults)
        area = 0.5 * float(np.sum(rho * np.roll(y, -1) - np.roll(rho, -1) * y))
        if area < 0.0:  # one sense of turning, so that a normal always points outward
            rho, y = rho[::-1].copy(), y[::-1].copy()
        for name, value in (("rho_mm", rho), ("y_mm", y)):
            value.setflags(write=False)
            object.__setattr__(self, name, value)

    @cached_property
    def index(self) -> Floats:
        """The search index of the kernels (built once, a few milliseconds)."""
        return _build_index(self.rho_mm, self.y_mm)

    @cached_property
    def support(self) -> Singles:
        """How far the body reaches along a direction: (SUPPORT_STEPS + 1,) over t = c/(|c| + s) from -1 to 1.

        c and s are the parts of the direction along and square to the axis. A straight line between two entries is
        never too low: with r the farthest corner, h = rho s + y c bends by at most 9.7 r per t squared, and what that
        takes off a line of 2/SUPPORT_STEPS is owed to every entry.
        """
        t = np.linspace(-1.0, 1.0, SUPPORT_STEPS + 1)
        size = np.hypot(t, 1.0 - np.abs(t))
        reach = (np.outer((1.0 - np.abs(t)) / size, self.rho_mm) + np.outer(t / size, self.y_mm)).max(axis=1)
        owed = 9.7 * float(np.hypot(self.rho_mm, self.y_mm).max()) * (2.0 / SUPPORT_STEPS) ** 2 / 8.0
        return np.asarray(reach + owed, np.float32)

    @cached_property
    def hollow(self) -> bool:
        """Whether the outline is hollow anywhere: less than its hull."""
        step_r, step_y = np.roll(self.rho_mm, -1) - self.rho_mm, np.roll(self.y_mm, -1) - self.y_mm
        turn = step_r * np.roll(step_y, -1) - step_y * np.roll(step_r, -1)
        return bool(np.any(turn < -1e-6))

    def slid(self, thickness_mm: float) -> Outline:
        """The same package on a disc of the given thickness: moved outboard along the spin axis."""
        moved = Outline(self.rho_mm, self.y_mm + thickness_mm)
        if "index" in self.__dict__:  # the same numbers moved: far quicker than filling the grid again
            moved.__dict__["index"] = kernels.slid_index(self.index, thickness_mm)
        return moved

    def signed_distance_mm(self, rho_mm: Floats, y_mm: Floats) -> Floats:
        """Distance of points from the package, negative inside (n,)."""
        return np.asarray(kernels.signed_distances(np.asarray(rho_mm, float), np.asarray(y_mm, float), self.index))


def cylinder_outline(radius_mm: float, width_mm: float, centre_y_mm: float) -> Outline:
    """A sharp-edged plain cylinder, the plainest stand-in for a tyre."""
    low, high = centre_y_mm - width_mm / 2.0, centre_y_mm + width_mm / 2.0
    return Outline(np.array([0.0, radius_mm, radius_mm, 0.0]), np.array([low, low, high, high]))


def _faults(rho: Floats, y: Floats) -> tuple[Fault, ...]:
    if rho.ndim != 1 or rho.shape != y.shape or rho.size < 3:
        return (
            Fault(
                "outline",
                say("two lists of equal length, three corners or more"),
                say("{first} and {second}", first=rho.shape, second=y.shape),
            ),
        )
    if not (np.all(np.isfinite(rho)) and np.all(np.isfinite(y))):
        return (Fault("outline", say("finite numbers"), say("a corner that is not")),)
    if float(rho.min()) < 0.0:
        return (Fault("outline.rho_mm", say("0 or more"), plain(float(rho.min()))),)
    return ()


def _sides(rho: Floats, y: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Sides off the axis with outward normals of side, first corner and second corner."""
    sides = np.column_stack([rho, y, np.roll(rho, -1), np.roll(y, -1)])
    step = sides[:, 2:] - sides[:, :2]
    length = np.hypot(step[:, 0], step[:, 1])
    keep = length > 0.0
    sides, step, length = sides[keep], step[keep], length[keep]
    normal = np.column_stack([step[:, 1], -step[:, 0]]) / length[:, None]
    on_axis = (sides[:, 0] == 0.0) & (sides[:, 2] == 0.0)
    start, end = normal + np.roll(normal, 1, axis=0), normal + np.roll(normal, -1, axis=0)
    # A corner on the axis meets its own mirror image there, so its normal is axial.
    for corner, other, column in ((start, np.roll(on_axis, 1), 0), (end, np.roll(on_axis, -1), 2)):
        touching = (sides[:, column] == 0.0) & other
        corner[touching] = normal[touching] * np.array([0.0, 1.0])
    solid = ~on_axis
    return tuple(np.ascontiguousarray(part[solid]) for part in (sides, normal, start, end))  # type: ignore[return-value]  # four parts in, four out


def _build_index(rho: Floats, y: Floats) -> Floats:
    parts = np.concatenate(_sides(rho, y), axis=1)
    low_r, low_y = max(0.0, float(rho.min()) - SKIRT_MM), float(y.min()) - SKIRT_MM
    cells_r = math.ceil((float(rho.max()) + SKIRT_MM - low_r) / CELL_MM)
    cells_y = math.ceil((float(y.max()) + SKIRT_MM - low_y) / CELL_MM)
    at_cells = kernels.HEAD + parts.size
    at_first = at_cells + kernels.CELL_NUMBERS * cells_r * cells_y
    at_lists = at_first + cells_r * cells_y + 1
    head = [len(parts), cells_r, cells_y, low_r, low_y, CELL_MM, 0, 0, 0, kernels.HEAD, at_cells, at_first, at_lists]
    index = np.concatenate([head, parts.ravel(), np.empty(at_first - at_cells)])
    first, listed = kernels.fill_cells(index, _support(rho, y))
    index = np.concatenate([index, first, listed])
    kernels.deepen_pole(index)
    return index


def _support(rho: Floats, y: Floats) -> Floats:
    """Directions over the full turn and how far the outline reaches in each (k, 3)."""
    angle = np.linspace(-math.pi, math.pi, DIRECTIONS, endpoint=False)
    n = np.column_stack([np.cos(angle), np.sin(angle)])
    # The four main directions are exact, for flat treads and upright flanks meet flat walls often.
    n[np.abs(n) < 1e-12] = 0.0
    return np.column_stack([n, (n @ np.stack([rho, y])).max(axis=1)])
