"""Whatever a job file can say can be entered on a page; the few exceptions stand here with their reason."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from tests.web.conftest import Page

from hubwright.jobs.schema import job_schema
from hubwright.parts.scan import LeftOut, Scan
from hubwright.quantities.axes import SIDES
from hubwright.quantities.units import inside_name
from hubwright.store.cupboard import Cupboard
from hubwright.web.fields.tree import Tree
from hubwright.web.lines.curves import curves_of
from hubwright.web.scan.entering import table_of
from hubwright.web.sheet.names import name_of
from hubwright.web.sheet.places import Place
from hubwright.web.sheet.resolve import Taken, values_of
from hubwright.web.sheet.slots import Ask, slots_of
from hubwright.web.shop.parts import PARTS

BY_FILE_ONLY = {
    "hubwright_job": "the version of the file format; every new job has it",
    "SIDE.point.reading.set": "no sum uses it: every reading entered on a page has its revision, day and author in the history",
}
"""Field (SIDE stands for left and right of both axles): why no page enters it."""
SCAN = Scan(
    name="arch", file="arch.ply", unit="mm", kind="carried", region="inside", hub_centre=(1, 2, 3), normal=(0, 1, 0),
    hub_circle=((0, 0, 1), (1, 0, 0), (0, 0, -1)), hub_plane=((0, 0, 1), (1, 0, 0), (0, 0, -1)), forward=(1, 0, 0),
    shift_mm=(1, 0, 0), u_mm=1, axis_free_mm=200, outliers=True, left_out=(LeftOut(centre=(0, 0, 0), radius_mm=20),),
)  # fmt: skip
KINDS = ("double wishbone", "strut", "five link", "swing arm", "twist beam", "live axle")
FULL = """
hubwright_job = 1
title = "everything"
[request]
use = "street"
{axles}
"""
AXLE = """
[{axle}.hub]
[{axle}.hardpoints]
kind = "twist beam"
mount_left_mm = [300, 400, 300]
mount_right_mm = [300, -400, 300]
shear_centre_mm = [0, 0, 310]
[{axle}.hardpoints.left]
wheel_centre_mm = [0, 740, 310]
loaded_radius_mm = 305
[{axle}.hardpoints.right]
wheel_centre_mm = [0, -740, 310]
loaded_radius_mm = 305
[{axle}.hardpoints.springs]
parked_left_kg = 300
parked_right_kg = 300
[[{axle}.wheel_set]]
role = "fitted"
[[{axle}.package]]
name = "offered"
[[{axle}.left.point]]
name = "arch lip"
room = "outside"
[[{axle}.right.point]]
name = "arch lip"
room = "outside"
"""


def leaves(schema: Mapping[str, Any]) -> Iterator[str]:
    """Every field of the published schema by its path, in the units used inside; a reading is one field."""
    known: Mapping[str, Any] = schema["$defs"]

    def tables(node: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
        """The tables of nouns that a field holds, be it one or a list of them."""
        if "$ref" in node:
            yield known[node["$ref"].rpartition("/")[2]]
        for part in (*node.get("anyOf", ()), *([node["items"]] if isinstance(node.get("items"), dict) else ())):
            yield from tables(part)

    def walk(table: Mapping[str, Any], path: str) -> Iterator[str]:
        for key, node in table["properties"].items():
            if inside_name(key)[0] != key:
                continue  # the same field in inch, lb-ft and the like
            inner = next(tables(node), None)
            where = f"{path}.{key}" if path else key
            if inner is None:
                yield where
            else:
                yield from walk(inner, where)

    yield from walk(schema, "")


def general(path: str) -> str:
    """A field without its numbers and without saying which axle and side: both have the same boxes (shown below)."""
    bare = re.sub(r"\[[^\]]*\]", "", path)
    bare = re.sub(r"^(front|rear)\.(left|right)\b", "SIDE", bare)
    return re.sub(r"^(front|rear)\b", "AXLE", bare)


def written_below(field: str, value: Any) -> Iterator[str]:
    """The single fields an entry writes."""
    if isinstance(value, dict) and not {"value"} <= set(value):
        for key, inner in value.items():
            yield from written_below(f"{field}.{key}", inner)
    elif isinstance(value, list) and value and isinstance(value[0], dict):
        for inner in value:
            yield from written_below(field, inner)
    else:
        yield field


def boxes(text: str) -> set[str]:
    return {html.unescape(name) for name in re.findall(r'name="v:([^"]+)"', text)}


@pytest.fixture
def entered(page: Page, cupboard: Cupboard) -> set[str]:
    """Every field some page can enter, of a job with one of each list."""
    data = FULL.format(axles="".join(AXLE.format(axle=axle) for axle in ("front", "rear"))).encode()
    job_id = cupboard.add(data, "Ann").job_id
    assert not cupboard.job(job_id).faults
    found = boxes(page.get(f"/jobs/{job_id}/car").text)
    tree = Tree(cupboard.job(job_id).data)
    for axle in ("front", "rear"):
        for kind in KINDS:
            found |= boxes(page.get(f"/jobs/{job_id}/links/{axle}?kind={kind}").text)
        for curve in curves_of(tree, axle):
            shown = page.get(f"/jobs/{job_id}/lines/{axle}", params={"at": curve.id}).text
            found |= boxes(shown)
            for key in re.findall(r'name="c0:([^"]+)"', shown):
                inner = curve.kind.field if curve.kind.shape == "points" else key
                found.add(f"{curve.path}.{inner}")
        for more in ({}, {"disc_mm": 10.0}, {"turned": True}):
            for slot in slots_of(Ask(tree, axle, True, "metric", **more)):
                name = name_of(slot.id)
                assert name is not None
                taken = Taken(
                    name, "x" if slot.kind == "text" else [1.0], travel_mm=1.0, steer_deg=1.0, radius_mm=300.0,
                    half_track_mm=1.0, place=slot.place or Place(""), turned="turned" in more, disc_mm=slot.disc_mm,
                )  # fmt: skip
                for field, value in values_of(taken, tree, axle):
                    found |= set(written_below(field, value))
        for side in SIDES:  # the page that places a scan enters whatever a scan can say
            found |= set(written_below(f"{axle}.{side}.scan[+]", table_of(SCAN)))
    shop = {
        key for part in PARTS.values() for key in (*part.first, *part.more, *part.ticks, *part.lines) if not part.listed
    }
    listed = {f"{part.key}.{key}" for part in PARTS.values() if part.listed for key in (*part.first, *part.more)}
    return found | {f"shop.{key}" for key in shop | listed}


def test_every_field_of_the_job_schema_can_be_entered_on_a_page(entered: set[str]) -> None:
    here = {general(path) for path in entered}
    missing = {general(path) for path in leaves(job_schema())} - here - set(BY_FILE_ONLY)
    assert sorted(missing) == []


def test_nothing_is_said_to_be_by_file_only_that_a_page_can_enter(entered: set[str]) -> None:
    here = {general(path) for path in entered}
    assert not here & set(BY_FILE_ONLY)
    assert {general(path) for path in leaves(job_schema())} >= set(BY_FILE_ONLY)


def test_both_axles_and_both_sides_have_the_same_boxes(entered: set[str]) -> None:
    bare = {re.sub(r"\[[^\]]*\]", "", path) for path in entered}
    for one, other in (("front", "rear"), ("left", "right")):
        mine = {path for path in bare if re.search(rf"\b{one}\b", path)}
        theirs = {re.sub(rf"\b{one}\b", other, path) for path in mine}
        assert sorted(theirs - bare) == []
