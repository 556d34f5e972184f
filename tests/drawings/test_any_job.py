"""No job, however bare or hostile, spoils a drawing."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from hubwright.drawings.adapterview import adapter_svg
from hubwright.drawings.boltview import fastener_svg, lengths_table
from hubwright.drawings.gapchart import gap_chart_svg, gap_table
from hubwright.drawings.lengths_chart import lengths_svg
from hubwright.drawings.lock_view import lock_svg, lock_table
from hubwright.drawings.section import section_svg, section_table
from hubwright.drawings.svg import clean
from hubwright.drawings.table import table_html
from hubwright.drawings.windows import windows_svg, windows_table
from hubwright.jobs.assess import assess
from hubwright.jobs.fastener_table import fastener_table
from hubwright.jobs.from_above import seen_from_above
from hubwright.jobs.jobfile import adapter
from hubwright.jobs.lock_table import lock_views
from hubwright.jobs.trying import tried
from hubwright.parts.job import Job
from hubwright.selection.plans import shelf

HOSTILE = ("<script>alert(1)</script>", "]]>&amp;\"'", "\x00\x1b￿", "style}</style><script>", "🛞" * 300)


def fastened(job: Job, thickness_mm: float) -> Iterator[str]:
    if job.rear is None:
        return
    for disc in {tried(job, thickness_mm or 1.0).disc, *(one for one in shelf(job) if one.kind == "bolted")}:
        for joint in fastener_table(job, "rear", disc).joints:
            if joint.adapter is not None:
                yield adapter_svg(joint.adapter, joint.title)
            if joint.stack is not None and joint.rows:
                yield lengths_svg(joint)
                yield table_html(lengths_table(joint))
                yield from (fastener_svg(joint, row, disc.thickness_mm) for row in joint.rows)
    views = lock_views(job, "rear", thickness_mm)
    section = None if job.rear.fitted is None else seen_from_above(job.rear.fitted)
    for view in views if section is not None else ():
        yield lock_svg("rear", view, section, thickness_mm)
    yield table_html(lock_table("rear", views))


def drawings(job: Job, thickness_mm: float) -> Iterator[str]:
    for side in ("left", "right"):
        for work in (False, True):
            yield section_svg(job, "rear", side, thickness_mm, with_work=work)
            yield gap_chart_svg(job, "rear", side, thickness_mm, with_work=work)
        yield section_svg(job, "rear", side, thickness_mm, view="hub")
        yield table_html(section_table(job, "rear", side, thickness_mm))
        yield table_html(gap_table(job, "rear", side, thickness_mm))
    yield from fastened(job, thickness_mm)
    for axle in assess(job).axles:
        for plan in axle.plans:
            yield windows_svg(plan, axle.wish_mm)
            yield table_html(windows_table(plan))


def paths_of(node: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    pairs = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, inner in pairs:
        yield (*path, key)
        yield from paths_of(inner, (*path, key))


def without(tree: dict[str, Any], paths: list[tuple[Any, ...]]) -> dict[str, Any]:
    left = copy.deepcopy(tree)
    for path in sorted(paths, key=lambda item: [str(key).zfill(4) for key in item], reverse=True):
        node: Any = left
        try:
            for key in path[:-1]:
                node = node[key]
            del node[path[-1]]
        except (KeyError, IndexError, TypeError):
            continue
    return left


@pytest.mark.slow
@settings(max_examples=40, deadline=None)
@given(data=st.data(), thickness_mm=st.sampled_from([0.0, 3.0, 12.0, 17.5, 60.0]))
def test_a_job_with_anything_missing_is_drawn(tree: dict[str, Any], data: st.DataObject, thickness_mm: float) -> None:
    rear = {**tree, "shop": {"policy": tree["shop"]["policy"]}}
    paths = [path for path in paths_of(rear) if path[0] == "rear"]
    gone = data.draw(st.lists(st.sampled_from(paths), max_size=25))
    try:
        job = adapter().validate_python(without(rear, gone))
    except ValidationError:
        return  # a reading without its gap is no job
    for svg in drawings(job, thickness_mm):
        ElementTree.fromstring(svg)


def test_a_job_that_knows_only_its_use_is_drawn() -> None:
    job = adapter().validate_python({"hubwright_job": 1, "title": "bare", "request": {"use": "street"}, "rear": {}})
    for svg in drawings(job, 5.0):
        ElementTree.fromstring(svg)


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_name_stays_text(tree: dict[str, Any], name: str) -> None:
    spoilt = copy.deepcopy(tree)
    for point in (*spoilt["rear"]["left"]["point"], *spoilt["rear"]["right"]["point"]):
        point["name"] = name
        point["work"] = [{"name": name, "gain_mm": 7}]
    spoilt["rear"]["wheel_set"][0]["name"] = name
    for text in drawings(adapter().validate_python(spoilt), 5.0):
        root = ElementTree.fromstring(text)
        assert not [element for element in root.iter() if element.tag.endswith("script")]
        assert len([element for element in root.iter() if element.tag.endswith("}style")]) <= 1


def test_what_xml_forbids_is_replaced() -> None:
    assert clean("a\x00b\ud800c\ufffed") == "a\ufffdb\ufffdc\ufffdd"


def test_the_same_job_gives_the_same_bytes(job: Job) -> None:
    assert list(drawings(job, 5.0)) == list(drawings(copy.deepcopy(job), 5.0))


def test_a_drawing_brings_no_script_and_asks_nothing_of_the_network(job: Job) -> None:
    for text in drawings(job, 5.0):
        plain = text.replace("http://www.w3.org/2000/svg", "")
        assert "http" not in plain and "<script" not in plain and "href" not in plain and "@import" not in plain


def test_ids_of_two_drawings_on_one_page_never_meet(job: Job) -> None:
    found = [
        element.attrib["id"]
        for text in {*drawings(job, 5.0), *drawings(job, 8.0)}
        for element in ElementTree.fromstring(text).iter()
        if "id" in element.attrib
    ]
    assert len(found) == len(set(found))


def test_readings_beyond_the_radii_of_the_tyre_still_give_a_picture(tree: dict[str, Any]) -> None:
    spoilt = copy.deepcopy(tree)
    for point in (*spoilt["rear"]["left"]["point"], *spoilt["rear"]["right"]["point"]):
        point["reading"].append({"travel_mm": -60, "gap_mm": 40})
    job = adapter().validate_python(spoilt)
    for text in (section_svg(job, "rear", "left", 5), gap_chart_svg(job, "rear", "left", 5)):
        assert "does not hold for" not in " ".join(ElementTree.fromstring(text).itertext())
