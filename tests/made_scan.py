"""An invented scan of an arch with its bare hub, as a hand-held scanner leaves it: turned, shifted, in metres, with strays.

The arch is that of the demo roadster (`examples/make_arch_scan.py`), so that where it belongs is known to the micrometre.
"""

from __future__ import annotations

import importlib.util
import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
Floats = np.ndarray[Any, np.dtype[np.float64]]
FACE_RADIUS_MM, SPIGOT_RADIUS_MM, SPIGOT_MM = 72.0, 32.5, 12.0
TURN_DEG, TILT_DEG = 143.0, 31.0
SHIFT_MM = np.array([1900.0, -2750.0, 640.0])


@cache
def maker() -> Any:
    """The script that makes the scans of the demo car."""
    spec = importlib.util.spec_from_file_location("make_arch_scan", EXAMPLES / "make_arch_scan.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@dataclass(frozen=True, eq=False)
class Made:
    """A scan and the truth about it; every place in the file's own axes, in metres.

    Attributes:
        arch_mm: Vertices of the arch in vehicle axes: where they belong.
        vertices: Of the file: arch, then hub face, then spigot.
        faces: Triangles.
        face: Places on the hub face, all round.
        spigot: Places on the end of the spigot's edge, all round; they lie outside the hub face.
        rear, front: Both ends of a level line along the car, on the arch lip.
        centre, forward, normal: The truth.
    """

    arch_mm: Floats
    vertices: Floats
    faces: np.ndarray[Any, np.dtype[np.int64]]
    face: Floats
    spigot: Floats
    rear: Floats
    front: Floats
    centre: Floats
    forward: Floats
    normal: Floats


@cache
def made(side: str = "left") -> Made:
    """The scan of one front wheel."""
    script = maker()
    arch, faces = script.surface(34.0 if side == "left" else 31.0, 1 if side == "left" else 2)
    camber = math.radians(-1.0)
    axis = np.array([0.0, math.cos(camber), -math.sin(camber)])
    up = np.array([0.0, math.sin(camber), math.cos(camber)])
    hub, ahead = script.WHEEL + script.FACE_OUT * axis, np.array([1.0, 0.0, 0.0])
    angles = np.linspace(0.0, 2.0 * math.pi, 24, endpoint=False)
    ring = np.cos(angles)[:, None] * ahead + np.sin(angles)[:, None] * up
    rings = [hub + radius * ring + depth * axis for radius, depth in
             ((FACE_RADIUS_MM, 0.0), (55.0, 0.0), (SPIGOT_RADIUS_MM, 0.0), (SPIGOT_RADIUS_MM, SPIGOT_MM))]  # fmt: skip
    strip = [[len(arch) + k * 24 + i, len(arch) + (k + 1) * 24 + i, len(arch) + (k + 1) * 24 + (i + 1) % 24]
             for k in range(3) for i in range(24)]  # fmt: skip
    strip += [[len(arch) + k * 24 + i, len(arch) + (k + 1) * 24 + (i + 1) % 24, len(arch) + k * 24 + (i + 1) % 24]
              for k in range(3) for i in range(24)]  # fmt: skip
    turn = script._turned(math.radians(TURN_DEG), math.radians(TILT_DEG))
    mirror = np.array([1.0, 1.0 if side == "left" else -1.0, 1.0])

    def scanner(places: Floats) -> Floats:
        return (places * mirror @ turn.T + SHIFT_MM) / 1000.0

    lip = arch.reshape(len(script.CLOCKS), len(script.ACROSS), 3)[:, -1]
    level = lip[np.abs(lip[:, 2] - script.WHEEL[2] - 150.0).argsort()]
    rear = level[level[:, 0] < 0][0]
    front = level[level[:, 0] > 0][0] * np.array([1.0, 1.0, 0.0]) + np.array([0.0, 0.0, rear[2]])
    return Made(
        arch * mirror, scanner(np.concatenate([arch, *rings])), np.concatenate([faces, np.array(strip)]), scanner(rings[1]),
        scanner(rings[3]), scanner(rear), scanner(front), scanner(hub), turn @ ahead, turn @ (axis * mirror),
    )  # fmt: skip


def write_mesh(path: Path, side: str = "left") -> Path:
    """The scan as a binary PLY mesh."""
    one = made(side)
    maker().write(path, one.vertices, one.faces)
    return path


def cloud(side: str = "left", strays: int = 20, noise_mm: float = 0.3) -> Floats:
    """The same as points in metres, with noise and some strays far off: (n + strays, 3), the strays last."""
    one, chance = made(side), np.random.default_rng(7)
    corners = one.vertices[one.faces]
    weights = chance.dirichlet((1.0, 1.0, 1.0), (len(one.faces), 6))
    places = np.einsum("fkc,fcx->fkx", weights, corners).reshape(-1, 3)
    places = places + chance.normal(0.0, noise_mm / 1000.0, places.shape)
    off = places[chance.integers(0, len(places), strays)] + chance.choice((-1.0, 1.0), (strays, 3)) * 0.06
    return np.concatenate([places, off])


def text(place: Floats) -> str:
    """A place as it is typed."""
    return "; ".join(f"{value:.6f}" for value in place)
