"""A million triangles and ten thousand states fit into a gibibyte."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

# The peak of a process by `getrusage` begins with the peak of whoever started it (Linux carries it over `exec`), so a test run
# that has grown large would be measured in place of the sweep. The kernel's own mark of the memory map begins anew.
pytestmark = pytest.mark.skipif(
    not Path("/proc/self/status").exists(), reason="the peak of a process's memory is read from Linux's /proc"
)

SCRIPT = """
from pathlib import Path
import numpy as np
from hubwright.engineering.envelope.meridian.build import draw_map, view_for
from hubwright.engineering.envelope.obstacles import Obstacle
from hubwright.engineering.envelope.outline import cylinder_outline
from hubwright.engineering.envelope.poses import Poses
from hubwright.engineering.envelope.sweep import smallest_gap

side = int((TRIANGLES / 2) ** 0.5)
clock, across = np.meshgrid(np.linspace(-1.3, 1.3, side + 1), np.linspace(-200, 200, side + 1), indexing="ij")
arch = np.stack([420 * np.sin(clock), across, 420 * np.cos(clock) - 0.0002 * across**2], axis=-1)
a, b, c, d = arch[:-1, :-1], arch[1:, :-1], arch[1:, 1:], arch[:-1, 1:]
triangles = np.concatenate([np.stack([a, b, c], axis=2), np.stack([a, c, d], axis=2)]).reshape(-1, 3, 3)
bump, lock = np.meshgrid(np.linspace(-60, 60, STATES // 100), np.linspace(-0.6, 0.6, 100))
bump, lock = bump.ravel(), lock.ravel()
poses = Poses(
    np.column_stack([0 * bump, 0 * bump, bump]), np.column_stack([np.sin(lock), np.cos(lock), 0 * lock])
)
wheel = cylinder_outline(300.0, 180.0, 0.0)
arch = Obstacle("arch", "body", triangles)
pinch = smallest_gap(wheel, arch, poses)
drawn = draw_map([arch], poses, view_for(wheel)) if MAP else None
peak = next(line for line in Path("/proc/self/status").read_text().splitlines() if line.startswith("VmHWM:"))
print(pinch.gap_mm, int(peak.split()[1]) // 1024)
"""


def run(triangles: int, states: int, with_map: bool) -> tuple[float, int]:
    root = Path(__file__).resolve().parents[3] / "src"
    head = (
        f"import sys; sys.path.insert(0, {str(root)!r})\nTRIANGLES, STATES, MAP = {triangles}, {states}, {with_map}\n"
    )
    done = subprocess.run([sys.executable, "-c", head + SCRIPT], capture_output=True, text=True, check=True)
    gap, peak = done.stdout.split()
    return float(gap), int(peak)


@pytest.fixture(scope="module", autouse=True)
def _compiled() -> None:
    """Compiling takes memory of its own, once for all later runs: it is not what these tests are about."""
    run(2_000, 200, with_map=True)
    run(2_000, 10_000, with_map=True)


@pytest.mark.slow
def test_a_million_triangles_and_ten_thousand_states_stay_within_a_gibibyte() -> None:
    gap, peak_mib = run(1_000_000, 10_000, with_map=False)
    assert 0.0 < gap < 60.0
    assert peak_mib < 1024


@pytest.mark.slow
def test_ten_times_the_states_take_hardly_more_memory() -> None:
    _, few = run(50_000, 200, with_map=True)
    _, many = run(50_000, 2_000, with_map=True)
    assert many - few < 60
