"""Outlines per second, and the same curve by SciPy's general tools, package by package, in one run.

    PYTHONPATH=src python benchmarks/bench_outlines.py [packages]

The SciPy way integrates the membrane along its arc with solve_ivp and closes the two conditions with root and brentq;
it gets the half width of the ply at every whole millimetre of radius below the belt edge. The two are compared before
they are timed.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, root

from hubwright.engineering.tyrewheel import kernels
from hubwright.engineering.tyrewheel.batch import outline_table, package_row
from hubwright.engineering.tyrewheel.from_sizes import design_of, rim_of, tyre_of
from hubwright.engineering.tyrewheel.sidewall import Carcass, mount
from hubwright.parts.rim_size import RimSize
from hubwright.parts.tyre_size import read_tyre_size

Floats = NDArray[np.float64]
SIZES = ("185/65R14", "195/65R15", "205/55R16", "225/45R17", "235/40R18", "245/35R19")
RADII_MM = np.arange(190.0, 340.0, 1.0)
RUNS = 7
SCIPY_PACKAGES = 6


def catalogue(count: int) -> tuple[Floats, list[tuple[Carcass, float]]]:
    """Packages of ordinary sizes on rims from one code narrower to one code wider than the measuring rim."""
    rows, things = [], []
    for i in range(count):
        size = read_tyre_size(SIZES[i % len(SIZES)])
        measuring_in = design_of(size).measuring_rim_width_mm / 25.4
        rim = rim_of(RimSize("", measuring_in + (i // len(SIZES)) % 5 * 0.5 - 1.0, size.rim_code))
        carcass = tyre_of(size, rim).carcass
        rows.append(package_row(carcass, rim, -45.0))
        things.append((carcass, rim.width_mm))
    return np.array(rows), things


def ply_by_scipy(carcass: Carcass, rim_width_mm: float) -> Floats:
    """Half width of the ply at every whole millimetre between anchor and belt edge, by solve_ivp, root and brentq."""
    rb, re, ye = carcass.bead_radius_mm, carcass.belt_edge_radius_mm, carcass.belt_edge_half_width_mm
    w = carcass.section_width_mm / 2.0 - carcass.build.sidewall_skin_mm

    def run(yb: float, b: float, e: float, length: float | None):
        k = (re**2 - rb**2) / (np.sin(b) - np.sin(e))

        def ahead(_s: float, v: Floats) -> tuple[float, float, float]:
            return np.cos(v[2]), np.sin(v[2]), -2.0 * v[0] / k

        def at_end(_s: float, v: Floats) -> float:
            return v[2] - e

        at_end.terminal = True  # type: ignore[attr-defined]  # how solve_ivp wants it
        return solve_ivp(
            ahead, (0.0, 600.0), (rb, yb, b), events=at_end, rtol=1e-8, atol=1e-8, dense_output=length is not None
        )

    def known(x: Floats) -> tuple[float, float]:
        way = run(carcass.known_rim_width_mm / 2.0, x[0], x[1], 1.0)
        top = brentq(lambda s: way.sol(s)[2], 0.0, way.t[-1])
        return way.y[1, -1] - ye, way.sol(top)[1] - w

    first = root(known, kernels.FIRST_GUESS, tol=1e-9).x
    length = run(carcass.known_rim_width_mm / 2.0, *first, None).t[-1]

    def other(x: Floats) -> tuple[float, float]:
        way = run(rim_width_mm / 2.0, x[0], x[1], None)
        return way.y[1, -1] - ye, way.t[-1] - length

    last = root(other, first, tol=1e-9).x
    way = run(rim_width_mm / 2.0, *last, 1.0)
    radii = np.arange(np.ceil(rb), re - 1.0)
    turn = brentq(lambda s: way.sol(s)[2] + np.pi / 2.0, 0.0, way.t[-1]) if last[1] < -np.pi / 2.0 else way.t[-1]
    start = brentq(lambda s: way.sol(s)[2] - np.pi / 2.0, 0.0, turn) if last[0] > np.pi / 2.0 else 0.0
    r, y, _ = way.sol(np.linspace(start, turn, 500))
    return np.interp(radii, r, y)


def ply_by_kernel(carcass: Carcass, rim_width_mm: float) -> Floats:
    """The same from the product's own curve."""
    tyre = mount(carcass, rim_width_mm)
    r, y = np.ascontiguousarray(tyre.ply[:, 0]), np.ascontiguousarray(tyre.ply[:, 1])
    return kernels.envelope_at(r, y, np.arange(np.ceil(carcass.bead_radius_mm), carcass.belt_edge_radius_mm - 1.0))


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
    sample, things = catalogue(SCIPY_PACKAGES * 5)
    rows = np.tile(sample, (count // len(sample) + 1, 1))[:count]
    outline_table(rows[:10], RADII_MM)
    few = things[::5]
    worst = max(np.nanmax(np.abs(ply_by_scipy(*thing) - ply_by_kernel(*thing))) for thing in few)
    ours, theirs = [], []
    for _ in range(RUNS):
        ours.append(seconds(lambda: outline_table(rows, RADII_MM)) / count)
        theirs.append(seconds(lambda: [ply_by_scipy(*thing) for thing in few]) / len(few))
    each, each_scipy = statistics.median(ours), statistics.median(theirs)
    print(f"largest difference of half width       {worst:.4f} mm")
    print(f"outlines at {RADII_MM.size} radii, one core       {1.0 / each:,.0f} per second (median of {RUNS})")
    print(f"  spread                               {1.0 / max(ours):,.0f} to {1.0 / min(ours):,.0f}")
    print(f"SciPy, package by package              {1.0 / each_scipy:,.1f} per second (median of {RUNS})")
    print(f"ratio                                  {each_scipy / each:,.0f}")


if __name__ == "__main__":
    main()
