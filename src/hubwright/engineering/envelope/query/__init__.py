"""Questions to a ready map: gap of any package, by thickness of disc, thickest and thinnest disc, what binds next.

Source: derived here.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from hubwright.engineering.envelope.meridian import Layer, MeridianMap
from hubwright.engineering.envelope.outline import Outline
from hubwright.engineering.envelope.query import kernels
from hubwright.engineering.envelope.query.field import kernels as field_kernels
from hubwright.engineering.turns import one_parallel_kernel
from hubwright.errors import BadInput, Fault, OutsideValidity
from hubwright.language import say
from hubwright.quantities.text import plain, pointed

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]
Longs = np.ndarray[Any, np.dtype[np.int64]]
Singles = np.ndarray[Any, np.dtype[np.float32]]

NODE_MM = 2.0
CELL_MM = 4.0
CHUNKS = 16
STEP_MM = 1e-4


@dataclass(frozen=True)
class Contact:
    """The smallest gap of a package against one obstacle.

    Attributes:
        obstacle: Name of the obstacle.
        kind: Its kind.
        gap_mm: Gap to the map's lines, negative when they lie inside the package (then the depth of the deepest point that
            the view point sees; what hides behind it may lie a little deeper: sweep the triangles for that).
        error_mm: The true gap lies no more than this below ``gap_mm``.
        state: Number of the pose, -1 for a carried obstacle.
        triangle: Number of the triangle in the obstacle.
        place_mm: The map corner nearest to the place, in the obstacle's own coordinates.
        at_edge: True when nothing of the obstacle is nearer than the edge of the map: the gap is then only a floor.
    """

    obstacle: str
    kind: str
    gap_mm: float
    error_mm: float
    state: int
    triangle: int
    place_mm: tuple[float, float, float]
    at_edge: bool

    @property
    def safe_gap_mm(self) -> float:
        """The gap with everything unknown taken to the safe side."""
        return self.gap_mm - self.error_mm


class ReadyMap:
    """A map with its search grids, kept for as long as questions come."""

    def __init__(self, drawn: MeridianMap) -> None:
        self.drawn = drawn

    @cached_property
    def grids(self) -> tuple[_Grid, ...]:
        """One search grid per layer."""
        return tuple(_grid_of(layer, self.drawn) for layer in self.drawn.layers)

    @cached_property
    def joint(self) -> _Grid:
        """One search grid for all layers together."""
        return _joined(self.drawn)


def contacts(ready: ReadyMap, outline: Outline, thickness_mm: float = 0.0) -> tuple[Contact, ...]:
    """Smallest gap against each obstacle, the tightest (after its error) first: the second is what binds next.

    Holds for a package star-shaped about the view point at this thickness; else ``OutsideValidity``.
    """
    _check_star(ready.drawn, outline, thickness_mm)
    edge = _edge_gap(ready.drawn, outline, thickness_mm)
    found = [
        _contact(layer, grid, outline, thickness_mm, edge)
        for layer, grid in zip(ready.drawn.layers, ready.grids, strict=True)
    ]
    return tuple(sorted(found, key=lambda contact: contact.safe_gap_mm))


def gaps_by_thickness(ready: ReadyMap, outline: Outline, thickness_mm: Floats) -> dict[str, Floats]:
    """Safe gap (m,) against each obstacle for each disc thickness (m,)."""
    rows = [contacts(ready, outline, float(t)) for t in thickness_mm]
    return {
        layer.name: np.array([next(c.safe_gap_mm for c in row if c.obstacle == layer.name) for row in rows])
        for layer in ready.drawn.layers
    }


def thickness_limits_mm(
    ready: ReadyMap, outline: Outline, owed_mm: Mapping[str, float], start_mm: float = 0.0, span_mm: float = 100.0
) -> tuple[float, float] | None:
    """Thinnest and thickest disc about ``start_mm`` for which every safe gap is at least what its kind is owed.

    The gap changes by no more than the slide, so stepping by the spare gap never jumps over a contact. None when
    ``start_mm`` itself does not do. Limits are rounded inwards to ``STEP_MM``; the search ends ``span_mm`` away, or
    where the package is no longer star-shaped about the view point.

    Args:
        ready: The map.
        outline: The package without a disc.
        owed_mm: Gap owed by kind of obstacle.
        start_mm: A thickness to start from.
        span_mm: How far to look either way.
    """

    def spare(thickness: float) -> float:
        return min(c.safe_gap_mm - owed_mm[c.kind] for c in contacts(ready, outline, thickness))

    if spare(start_mm) < 0.0:
        return None
    low, high = _star_interval(ready.drawn, outline)
    return (
        _slide_until(spare, start_mm, -1.0, max(low, start_mm - span_mm)),
        _slide_until(spare, start_mm, 1.0, min(high, start_mm + span_mm)),
    )


@dataclass(frozen=True, eq=False)
class PackageSet:
    """Outlines made ready for many questions.

    Attributes:
        outlines: As given.
        rho_mm: (p,) points of all outlines in a row, long sides cut, the first point of each repeated at its end.
        y_mm: (p,) their position along the axis.
        points: (2, p) the same in single precision.
        length2: (p,) squared length of the side that begins at each point, -1 where it lies on the axis.
        over2: (p,) one over it, 0 where there is no length.
        boxes: (n, 8) box and core of each outline (`kernels.frames`).
        starts: (n + 1,) first point of each outline.
    """

    outlines: tuple[Outline, ...]
    rho_mm: Floats
    y_mm: Floats
    points: Singles
    length2: Singles
    over2: Singles
    boxes: Floats
    starts: Longs

    @property
    def arrays(self) -> tuple[Floats, Floats, Singles, Singles, Singles, Floats]:
        """In the order the kernels take them."""
        return self.rho_mm, self.y_mm, self.points, self.length2, self.over2, self.boxes


def package_set(outlines: Sequence[Outline]) -> PackageSet:
    """Make outlines ready; done once for any number of maps and discs."""
    rho, y = (np.concatenate([getattr(o, name) for o in outlines]) for name in ("rho_mm", "y_mm"))
    corners = np.cumsum([0, *[o.rho_mm.size for o in outlines]])
    rho_mm, y_mm, starts = kernels.cut_all(rho, y, corners)
    step_rho, step_y = np.diff(rho_mm, append=rho_mm[-1]), np.diff(y_mm, append=y_mm[-1])
    length2 = step_rho**2 + step_y**2
    with np.errstate(divide="ignore"):
        over2 = np.where(length2 > 0.0, 1.0 / length2, 0.0)
    length2[(rho_mm <= 0.0) & (np.append(rho_mm[1:], 1.0) <= 0.0)] = -1.0
    points = np.stack([rho_mm, y_mm]).astype(np.float32)
    frames = kernels.frames(rho_mm, y_mm, starts)
    return PackageSet(
        tuple(outlines), rho_mm, y_mm, points, length2.astype(np.float32), over2.astype(np.float32), frames, starts
    )


def many_gaps(
    ready: ReadyMap,
    packages: PackageSet,
    which: Whole,
    thickness_mm: Floats,
    *,
    deep: bool = False,
    cap_mm: float = math.inf,
) -> Floats:
    """Safe gap (n,) of many packages over all obstacles of a map.

    Args:
        ready: The map.
        packages: The outlines, made ready.
        which: (n,) outline of each package.
        thickness_mm: (n,) its disc.
        deep: Whether to measure how deep an overlap is; else any overlap gives minus the map's error.
        cap_mm: Gaps above it are not resolved (they come back as the cap less the error); a low cap is quicker.

    Returns:
        Gaps with the greatest error of any layer taken off; a gap to the edge of the map where nothing is nearer.

    Raises:
        OutsideValidity: A package is not star-shaped about the view point.
        BadInput: A disc is not a finite number.
    """
    discs = np.ascontiguousarray(thickness_mm, float)
    if not np.all(np.isfinite(discs)):
        raise BadInput(say("packages"), (Fault("thickness_mm", say("finite numbers"), say("one that is not")),))
    view = ready.drawn.view
    lines, seeds, frame, field, first, listed, away = ready.joint.arrays
    with one_parallel_kernel:
        gaps, bad = kernels.many_packages(
            *packages.arrays, packages.starts, np.ascontiguousarray(which, np.int64), discs,
            lines, seeds, frame, field, first, listed, away,
            np.array([view.rho_mm, view.y_mm, view.reach_mm]), cap_mm, deep, CHUNKS,
        )  # fmt: skip
    for row in np.flatnonzero(bad):
        _check_star(ready.drawn, packages.outlines[int(which[row])], float(discs[row]))
    if any(layer.covered >= 0 for layer in ready.drawn.layers):
        gaps = np.full(len(which), -np.inf)
    owed = max((layer.error_mm for layer in ready.drawn.layers), default=0.0)
    return np.asarray(gaps - owed)


@dataclass(frozen=True, eq=False)
class _Grid:
    arrays: tuple[Floats, Floats, Floats, Singles, Whole, Whole, Singles]
    corner: Whole


def _grid_of(layer: Layer, drawn: MeridianMap) -> _Grid:
    lines, seeds, corner = _lines_of(layer)
    return _make_grid(lines, seeds, corner, drawn)


def _joined(drawn: MeridianMap) -> _Grid:
    parts = [_lines_of(layer) for layer in drawn.layers]
    lines, seeds, corner = (np.concatenate([part[i] for part in parts]) for i in range(3))
    return _make_grid(lines, seeds, corner, drawn)


def _lines_of(layer: Layer) -> tuple[Floats, Floats, Whole]:
    p = np.column_stack([layer.rho_mm, layer.y_mm])
    same = np.flatnonzero(np.diff(layer.chain) == 0) if p.shape[0] > 1 else np.empty(0, int)
    lone = np.setdiff1d(np.arange(p.shape[0]), np.union1d(same, same + 1))
    first, second = np.concatenate([same, lone]), np.concatenate([same + 1, lone])
    length2 = ((p[second] - p[first]) ** 2).sum(axis=1)
    with np.errstate(divide="ignore"):
        lines = np.column_stack([p[first], p[second], np.where(length2 > 0.0, 1.0 / length2, 0.0)])
    seeds = [
        [*p[rows[0]], *p[rows].min(axis=0)[:1], p[rows, 0].max(), p[rows, 1].max(), p[rows, 1].min()]
        for rows in (np.flatnonzero(layer.chain == number) for number in np.unique(layer.chain))
    ]
    return lines, np.array(seeds).reshape(-1, 6), first.astype(np.int32)


def _make_grid(lines: Floats, seeds: Floats, corner: Whole, drawn: MeridianMap) -> _Grid:
    view = drawn.view
    low_r = max(0.0, view.rho_mm - view.reach_mm)
    wide_r = math.ceil((view.rho_mm + view.reach_mm - low_r) / CELL_MM)
    wide_y = math.ceil(2.0 * view.reach_mm / CELL_MM)
    times = round(CELL_MM / NODE_MM)
    nodes = (wide_r * times + 1, wide_y * times + 1)
    # Points and shares carry single precision of lengths up to the size of the grid: d^2 errs by that times 2 d.
    size = math.hypot(view.rho_mm + view.reach_mm, 2.0 * view.reach_mm + abs(view.y_mm))
    spare = 16.0 * float(np.finfo(np.float32).eps) * size * size
    grid = np.array([low_r, view.y_mm - view.reach_mm, NODE_MM, *nodes, CELL_MM, wide_r, wide_y, spare])
    first, listed, away = field_kernels.fill_cells(lines, grid)
    field = field_kernels.fill_nodes(lines, grid, first, listed)
    return _Grid((lines, seeds, grid, field, first, listed, away), corner)


def _contact(layer: Layer, grid: _Grid, outline: Outline, thickness_mm: float, edge: float) -> Contact:
    one = package_set([outline])
    if layer.covered >= 0:
        gap, row, at_edge = -math.inf, -1, False
    else:
        lines, seeds, frame, field, first, listed, away = grid.arrays
        gap, row = kernels.one_package(
            *one.arrays[:5], one.boxes[0], 0, one.rho_mm.size - 1, thickness_mm,
            lines, seeds, frame, field, first, listed, away, edge, True,
            np.empty((4, one.rho_mm.size), np.float32), np.empty(one.rho_mm.size, np.int32),
        )  # fmt: skip
        at_edge = row < 0
    if row < 0:
        state = layer.covered if layer.covered >= 0 else -1
        nowhere = (math.nan, math.nan, math.nan)
        return Contact(layer.name, layer.kind, gap, layer.error_mm, state, -1, nowhere, at_edge)
    k = int(grid.corner[row])
    x, o, z = (float(v) for v in layer.place_mm[k])
    state = -1 if layer.carried else int(layer.state[k])
    return Contact(layer.name, layer.kind, gap, layer.error_mm, state, int(layer.triangle[k]), (x, o, z), at_edge)


def _slide_until(spare: Callable[[float], float], start: float, sense: float, stop: float) -> float:
    at = start
    while (stop - at) * sense > 0.0:
        room = spare(at)
        if room <= STEP_MM:
            return at
        following = at + sense * room
        if (following - stop) * sense >= 0.0:
            return stop if spare(stop) >= 0.0 else at
        at = following
    return at


def _star_interval(drawn: MeridianMap, outline: Outline) -> tuple[float, float]:
    """Slides for which every side turns its inner face to the view point: n.(corner + (0, t) - c) >= 0."""
    step_r, step_y = np.roll(outline.rho_mm, -1) - outline.rho_mm, np.roll(outline.y_mm, -1) - outline.y_mm
    n_r, n_y = step_y, -step_r
    at0 = n_r * (outline.rho_mm - drawn.view.rho_mm) + n_y * (outline.y_mm - drawn.view.y_mm)
    with np.errstate(divide="ignore", invalid="ignore"):
        bound = -at0 / n_y
    low = float(bound[n_y > 0.0].max(initial=-math.inf))
    high = float(bound[n_y < 0.0].min(initial=math.inf))
    if np.any(at0[n_y == 0.0] < 0.0):
        return math.inf, -math.inf
    return low, high


def _far_corner(drawn: MeridianMap, outline: Outline, thickness_mm: float = 0.0) -> float:
    return float(np.hypot(outline.rho_mm - drawn.view.rho_mm, outline.y_mm + thickness_mm - drawn.view.y_mm).max())


def _edge_gap(drawn: MeridianMap, outline: Outline, thickness_mm: float) -> float:
    """Distance from the package to the edge of the map, 0 when it reaches beyond."""
    return max(0.0, drawn.view.reach_mm - _far_corner(drawn, outline, thickness_mm))


def _check_star(drawn: MeridianMap, outline: Outline, thickness_mm: float) -> None:
    low, high = _star_interval(drawn, outline)
    if not low <= thickness_mm <= high:
        raise OutsideValidity(
            "meridian map",
            "disc thickness",
            f"{plain(thickness_mm)} mm",
            say(
                "{low} to {high} mm, where this package is star-shaped about the map's view point",
                low=pointed(f"{low:.6g}"),
                high=pointed(f"{high:.6g}"),
            ),
            "nearest point per direction; sweep the triangles instead, or take the hull of the outline",
        )
