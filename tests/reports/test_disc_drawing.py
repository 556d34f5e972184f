"""The drawing for the machine shop: measured again in the DXF, and refused where a window fails."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from typing import Any
from xml.etree import ElementTree

import ezdxf
import pytest
from tests.reports.press import demo, identity, stands

from hubwright.drawings.machine_disc import machine_disc
from hubwright.errors import BadInput
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.shop import Policy, StockDisc
from hubwright.parts.wheel import Wheel
from hubwright.quantities.reading import exact
from hubwright.reports import Options, answered, print_sheet

PLAIN, LIPPED = "hatchback-rear-flush", "estate-full-data"
LIP = Options(axle="front", thickness_mm=15)
HUB = Hub(bolt_circle="5x112", spigot_diameter_mm=exact(57.1), spigot_length_mm=exact(12.5))
BOLT = Fastener(kind="bolt", thread="M14x1.5")


def drawn(name: str, options: Options) -> bytes:
    job, answer = demo(name)
    return print_sheet("disc-drawing", job, answer, identity(name), options).data


def dxf(name: str, options: Options) -> Any:
    return ezdxf.read(io.StringIO(drawn(name, replace(options, format="dxf")).decode("utf-8")))


def circles(document: Any) -> list[tuple[float, float, float]]:
    found = document.modelspace().query("CIRCLE")
    return [(circle.dxf.center.x, circle.dxf.center.y, circle.dxf.radius) for circle in found]


def measured(document: Any) -> dict[str, float]:
    """Text of every dimension, and what is measured between its two points."""
    return {dim.dxf.text: dim.get_measurement() for dim in document.modelspace().query("DIMENSION")}


def section(document: Any) -> list[list[tuple[float, float]]]:
    lines = document.modelspace().query('LWPOLYLINE[layer=="OUTLINE"]')
    return [[(x, y) for x, y, *_ in line.get_points()] for line in lines if line.closed]


def test_a_dxf_read_again_is_in_mm_without_a_fault_in_it() -> None:
    document = dxf(PLAIN, Options())
    assert document.units == ezdxf.units.MM
    assert not document.audit().errors


def test_the_circles_of_a_plain_disc_are_bore_outside_hole_circle_and_holes_in_their_places() -> None:
    found = circles(dxf(PLAIN, Options()))
    middle = sorted(round(2 * radius, 6) for x, y, radius in found if math.hypot(x, y) < 1e-9)
    assert middle == [57.1, 112.0, 144.0]
    holes = [(x, y, radius) for x, y, radius in found if math.hypot(x, y) > 1]
    assert len(holes) == 5
    for number, (x, y, radius) in enumerate(holes):
        assert 2 * radius == pytest.approx(15.5)
        assert math.hypot(x, y) == pytest.approx(56.0)
        assert math.degrees(math.atan2(y, x)) % 360 == pytest.approx((90 + 72 * number) % 360)


@pytest.mark.parametrize(("name", "options"), [(PLAIN, Options()), (LIPPED, LIP)])
def test_every_dimension_measures_what_it_says(name: str, options: Options) -> None:
    found = measured(dxf(name, options))
    assert len(found) >= 3
    for text, value in found.items():
        assert float(text.removeprefix("Ø").split()[0]) == pytest.approx(value, abs=1e-6)


def test_the_dimensions_of_a_lipped_disc_are_those_of_the_job() -> None:
    found = {round(value, 6) for value in measured(dxf(LIPPED, LIP)).values()}
    assert found == {15.0, 9.0, 12.3, 57.15, 57.05, 51.0, 144.0}  # thickness, lip, spigot 12 + 0.3, bore, lip, outside


def test_the_section_of_a_lipped_disc_has_the_sizes_between_its_corners() -> None:
    parts = section(dxf(LIPPED, LIP))
    xs = [x for part in parts for x, _ in part]
    ys = [y for part in parts for _, y in part]
    assert max(xs) - min(xs) == pytest.approx(15 + 9)
    assert max(ys) == pytest.approx(72.0)
    assert min(ys) == pytest.approx(-72.0)
    hub_face = min(xs)
    assert min(abs(y) for part in parts for x, y in part if x == pytest.approx(hub_face)) == pytest.approx(
        57.15 / 2 + 1.5
    )
    deep = [x - hub_face for part in parts for x, y in part if abs(abs(y) - 57.15 / 2) < 1e-9]
    assert max(deep) == pytest.approx(12.3)


def test_an_even_number_of_holes_is_cut_twice_by_the_section_and_an_odd_one_once() -> None:
    assert len(section(dxf(PLAIN, Options()))) == 3
    job, _ = demo(PLAIN)
    assert job.rear is not None
    four = replace(job, rear=replace(job.rear, hub=replace(job.rear.hub, bolt_circle="4x112", chord_mm=None)))
    made = print_sheet("disc-drawing", four, answered(four, Options()), identity(PLAIN), Options(format="dxf")).data
    assert len(section(ezdxf.read(io.StringIO(made.decode("utf-8"))))) == 4


@pytest.mark.parametrize("ending", ["dxf", "svg", "pdf"])
def test_the_same_disc_gives_the_same_bytes(ending: str) -> None:
    options = replace(LIP, format=ending)  # type: ignore[arg-type]
    assert drawn(LIPPED, options) == drawn(LIPPED, options)
    if ending == "svg":
        ElementTree.fromstring(drawn(LIPPED, options))


def test_the_sheet_says_to_have_it_checked_and_what_is_only_proposed() -> None:
    data = drawn(LIPPED, LIP)
    for text in (
        "Have it checked by a qualified engineer before it is made", "proposal, no source", "ISO 2768-mK",
        "Parallelism of the two faces", "Flatness of each face", "True position of the holes to the bore",
        "H7: 57.15 – 57.18", "g6: 57.021 – 57.04", "Caution: The scrub radius", "2.7 mm of metal join lip and disc",
        "5x112, Ø57.15", "aluminium", "Inspected by, day",
    ):  # fmt: skip
        assert stands(text, data), text


@pytest.mark.parametrize(
    ("name", "options", "windows"),
    [
        ("coupe-front-dead-zone", Options(thickness_mm=8), ["centring"]),
        ("coupe-front-dead-zone", Options(thickness_mm=12), ["clearance", "law"]),
        (PLAIN, Options(thickness_mm=20, disc_kind="lipped"), ["clearance", "brake", "law"]),
        ("mail-order-plumb-line", Options(), ["clearance"]),
    ],
)
def test_a_disc_is_not_drawn_when_a_window_refuses_it_and_each_such_window_is_named(
    name: str, options: Options, windows: list[str]
) -> None:
    with pytest.raises(BadInput) as refusal:
        drawn(name, options)
    named = [fault.field.split(", ")[1] for fault in refusal.value.faults]
    assert named == windows
    assert all("refused" in fault.given for fault in refusal.value.faults)


def test_a_disc_whose_windows_are_not_known_is_not_drawn() -> None:
    job, _ = demo(PLAIN)
    assert job.rear is not None
    bare = replace(job.rear, left=replace(job.rear.left, point=()), right=replace(job.rear.right, point=()))
    unknown = replace(job, rear=bare)
    with pytest.raises(BadInput, match="clearance"):
        print_sheet("disc-drawing", unknown, answered(unknown, Options()), identity(PLAIN), Options(thickness_mm=5))


def test_a_disc_that_is_not_on_the_shelf_is_judged_before_it_is_drawn() -> None:
    assert 4.0 in measured(dxf(PLAIN, Options(thickness_mm=4))).values()
    with pytest.raises(BadInput, match="clearance"):
        drawn(PLAIN, Options(thickness_mm=7))


def test_an_adapter_with_fasteners_of_its_own_is_left_to_an_engineer() -> None:
    with pytest.raises(BadInput, match="engineer"):
        drawn("off-roader-adapter", Options())


def test_which_disc_is_meant_must_be_clear() -> None:
    with pytest.raises(BadInput, match="wanted front or rear; given neither named"):
        drawn("compact-front-lock", Options(format="dxf"))
    with pytest.raises(BadInput, match="at most 150 mm; given 500"):
        drawn(PLAIN, Options(thickness_mm=500))
    with pytest.raises(BadInput, match="wanted rear; given front"):
        drawn(PLAIN, Options(axle="front"))
    with pytest.raises(BadInput, match="says nothing about any axle"):
        drawn("bare", Options())


def test_every_missing_reading_is_named_at_once() -> None:
    with pytest.raises(BadInput) as refusal:
        machine_disc(Hub(), Wheel(), None, StockDisc(thickness_mm=5, kind="plain"), Policy())
    fields = {fault.field for fault in refusal.value.faults}
    assert fields == {"hub.bolt_circle", "fastener.thread", "hub.spigot_diameter_mm"}


@pytest.mark.parametrize(
    ("disc", "why"),
    [
        (StockDisc(thickness_mm=12.5, kind="lipped", lip_outer_mm=57.1), "join lip and disc"),
        (StockDisc(thickness_mm=15, kind="lipped", lip_outer_mm=57.1, lip_inner_mm=60), "wall of the lip"),
        (StockDisc(thickness_mm=5, kind="plain", outer_diameter_mm=120), "outside the holes"),
        (StockDisc(thickness_mm=5, kind="plain", bore_mm=100), "between bore or lip and the holes"),
        (StockDisc(thickness_mm=1, kind="plain", hub_chamfer_mm=2), "chamfer smaller than the thickness"),
    ],
)
def test_a_disc_without_metal_where_it_is_needed_is_refused(disc: StockDisc, why: str) -> None:
    with pytest.raises(BadInput, match=why):
        machine_disc(HUB, Wheel(bore_mm=exact(57.1)), BOLT, disc, Policy())


def test_a_lip_for_a_wheel_bored_wider_than_the_hub_lets_the_spigot_through() -> None:
    made = machine_disc(HUB, Wheel(bore_mm=exact(66.6)), BOLT, StockDisc(thickness_mm=8, kind="lipped"), Policy())
    assert made.recess is None
    assert made.lip_inner is not None
    assert made.lip_inner.mm == 57.1


def test_a_read_pad_or_a_read_fillet_takes_the_place_of_a_proposal() -> None:
    hub = replace(HUB, fillet_mm=1.2)
    made = machine_disc(hub, Wheel(pad_diameter_mm=exact(150)), BOLT, StockDisc(thickness_mm=5, kind="plain"), Policy())
    assert (made.outer.mm, made.outer.origin.value) == (150.0, "read on the car")
    assert made.chamfer.mm == pytest.approx(1.7)


@pytest.mark.parametrize("form", ["dxf", "svg"])
def test_a_drawing_without_its_sheet_says_what_the_sheet_would(form: str) -> None:
    data = drawn(LIPPED, replace(LIP, format=form)).decode("utf-8")  # type: ignore[arg-type]
    own = identity(LIPPED)
    for text in (
        "Have it checked by a qualified engineer before it is made", "ISO 2768-mK", "Parallelism of the two faces: 0.03 mm",
        "Material", own.short_hash, "make two", "Revision 3",
    ):  # fmt: skip
        assert text in data, text
