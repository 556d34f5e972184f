"""Outlines of a whole catalogue of packages: arrays in, arrays out, through the kernels of the single package.

Source: the sums of this package (`sidewall`, `outline`), in arrays; nothing new.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hubwright.engineering.tyrewheel import kernels
from hubwright.engineering.tyrewheel.rim import FLANGE_DEPTH_MM, Rim
from hubwright.engineering.tyrewheel.sidewall import Carcass
from hubwright.errors import OutsideValidity
from hubwright.language import say

Floats = NDArray[np.float64]
PART_NAMES = ("", "tyre", "rim flange")
COLUMNS = (
    "bead_radius_mm", "known_rim_width_mm", "section_width_mm", "rim_width_mm", "crown_radius_mm",
    "tread_half_width_mm", "shoulder_drop_mm", "sidewall_skin_mm", "belt_depth_mm", "belt_inset_mm",
    "overall_width_mm", "flange_depth_mm", "centre_plane_mm",
)  # fmt: skip


@dataclass(frozen=True)
class OutlineTable:
    """Outlines of n packages at m radii; hub frame, mm.

    Attributes:
        radius_mm: Shape (m,).
        outer_mm: Shape (n, m); NaN where nothing lies at that radius, or the package has no answer.
        inner_mm: Shape (n, m).
        part: Index into `PART_NAMES`, shape (n, m).
        section_width_mm: On the rim in question, shape (n,); NaN without an answer.
        state: `kernels.SOLVED`, `NO_ANSWER`, `TAUT` or `FOLDED`, shape (n,).
    """

    radius_mm: Floats = field(repr=False)
    outer_mm: Floats = field(repr=False)
    inner_mm: Floats = field(repr=False)
    part: NDArray[np.int8] = field(repr=False)
    section_width_mm: Floats = field(repr=False)
    state: NDArray[np.int8] = field(repr=False)


def package_row(carcass: Carcass, rim: Rim, centre_plane_mm: float) -> tuple[float, ...]:
    """One row for `outline_table`, in the order of `COLUMNS`, from the things of the single-package sums."""
    build = carcass.build
    return (
        carcass.bead_radius_mm,
        carcass.known_rim_width_mm,
        carcass.section_width_mm,
        rim.width_mm,
        carcass.overall_diameter_mm / 2.0,
        build.tread_width_mm / 2.0,
        build.shoulder_drop_mm,
        build.sidewall_skin_mm,
        build.belt_depth_mm,
        build.belt_inset_mm,
        rim.overall_width_mm,
        FLANGE_DEPTH_MM,
        centre_plane_mm,
    )


def outline_table(rows: Sequence[Sequence[float]] | Floats, radius_mm: ArrayLike) -> OutlineTable:
    """Outlines of tyre and rim flanges of many packages.

    Args:
        rows: Shape (n, 13), columns `COLUMNS`.
        radius_mm: Ascending radii, shape (m,).

    Raises:
        OutsideValidity: for a table of the wrong shape or radii that do not ascend. A package without an answer does
            not raise; it is told by `state`.
    """
    table = np.ascontiguousarray(rows, dtype=float)
    radii = np.ascontiguousarray(np.atleast_1d(np.asarray(radius_mm, dtype=float)))
    if table.ndim != 2 or table.shape[1] != len(COLUMNS):
        raise OutsideValidity("Outline table", "shape", table.shape, f"(n, {len(COLUMNS)})", "this module")
    if (np.diff(radii) <= 0.0).any():
        raise OutsideValidity("Outline table", "radii", say("not sorted"), "ascending radii", "geometry")
    n, m = table.shape[0], radii.size
    outer, inner = np.empty((n, m)), np.empty((n, m))
    part, width, state = np.empty((n, m), dtype=np.int8), np.empty(n), np.empty(n, dtype=np.int8)
    kernels.outline_rows(table, radii, outer, inner, part, width, state)
    return OutlineTable(radii, outer, inner, part, width, state)
