"""Scans come in through one door, are laid onto the hub, and lose their outliers by a stated rule."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from tests.engineering.envelope import sedan

from hubwright.engineering.envelope.alignment import align, find_outliers
from hubwright.engineering.envelope.obstacles import Obstacle, points
from hubwright.engineering.envelope.scan import read_scan
from hubwright.engineering.envelope.sweep import smallest_gap
from hubwright.errors import BadInput


@pytest.mark.parametrize("suffix", ["ply", "obj", "stl", "glb", "gltf"])
def test_a_mesh_reads_the_same_from_every_format(tmp_path: Path, suffix: str) -> None:
    trimesh = pytest.importorskip("trimesh")
    box = trimesh.creation.box((1.0, 2.0, 3.0))
    path = tmp_path / f"box.{suffix}"
    if suffix == "gltf":
        for name, data in trimesh.exchange.gltf.export_gltf(trimesh.Scene(box)).items():
            (tmp_path / ("box.gltf" if name.endswith(".gltf") else name)).write_bytes(data)
    else:
        box.export(path)
    triangles = read_scan(path, unit_mm=1000.0)
    assert triangles.shape == (12, 3, 3)
    assert np.sort(np.ptp(triangles.reshape(-1, 3), axis=0)) == pytest.approx([1000.0, 2000.0, 3000.0], rel=1e-6)


def test_a_cloud_of_points_reads_as_points(tmp_path: Path) -> None:
    trimesh = pytest.importorskip("trimesh")
    cloud = np.random.default_rng(0).normal(size=(40, 3))
    trimesh.PointCloud(cloud).export(tmp_path / "cloud.ply")
    assert read_scan(tmp_path / "cloud.ply", 1.0) == pytest.approx(points(cloud), rel=1e-6, abs=1e-6)


def test_a_mesh_with_places_on_pictures_that_are_not_there_reads_as_its_bare_shape(tmp_path: Path) -> None:
    lines = [
        "mtllib gone.mtl",
        *(f"o part{n}\nv {n} 0 0\nv {n} 1 0\nv {n} 0 1\nvt 0 0\nvt 1 0\nvt 0 1" for n in (0, 1)),
    ]
    lines += [
        f"usemtl paint{n}\nf {3 * n + 1}/{3 * n + 1} {3 * n + 2}/{3 * n + 2} {3 * n + 3}/{3 * n + 3}" for n in (0, 1)
    ]
    (tmp_path / "body.obj").write_text("\n".join(lines))
    assert read_scan(tmp_path / "body.obj", 1.0).shape == (2, 3, 3)


@pytest.mark.parametrize(("name", "text"), [("a.txt", "file name"), ("a.ply", "readable")])
def test_what_is_no_scan_is_refused(tmp_path: Path, name: str, text: str) -> None:
    (tmp_path / name).write_text("nothing of use")
    with pytest.raises(BadInput, match=text):
        read_scan(tmp_path / name, 1.0)


def test_alignment_undoes_any_turn_and_shift() -> None:
    rng = np.random.default_rng(5)
    turn, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    turn *= np.sign(np.linalg.det(turn))
    shift = np.array([120.0, -40.0, 900.0])
    hub = rng.normal(scale=200.0, size=(50, 3))
    face = np.column_stack([rng.normal(size=9) * 80, np.zeros(9), rng.normal(size=9) * 80])
    scan = hub @ turn + shift
    laid = align(shift, face @ turn + shift, np.array([0.1, 1, 0.2]) @ turn, np.array([1.0, 0.3, 0.0]) @ turn)
    assert laid.apply(scan) == pytest.approx(hub, abs=1e-9)


def test_points_in_line_make_no_plane() -> None:
    with pytest.raises(BadInput, match="in line"):
        align(np.zeros(3), np.outer(np.arange(4.0), [1.0, 2.0, 3.0]), np.array([0.0, 1, 0]), np.array([1.0, 0, 0]))


def test_outliers_are_counted_and_the_rule_is_stated() -> None:
    rng = np.random.default_rng(2)
    grid = np.stack(np.meshgrid(np.arange(40) * 5.0, np.arange(40) * 5.0), axis=-1).reshape(-1, 2)
    cloud = np.column_stack([grid, rng.normal(scale=0.3, size=1600)])
    cloud[20::200, 2] += 25.0
    cleaned = find_outliers(cloud)
    assert not cleaned.kept[20::200].any()
    assert 8 <= cleaned.removed_count <= 20
    assert cleaned.noise_mm == pytest.approx(0.3, abs=0.06)
    assert "median distance" in cleaned.rule


def test_the_synthetic_scan_gives_the_answer_of_the_mesh_within_its_noise(shared: sedan.Shared) -> None:
    scan = np.loadtxt(shared("clearance/arch_scan_synthetic.csv"), delimiter=",", skiprows=1)
    cleaned = find_outliers(scan)
    arch = Obstacle("arch", "body", points(scan[cleaned.kept]), doubt_mm=cleaned.noise_mm)
    body = Obstacle("body", "body", sedan.body_triangles(shared("meshes/sedan_body.obj")))
    hard_points = shared("kinematics/hardpoints.json")
    assert 0.3 < cleaned.noise_mm < 0.7  # made with 0.4 mm
    for bump, rack in ((0.0, 0.0), (50.0, 0.0), (0.0, 81.2), (50.0, 81.2)):
        poses = sedan.solve_poses(hard_points, np.array([bump]), np.array([rack]))
        from_scan, from_mesh = (smallest_gap(sedan.tyre(), thing, poses) for thing in (arch, body))
        assert from_scan is not None
        assert from_mesh is not None
        assert from_scan.gap_mm == pytest.approx(from_mesh.gap_mm, abs=3.0 * cleaned.noise_mm)
        assert from_scan.error_mm >= cleaned.noise_mm
