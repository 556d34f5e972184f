"""The demo jobs end as an experienced technician would end them: same decision, same limiting item, same figures."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

import hubwright
from hubwright.findings import Finding, Verdict
from hubwright.jobs.answer import Answer, DiscAnswer, PlanAnswer

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@cache
def answer(name: str, **replaced: str) -> Answer:
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in replaced.items():
        assert f'"{old}"' in text
        text = text.replace(f'"{old}"', f'"{new}"')
    return hubwright.assess(hubwright.parse(text, name))


def disc(plan: PlanAnswer, thickness_mm: float) -> DiscAnswer:
    return next(item for item in plan.discs if item.thickness_mm == thickness_mm)


def finding(item: DiscAnswer, question: str) -> Finding:
    return next(found for found in item.findings if found.question == question)


def engaged(item: DiscAnswer) -> tuple[float | None, float, float]:
    choice = item.fasteners[0]
    return choice.length_mm, choice.engagement_mm, choice.engagement_turns


def statuses(plan: PlanAnswer) -> dict[float, str]:
    return {item.thickness_mm: item.status for item in plan.discs}


class TestLoweredHatchback:
    """20 mm asked for; the pinch is in mid travel, on the right."""

    @pytest.fixture
    def plans(self) -> tuple[PlanAnswer, ...]:
        return answer("hatchback-rear-flush").axle("rear").plans

    def test_nothing_goes_as_it_stands_because_the_standard_right_wheel_is_already_too_near(
        self, plans: tuple[PlanAnswer, ...]
    ) -> None:
        assert plans[0].recommended_mm is None
        right = next(item for item in plans[0].as_it_stands if item.case and item.case.side == "right")
        assert right.verdict is Verdict.FAIL
        assert right.case is not None and right.case.state == "bump 46 mm"
        assert "9.5 mm of air" in right.sentence and "1.5 mm short" in right.sentence

    def test_with_both_lips_rolled_5_mm_goes_on_both_sides(self, plans: tuple[PlanAnswer, ...]) -> None:
        rolled = plans[1]
        assert rolled.work == ("roll the arch lip",)
        assert rolled.recommended_mm == 5
        most = {window.side: window.intervals[0].high_mm for window in rolled.windows if window.question == "clearance"}
        assert most["right"] == pytest.approx(5.5, abs=0.05)
        assert most["left"] == pytest.approx(10.5, abs=0.05)

    def test_the_pinch_of_the_wished_disc_is_the_right_lip_in_mid_travel(self, plans: tuple[PlanAnswer, ...]) -> None:
        worst = finding(disc(plans[1], 8), "clearance")
        assert worst.case is not None
        assert (worst.case.side, worst.case.state) == ("right", "bump 46 mm")
        assert worst.margin_mm == pytest.approx(16.5 - 1.0 - 10 - 8, abs=0.05)

    def test_the_5_mm_disc_leaves_4_5_mm_of_pilot(self, plans: tuple[PlanAnswer, ...]) -> None:
        assert "4.5 mm of pilot left" in finding(disc(plans[1], 5), "centring").sentence

    def test_33_mm_bolts_are_chosen(self, plans: tuple[PlanAnswer, ...]) -> None:
        length_mm, engagement_mm, turns = engaged(disc(plans[1], 5))
        assert (length_mm, engagement_mm) == (33, pytest.approx(14.5))
        assert turns == pytest.approx(9.67, abs=0.01)
        tried = " ".join(step.text for step in finding(disc(plans[1], 5), "fastener").working)
        assert "30 − 27) − 5.0 = 11.5 mm = 7.7 turns: above the floor of 11.2 mm" in tried
        assert "27 − 27) − 5.0 = 8.5 mm = 5.7 turns: 8.5 mm engaged, below the floor" in tried
        assert "35 − 27) − 5.0 = 16.5 mm = 11.0 turns: 16.5 mm engaged, too long" in tried

    def test_the_track_grows_by_0_65_percent_and_20_mm_would_break_the_2_percent_rule(
        self, plans: tuple[PlanAnswer, ...]
    ) -> None:
        assert "track +10 mm, +0.65 %" in plans[1].decision
        assert finding(disc(plans[1], 20), "law").verdict is Verdict.FAIL

    def test_discs_and_bolts_are_ordered_with_their_counts(self, plans: tuple[PlanAnswer, ...]) -> None:
        assert [(line.count, line.item) for line in plans[1].order] == [
            (2, "plain disc 5 mm"),
            (10, "bolts M14x1.5, cone seat, 33 mm"),
        ]


class TestDeadZone:
    """8 mm asked for on a short spigot with a stub axle end."""

    @pytest.fixture
    def plan(self) -> PlanAnswer:
        return answer("coupe-front-dead-zone").axle("front").plan

    def test_only_3_mm_is_valid(self, plan: PlanAnswer) -> None:
        assert plan.recommended_mm == 3
        assert statuses(plan) == {3: "valid", 5: "refused", 8: "refused", 10: "refused", 12: "refused", 15: "refused"}

    def test_5_leaves_2_5_mm_of_pilot_and_8_and_10_leave_none(self, plan: PlanAnswer) -> None:
        assert "only 2.5 mm of pilot" in finding(disc(plan, 5), "centring").sentence
        assert "no pilot" in finding(disc(plan, 8), "centring").sentence
        assert "no pilot" in finding(disc(plan, 10), "centring").sentence

    def test_12_and_15_with_a_lip_centre_well_but_exceed_the_clearance_of_8_9(self, plan: PlanAnswer) -> None:
        for thickness_mm in (12, 15):
            assert finding(disc(plan, thickness_mm), "centring").verdict is Verdict.PASS
            assert finding(disc(plan, thickness_mm), "clearance").verdict is Verdict.FAIL
        most = min(w.intervals[0].high_mm or 99 for w in plan.windows if w.question == "clearance")
        assert most == pytest.approx(8.9, abs=0.05)

    def test_the_dead_zone_lies_between_3_5_and_11(self, plan: PlanAnswer) -> None:
        centring = {w.disc: w.intervals for w in plan.windows if w.question == "centring" and w.side == "left"}
        assert centring["plain"][0].high_mm == pytest.approx(3.5)
        assert centring["lipped"][0].low_mm == pytest.approx(11)

    def test_8_mm_with_a_lip_becomes_valid_under_wheels_bored_73_1(self) -> None:
        text = (EXAMPLES / "coupe-front-dead-zone.toml").read_text(encoding="utf-8")
        text = text.replace("bore_mm = 66.6", "bore_mm = 73.1").replace(
            'thickness_mm = 8\nkind = "plain"',
            'thickness_mm = 8\nkind = "lipped"\nlip_outer_mm = 73.1\nlip_inner_mm = 66.6\nlip_length_mm = 9',
        )
        plan = hubwright.assess(hubwright.parse(text)).axle("front").plan
        assert disc(plan, 8).status == "valid"
        around = [step.text for step in finding(disc(plan, 8), "centring").working]
        assert any("3.25" in step for step in around)


class TestStuds:
    """Slip-on discs on studs with closed nuts."""

    @pytest.fixture
    def plan(self) -> PlanAnswer:
        return answer("saloon-studs").axle("rear").plan

    def test_5_mm_is_the_answer(self, plan: PlanAnswer) -> None:
        assert plan.recommended_mm == 5
        assert "6.0 mm of pilot left" in finding(disc(plan, 5), "centring").sentence

    @pytest.mark.parametrize(
        ("thickness_mm", "engaged_mm", "turns"),
        [(3, "16.0", "10.7"), (5, "14.0", "9.3"), (8, "11.0", "7.3"), (10, "9.0", "6.0")],
    )
    def test_engagement_shrinks_by_the_thickness(
        self, plan: PlanAnswer, thickness_mm: float, engaged_mm: str, turns: str
    ) -> None:
        working = " ".join(step.text for step in finding(disc(plan, thickness_mm), "fastener").working)
        assert f"38 − 1.5 − 6.5 − 11.0 − {thickness_mm:.1f} = {engaged_mm} mm = {turns} turns" in working

    def test_8_mm_is_above_the_floor_and_below_what_is_wanted(self, plan: PlanAnswer) -> None:
        found = finding(disc(plan, 8), "fastener")
        assert found.verdict is Verdict.CAUTION
        assert "below the wanted 12.0 mm: longer studs" in found.sentence

    def test_58_mm_studs_bottom_in_the_closed_nuts_even_with_15_mm(self, plan: PlanAnswer) -> None:
        working = " ".join(step.text for step in finding(disc(plan, 15), "fastener").working)
        assert "25.5 mm of stud bottoms in a closed nut 24.0 mm deep" in working


class TestBoltedAdapter:
    """25 mm adapters on a ladder-frame car with a flat spare."""

    def test_25_mm_goes_in_germany_with_a_caution_about_the_flat_spare(self) -> None:
        plan = answer("off-roader-adapter").axle("rear").plan
        assert plan.recommended_mm == 25
        assert "studs stand 8.0 mm out of the adapter and the steel spare is flat" in disc(plan, 25).reasons[0]
        assert "+3.21 %" in plan.decision
        working = " ".join(step.text for found in disc(plan, 25).every for step in found.working)
        assert "25.0 − 13.0 = 12.0 mm of web" in working

    def test_35_mm_breaks_the_4_percent_rule_of_frame_built_cars(self) -> None:
        found = finding(disc(answer("off-roader-adapter").axle("rear").plan, 35), "law")
        assert found.verdict is Verdict.FAIL and "+4.49 %" in found.sentence and "4 %" in found.sentence

    def test_south_australia_refuses_it(self) -> None:
        plan = answer("off-roader-adapter", DE="AU-SA").axle("rear").plan
        assert plan.recommended_mm is None
        assert "at most 26 mm" in finding(disc(plan, 25), "law").sentence

    def test_articulation_and_the_hidden_joint_are_named(self) -> None:
        found = answer("off-roader-adapter")
        assert any("crossed up" in caution for caution in found.cautions)
        inner = [item.todo for item in disc(found.axle("rear").plan, 25).every if item.question == "fastener"]
        assert any("inner joint has a torque of its own" in todo for todo in inner)


class TestMailOrder:
    """A customer's plumb line; nothing may lead to a thickness."""

    @pytest.fixture
    def found(self) -> Answer:
        return answer("mail-order-plumb-line")

    def test_no_thickness_is_given_and_none_is_called_valid(self, found: Answer) -> None:
        plan = found.axle("front").plan
        assert plan.recommended_mm is None
        assert set(statuses(plan).values()) == {"not known", "refused"}

    def test_the_floor_slopes_by_a_degree_and_the_means_are_16_5_and_15_5(self, found: Answer) -> None:
        slope = next(item for item in found.questions if item.about == "floor slope")
        for figure in ("1.0°", "10.5 mm", "left 16.5 mm", "right 15.5 mm"):
            assert figure in slope.text

    def test_nothing_above_5_mm_is_likely_and_3_mm_hangs_on_a_spigot_of_9_5(self, found: Answer) -> None:
        said = " ".join(found.axle("front").provisional)
        assert "Nothing above 5 mm can be called likely" in said
        assert "3 mm would need a spigot of at least 9.5 mm" in said

    def test_the_next_readings_come_in_the_order_of_their_value(self, found: Answer) -> None:
        order = [item.what for item in found.axle("front").wanted]
        wanted = (
            "full bump", "spigot", "thread of the fasteners", "lip returns", "section width", "steering stood straight",
            "ride heights", "other wheel sets",
        )  # fmt: skip
        places = [next(number for number, what in enumerate(order) if word in what) for word in wanted]
        assert places == sorted(places)


class TestLock:
    """15 mm would be lawful; liner, bumper corner and lip at lock say no."""

    @pytest.fixture
    def plan(self) -> PlanAnswer:
        return answer("compact-front-lock").axle("front").plan

    def test_5_mm_is_the_most_in_front(self, plan: PlanAnswer) -> None:
        assert plan.recommended_mm == 5

    def test_15_mm_is_lawful_by_track_and_still_refused(self, plan: PlanAnswer) -> None:
        assert "+1.95 %" in " ".join(step.text for step in finding(disc(plan, 15), "law").working)
        assert finding(disc(plan, 15), "law").verdict is not Verdict.FAIL
        assert disc(plan, 15).status == "refused"

    @pytest.mark.parametrize(
        ("thickness_mm", "liner", "bumper", "lip"), [(5, 11.0, 15.0, 12.0), (8, 9.2, 13.2, 9.6), (15, 5.0, 9.0, 4.0)]
    )
    def test_gaps_at_lock_shrink_along_the_steered_axis(
        self, plan: PlanAnswer, thickness_mm: float, liner: float, bumper: float, lip: float
    ) -> None:
        bounds = {
            b.case.item: b
            for w in plan.windows
            if w.question == "clearance"
            for b in w.bounds
            if "steered" in b.case.state
        }
        for item, bare, left in (
            ("lower liner behind the wheel", 14, liner), ("bumper corner", 18, bumper), ("arch lip", 16, lip)
        ):  # fmt: skip
            share = (bare - 0.5 - 10) / bounds[item].at_mm
            assert bare - share * thickness_mm == pytest.approx(left, abs=0.05)

    def test_the_next_disc_8_mm_fails_at_the_liner_with_9_2_mm(self, plan: PlanAnswer) -> None:
        found = finding(disc(plan, 8), "clearance")
        assert found.case is not None and found.case.item == "lower liner behind the wheel"
        assert "9.2 mm of air" in found.sentence

    def test_the_pilot_is_just_kept_and_the_scrub_radius_keeps_its_sign(self, plan: PlanAnswer) -> None:
        assert "4.0 mm of pilot left" in finding(disc(plan, 5), "centring").sentence
        assert finding(disc(plan, 5), "effects").verdict is Verdict.PASS
        assert "−3.0 mm" in finding(disc(plan, 5), "effects").sentence
        flipped = finding(disc(plan, 15), "effects")
        assert flipped.verdict is Verdict.CAUTION and "7.0 mm" in flipped.sentence

    def test_the_rear_takes_its_own_value(self) -> None:
        assert answer("compact-front-lock").axle("rear").plan.recommended_mm == 15


class TestOtherWheels:
    """Two 18-inch packages offered in place of the 17-inch wheels."""

    @pytest.fixture
    def found(self) -> Answer:
        return answer("estate-other-wheels")

    def test_the_moderate_package_goes_as_it_is_and_no_disc_brings_it_back(self, found: Answer) -> None:
        package = found.axle("rear").packages[0]
        assert (package.status, package.recommended_mm) == ("valid", 0.0)
        assert "no disc does it; an inset of 52.1 mm would" in package.decision

    def test_the_wide_package_is_refused_at_the_right_arch_in_bump_and_by_the_speedometer(self, found: Answer) -> None:
        package = found.axle("rear").packages[1]
        assert package.status == "refused"
        assert "right, arch lip, inner edge, bump" in package.decision
        assert any(reason.startswith("UN: shows") for reason in package.reasons)

    def test_the_fitted_wheels_are_judged_as_if_nothing_were_offered(self, found: Answer) -> None:
        text = (EXAMPLES / "estate-other-wheels.toml").read_text(encoding="utf-8")
        start, end = text.index("[[rear.package]]"), text.index("[rear.left]")
        alone = hubwright.assess(hubwright.parse(text[:start] + text[end:]))
        assert alone.axle("rear").plans == found.axle("rear").plans
        assert alone.axle("rear").packages == ()
