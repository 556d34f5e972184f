from __future__ import annotations

from typing import Any

import pytest
from tests.checks.cases import EXAMPLE, front, job_with, said

from hubwright.checks import adapter, circles, seating
from hubwright.checks.house import house_of
from hubwright.findings import Finding, Verdict
from hubwright.jobs.jobfile import parse
from hubwright.parts.hub import Hub
from hubwright.parts.shop import StockDisc

ADAPTER = {"thickness_mm": 25, "kind": "bolted", "bolt_circle": "5x112", "inner_hole_mm": 26, "outer_hole_mm": 15}


def judged(changes: dict[str, Any] | None = None, **disc: Any) -> tuple[Finding, ...]:
    job = job_with(changes)
    return circles.judge(front(job).wheel_set[0], house_of(job), StockDisc(**{**ADAPTER, **disc}))


def test_conversion_between_circles_is_refused_by_house_rules_unless_they_allow_it() -> None:
    wheel = {"front.wheel_set.0.wheel.bolt_circle": "5x120"}
    assert said(judged(wheel, wheel_circle="5x120"), "conversion").verdict is Verdict.FAIL
    allowed = wheel | {"shop.policy.circle_conversion": "allowed"}
    assert said(judged(allowed, wheel_circle="5x120"), "from 5x112 to 5x120").verdict is Verdict.CAUTION


def test_a_wheel_of_another_circle_does_not_go_on_and_the_offset_of_its_seats_is_named() -> None:
    found = said(judged({"front.wheel_set.0.wheel.bolt_circle": "5x114.3"}), "do not go on")
    assert found.verdict is Verdict.FAIL and "1.15 mm off its seat" in found.sentence


def test_holes_that_run_into_each_other_are_refused_with_what_is_missing() -> None:
    # Turned by 36 deg: centres 2 x 56 sin 18 deg = 34.6 apart, less (26 + 15)/2 = 20.5: 14.1 left.
    left = said(judged(), "of material between")
    assert left.verdict is Verdict.PASS and left.margin_mm == pytest.approx(14.1 - 5, abs=0.05)
    over = said(judged(turned_deg=10), "run into each other")
    assert over.verdict is Verdict.FAIL and over.margin_mm is not None and over.margin_mm < 0


def test_nothing_is_said_about_holes_nobody_measured() -> None:
    assert judged(inner_hole_mm=None) == ()


def test_a_fillet_holds_off_a_disc_whose_chamfer_is_too_small() -> None:
    # r 2, c 0.5, no gap: 2 - sqrt(4 - 1.5^2) = 0.68 at the face edge, 2 - 0.5 = 1.5 at the bore edge.
    hub, disc = Hub(fillet_mm=2.0), StockDisc(thickness_mm=15, kind="plain", hub_chamfer_mm=0.5)
    found = said(seating.judge(hub, "left", disc), "holds the disc")
    assert found.verdict is Verdict.FAIL and found.margin_mm == pytest.approx(-1.5)
    wide = StockDisc(thickness_mm=15, kind="plain", hub_chamfer_mm=2.0)
    assert said(seating.judge(hub, "left", wide), "clears").verdict is Verdict.PASS


@pytest.mark.parametrize(("pocket_mm", "verdict"), [(None, Verdict.UNKNOWN), (0, Verdict.FAIL), (2, Verdict.PASS)])
def test_a_proud_retaining_screw_wants_a_pocket(pocket_mm: float | None, verdict: Verdict) -> None:
    disc = StockDisc(thickness_mm=15, kind="plain", screw_pocket_mm=pocket_mm)
    (found,) = seating.judge(Hub(screw_proud_mm=1.5), "left", disc)
    assert found.verdict is verdict


def test_an_unread_fillet_chamfer_is_unknown_and_an_unread_fillet_is_not_made_up() -> None:
    disc = StockDisc(thickness_mm=15, kind="plain")
    assert seating.judge(Hub(fillet_mm=1.0), "left", disc)[0].verdict is Verdict.UNKNOWN
    assert seating.judge(Hub(), "left", disc) == ()


def test_a_pocket_that_lies_beside_its_stud_is_found_by_its_angle() -> None:
    # Stud 12 in a pocket 22 wide, 25 mm adapter, studs 33 proud on 139.7: 5 mm free less 69.85 sin 3 deg = 3.66.
    text = (EXAMPLE.parent / "off-roader-adapter.toml").read_text(encoding="utf-8")
    job = parse(text.replace("relief_width_mm = 22", "relief_width_mm = 22\nrelief_angle_deg = 3"))
    assert job.rear is not None
    found = adapter.judge(
        job.rear.hub, job.rear.wheel_set[:1], job.rear.fastener, "left", house_of(job), job.shop.disc[0]
    )
    assert any("1.3 mm beside each stud" in step.text for step in found.working)
    far = parse(text.replace("relief_width_mm = 22", "relief_width_mm = 22\nrelief_angle_deg = 5"))
    assert far.rear is not None
    hit = adapter.judge(
        far.rear.hub, far.rear.wheel_set[:1], far.rear.fastener, "left", house_of(far), far.shop.disc[0]
    )
    assert hit.verdict is Verdict.FAIL
