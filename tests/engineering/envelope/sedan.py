"""The sedan of the shared data: body mesh near the left front wheel, and hub poses by a plain Newton solution."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

from hubwright.engineering.envelope.outline import Outline, cylinder_outline
from hubwright.engineering.envelope.poses import Poses

RADIUS_MM, WIDTH_MM = 326.6, 245.0
SHIFT_MM = np.array([1388.0, 0.0, 250.0])
Floats = np.ndarray[Any, np.dtype[np.float64]]


def tyre(thickness_mm: float = 0.0) -> Outline:
    """The reference tyre; the hub face is taken at the wheel centre."""
    return cylinder_outline(RADIUS_MM, WIDTH_MM, thickness_mm)


def body_triangles(path: Path) -> Floats:
    """Triangles (k,3,3) mm within 700 mm of the wheel centre in side view and reaching y > 350 mm."""
    vertices, faces = [], []
    for line in path.read_text().splitlines():
        if line.startswith("v "):
            vertices.append([float(part) for part in line.split()[1:4]])
        elif line.startswith("f "):
            corners = [int(part.split("/")[0]) - 1 for part in line.split()[1:]]
            faces.extend([corners[0], corners[i], corners[i + 1]] for i in range(1, len(corners) - 1))
    triangles = 1000.0 * np.array(vertices)[np.array(faces)]
    centre = np.array([1388.0, 797.9, 250.0 - 119.9])
    away = np.hypot(triangles[:, :, 0] - centre[0], triangles[:, :, 2] - centre[2]).min(axis=1)
    return triangles[(away <= 700.0) & (triangles[:, :, 1].max(axis=1) > 350.0)]


def _turned(vector: Floats, points: Floats) -> Floats:
    angle = float(np.linalg.norm(vector))
    if angle == 0.0:
        return points
    k = vector / angle
    c, s = np.cos(angle), np.sin(angle)
    return points * c + np.cross(k, points) * s + np.outer(points @ k, k) * (1 - c)


def solve_poses(path: Path, bump_mm: Floats, rack_mm: Floats) -> Poses:
    """Hub poses of dw_sedan over pairs (bump, rack), by Newton on the five rods and the wheel centre height."""
    p = {k: 1000.0 * np.array(v) for k, v in json.loads(path.read_text())["sets"]["dw_sedan"].items() if k != "type"}
    inner = np.array([p["UF"], p["UB"], p["LF"], p["LB"], p["TI"]])
    outer = np.array([p["UO"], p["UO"], p["LO"], p["LO"], p["TO"]])
    length2 = ((outer - inner) ** 2).sum(axis=1)
    centre = p["W"]

    def residual(q: Floats, bump: float, rack: float) -> Floats:
        moved = _turned(q[3:], outer - centre) + centre + q[:3]
        base = inner + np.array([0, 0, 0, 0, 1.0])[:, None] * np.array([0.0, rack, 0.0])
        return np.append((((moved - base) ** 2).sum(axis=1) - length2) / 500.0, q[2] - bump)

    origins, axes = [], []
    q = np.zeros(6)
    at = np.zeros(2)
    for bump, rack in zip(bump_mm, rack_mm, strict=True):
        goal = np.array([bump, rack], float)
        steps = max(1, int(np.ceil(np.abs(goal - at).max() / 15.0)))
        for k in range(1, steps + 1):
            mid = at + (goal - at) * k / steps
            for _ in range(30):
                f = residual(q, *mid)
                jac = np.column_stack([(residual(q + dq, *mid) - f) / 1e-6 for dq in 1e-6 * np.eye(6)])
                step = np.linalg.solve(jac, -f)
                q = q + step
                if np.abs(step).max() < 1e-9:
                    break
        at = goal
        origins.append(centre + q[:3] + SHIFT_MM)
        axes.append(_turned(q[3:], np.array([[0.0, 1.0, 0.0]]))[0])
    return Poses(np.array(origins), np.array(axes))


def grid(travel: int, steering: int) -> tuple[Floats, Floats]:
    """Pairs (bump, rack) over +-80 mm and +-81.2 mm, in snake order so that the solution walks."""
    bump, rack = np.linspace(-50, 80, travel), np.linspace(-81.2, 81.2, steering)
    pairs = [(b, r) for i, b in enumerate(bump) for r in (rack if i % 2 == 0 else rack[::-1])]
    return np.array([b for b, _ in pairs]), np.array([r for _, r in pairs])


Shared = Callable[[str], Path]
