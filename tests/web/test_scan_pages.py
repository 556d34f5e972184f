"""Scans brought in and placed on the page: everything by typing, as it is with scripts off; hostile files are told what is wrong."""

from __future__ import annotations

import html
import json
import re
import struct
import zipfile
from io import BytesIO
from pathlib import Path
from typing import Any

import httpx2 as httpx
import numpy as np
import pytest
from tests import made_scan
from tests.made_scan import made, text
from tests.web.conftest import Page, example, words_of

from hubwright.store.cupboard import Cupboard

HEAD = (
    "ply\nformat binary_little_endian 1.0\nelement vertex {v}\nproperty float x\nproperty float y\nproperty float z\n"
    "element face {f}\nproperty list uchar int vertex_indices\nend_header\n"
)


@pytest.fixture
def job_id(cupboard: Cupboard) -> str:
    """The roadster with its hard points and without any scan."""
    bare = re.sub(
        r"\[\[front\.(left|right)\.scan\]\]\n(?:[^\[\n][^\n]*\n)*", "", example("roadster-front-scan").decode()
    )
    return cupboard.add(bare, "Ann").job_id


@pytest.fixture(scope="session")
def mesh(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The scan of the left wheel as the scanner left it."""
    return made_scan.write_mesh(tmp_path_factory.mktemp("scan") / "left.ply").read_bytes()


def at(job_id: str, side: str = "left", rest: str = "") -> str:
    return f"/jobs/{job_id}/space/front/{side}/scan{rest}"


def bring(page: Page, job_id: str, data: bytes, name: str = "arch.ply", side: str = "left") -> httpx.Response:
    return page.form(at(job_id, side), {"key": ""}, files={"file": (name, data, "application/octet-stream")})


def typed(side: str = "left", **more: Any) -> dict[str, Any]:
    truth = made(side)
    return {
        "name": "arch and hub", "unit": "m", "kind": "body", "region": "outside", "how": "picks", "u_mm": "0,3", "base": "1",
        "plane": [text(truth.face[i]) for i in (0, 11, 5, 17, 14)], "circle": [text(place) for place in truth.spigot[::5]],
        "rear": text(truth.rear), "front": text(truth.front), "axis_free": "150", "do": "keep", "key": "k1", **more,
    }  # fmt: skip


def said(answer: httpx.Response) -> str:
    return html.unescape(words_of(answer))


def test_a_scan_is_brought_its_unit_is_asked_and_it_is_placed_by_typing(
    page: Page, cupboard: Cupboard, job_id: str, mesh: bytes
) -> None:
    assert f'href="{at(job_id)}"' in page.get(f"/jobs/{job_id}/space/front").text
    answer = bring(page, job_id, mesh)
    assert answer.status_code == 303
    shown = page.get(answer.headers["location"])
    assert "In its own unit the scan is 0.87 long. Most likely metres: 872 mm long. Is that right?" in said(shown)
    assert 'value="m" checked' in shown.text
    new = at(job_id, rest="/new?file=arch.ply")
    looked = page.form(new, typed(do="look"))
    assert looked.status_code == 200
    assert "Hub plane: 5 points, the worst 0.00 mm off" in said(looked)
    assert "Circle round the hub: radius 32.5 mm, 5 points" in said(looked)
    assert "Left out by hand: 144 of 2304." in said(looked)
    assert "hw-placed-outside" in looked.text and "hw-placed-behind" in looked.text
    assert cupboard.job(job_id).revision == 1
    kept = page.form(new, typed())
    assert kept.status_code == 303
    assert "Kept as revision 2." in said(page.get(kept.headers["location"]))
    again = page.form(new, typed())
    assert again.headers["location"] == kept.headers["location"]  # a double tap is one entry
    assert cupboard.job(job_id).revision == 2


def test_what_was_kept_lies_in_the_car_to_half_a_millimetre_and_is_undone(
    page: Page, cupboard: Cupboard, job_id: str, mesh: bytes
) -> None:
    bring(page, job_id, mesh)
    page.form(at(job_id, rest="/new?file=arch.ply"), typed())
    (scan,) = page.get(f"/api/v1/jobs/{job_id}/axles/front/left/scans").json()
    assert scan["field"] == "front.left.scan[1]" and scan["at_hand"] and scan["faults"] == []
    placing, truth = scan["placing"], made("left")
    back = 1000.0 * truth.vertices @ np.array(placing["turn_to_vehicle"]).T + np.array(placing["shift_to_vehicle_mm"])
    assert np.abs(back[: len(truth.arch_mm)] - truth.arch_mm).max() < 0.5
    assert [one for one in placing["questions"] if one["grave"]] == []
    shown = page.get(at(job_id, rest="/1"))
    assert "arch and hub, Front left" in said(shown)
    assert text(truth.face[0]).split(";")[0] in shown.text
    page.form(f"/jobs/{job_id}/undo", {"revision": "2", "key": "u"})
    assert page.get(f"/api/v1/jobs/{job_id}/axles/front/left/scans").json() == []


def test_a_change_enters_only_what_changed_so_that_two_people_are_merged(
    page: Page, cupboard: Cupboard, job_id: str, mesh: bytes
) -> None:
    bring(page, job_id, mesh)
    page.form(at(job_id, rest="/new?file=arch.ply"), typed())
    cupboard.enter(job_id, [("front.left.scan[1].name", '"liner"')], "Bo", base=2)
    kept = page.form(at(job_id, rest="/1"), typed(axis_free="160", base="2", key="k2"))
    assert kept.status_code == 303, said(kept)
    assert "aside" not in kept.headers["location"]
    scan = page.get(f"/api/v1/jobs/{job_id}/axles/front/left/scans").json()[0]["scan"]
    assert (scan["name"], scan["axis_free_mm"]) == ("liner", 160)
    clash = page.form(at(job_id, rest="/1"), typed(name="arch", base="2", axis_free="160", key="k3"))
    assert "aside=1" in clash.headers["location"]
    assert "One entry was put aside" in said(page.get(clash.headers["location"]))


def test_every_missing_or_wrong_field_is_named_at_once_and_nothing_typed_is_lost(
    page: Page, cupboard: Cupboard, job_id: str, mesh: bytes
) -> None:
    bring(page, job_id, mesh)
    wrong = typed(plane=["1; 2", "1;2;3"], circle=[], rear="0; 0; 99999", u_mm="-1", name="", unit="yard")
    answer = page.form(at(job_id, rest="/new?file=arch.ply"), wrong)
    assert answer.status_code == 422
    for field in ("plane", "plane[1]", "circle", "rear", "u_mm", "name", "unit"):
        assert f'href="#f-{field}"' in answer.text, field
    assert "wanted three numbers such as 12.5; -3; 810; given 1; 2." in said(answer)
    assert 'value="1; 2"' in answer.text
    assert cupboard.job(job_id).revision == 1


def test_the_wrong_wheel_is_questioned_and_goes_in_only_by_a_tick(page: Page, job_id: str, mesh: bytes) -> None:
    bring(page, job_id, mesh, side="right")
    new = at(job_id, "right", "/new?file=arch.ply")
    answer = page.form(new, typed())
    assert answer.status_code == 422
    assert "Is it inside out?" in said(answer)
    assert "it is the scan of the left wheel" in said(answer)
    assert at(job_id, "left", "/new?file=arch.ply") in answer.text
    assert page.form(new, typed(sure="yes")).status_code == 303


def test_forward_is_turned_round_by_a_button(page: Page, job_id: str, mesh: bytes) -> None:
    bring(page, job_id, mesh)
    truth, new = made("left"), at(job_id, rest="/new?file=arch.ply")
    backwards = {"rear": text(truth.front), "front": text(truth.rear)}
    assert "Is it inside out?" in said(page.form(new, typed(do="look", **backwards)))
    turned = page.form(new, typed(do="turn", **backwards))
    assert "Nothing speaks against it." in said(turned) or "Is it inside out?" not in said(turned)
    assert f'id="f-rear" name="rear" value="{text(truth.rear)}"' in turned.text


def test_a_script_gets_the_outcome_alone_and_is_told_what_is_still_wanted(page: Page, job_id: str, mesh: bytes) -> None:
    bring(page, job_id, mesh)
    headers = {"hw-part": "outcome"}
    part = page.form(at(job_id, rest="/new?file=arch.ply"), typed(do="", circle=[]), headers=headers)
    assert part.status_code == 200
    assert "<form" not in part.text
    assert "three points and more; given 0." in said(part)
    part = page.form(at(job_id, rest="/new?file=arch.ply"), typed(do=""), headers=headers)
    found = re.search(r'data-matrix="([^"]+)"', part.text)
    assert found is not None
    matrix = np.array(json.loads(html.unescape(found[1]))).reshape(4, 4).T
    assert np.linalg.det(matrix[:3, :3]) == pytest.approx(1.0, abs=1e-6)


def test_scan_and_wheel_come_for_the_viewer_and_every_place_of_it_was_scanned(
    page: Page, job_id: str, mesh: bytes
) -> None:
    import trimesh

    bring(page, job_id, mesh)
    shown = page.get(at(job_id, rest="/new?file=arch.ply"))
    found = re.search(r'data-middle="([^"]+)"', shown.text)
    assert found is not None
    middle = np.array(json.loads(found[1]))
    scene: Any = trimesh.load(BytesIO(page.get(at(job_id, rest=".glb?file=arch.ply")).content), file_type="glb")
    places = np.unique(scene.geometry["scan"].vertices * 1000.0 + middle, axis=0)
    truth = np.asarray(made("left").vertices, np.float32)
    assert len(places) == len(np.unique(truth, axis=0))
    assert np.abs(np.sort(places[:, 0]) - np.sort(np.unique(truth, axis=0)[:, 0])).max() < 1e-5
    wheel: Any = trimesh.load(BytesIO(page.get(at(job_id, rest="-wheel.glb")).content), file_type="glb")
    assert {"tyre", "spokes (schematic)"} <= set(wheel.geometry)


def test_a_file_of_the_same_name_does_not_take_the_place_of_another(page: Page, job_id: str, mesh: bytes) -> None:
    assert bring(page, job_id, mesh).headers["location"].endswith("file=arch.ply")
    assert bring(page, job_id, mesh).headers["location"].endswith("file=arch.ply")  # the same bytes
    other = mesh.replace(b"invented demo arch", b"invented other arc")
    assert bring(page, job_id, other).headers["location"].endswith("file=arch-2.ply")


def test_a_scan_is_taken_out_of_the_job_again(page: Page, cupboard: Cupboard, job_id: str, mesh: bytes) -> None:
    bring(page, job_id, mesh)
    page.form(at(job_id, rest="/new?file=arch.ply"), typed())
    gone = page.form(at(job_id, rest="/1"), {"do": "out", "base": "2", "key": "o"})
    assert gone.status_code == 303
    assert b"arch.ply" not in cupboard.job(job_id).data
    assert page.get(at(job_id, rest="/1")).status_code == 404


def zipped() -> bytes:
    made_ = BytesIO()
    with zipfile.ZipFile(made_, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("scan.obj", b"0" * 20_000_000)
    return made_.getvalue()


GLTF = {"asset": {"version": "2.0"}, "meshes": [{"primitives": [{"mode": 0, "attributes": {"POSITION": 0}}]}],
        "nodes": [{"mesh": 0}], "scenes": [{"nodes": [0]}], "bufferViews": [{"buffer": 0, "byteLength": 360}]}  # fmt: skip
BOMB = {**GLTF, "accessors": [{"count": 10**10, "componentType": 5126, "type": "VEC3"}], "buffers": []}
THIEF = {**GLTF, "accessors": [{"bufferView": 0, "count": 30, "componentType": 5126, "type": "VEC3"}],
         "buffers": [{"uri": "../../hubwright.sqlite3", "byteLength": 360}]}  # fmt: skip
THREE = np.arange(9, dtype="<f4").tobytes()
HOSTILE = {
    "nothing.ply": (b"", "it is empty"),
    "no-scan.jpg": (b"\xff\xd8\xff", "wanted one of .ply"),
    "no-ending": (b"x", "no suffix"),
    "picture.ply": (b"\x89PNG\r\n\x1a\n" + b"\0" * 99, "wanted a readable .ply file"),
    "zip.ply": (zipped(), "wanted a readable .ply file"),
    "zip.glb": (zipped(), "wanted a readable .glb file"),
    "zip.stl": (zipped(), "wanted a mesh or points"),
    "claims.ply": (HEAD.format(v=10**12, f=10**12).encode() + b"\0" * 64, "wanted a readable .ply file"),
    "short.ply": (HEAD.format(v=3, f=1).encode() + THREE + b"\3\0", "wanted a readable .ply file"),
    "short-text.ply": (HEAD.format(v=9, f=0).replace("binary_little_endian", "ascii").encode() + b"0 0 0\n1 0 0\n", "cut short"),
    "short.stl": (b"solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\n", "cut short"),
    "index.ply": (HEAD.format(v=3, f=1).encode() + THREE + struct.pack("<B3i", 3, 0, 1, 99), "a vertex that is not there"),
    "nan.ply": (HEAD.format(v=3, f=1).encode() + np.full(9, np.nan, "<f4").tobytes() + struct.pack("<B3i", 3, 0, 1, 2), "no number"),
    "nan.csv": (b"x_mm,y_mm,z_mm\n1,2,inf\n", "no number"),
    "far.csv": (b"x_mm,y_mm,z_mm\n1,2,1e300\n", "one farther away"),
    "bomb.gltf": (json.dumps(BOMB).encode(), "more places than can be read"),
    "thief.gltf": (json.dumps(THIEF).encode(), "a part of it in another folder"),
    "deep.gltf": (b"[" * 100_000, "wanted a readable .gltf file"),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_is_refused_by_name_and_not_kept(page: Page, cupboard: Cupboard, job_id: str, name: str) -> None:
    data, why = HOSTILE[name]
    answer = bring(page, job_id, data, name)
    assert answer.status_code in (409, 422)
    assert why in said(answer)
    assert str(cupboard.data) not in answer.text
    assert cupboard.attachments(job_id) == ()


@pytest.mark.parametrize("name", ["one.csv", "heap.csv"])
def test_a_scan_of_next_to_nothing_is_asked_about_and_breaks_no_page(page: Page, job_id: str, name: str) -> None:
    rows = "1,2,3\n" * (1 if name == "one.csv" else 40)
    answer = bring(page, job_id, f"x_mm,y_mm,z_mm\n{rows}".encode(), name)
    assert answer.status_code == 303
    assert "which fits an arch in no unit" in said(page.get(answer.headers["location"]))
    assert page.get(at(job_id, rest=f".glb?file={name}")).status_code == 200
    looked = page.form(answer.headers["location"], typed(unit="mm"))
    assert looked.status_code == 422


@pytest.mark.parametrize("rest", ["/new?file=..%2F..%2Fetc%2Fpasswd", "/new", ".glb?file=none.ply", "/7", "/0", "/x"])
def test_odd_addresses_have_clear_answers(page: Page, job_id: str, rest: str) -> None:
    assert page.get(at(job_id, rest=rest)).status_code in (404, 422)


def test_an_axle_the_job_says_nothing_about_gets_its_scan_all_the_same(
    page: Page, cupboard: Cupboard, mesh: bytes
) -> None:
    job = cupboard.add('hubwright_job = 1\ntitle = "t"\nrequest = { use = "street" }\n', "Ann").job_id
    bring(page, job, mesh)
    looked = page.form(at(job, rest="/new?file=arch.ply"), typed(do="look"))
    assert "The job does not say yet how the wheel stands: it is drawn upright." in said(looked)
    assert page.form(at(job, rest="/new?file=arch.ply"), typed()).status_code == 303


def test_programs_look_place_and_lay_anew(page: Page, cupboard: Cupboard, job_id: str, mesh: bytes) -> None:
    own, truth = {"X-Hubwright": "1"}, made("left")
    base = f"/api/v1/jobs/{job_id}"
    kind = {**own, "content-type": "application/octet-stream"}
    assert page.post(f"{base}/attachments?name=arch.ply", content=mesh, headers=kind).status_code == 201
    scan = {
        "name": "arch", "file": "arch.ply", "unit": "m", "hub_plane": truth.face[[0, 17, 5, 11]].tolist(),
        "hub_circle": truth.spigot[::6].tolist(), "forward": truth.forward.tolist(),
    }  # fmt: skip
    scans = f"{base}/axles/front/left/scans"
    looked = page.post(f"{scans}/look", json={"base": 1, "scan": scan}, headers=own).json()
    assert looked["placing"]["hub_circle_radius_mm"] == pytest.approx(32.5, abs=0.01)
    assert looked["scan"]["normal"] == pytest.approx(truth.normal.tolist(), abs=1e-5)
    assert cupboard.job(job_id).revision == 1
    taken = page.post(scans, json={"base": 1, "scan": scan, "key": "a"}, headers=own)
    assert taken.status_code == 201 and taken.json()["revision"] == 2
    anew = page.put(f"{scans}/1", json={"base": 2, "scan": {**scan, "axis_free_mm": 120}}, headers=own)
    assert {change["field"] for change in anew.json()["changes"]} == {"front.left.scan[1].axis_free_mm"}
    (stands,) = page.get(scans).json()
    assert stands["placing"]["left_out"] == 144
    backwards = {**scan, "forward": (-truth.forward).tolist()}
    refused = page.post(scans, json={"base": 3, "scan": backwards}, headers=own)
    assert refused.status_code == 422
    assert refused.json()["faults"][0]["field"] == "sure"
    odd = page.post(scans, json={"base": 3, "scan": {**scan, "unit": "yard", "spin": 1}}, headers=own).json()["faults"]
    assert {fault["field"] for fault in odd} == {"front.left.scan[2].unit", "front.left.scan[2].spin"}
    assert page.put(f"{scans}/9", json={"base": 3, "scan": scan}, headers=own).status_code == 404
    assert page.post(scans, json={"base": 3, "scan": scan}).status_code == 403


def test_the_command_line_says_how_a_scan_lies(tmp_path: Path, mesh: bytes) -> None:
    from typer.testing import CliRunner

    from hubwright.cli.commands import app

    (tmp_path / "arch.ply").write_bytes(mesh)
    truth = made("left")
    bare = re.sub(
        r"\[\[front\.(left|right)\.scan\]\]\n(?:[^\[\n][^\n]*\n)*", "", example("roadster-front-scan").decode()
    )
    table = (
        f'\n[[front.left.scan]]\nname = "arch"\nfile = "arch.ply"\nunit = "m"\nhub_plane = {truth.face[[18, 12, 6, 0]].tolist()}\n'
        f"hub_circle = {truth.spigot[::6].tolist()}\nforward = {truth.forward.tolist()}\n"
    )
    job = tmp_path / "car.toml"
    job.write_text(bare + table)
    found = CliRunner().invoke(app, ["scan", str(job), "--json"])
    assert found.exit_code == 0, found.output
    (row,) = json.loads(found.output)
    assert row["field"] == "front.left.scan[1]"
    job.write_text(bare + table.replace(str(truth.forward.tolist()), str((-truth.forward).tolist())))
    wrong = CliRunner().invoke(app, ["scan", str(job)])
    assert wrong.exit_code == 1
    assert "Is it upside down?" in wrong.output or "Is it inside out?" in wrong.output
    file = CliRunner().invoke(app, ["scan", str(tmp_path / "arch.ply")])
    assert "Most likely metres: 872 mm long." in file.output
