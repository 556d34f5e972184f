"""A package against a map is what trying every side against every line gives."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hubwright.engineering.envelope.meridian import Layer, MeridianMap, View
from hubwright.engineering.envelope.outline import Outline
from hubwright.engineering.envelope.outline.kernels import sides_apart
from hubwright.engineering.envelope.query import ReadyMap, contacts, many_gaps, package_set

VIEW = View(220.0, 0.0, 260.0)


def map_of(chains: list[np.ndarray]) -> MeridianMap:
    points = np.concatenate(chains)
    n = len(points)
    chain = np.repeat(np.arange(len(chains)), [len(c) for c in chains])
    none = np.zeros(n, np.int32)
    layer = Layer("body", "body", False, points[:, 0], points[:, 1], chain, none, none, np.zeros((n, 3)), 0.0, -1)
    return MeridianMap(VIEW, (layer,), 1, "")


def every_pair(outline: Outline, chains: list[np.ndarray]) -> float:
    corners = np.column_stack([outline.rho_mm, outline.y_mm])
    best = math.inf
    for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        if a[0] <= 0.0 and b[0] <= 0.0:
            continue
        for chain in chains:
            for c, d in itertools.pairwise(chain) if len(chain) > 1 else [(chain[0], chain[0])]:
                best = min(best, sides_apart(*a, *b, *c, *d)[0])
    return best


@given(seed=st.integers(0, 2**32 - 1))
@settings(max_examples=60, deadline=None)
def test_the_gap_is_that_of_the_nearest_pair_of_side_and_line(seed: int) -> None:
    rng = np.random.default_rng(seed)
    chains = []
    for _ in range(rng.integers(1, 4)):
        angle = np.sort(rng.uniform(-2.0, 2.0, rng.integers(1, 12)))
        away = rng.uniform(60.0, 250.0) * (1.0 + 0.1 * rng.normal(size=angle.size))
        line = np.column_stack([VIEW.rho_mm + away * np.cos(angle), away * np.sin(angle)])
        chains.append(line[np.hypot(line[:, 0] - VIEW.rho_mm, line[:, 1]) < VIEW.reach_mm - 1.0])
    chains = [c for c in chains if len(c)]
    if not chains:
        return
    clock = np.sort(rng.uniform(0.0, 2 * math.pi, rng.integers(12, 140)))
    r, w = rng.uniform(40.0, 100.0), rng.uniform(40.0, 110.0)
    shape = Outline(VIEW.rho_mm + r * np.cos(clock), w * np.sin(clock))
    if np.diff(clock, append=clock[0] + 2 * math.pi).max() > 2.5:
        return  # the view point may lie outside
    disc = float(rng.uniform(-3.0, 3.0))
    ready = ReadyMap(map_of(chains))
    truth = every_pair(shape.slid(disc), chains)
    found = contacts(ready, shape, disc)[0]
    quick = float(many_gaps(ready, package_set([shape]), np.zeros(1, np.int32), np.array([disc]))[0])
    if found.at_edge:
        assert truth >= found.gap_mm
    elif found.gap_mm > 0.0:
        assert found.gap_mm == pytest.approx(truth, abs=1e-9)
    else:
        inside = [len(c) > 0 and shape.slid(disc).signed_distance_mm(c[:, 0], c[:, 1]).min() < 0.0 for c in chains]
        assert truth == 0.0 or any(inside)
    assert quick == pytest.approx(max(0.0, found.gap_mm), abs=1e-9)
