"""Smallest clearance of a wheel against the sedan body: this package against general-purpose libraries, one run.

    python benchmarks/bench_clearance.py DATA_FOLDER [--states 1000 10000] [--peer-states 200]

Peers answer the same question for the first ``--peer-states`` states (their time per state does not depend on the
count) and must agree with ours within the stated error: python-fcl (cylinder against BVH, distance), a plain NumPy
sweep over vertices and dense samples of each triangle, and embreex with trimesh (rays from the cylinder outwards,
which bound the gap from above only). Single-core figures are CPU time with one thread; the machine may be shared.
"""

from __future__ import annotations

import argparse
import os
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numba
import numpy as np

sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[1] / "src")]

from tests.engineering.envelope import sedan  # noqa: E402

from hubwright.engineering.envelope.culling import triangle_tree  # noqa: E402
from hubwright.engineering.envelope.meridian.build import draw_map, view_for  # noqa: E402
from hubwright.engineering.envelope.meridian.store import save_map  # noqa: E402
from hubwright.engineering.envelope.obstacles import Obstacle  # noqa: E402
from hubwright.engineering.envelope.outline import Outline  # noqa: E402
from hubwright.engineering.envelope.poses import Poses  # noqa: E402
from hubwright.engineering.envelope.query import ReadyMap, many_gaps, package_set  # noqa: E402
from hubwright.engineering.envelope.sweep import gap_at_every_state, smallest_gap  # noqa: E402

REPEATS = 5
Floats = np.ndarray[Any, np.dtype[np.float64]]


def timed(work: Callable[[], Any], repeats: int = REPEATS) -> tuple[float, float, Any]:
    """Median CPU and wall seconds after one warm-up, and the answer."""
    answer = work()
    cpu, wall = [], []
    for _ in range(repeats):
        c, w = time.process_time(), time.perf_counter()
        answer = work()
        cpu.append(time.process_time() - c)
        wall.append(time.perf_counter() - w)
    return statistics.median(cpu), statistics.median(wall), answer


def square(state_count: int) -> tuple[Floats, Floats]:
    side = round(state_count**0.5)
    return sedan.grid(side, state_count // side)


def fcl_gaps(triangles: Floats, poses: Poses, radius: float, width: float) -> tuple[float, Floats]:
    import fcl  # noqa: PLC0415 - peers are optional

    model = fcl.BVHModel()
    corners = triangles.reshape(-1, 3)
    model.beginModel(len(triangles), len(corners))
    model.addSubModel(corners, np.arange(len(corners)).reshape(-1, 3))
    model.endModel()
    body = fcl.CollisionObject(model, fcl.Transform())
    turns = []
    for axis in poses.axis:  # a cylinder of the library runs along z
        side = np.cross([1.0, 0.0, 0.0], axis)
        side /= np.linalg.norm(side)
        turns.append(np.column_stack([np.cross(side, axis), side, axis]))
    gaps = np.empty(len(poses))
    start = time.process_time()
    for k in range(len(poses)):
        wheel = fcl.CollisionObject(fcl.Cylinder(radius, width), fcl.Transform(turns[k], poses.origin_mm[k]))
        gaps[k] = fcl.distance(body, wheel, fcl.DistanceRequest(), fcl.DistanceResult())
    return time.process_time() - start, gaps


def cylinder_gap(points: Floats, origin: Floats, axis: Floats, radius: float, width: float) -> float:
    p = points - origin
    y = p @ axis
    rho = np.sqrt(np.maximum(0.0, np.einsum("ij,ij->i", p, p) - y * y))
    a, b = rho - radius, np.abs(y) - width / 2
    return float((np.hypot(np.maximum(a, 0), np.maximum(b, 0)) + np.minimum(0, np.maximum(a, b))).min())


def numpy_gaps(points: Floats, poses: Poses, radius: float, width: float) -> tuple[float, Floats]:
    start = time.process_time()
    gaps = [cylinder_gap(points, o, a, radius, width) for o, a in zip(poses.origin_mm, poses.axis, strict=True)]
    return time.process_time() - start, np.array(gaps)


def samples_of(triangles: Floats, spacing_mm: float) -> Floats:
    """Corners of pieces no wider than the spacing: the true gap lies at most that much below theirs."""
    return np.unique(triangle_tree(triangles, 0.5 * spacing_mm).triangles_mm.reshape(-1, 3).round(6), axis=0)


def embree_gaps(triangles: Floats, poses: Poses, radius: float, width: float) -> tuple[float, Floats]:
    """Rays from the tread and both flanks, square to them; the shortest is an upper bound of the gap."""
    from embreex import rtcore_scene  # noqa: PLC0415
    from embreex.mesh_construction import TriangleMesh  # noqa: PLC0415

    scene = rtcore_scene.EmbreeScene()
    TriangleMesh(scene, triangles.reshape(-1, 3).astype(np.float32), np.arange(triangles.size // 3).reshape(-1, 3))
    clock, across = np.meshgrid(np.linspace(0, 2 * np.pi, 360, endpoint=False), np.linspace(-0.5, 0.5, 25))
    clock, across = clock.ravel(), across.ravel() * width
    gaps = np.empty(len(poses))
    start = time.process_time()
    for k in range(len(poses)):
        axis = poses.axis[k]
        u = np.cross([0.0, 0.0, 1.0], axis)
        u /= np.linalg.norm(u)
        v = np.cross(axis, u)
        out = np.cos(clock)[:, None] * u + np.sin(clock)[:, None] * v
        begin = poses.origin_mm[k] + radius * out + across[:, None] * axis
        hit = scene.run(begin.astype(np.float32), out.astype(np.float32), query="DISTANCE")
        gaps[k] = float(hit.min())
    return time.process_time() - start, gaps


def rounded(radius: float, width: float) -> Outline:
    a = np.linspace(0, 2 * np.pi, 120, endpoint=False)
    rho = np.sign(np.cos(a)) * np.abs(np.cos(a)) ** 0.4
    y = np.sign(np.sin(a)) * np.abs(np.sin(a)) ** 0.4
    return Outline(200.0 + (radius - 200.0) * rho, 0.5 * width * y)


def roofs() -> tuple[float, float]:
    """What one core reaches now: Gflop/s of a matrix product (double precision) and GB/s of a copy (read and write)."""
    a, b = np.random.default_rng(0).normal(size=(700, 700)), np.zeros(16_000_000)
    c = np.ones_like(b)
    product = min(timed(lambda: a @ a, 1)[0] for _ in range(5))
    copy = min(timed(lambda: np.copyto(c, b), 1)[0] for _ in range(5))
    return 2 * 700**3 / product / 1e9, 2 * b.nbytes / copy / 1e9


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    beside = Path(__file__).resolve().parents[2] / "shared" / "data"
    asked.add_argument("data", type=Path, nargs="?", default=beside, help="default: the shared data beside the project")
    asked.add_argument("--states", type=int, nargs="+", default=[1000, 10000])
    asked.add_argument("--peer-states", type=int, default=200)
    given = asked.parse_args()
    if not (given.data / "meshes" / "sedan_body.obj").exists():
        print("left out: meshes/sedan_body.obj is not in the data folder")
        return
    triangles = sedan.body_triangles(given.data / "meshes/sedan_body.obj")
    obstacle = Obstacle("body", "body", triangles)
    radius, width = sedan.RADIUS_MM, sedan.WIDTH_MM - 70.0  # narrow enough to stay clear, as the peers need
    wheel = Outline(np.array([0, radius, radius, 0.0]), np.array([-1, -1, 1, 1.0]) * width / 2).slid(-40.0)
    print(f"{len(triangles)} triangles ({len(obstacle.tree.triangles_mm)} pieces), {os.cpu_count()} cores, "
          f"load {os.getloadavg()[0]:.1f}")  # fmt: skip
    for count in given.states:
        poses = sedan.solve_poses(given.data / "kinematics/hardpoints.json", *square(count))
        compare(obstacle, wheel, poses, radius, width, given.peer_states)
    map_figures(obstacle, poses)


def compare(obstacle: Obstacle, wheel: Outline, poses: Poses, radius: float, width: float, peer_states: int) -> None:
    n = len(poses)
    numba.set_num_threads(1)
    cpu_all, _, pinch = timed(lambda: smallest_gap(wheel, obstacle, poses))
    cpu_each, _, swept = timed(lambda: gap_at_every_state(wheel, obstacle, poses))
    numba.set_num_threads(os.cpu_count() or 1)
    _, wall_all, _ = timed(lambda: smallest_gap(wheel, obstacle, poses))
    _, wall_each, _ = timed(lambda: gap_at_every_state(wheel, obstacle, poses))
    print(f"\n{n} states; smallest {pinch.gap_mm:.4f} mm, stated error {pinch.error_mm} mm, state {pinch.state}")
    print(f"  ours, smallest over all : {1e6 * cpu_all / n:9.3f} us/state one core; {1e3 * wall_all:8.2f} ms all cores")
    print(
        f"  ours, every state       : {1e6 * cpu_each / n:9.3f} us/state one core; {1e3 * wall_each:8.2f} ms all cores"
    )
    bounds, measured, _ = swept.work
    flops = 40.0 * bounds + 1500.0 * measured  # counted by hand from the kernels, about
    print(
        f"  per state {bounds / n:.0f} planes tried, {measured / n:.1f} triangles measured exactly; about "
        f"{flops / cpu_each / 1e9:.2f} Gflop/s against {roofs()[0]:.1f} of a matrix product"
    )
    some = np.linspace(0, n - 1, min(n, peer_states)).astype(int)
    part = Poses(poses.origin_mm[some] - 40.0 * poses.axis[some], poses.axis[some])
    ours = swept.gap_mm[some]
    dense = samples_of(obstacle.triangles_mm, 4.0)
    for name, (seconds, gaps) in {
        "python-fcl": fcl_gaps(obstacle.triangles_mm, part, radius, width),
        "NumPy, vertices only": numpy_gaps(obstacle.triangles_mm.reshape(-1, 3), part, radius, width),
        "NumPy, samples <= 4 mm": numpy_gaps(dense, part, radius, width),
        "embreex, 9000 rays": embree_gaps(obstacle.triangles_mm, part, radius, width),
    }.items():
        each = seconds / len(part)
        off = gaps - ours
        print(
            f"  {name:24s}: {1e6 * each:11.1f} us/state; ratio {each / (cpu_all / n):9.1f} (smallest), "
            f"{each / (cpu_each / n):8.1f} (every); theirs - ours {off.min():+.4f} .. {off.max():+.4f} mm"
        )


def map_figures(obstacle: Obstacle, poses: Poses) -> None:
    view = view_for(Outline(np.array([0, 330, 330, 0.0]), np.array([-120, -120, 120, 120.0])))
    _, wall, drawn = timed(lambda: draw_map([obstacle], poses, view), 1)
    ready = ReadyMap(drawn)
    path = Path("bench_map.npz")
    save_map(drawn, path)
    print(f"\nmap of {len(poses)} states: {wall:.2f} s, {path.stat().st_size / 1e3:.1f} kB, "
          f"{drawn.layers[0].rho_mm.size} corners, error {drawn.layers[0].error_mm:.3f} mm")  # fmt: skip
    path.unlink()
    rng = np.random.default_rng(0)
    count = 20_000
    shapes = [rounded(r, w) for r, w in zip(rng.uniform(280, 318, count), rng.uniform(150, 230, count), strict=True)]
    _, wall, packages = timed(lambda: package_set(shapes), 1)
    print(f"  {count} different 120-corner outlines made ready once in {wall:.2f} s")
    disc = rng.uniform(-25, 5, count)
    each, few = np.arange(count, dtype=np.int32), np.sort(rng.integers(0, 100, count)).astype(np.int32)
    for name, which in (("all outlines different", each), ("100 outlines, many discs", few)):
        for cap in (np.inf, 15.0):
            ask = lambda which=which, cap=cap: many_gaps(ready, packages, which, disc, cap_mm=cap)  # noqa: E731
            numba.set_num_threads(1)
            cpu, _, _ = timed(ask, 9)
            numba.set_num_threads(os.cpu_count() or 1)
            _, wall, gaps = timed(ask, 9)
            print(f"  {name}, gaps up to {cap} mm: {count / cpu:.3g}/s one core, {count / wall:.3g}/s all cores; "
                  f"{np.mean(gaps < 0):.1%} touch, median gap {np.median(gaps):.1f} mm")  # fmt: skip
            if name.startswith("all") and cap == np.inf:
                points = packages.rho_mm.size / count
                flop, byte = roofs()
                print(f"    {points:.0f} points a package: about {90 * points * count / cpu / 1e9:.1f} Gflop/s of {flop:.1f} "
                      f"(matrix product), {32 * points * count / cpu / 1e9:.1f} GB/s of {byte:.1f} (copy)")  # fmt: skip


if __name__ == "__main__":
    main()
