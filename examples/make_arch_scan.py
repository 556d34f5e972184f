"""Make the invented arch scans of the demo job `roadster-front-scan.toml`: ``python examples/make_arch_scan.py``.

A liner, an arch lip and a bumper corner drawn by plain formulas round the parked wheel centre, with a little waviness.
The left one lies in the car's axes, in mm. The right one lies as a hand-held scanner would have left it: turned,
shifted, in metres; the script prints the places to pick. Nothing in them is measured or copied.
"""

from __future__ import annotations

import math
import struct
import sys
from pathlib import Path

import numpy as np

WHEEL = np.array([0.0, 760.0, 312.0])
FACE_OUT = 45.0
CLOCKS = np.radians(np.linspace(-114.0, 104.0, 61))
ACROSS = np.array(
    [520, 560, 600, 640, 680, 720, 760, 800, 830, 850, 865, 878, 888, 896, 902, 904, 906, 908, 909], float
)


def radius(clock: float, y: float, corner_mm: float) -> float:
    """Distance from the wheel centre in side view, by clock angle (0 up, positive to the rear) and place across."""
    liner = 367.3 + 72.0 * max(math.cos(clock), 0.0) ** 1.2
    lip_y, lip = 902.0, 352.0 + 22.0 * math.cos(clock) ** 2
    if y <= 865.0:
        r = liner
    elif y <= lip_y:
        share = (y - 865.0) / (lip_y - 865.0)
        r = liner + (lip - liner) * share**2
    else:
        r = lip + (y - lip_y) * 11.0
    ahead = math.exp(-(((math.degrees(clock) + 92.0) / 14.0) ** 2))
    outer = 1.0 / (1.0 + math.exp(-(y - 838.0) / 9.0))
    return r - corner_mm * ahead * outer if y <= lip_y else r


def surface(corner_mm: float, seed: int) -> tuple[np.ndarray, np.ndarray]:
    """Vertices (v, 3) in the axes of a left corner and triangles (k, 3)."""
    chance = np.random.default_rng(seed)
    rows = []
    for clock in CLOCKS:
        for y in ACROSS:
            r = radius(float(clock), float(y), corner_mm) + float(chance.normal(0.0, 0.15))
            rows.append([WHEEL[0] - r * math.sin(clock), y, WHEEL[2] + r * math.cos(clock)])
    wide = len(ACROSS)
    faces = []
    for i in range(len(CLOCKS) - 1):
        for j in range(wide - 1):
            a, b = i * wide + j, (i + 1) * wide + j
            faces += [[a, b, b + 1], [a, b + 1, a + 1]]
    return np.array(rows), np.array(faces)


def write(path: Path, vertices: np.ndarray, faces: np.ndarray) -> None:
    """A binary PLY file (G. Turk 1994)."""
    head = (
        "ply\nformat binary_little_endian 1.0\ncomment invented demo arch, no real car\n"
        f"element vertex {len(vertices)}\nproperty float x\nproperty float y\nproperty float z\n"
        f"element face {len(faces)}\nproperty list uchar int vertex_indices\nend_header\n"
    )
    body = vertices.astype("<f4").tobytes() + b"".join(struct.pack("<B3i", 3, *face) for face in faces)
    path.write_bytes(head.encode() + body)


def main() -> None:
    """Both files beside this script."""
    folder = Path(__file__).parent
    left, faces = surface(34.0, 1)
    write(folder / "roadster-arch-left.ply", left, faces)
    right, faces = surface(31.0, 2)
    turn = _turned(math.radians(28.0), math.radians(-9.0))
    shift = np.array([2100.0, -340.0, 880.0])

    def scanner(points: np.ndarray) -> np.ndarray:
        return (points * np.array([1.0, -1.0, 1.0]) @ turn.T + shift) / 1000.0

    write(folder / "roadster-arch-right.ply", scanner(right), faces)
    camber = math.radians(-1.0)
    axis, up = np.array([0.0, math.cos(camber), -math.sin(camber)]), np.array([0.0, math.sin(camber), math.cos(camber)])
    hub = WHEEL + FACE_OUT * axis
    ahead = np.array([1.0, 0.0, 0.0])
    plane = [hub + 60.0 * (math.cos(a) * ahead + math.sin(a) * up) for a in np.radians([0.0, 120.0, 240.0])]
    for name, points in (("hub_centre", [hub]), ("hub_plane", plane)):
        sys.stdout.write(f"{name} {np.round(scanner(np.array(points)), 5).tolist()}\n")
    sys.stdout.write(f"forward {np.round(turn @ ahead, 5).tolist()}\n")


def _turned(about_z: float, about_x: float) -> np.ndarray:
    c, s = math.cos(about_z), math.sin(about_z)
    k, m = math.cos(about_x), math.sin(about_x)
    return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]]) @ np.array(
        [[1.0, 0.0, 0.0], [0.0, k, -m], [0.0, m, k]]
    )


if __name__ == "__main__":
    main()
