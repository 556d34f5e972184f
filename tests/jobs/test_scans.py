"""Scans and hard points at the door of the job file."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

import hubwright
from hubwright.errors import BadInput
from hubwright.jobs.plain_ply import read_plain_ply
from hubwright.jobs.scans import read_shape

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
HEAD = 'hubwright_job = 1\ntitle = "t"\nrequest = { use = "street" }\n'


def faults(text: str, folder: Path) -> tuple[str, ...]:
    with pytest.raises(BadInput) as caught:
        hubwright.parse(HEAD + text, folder=folder)
    return tuple(str(fault) for fault in caught.value.faults)


def test_a_scan_that_is_not_there_is_a_fault_with_field_and_line(tmp_path: Path) -> None:
    text = '[[front.left.scan]]\nname = "arch"\nfile = "arch.ply"\nunit = "mm"\n'
    (found,) = faults(text, tmp_path)
    assert found.startswith(
        "line 6, front.left.scan[1].file: wanted a scan file beside the job file; given no file arch.ply"
    )


def test_a_scan_that_cannot_be_read_is_a_fault_with_field_and_line(tmp_path: Path) -> None:
    (tmp_path / "arch.obj").write_bytes(b"\x00\x01 nothing of the kind")
    text = '[[front.left.scan]]\nname = "arch"\nfile = "arch.obj"\nunit = "mm"\n'
    (found,) = faults(text, tmp_path)
    assert found.startswith("line 6, front.left.scan[1].file")


def test_a_huge_scan_is_refused_before_it_is_read(tmp_path: Path) -> None:
    with (tmp_path / "arch.ply").open("wb") as file:
        file.truncate(300 * 1024**2)
    text = '[[front.left.scan]]\nname = "arch"\nfile = "arch.ply"\nunit = "mm"\n'
    (found,) = faults(text, tmp_path)
    assert "at most 200 MiB; given 300 MiB" in found


def test_a_job_that_does_not_lie_in_a_folder_is_read_without_its_scan_and_asks_for_it() -> None:
    job = hubwright.parse(HEAD + '[[front.left.scan]]\nname = "a"\nfile = "a.ply"\nunit = "mm"\n')
    assert [question.about for question in hubwright.assess(job).questions] == ["scan not at hand"]


def test_picks_come_together_or_not_at_all(tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("x_mm,y_mm,z_mm\n1,2,3\n")
    text = '[[front.left.scan]]\nname = "a"\nfile = "a.csv"\nunit = "mm"\nhub_centre = [0, 0, 0]\n'
    (found,) = faults(text, tmp_path)
    assert "hub_plane" in found


def test_missing_hard_points_are_named_and_a_wheel_on_the_wrong_side_is_noticed(tmp_path: Path) -> None:
    text = '[front.hardpoints]\nkind = "strut"\n[front.hardpoints.left]\nwheel_centre_mm = [0, -700, 300]\nloaded_radius_mm = 300\n'
    found = faults(text, tmp_path)
    assert any("front.hardpoints.left.strut_top_mm" in fault for fault in found)
    assert any("Y above 0 for a left wheel" in fault for fault in found)


def test_the_plain_reader_and_the_mesh_library_read_the_same_triangles() -> None:
    import trimesh

    path = EXAMPLES / "roadster-arch-left.ply"
    found = read_plain_ply(path.read_bytes())
    assert found is not None
    loaded = trimesh.load(path, process=False)
    assert np.array_equal(found[0], loaded.vertices)
    assert np.array_equal(found[1], loaded.faces)
    assert len(read_shape(path, 1.0).triangles_mm) == len(loaded.faces)


def test_a_file_of_points_is_known_as_such(tmp_path: Path) -> None:
    (tmp_path / "p.ply").write_text(
        "ply\nformat ascii 1.0\nelement vertex 2\nproperty float x\nproperty float y\nproperty float z\nend_header\n0 0 1\n0 2 1\n"
    )
    shape = read_shape(tmp_path / "p.ply", 1000.0)
    assert shape.is_points
    assert shape.triangles_mm[1, 0].tolist() == [0.0, 2000.0, 1000.0]
