"""Bolted adapters: the inner joint, and the original studs behind every wheel that goes on."""

from __future__ import annotations

from typing import Any

import pytest
from tests.checks.bench import disc, fitted, house, hub

from hubwright.checks import adapter
from hubwright.findings import Finding, Verdict
from hubwright.parts.hub import Fastener

NUT = Fastener(kind="nut", thread="M12x1.5")
WEB = {"counterbore_mm": 13, "inner_height_mm": 12}
RELIEF = {"relief_depth_mm": 12, "relief_width_mm": 22}


def judged(thickness_mm: float, proud_mm: float | None = 33, wheel: Any = None, **of: Any) -> Finding:
    plate = disc(thickness_mm, "bolted", **{**WEB, **of})
    wheels = (fitted(**(RELIEF if wheel is None else wheel)),)
    return adapter.judge(hub(stud_proud_mm=proud_mm), wheels, NUT, "left", house(), plate)


def test_25_mm_over_33_mm_of_stud_go_with_pockets_and_not_with_a_flat_wheel() -> None:
    """Derived: 33 - 25 = 8 mm stand out; 12 deep pockets leave 4; web 25 - 13 = 12, 10 wanted."""
    assert judged(25).verdict is Verdict.PASS
    flat = judged(25, wheel={"relief_depth_mm": 0})
    assert flat.verdict is Verdict.FAIL
    assert "8.0 mm out" in flat.sentence


def test_35_mm_hide_the_studs_and_need_a_deeper_counterbore_to_hold_as_wanted() -> None:
    """Derived: web 35 - 13 = 22 leaves 33 - 22 = 11 mm in the inner nuts, 12 wanted; 15 deep leaves 13."""
    shallow = judged(35, wheel={"relief_depth_mm": 0})
    assert shallow.verdict is Verdict.CAUTION
    assert "engage 11.0 mm" in shallow.sentence
    assert judged(35, wheel={"relief_depth_mm": 0}, counterbore_mm=15, inner_height_mm=14).verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("thickness_mm", "of", "wheel", "words"),
    [
        (22, {}, None, "web under the inner nuts 9.0 mm"),
        (25, {"inner_height_mm": 13.5}, None, "above the face"),
        (25, {}, {"relief_depth_mm": 8.5, "relief_width_mm": 22}, "8.5 mm deep"),
        (25, {}, {"relief_depth_mm": 12, "relief_width_mm": 13}, "0.5 mm beside each stud"),
    ],
)
def test_what_stands_in_the_way_is_named(thickness_mm: float, of: Any, wheel: Any, words: str) -> None:
    found = judged(thickness_mm, wheel=wheel, **of)
    assert found.verdict is Verdict.FAIL
    assert words in found.sentence


@pytest.mark.parametrize(
    ("of", "proud_mm", "wheel"),
    [
        ({"counterbore_mm": None}, 33, None),
        ({"inner_height_mm": None}, 33, None),
        ({}, None, None),
        ({}, 33, {}),
        ({}, 33, {"relief_depth_mm": 12}),
    ],
)
def test_what_was_not_read_is_unknown(of: Any, proud_mm: float | None, wheel: Any) -> None:
    assert judged(25, proud_mm, wheel, **of).verdict is Verdict.UNKNOWN


def test_studs_count_from_the_seating_face_whether_read_there_or_at_the_hub() -> None:
    at_hub = hub(stud_length_mm=39.5, hat_thickness_mm=6.5)
    assert adapter.proud_mm(at_hub) == adapter.proud_mm(hub(stud_proud_mm=33)) == 33
    assert adapter.proud_mm(hub(stud_length_mm=39.5)) is None
