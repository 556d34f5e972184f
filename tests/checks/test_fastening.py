"""Fasteners: enough thread behind the disc, and nothing that bottoms or strikes."""

from __future__ import annotations

from typing import Any

import pytest
from tests.checks.bench import fitted, house, hub

from hubwright.checks import fastening
from hubwright.checks.joint import Fastening
from hubwright.findings import Verdict
from hubwright.parts.hub import Fastener
from hubwright.parts.shop import Shop, StockFastener
from hubwright.parts.wheel import WheelSet

BOLT: dict[str, Any] = {"kind": "bolt", "thread": "M14x1.5", "seat": "cone", "length_mm": 27, "engagement_mm": 13.5}
BEHIND = {"flange_thickness_mm": 15, "free_behind_mm": 4}
SERIES = [27, 28, 30, 33, 35, 38, 40, 43, 45, 48, 50]
NUT: dict[str, Any] = {"kind": "nut", "thread": "M12x1.5", "seat": "cone", "closed_depth_mm": 24}
STUD = {"stud_length_mm": 38, "stud_lead_mm": 1.5, "hat_thickness_mm": 6.5}
PAD = {"pad_to_thread_mm": 11, "seat": "cone"}


def shop(**stock: Any) -> Shop:
    return Shop(fastener=(StockFastener(**stock),)) if stock else Shop()


BOLTS = shop(kind="bolt", thread="M14 x 1,5", seat="cone", lengths_mm=SERIES)


def bolted(thickness_mm: float, *, stock: Shop = BOLTS, on: Any = None, seat: str = "cone", **more: Any) -> Fastening:
    wheels = fitted(seat=seat)
    return fastening.judge(
        hub(**(on or BEHIND)), wheels, Fastener(**{**BOLT, **more}), "left", stock, house(), thickness_mm
    )


def nutted(thickness_mm: float, *, on: Any = None, stock: Shop | None = None, **more: Any) -> Fastening:
    nut = Fastener(**{**NUT, **more})
    return fastening.judge(
        hub(**{**STUD, **(on or {})}), fitted(**PAD), nut, "left", stock or shop(), house(), thickness_mm
    )


def window(on: Any, nut_or_bolt: Any, stock: Shop, **wheel: Any) -> Any:
    return fastening.window_of(hub(**on), fitted(**wheel), Fastener(**nut_or_bolt), "left", stock, house())


def test_of_the_stock_lengths_the_one_that_is_long_enough_and_not_too_long_is_taken() -> None:
    """Derived: 5 mm disc, 13.5 engaged with 27: 30 gives 11.5 (below 14 wanted), 33 gives 14.5, 35 gives 16.5 > 16."""
    choice = bolted(5.0).choice
    assert choice is not None
    assert (choice.length_mm, choice.engagement_mm, choice.change) == (33, 14.5, True)
    assert choice.engagement_turns == pytest.approx(9.67, abs=0.005)
    words = {step.text.split("=")[0]: step.text for step in bolted(5.0).finding.working}
    assert any("8.5 mm engaged, below the floor of 11.2 mm" in text for text in words.values())
    assert any("16.5 mm engaged, too long" in text for text in words.values())


def test_above_the_floor_and_below_the_wanted_is_a_caution() -> None:
    found = bolted(3.0)
    assert found.finding.verdict is Verdict.CAUTION
    assert found.choice is not None
    assert found.choice.length_mm == 30


def test_nothing_on_the_shelf_refuses_and_says_what_to_order() -> None:
    found = bolted(30.0)
    assert (found.finding.verdict, found.choice) == (Verdict.FAIL, None)
    assert "57 mm bolts are needed; nearest kept, 50 mm" in found.finding.sentence
    assert found.finding.todo == "Order M14x1.5 cone bolts near 57 mm."


def test_a_blind_hole_is_never_bottomed() -> None:
    """Derived: 16 mm deep, 3 mm kept: 13 mm at most, below the 14 wanted."""
    assert bolted(5.0, on={"blind_depth_mm": 16}).finding.verdict is Verdict.CAUTION
    assert bolted(5.0, on={"blind_depth_mm": 14}).finding.verdict is Verdict.FAIL


def test_turns_counted_count_as_millimetres() -> None:
    counted = bolted(5.0, engagement_mm=None, engagement_turns=9)
    assert counted.choice == bolted(5.0).choice


def test_an_aluminium_hub_wants_more_thread() -> None:
    assert bolted(5.0, on={**BEHIND, "material": "aluminium"}).finding.verdict is Verdict.CAUTION


@pytest.mark.parametrize(
    ("stock", "fits"),
    [
        ({"kind": "bolt", "thread": "M14x1.5", "seat": "cone"}, True),
        ({"kind": "bolt", "thread": "M14x1.25", "seat": "cone"}, False),
        ({"kind": "bolt", "thread": "M14x1.5", "seat": "ball", "seat_radius_mm": 13}, False),
        ({"kind": "nut", "thread": "M14x1.5", "seat": "cone"}, False),
    ],
)
def test_only_stock_of_the_same_kind_thread_and_seat_is_taken(stock: Any, fits: bool) -> None:
    assert (bolted(5.0, stock=shop(**stock, lengths_mm=SERIES)).choice is not None) is fits


def test_a_seat_that_is_not_the_wheels_is_refused_whatever_the_thickness() -> None:
    assert bolted(5.0, seat="flat").finding.verdict is Verdict.FAIL
    assert window(BEHIND, BOLT, BOLTS, seat="flat").intervals == ()
    ball = {**BOLT, "seat": "ball", "seat_radius_mm": 13, "engagement_mm": 14.5}
    assert window(BEHIND, ball, BOLTS, seat="ball", seat_radius_mm=12).intervals == ()
    assert window(BEHIND, ball, BOLTS, seat="ball", seat_radius_mm=13).intervals != ()


def test_the_window_of_bolts_is_the_set_of_discs_that_are_held_as_wanted() -> None:
    found = window(BEHIND, BOLT, BOLTS, seat="cone")
    for tenth in range(300):
        assert found.allows(tenth / 10) == (bolted(tenth / 10).finding.verdict is Verdict.PASS)


def test_studs_lose_what_the_disc_takes() -> None:
    """Derived: 38 - 1.5 - 6.5 - 11 - t: 19, 16, 14, 11, 9 mm for 0, 3, 5, 8, 10; floor 9.6, wanted 12."""
    engaged = {t: nutted(t) for t in (0.0, 3.0, 5.0, 8.0, 10.0)}
    choices = {t: found.choice.engagement_mm for t, found in engaged.items() if found.choice}
    assert choices == {0.0: 19.0, 3.0: 16.0, 5.0: 14.0, 8.0: 11.0}
    verdicts = [found.finding.verdict for found in engaged.values()]
    assert verdicts == [Verdict.PASS] * 3 + [Verdict.CAUTION, Verdict.FAIL]
    assert engaged[5.0].choice is not None
    assert engaged[5.0].choice.engagement_turns == pytest.approx(9.33, abs=0.005)


def test_a_long_stud_bottoms_in_a_closed_nut_and_not_in_an_open_one() -> None:
    """Derived: 58 - 6.5 - 11 = 40.5 mm of stud, and 25.5 behind 15 mm of disc, in a nut 24 deep."""
    long = {"stud_length_mm": 58}
    assert "40.5 mm of stud bottoms" in nutted(0.0, on=long).finding.sentence
    assert nutted(15.0, on=long).finding.verdict is Verdict.FAIL
    assert nutted(16.5, on=long).finding.verdict is Verdict.PASS
    assert nutted(15.0, on=long, closed_depth_mm=None, open_end=True).finding.verdict is Verdict.PASS


def test_stated_doubt_is_owed_by_studs_as_by_bolts() -> None:
    assert nutted(7.0).finding.verdict is Verdict.PASS
    assert nutted(7.0, on={"hat_thickness_mm": {"value": 6.5, "u": 0.5}}).finding.verdict is Verdict.CAUTION
    assert bolted(5.5).finding.verdict is Verdict.PASS
    assert bolted(5.5, engagement_mm={"value": 13.5, "u": 0.7}).finding.verdict is not Verdict.FAIL


def test_longer_studs_on_the_shelf_are_taken_where_todays_do_not_hold() -> None:
    stock = shop(kind="stud", thread="M12x1.5", lengths_mm=[45])
    choice = nutted(12.0, stock=stock).choice
    assert choice is not None
    assert (choice.length_mm, choice.engagement_mm, choice.change) == (45, 14.0, True)


@pytest.mark.parametrize("gone", ["length_mm", "engagement_mm", "thread"])
def test_a_bolt_of_which_something_was_not_read_is_unknown(gone: str) -> None:
    found = bolted(5.0, **{gone: None})
    assert (found.finding.verdict, found.choice) == (Verdict.UNKNOWN, None)


@pytest.mark.parametrize("gone", ["stud_length_mm", "stud_lead_mm", "hat_thickness_mm"])
def test_a_stud_of_which_something_was_not_read_is_unknown(gone: str) -> None:
    assert nutted(5.0, on={gone: None}).finding.verdict is Verdict.UNKNOWN
    assert nutted(5.0, closed_depth_mm=None).finding.verdict is Verdict.UNKNOWN


def test_an_engagement_counted_with_one_wheel_says_nothing_about_another() -> None:
    other = WheelSet(role="winter")
    found = fastening.judge(hub(**BEHIND), other, Fastener(**BOLT), "left", BOLTS, house(), 5.0)
    assert found.finding.verdict is Verdict.UNKNOWN
    assert "engagement now" in found.finding.sentence
