"""Offered packages: what changes, what fits, and where the same position is."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

import hubwright
from hubwright.checks.clearance import room_of
from hubwright.checks.house import house_of
from hubwright.checks.outlines import built
from hubwright.checks.package_law import lead_window_percent
from hubwright.checks.package_room import room_with, swap_of
from hubwright.errors import BadInput
from hubwright.findings import Evidence, Finding, Verdict
from hubwright.jobs.answer import AxleAnswer, PackageAnswer

EXAMPLE = (Path(__file__).resolve().parents[2] / "examples" / "estate-other-wheels.toml").read_text(encoding="utf-8")


@cache
def axle(*changes: tuple[str, str]) -> AxleAnswer:
    text = EXAMPLE
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return hubwright.assess(hubwright.parse(text)).axle("rear")


def first(*changes: tuple[str, str]) -> PackageAnswer:
    return axle(*changes).packages[0]


def of(answer: PackageAnswer, item: str) -> Finding:
    return next(
        found for found in answer.findings if found.case is not None and item in (found.case.item, found.question)
    )


WHEEL = 'rim = "8Jx18 ET45"\nbolt_circle = "5x112"\nbore_mm = 57.1'
DAMPER = '[[rear.left.point]]\nname = "damper'
SECOND_LINE = '[[rear.left.body_line]]\nname = "arch edge, straight up"\noutward_mm = 80\n'
NEW_TYRE = (
    "section_width_mm = 226\ntread_depth_mm = 6.0\nnew_tread_depth_mm = 8.0\n",
    "",
)


class TestFigures:
    """225/45R17 on 7.5Jx17 ET47 gives way to 235/40R18 on 8Jx18 ET45."""

    def test_diameter_and_circumference_grow_by_1_72_percent(self) -> None:
        change, figures = first(NEW_TYRE).change, first(NEW_TYRE).figures
        assert change is not None and figures is not None
        assert figures.overall_diameter_mm == pytest.approx(645.2)
        assert figures.overall_diameter_mm - change.diameter_mm == pytest.approx(634.3)
        assert change.diameter_percent == pytest.approx(1.72, abs=0.005)
        assert change.true_speed_at_100_kmh == pytest.approx(101.72, abs=0.005)

    def test_a_worn_tyre_counts_as_it_is(self) -> None:
        worn, new = first().change, first(NEW_TYRE).change
        assert worn is not None and new is not None
        assert worn.diameter_mm - new.diameter_mm == pytest.approx(2 * (8.0 - 6.0))

    def test_a_235_on_inset_35_reaches_82_5_out_and_152_5_in(self) -> None:
        # The width over the flanges of an 8 in rim, 227.2 mm, stays below the 235 read.
        read = ("tread_width_mm = 205\n", "tread_width_mm = 205\nsection_width_mm = 235\n")
        edges = first(read, ("8Jx18 ET45", "8Jx18 ET35")).edges
        assert edges is not None
        assert (edges.outer_mm, edges.inner_mm) == (pytest.approx(82.5, abs=0.1), pytest.approx(152.5, abs=0.1))

    def test_another_inset_shifts_both_edges_and_the_disc_for_the_same_position(self) -> None:
        near, far = first(), first(("8Jx18 ET45", "8Jx18 ET60"))
        assert near.change is not None and far.change is not None
        assert near.same_outer_disc_mm is not None and far.same_outer_disc_mm is not None
        assert near.change.outward_mm - far.change.outward_mm == pytest.approx(15.0)
        assert far.same_outer_disc_mm - near.same_outer_disc_mm == pytest.approx(15.0)
        assert near.same_outer_inset_mm == pytest.approx(far.same_outer_inset_mm)

    def test_where_no_disc_keeps_the_position_the_inset_is_named(self) -> None:
        assert "no disc does it; an inset of 52.1 mm would" in first().decision
        assert "disc of 7.9 mm, or inset 52.1 mm" in first(("8Jx18 ET45", "8Jx18 ET60")).decision


class TestSpeedometer:
    """UN R39: from 0 to a tenth and 4 km/h too much."""

    def test_the_lead_needed_follows_from_the_diameters(self) -> None:
        low, high = lead_window_percent(634.3, 645.2)
        assert low == pytest.approx(1.718, abs=0.001)
        assert high == pytest.approx(100 * (136 / 120 * 645.2 / 634.3 - 1))  # 136 shown at a true 120

    def test_with_the_same_tyre_any_lawful_lead_stays_lawful(self) -> None:
        assert lead_window_percent(634.3, 634.3) == (0.0, pytest.approx(13.33, abs=0.01))

    def test_a_speedometer_that_shows_too_little_afterwards_is_refused(self) -> None:
        found = of(first(("speedometer_lead_percent = 3.5", "speedometer_lead_percent = 1.0")), "speedometer")
        assert found.verdict is Verdict.FAIL and "UN" in found.sentence

    def test_without_a_reading_it_is_unknown_and_the_window_is_told(self) -> None:
        found = next(
            f
            for f in first(("speedometer_lead_percent = 3.5", "")).findings
            if f.question == "law" and "speedometer" in f.sentence
        )
        assert found.verdict is Verdict.UNKNOWN and "2.4 to 16.0 % too much" in found.sentence


class TestVerdicts:
    """What keeps a package off the car."""

    @pytest.mark.parametrize(
        ("change", "item", "verdict"),
        [
            (("235/40R18 95W XL", "235/40R17 95W XL"), "rim diameter", Verdict.FAIL),
            (("235/40R18 95W XL", "235/40R18 82W"), "load index", Verdict.FAIL),
            (("235/40R18 95W XL", "235/40R18 90W"), "load index", Verdict.CAUTION),
            (("235/40R18 95W XL", "235/40R18 95T XL"), "speed symbol", Verdict.FAIL),
            (("235/40R18 95W XL", "235/40R18"), "load index", Verdict.UNKNOWN),
            (("axle_load_kg = 1120", "axle_load_kg = 1500"), "wheel rating", Verdict.FAIL),
            (("rating_circumference_mm = 2050", "rating_circumference_mm = 1900"), "wheel rating", Verdict.CAUTION),
            (("[8, 8.5, 9, 9.5]", "[8.5, 9]"), "rim width", Verdict.FAIL),
            ((WHEEL, WHEEL.replace("5x112", "5x120")), "hole circle", Verdict.FAIL),
            ((WHEEL, WHEEL.replace("57.1", "56.1")), "bore", Verdict.FAIL),
            ((WHEEL, WHEEL.replace("57.1", "66.6")), "bore", Verdict.CAUTION),
            (("load_rating_kg = 690\nrating", "rating"), "wheel rating", Verdict.UNKNOWN),
        ],
    )  # fmt: skip
    def test_each_question_answers_for_itself(self, change: tuple[str, str], item: str, verdict: Verdict) -> None:
        answer = first(change)
        assert of(answer, item).verdict is verdict
        expected = {Verdict.FAIL: "refused", Verdict.UNKNOWN: "not known", Verdict.CAUTION: "caution"}[verdict]
        assert answer.status == expected
        assert all(disc.status in (expected, "refused", "not known") for disc in answer.discs)

    def test_the_demo_package_goes_without_a_disc_and_with_3_or_5_mm(self) -> None:
        assert first().status == "valid"
        assert first().valid_discs_mm == (0.0, 3.0, 5.0)
        assert first().recommended_mm == 0.0

    def test_nothing_of_an_offered_package_is_ever_released(self) -> None:
        for answer in axle().packages:
            assert not any(disc.released for disc in answer.discs)
            clear = [found for found in answer.findings if found.question == "clearance"]
            assert clear and all(found.evidence is Evidence.PREDICTED for found in clear)

    def test_the_second_package_fails_at_the_arch_and_says_by_how_much(self) -> None:
        dish = axle().packages[1]
        assert dish.status == "refused" and "arch lip, inner edge" in dish.decision and "short" in dish.decision
        assert dish.valid_discs_mm == ()

    def test_room_over_the_brake_read_with_the_fitted_wheels_says_nothing_about_others(self) -> None:
        assert of(axle().packages[1], "brake").verdict is Verdict.UNKNOWN
        assert "by their outlines" in of(first(), "brake").sentence

    def test_a_package_without_a_designation_is_not_known_and_says_why(self) -> None:
        answer = first(('designation = "235/40R18 95W XL"\n', ""))
        assert answer.status == "not known" and "designation is missing" in answer.decision
        assert answer.change is None and {disc.status for disc in answer.discs} <= {"not known", "refused"}

    def test_a_weight_beside_the_barrel_leaves_the_package_open_and_names_the_barrel(self) -> None:
        weight = (
            '[rear.package.tyre]\ndesignation = "235',
            'weight = [{ position_mm = 400 }]\n[rear.package.tyre]\ndesignation = "235',
        )
        assert first(weight).status == "not known" and "Barrel" in first(weight).decision

    @pytest.mark.parametrize(
        ("change", "field"),
        [
            (("tread_depth_mm = 6.0", "tread_depth_mm = 11.0"), "tyre.tread_depth_mm"),
            (("engagement_mm = 12.5 }", "engagement_mm = 12.5, engagement_turns = 30 }"), "fastener.engagement_turns"),
            ((DAMPER, SECOND_LINE + DAMPER), "body_line[2].name"),
        ],
    )  # fmt: skip
    def test_figures_that_cannot_both_be_true_are_faults(self, change: tuple[str, str], field: str) -> None:
        with pytest.raises(BadInput) as caught:
            hubwright.parse(EXAMPLE.replace(*change))
        assert caught.value.faults[0].field.endswith(field)

    def test_law_on_diameter_and_width_asks_for_the_series_tyre_and_rim(self) -> None:
        swap = ('countries = ["DE"]', 'countries = ["AU-NSW"]')
        diameter = next(f for f in first(swap).findings if "diameter 10.9 mm against" in f.sentence)
        assert diameter.verdict is Verdict.PASS
        width = next(f for f in first(swap).findings if "rim 12.7 mm wider" in f.sentence)
        assert width.verdict is Verdict.PASS
        without = first(swap, ('series_tyre = "225/45R17 91W"\n', ""))
        assert any(f.verdict is Verdict.UNKNOWN and "series tyre" in f.sentence for f in without.findings)


class TestStanding:
    """Flush, tuck and poke against the body line."""

    def test_the_change_of_tuck_is_the_change_of_the_outer_edge(self) -> None:
        now, then = axle().standing[0], first().standing[0]
        change = first().change
        assert change is not None
        # The camber leans both tyres a little differently, as their widest places lie at different radii.
        assert then.poke_mm - now.poke_mm == pytest.approx(change.outward_mm, abs=0.5)
        assert (now.word, then.word, then.part) == ("tuck", "tuck", "tyre")

    def test_the_flush_disc_makes_it_flush(self) -> None:
        from hubwright.checks.standing import standings

        job = hubwright.parse(EXAMPLE)
        assert job.rear is not None and job.rear.fitted is not None
        shape = built(job.rear.fitted.wheel, job.rear.fitted.tyre)
        bare = standings(job.rear, shape)[0]
        assert standings(job.rear, shape, bare.flush_disc_mm)[0].poke_mm == pytest.approx(0.0, abs=1e-9)
        assert standings(job.rear, shape, bare.flush_disc_mm + 3.0)[0].word == "poke"


class TestRoom:
    """Gaps read with the fitted wheels, less what the other outline takes."""

    def test_a_package_swapped_for_itself_takes_nothing(self) -> None:
        job = hubwright.parse(EXAMPLE)
        assert job.rear is not None and job.rear.fitted is not None
        house, fitted = house_of(job), job.rear.fitted
        shape = built(fitted.wheel, fitted.tyre)
        room = room_of(job.rear, "left", house, steered=False, with_work=False)
        moved = room_with(job.rear, room, swap_of(shape, shape, fitted.tyre, fitted.tyre), house)
        for before, after in zip(room.swept, moved.swept, strict=True):
            assert np.allclose(before.curve.gap_mm, after.curve.gap_mm, atol=1e-9)
            assert (after.curve.doubt_mm >= before.curve.doubt_mm).all()

    def test_a_millimetre_less_inset_takes_a_millimetre_outside_and_gives_it_inside(self) -> None:
        near, far = first(), first(("8Jx18 ET45", "8Jx18 ET46"))
        outside = [a.margin_mm for a in near.findings if a.question == "clearance"]
        wider = [a.margin_mm for a in far.findings if a.question == "clearance"]
        for a, b in zip(outside, wider, strict=True):
            assert a is not None and b is not None
            assert b - a == pytest.approx(1.0, abs=0.01)
        shapes = [
            built(package.wheel, package.tyre)
            for text in (EXAMPLE, EXAMPLE.replace("8Jx18 ET45", "8Jx18 ET46"))
            if (rear := hubwright.parse(text).rear) is not None
            for package in rear.package[:1]
        ]
        tyre = hubwright.parse(EXAMPLE).rear.package[0].tyre  # type: ignore[union-attr]  # the demo has a rear axle
        swap = swap_of(shapes[0], shapes[1], tyre, tyre)
        out, inside = swap.differences(np.array([250.0, 280.0, 300.0]))
        assert out == pytest.approx(-1.0) and inside == pytest.approx(1.0)

    def test_an_unmeasured_offered_tyre_is_taken_as_the_largest_of_its_size(self) -> None:
        measured = first(
            ("tread_width_mm = 205\n", "tread_width_mm = 205\nsection_width_mm = 236.1\nfree_radius_mm = 322.6\n")
        )
        for a, b in zip(
            *([f for f in p.findings if f.question == "clearance"] for p in (measured, first())), strict=True
        ):
            assert a.margin_mm is not None and b.margin_mm is not None and a.margin_mm > b.margin_mm
        words = [step.text for found in first().findings for step in found.working]
        assert any("largest tyre of its size" in text for text in words)

    def test_inches_in_a_package_give_the_same_answer(self) -> None:
        metric = first()
        inch = first(
            ("pad_diameter_mm = 145", "pad_diameter_in = 5.708661417322835"),
            ("tread_width_mm = 205", "tread_width_in = 8.070866141732283"),
        )
        assert inch.change is not None and metric.change is not None
        assert inch.change.outward_mm == pytest.approx(metric.change.outward_mm)
        assert inch.decision == metric.decision
