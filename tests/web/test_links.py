"""Links and springs: hard points go in whole, or everything that is missing or impossible is told."""

from __future__ import annotations

import pytest
from tests.web.car.test_car import boxes as _boxes
from tests.web.conftest import Page, example, words_of

from hubwright.jobs.jobfile import parse
from hubwright.store.cupboard import Cupboard

STRUT = {
    "wheel_centre_mm": ("0", "-740", "310"), "strut_top_mm": ("-20", "-560", "850"), "strut_lower_mm": ("-5", "-640", "420"),
    "lower_front_mm": ("20", "-360", "190"), "lower_rear_mm": ("-280", "-380", "200"), "lower_outer_mm": ("0", "-690", "180"),
    "tie_inner_mm": ("-120", "-350", "230"), "tie_outer_mm": ("-130", "-680", "225"),
}  # fmt: skip


def strut(**other: object) -> dict[str, object]:
    found: dict[str, object] = {"v:front.hardpoints.kind": "strut", "v:front.hardpoints.right.loaded_radius_mm": "305"}
    return found | {f"v:front.hardpoints.right.{key}": list(place) for key, place in STRUT.items()} | other


def test_hard_points_of_one_side_go_in_together(page: Page, cupboard: Cupboard, job_id: str) -> None:
    answer = page.form(f"/jobs/{job_id}/links/front", strut())
    assert answer.status_code == 303
    axle = parse(cupboard.job(job_id).text).front
    assert axle is not None and axle.hardpoints is not None and axle.hardpoints.right is not None
    assert axle.hardpoints.right.strut_top_mm == (-20, -560, 850)
    assert axle.hardpoints.left is None
    shown = page.get(answer.headers["location"])
    assert shown.text.count('data-part="link"') == 2 * 4  # strut, two arms, tie rod; from the side and from behind


def test_a_missing_point_a_half_typed_one_and_an_impossible_one_are_told_together(
    page: Page, cupboard: Cupboard, job_id: str
) -> None:
    typed = strut(**{"v:front.hardpoints.right.tie_outer_mm": ["-130", "", "225"]})
    answer = page.form(f"/jobs/{job_id}/links/front", typed)
    assert answer.status_code == 422
    assert "wanted three figures: forward, to the left, up; given -130; –; 225" in words_of(answer)
    assert 'value="850"' in answer.text
    del typed["v:front.hardpoints.right.tie_outer_mm"]
    typed["v:front.hardpoints.right.wheel_centre_mm"] = ["0", "740", "310"]
    words = words_of(page.form(f"/jobs/{job_id}/links/front", typed))
    assert "Tie rod or toe link, outer end" in words
    assert "Y below 0 for a right wheel" in words
    assert cupboard.job(job_id).revision == 1


def test_five_links_go_in_at_once_in_their_order(page: Page, cupboard: Cupboard, job_id: str) -> None:
    base = "v:rear.hardpoints"
    fields: dict[str, object] = {
        f"{base}.kind": "five link", f"{base}.left.wheel_centre_mm": ["0", "740", "310"],
        f"{base}.left.loaded_radius_mm": "305",
    }  # fmt: skip
    ends = ((80, 430, 60), (-90, 440, 70), (120, 180, -90), (-120, 190, -80), (-150, 230, 10))
    for number, (x, z, shift) in enumerate(ends, 1):
        link = f"{base}.left.link[{number}]"
        fields |= {
            f"{link}.name": f"link {number}",
            f"{link}.inner_mm": [x, 380, z],
            f"{link}.outer_mm": [x / 4, 690, z + shift / 9],
        }
    assert page.form(f"/jobs/{job_id}/links/rear", fields).status_code == 303
    axle = parse(cupboard.job(job_id).text).rear
    assert axle is not None and axle.hardpoints is not None and axle.hardpoints.left is not None
    assert [link.name for link in axle.hardpoints.left.link] == [f"link {n}" for n in range(1, 6)]


@pytest.mark.parametrize("units", ["metric", "inch"])
def test_hard_points_sent_back_as_they_were_shown_change_nothing(page: Page, cupboard: Cupboard, units: str) -> None:
    data = example("roadster-front-scan")
    job_id = cupboard.add(data, "Ann").job_id
    page.cookies["hw_likes"] = f"en.{units}.auto"
    shown = page.get(f"/jobs/{job_id}/links/front")
    fields = _boxes(shown)
    assert "v:front.hardpoints.left.upper_outer_mm" in fields
    assert page.form(f"/jobs/{job_id}/links/front", fields).headers["location"].endswith("/links/front")
    assert cupboard.job(job_id).data == data


def test_all_hard_points_of_an_axle_can_be_taken_out(page: Page, cupboard: Cupboard) -> None:
    job_id = cupboard.add(example("roadster-front-scan"), "Ann").job_id
    page.form(f"/jobs/{job_id}/links/front", {"base": 1, "x:front.hardpoints": "yes"})
    axle = parse(cupboard.job(job_id).text).front
    assert axle is not None and axle.hardpoints is None
