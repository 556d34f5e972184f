"""Draw a meridian map from obstacles and poses.

Source: derived here.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from hubwright.engineering.envelope.culling import triangle_tree
from hubwright.engineering.envelope.meridian import Layer, MeridianMap, View, kernels
from hubwright.engineering.envelope.obstacles import Obstacle, within_reach_rows
from hubwright.engineering.envelope.outline import Outline
from hubwright.engineering.envelope.poses import Poses, hub_at_rest, visiting_order
from hubwright.engineering.envelope.sweep import point_on_image
from hubwright.engineering.turns import one_parallel_kernel

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int32]]

BIN_MM = 0.025
SIMPLIFY_MM = 0.015
PIECE_MM = 40.0
CHUNKS = 2
MAP_ERROR_MM = BIN_MM + SIMPLIFY_MM + 2 * kernels.SAG_MM


def view_for(outline: Outline, room_mm: float = 80.0) -> View:
    """A view point in the middle of the outermost part of a package, reaching ``room_mm`` beyond its outer half.

    Place it with the package the car carries now; other packages serve as long as they are star-shaped about it.
    """
    half = 0.5 * float(np.ptp(outline.y_mm))
    middle = 0.5 * float(outline.y_mm.max() + outline.y_mm.min())
    rho = max(0.5 * float(outline.rho_mm.max()), float(outline.rho_mm.max()) - half)
    corner = math.hypot(float(outline.rho_mm.max()) - rho, half)
    return View(rho, middle, max(corner, rho) + room_mm)


def draw_map(obstacles: Sequence[Obstacle], poses: Poses, view: View) -> MeridianMap:
    """Collapse every obstacle over every state into the half-plane, keeping what the view point can see.

    Holds for packages star-shaped about the view point (``meridian.query`` checks it). The error of a layer adds the
    bin width, the dropping of corners, the sag of arcs, the obstacle's own doubt and, for body-fixed ones, the motion
    between listed states.
    """
    layers = tuple(_layer(obstacle, poses, view) for obstacle in obstacles)
    return MeridianMap(view, layers, len(poses), inputs_hash(obstacles, poses, view))


def inputs_hash(obstacles: Sequence[Obstacle], poses: Poses, view: View) -> str:
    """SHA-256 over all that a map depends on; equal hash, equal map."""
    digest = hashlib.sha256()
    settings = (BIN_MM, SIMPLIFY_MM, kernels.SAG_MM, view.rho_mm, view.y_mm, view.reach_mm, poses.between_mm)
    digest.update(repr(settings).encode())
    for array in (poses.origin_mm, poses.axis):
        digest.update(np.ascontiguousarray(array, "<f8").tobytes())
    for o in obstacles:
        digest.update(o.mark.encode())
    return digest.hexdigest()


def _layer(obstacle: Obstacle, poses: Poses, view: View) -> Layer:
    used = hub_at_rest() if obstacle.carried else poses
    own = MAP_ERROR_MM + obstacle.doubt_mm + (0.0 if obstacle.carried else poses.between_mm)
    far = math.hypot(view.rho_mm, view.y_mm) + view.reach_mm
    rows = within_reach_rows(obstacle.triangles_mm, used.origin_mm, far)
    if rows.size == 0:
        return _nothing(obstacle, own)
    tree = triangle_tree(obstacle.triangles_mm[rows], PIECE_MM)
    bins = kernels.BLOCK * math.ceil(2.0 * math.pi * view.reach_mm / BIN_MM / kernels.BLOCK)  # whole blocks all round
    frame = np.array([view.rho_mm, view.y_mm, -math.pi, 2.0 * math.pi / bins, bins, view.reach_mm])
    with one_parallel_kernel:
        near, marks, covered = kernels.draw_all(
            tree.triangles_mm, tree.balls_mm, tree.nodes_mm, tree.start, used.origin_mm, used.axis,
            _far_apart_first(visiting_order(used, far)), frame, CHUNKS,
        )  # fmt: skip
    kept, chain = _lines(near)
    if kept.size == 0:
        return _nothing(obstacle, own, int(covered))
    rho, y = near[kept, 1] + view.rho_mm, near[kept, 2] + view.y_mm
    piece, state = marks[kept, 0], marks[kept, 1]
    place = np.array(
        [
            point_on_image(tree.triangles_mm[p], used.origin_mm[s], used.axis[s], r, h)
            for p, s, r, h in zip(piece, state, rho, y, strict=True)
        ]
    )
    triangle = rows[tree.came_from[piece]].astype(np.int32)
    return Layer(
        obstacle.name, obstacle.kind, obstacle.carried, rho, y, chain, state, triangle, place, own, int(covered)
    )


def _far_apart_first(order: Whole) -> Whole:
    """Every 64th of a neighbour order first, then every 16th left, and so on."""
    position = np.arange(order.size)
    rank = np.where(position % 64 == 0, 0, np.where(position % 16 == 0, 1, np.where(position % 4 == 0, 2, 3)))
    return order[np.argsort(rank, kind="stable")]


def _lines(near: Floats) -> tuple[Whole, Whole]:
    """Bins to keep as corners and the line each belongs to; neighbouring filled bins make one line."""
    filled = np.flatnonzero(np.isfinite(near[:, 0]))
    if filled.size == 0:
        return np.empty(0, np.int32), np.empty(0, np.int32)
    cuts = np.flatnonzero(np.diff(filled) > 1) + 1
    kept, chain = [], []
    for number, run in enumerate(np.split(filled, cuts)):
        line = run
        if run.size == near.shape[0]:  # seen all round: close the line on itself
            line = np.append(run, run[0])
        keep = line[kernels.corners_to_keep(np.ascontiguousarray(near[line, 1:]), SIMPLIFY_MM)]
        kept.append(keep)
        chain.append(np.full(keep.size, number))
    return np.concatenate(kept).astype(np.int32), np.concatenate(chain).astype(np.int32)


def _nothing(obstacle: Obstacle, error_mm: float, covered: int = -1) -> Layer:
    none, whole = np.empty(0), np.empty(0, np.int32)
    return Layer(
        obstacle.name, obstacle.kind, obstacle.carried, none, none, whole, whole, whole, np.empty((0, 3)), error_mm,
        covered,
    )  # fmt: skip
