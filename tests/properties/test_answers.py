"""What must hold of every answer, whatever was read."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.jobs.trees import NAMES, Tree, answer_of, at, changed, job_of, places, tree_of, without

from hubwright.checks import brake, clearance, fastening
from hubwright.checks.clearance import Room, room_of
from hubwright.checks.house import house_of
from hubwright.findings import Verdict
from hubwright.jobs.answer import Answer, DiscAnswer, PlanAnswer
from hubwright.parts.job import Job
from hubwright.quantities.axes import SIDES
from hubwright.tables.threads import thread

VALID = ("valid", "caution")
MM_PER_INCH = 25.4
FLUSH = "hatchback-rear-flush"


def rooms_of(job: Job, *, with_work: bool = False) -> list[Room]:
    house = house_of(job)
    return [
        room_of(axle, side, house, steered=job.is_steered(name), with_work=with_work)
        for name, axle in job.axles
        for side in SIDES
    ]


def plans_of(answer: Answer) -> list[PlanAnswer]:
    return [plan for axle in answer.axles for plan in axle.plans]


def gist(answer: Answer) -> list[Any]:
    """What an answer decides, without its words."""
    return [
        (
            axle.axle,
            plan.work,
            plan.recommended_mm,
            [(d.thickness_mm, d.kind, d.status, d.released) for d in plan.discs],
        )
        for axle in answer.axles
        for plan in axle.plans
    ]


def margins_of(answer: Answer) -> list[float | None]:
    return [
        found.margin_mm
        for plan in plans_of(answer)
        for found in (*plan.as_it_stands, *(found for disc in plan.discs for found in disc.findings))
    ]


@st.composite
def read_trees(draw: st.DrawFn) -> Tree:
    """A demo job with its gaps, doubts and cambers read otherwise."""
    tree = tree_of(draw(st.sampled_from(NAMES)))
    for place in places(tree):
        value = at(tree, place)
        if place[-1] == "gap_mm":
            tree = changed(tree, place, round(value + draw(st.floats(-8, 12)), 1))
        elif place[-1] in ("u_mm", "camber_deg"):
            tree = changed(tree, place, round(value * draw(st.floats(0.3, 2)), 2))
    return tree


def mirrored(tree: Tree) -> Tree:
    """The same car seen in a mirror: corners changed over, steer turned round."""
    tree = deepcopy(tree)
    for axle in (tree[name] for name in ("front", "rear") if name in tree):
        axle["left"], axle["right"] = axle.get("right", {}), axle.get("left", {})
    for place in places(tree):
        if place[-1] == "steer_deg":
            tree = changed(tree, place, -at(tree, place))
    return tree


@given(read_trees())
@settings(max_examples=25)
@pytest.mark.slow
def test_a_mirrored_car_gets_the_mirrored_answer(tree: Tree) -> None:
    here, there = answer_of(tree), answer_of(mirrored(tree))
    assert gist(here) == gist(there)
    for plan, other in zip(plans_of(here), plans_of(there), strict=True):
        assert (plan.left_alone_mm, plan.right_alone_mm) == (other.right_alone_mm, other.left_alone_mm)
        left, right = plan.as_it_stands
        assert [f.margin_mm for f in (right, left)] == pytest.approx([f.margin_mm for f in other.as_it_stands])


@pytest.mark.parametrize("name", NAMES)
def test_a_disc_of_no_thickness_changes_nothing(name: str) -> None:
    job = job_of(tree_of(name))
    house = house_of(job)
    for room in rooms_of(job):
        for swept in room.swept:
            assert swept.slack_at(0.0).tolist() == swept.slack_mm.tolist()
    for _, axle in job.axles:
        for side in SIDES:
            gap = axle.corner(side).brake
            found = brake.judge(axle, side, house, 0.0)
            if gap.radial_gap_mm and gap.axial_gap_mm and found.margin_mm is not None:
                least = min(gap.radial_gap_mm.value, gap.axial_gap_mm.value)
                assert found.margin_mm == pytest.approx(least - house.margin_mm["caliper"])
            if axle.fitted and axle.fastener and axle.fastener.engagement_mm:
                held = fastening.judge(axle.hub_at(side), axle.fitted, axle.fastener, side, job.shop, house, 0.0)
                now = axle.fastener.engagement_mm.value
                assert held.choice is not None
                assert held.choice.change == (now < thread(held.choice.thread).d_mm)
                assert held.choice.change or held.choice.engagement_mm == now


@given(read_trees(), st.floats(0.1, 40), st.floats(0.1, 40))
@settings(max_examples=25)
def test_a_thicker_disc_never_gains_outside_room_and_never_loses_inside_room(
    tree: Tree, thin: float, more: float
) -> None:
    for room in rooms_of(job_of(tree)):
        for swept in room.swept:
            change = swept.slack_at(thin + more) - swept.slack_at(thin)
            if swept.curve.point.direction == "outboard":
                assert (change < 0).all()
            if swept.curve.point.direction == "inboard":
                assert (change > 0).all()


@given(tree=read_trees(), travel=st.integers(-40, 60), data=st.data())
@settings(max_examples=30)
def test_one_more_reading_never_removes_a_state_and_never_closes_what_was_known(
    tree: Tree, travel: int, data: st.DataObject
) -> None:
    before = rooms_of(job_of(tree))
    lists = [place for place in places(tree) if place[-1] == "reading" and at(tree, place)]
    place = data.draw(st.sampled_from(lists))
    readings = [item for item in at(tree, place) if item["travel_mm"] != travel]
    if len(readings) < len(at(tree, place)):
        return
    added = {**readings[0], "travel_mm": travel}
    after = rooms_of(job_of(changed(tree, place, [*readings, added])))
    for old, new in zip(before, after, strict=True):
        assert len(new.missing) <= len(old.missing)
        for swept, more in zip(old.swept, new.swept, strict=True):
            assert more.curve.travel_mm[0] <= swept.curve.travel_mm[0]
            assert more.curve.travel_mm[-1] >= swept.curve.travel_mm[-1]
            assert set(swept.curve.read_mm) <= set(more.curve.read_mm)


@given(tree=read_trees(), factor=st.floats(1.0, 5.0))
@settings(max_examples=25)
def test_more_doubt_never_widens_a_window(tree: Tree, factor: float) -> None:
    doubtful = deepcopy(tree)
    for place in places(tree):
        if place[-1] in ("u_mm", "u"):
            doubtful = changed(doubtful, place, at(tree, place) * factor)
    for room, other in zip(rooms_of(job_of(tree)), rooms_of(job_of(doubtful)), strict=True):
        sure, unsure = clearance.window_of(room), clearance.window_of(other)
        for thickness in range(41):
            assert sure.allows(thickness) or not unsure.allows(thickness)


@pytest.mark.parametrize("name", NAMES)
def test_a_job_written_in_inches_gets_the_same_answer(name: str) -> None:
    tree = tree_of(name)
    here, there = answer_of(tree), answer_of(in_inches(tree))
    for plan, other in zip(plans_of(here), plans_of(there), strict=True):
        assert [d.status for d in plan.discs] == [d.status for d in other.discs]
        assert other.recommended_mm == pytest.approx(plan.recommended_mm)
    assert margins_of(there) == pytest.approx(margins_of(here))


def in_inches(tree: Any) -> Any:
    if isinstance(tree, list):
        return [in_inches(item) for item in tree]
    if not isinstance(tree, dict):
        return tree
    found = {}
    for key, value in tree.items():
        inch = key.endswith("_mm")
        found[f"{key[:-2]}in" if inch else key] = divided(value) if inch else in_inches(value)
    return found


def divided(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: divided(item) for key, item in value.items()}
    if isinstance(value, list):
        return [divided(item) for item in value]
    return value / MM_PER_INCH if isinstance(value, int | float) else value


@given(tree=read_trees(), random=st.randoms(use_true_random=False))
@settings(max_examples=20)
@pytest.mark.slow
def test_the_order_in_which_things_are_written_down_does_not_matter(tree: Tree, random: Any) -> None:
    stirred = deepcopy(tree)
    for place in places(tree):
        if place[-1] in ("point", "reading", "motion", "half_width", "disc", "fastener", "lengths_mm"):
            items = at(stirred, place)
            if isinstance(items, list):
                random.shuffle(items)
    here, there = answer_of(tree), answer_of(stirred)
    assert gist(here) == gist(there)
    assert margins_of(there) == pytest.approx(margins_of(here))


def known_for(disc: DiscAnswer, plan: PlanAnswer) -> bool:
    """Whether every window this disc was asked about is known; law apart, which is shown beside it."""
    return all(
        window.known
        for window in plan.windows
        if window.question != "law"
        and window.disc in ("any", disc.kind)
        and not (disc.kind == "bolted" and window.question == "fastener")
    )


@given(name=st.sampled_from(NAMES), data=st.data())
@settings(max_examples=60)
@pytest.mark.slow
def test_whatever_is_not_read_no_disc_is_valid_where_a_window_is_not_known(name: str, data: st.DataObject) -> None:
    tree = tree_of(name)
    for _ in range(data.draw(st.integers(1, 6))):
        candidates = [place for place in places(tree) if place[0] in ("front", "rear") and len(place) > 1]
        tree = without(tree, data.draw(st.sampled_from(candidates)))
    try:
        answer = answer_of(tree)
    except Exception as error:
        if type(error).__name__ == "BadInput":
            return
        raise
    for plan in plans_of(answer):
        assert all(known_for(disc, plan) for disc in plan.discs if disc.status in VALID)


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_taking_out_one_figure_of_hub_wheel_brake_or_fastener_never_opens_a_disc(name: str) -> None:
    tree = tree_of(name)
    before = fits_of(answer_of(tree))
    for place in places(tree):
        if place[0] in ("front", "rear") and {"hub", "fastener", "wheel", "brake", "motion"} & set(place[1:-1]):
            try:
                after = fits_of(answer_of(without(tree, place)))
            except Exception as error:
                if type(error).__name__ == "BadInput":
                    continue
                raise
            assert after <= before, place


def fits_of(answer: Answer) -> set[tuple[str, int, float, str]]:
    """Discs nothing but the law speaks against."""
    return {
        (axle.axle, len(plan.work), disc.thickness_mm, disc.kind)
        for axle in answer.axles
        for plan in axle.plans
        for disc in plan.discs
        if all(f.verdict in (Verdict.PASS, Verdict.CAUTION) for f in disc.findings if f.question != "law")
    }


def fitted_with(tree: Tree, side: str, thickness_mm: float, gaps: list[float], **more: Any) -> Tree:
    """The flush job after work and fitting: its lip has been rolled, and its gaps were read again with the disc on."""
    tree = deepcopy(tree)
    point = tree["rear"][side]["point"][0]
    point.pop("work", None)
    states = [(0, gaps[0]), (46, gaps[1]), (71, gaps[2])]
    point["reading"] = [{"travel_mm": at_mm, "gap_mm": gap, "disc_mm": thickness_mm, **more} for at_mm, gap in states]
    return tree


LEFT, RIGHT = [31.0, 16.5, 21.0], [26.0, 11.5, 16.0]


def test_only_a_disc_that_was_fitted_when_both_sides_were_read_is_released() -> None:
    proven = fitted_with(fitted_with(tree_of(FLUSH), "left", 5, LEFT), "right", 5, RIGHT)
    released = [disc.thickness_mm for plan in plans_of(answer_of(proven)) for disc in plan.discs if disc.released]
    assert released == [5]
    assert answer_of(proven).axle("rear").released


@pytest.mark.parametrize("what", ["bare on one side", "another disc", "read by the customer", "work still to be done"])
def test_a_disc_is_not_released(what: str) -> None:
    tree = fitted_with(tree_of(FLUSH), "left", 5, LEFT)
    if what == "bare on one side":
        tree = fitted_with(tree, "right", 0, [31.0, 16.5, 21.0])
    elif what == "another disc":
        tree = fitted_with(tree, "right", 8, RIGHT)
    elif what == "read by the customer":
        tree = fitted_with(tree, "right", 5, RIGHT)
        tree["rear"]["right"]["point"][0]["by"] = "customer"
    else:
        tree = fitted_with(tree, "right", 5, [19.0, 4.5, 9.0])
        tree["rear"]["right"]["point"][0]["work"] = [{"name": "roll the arch lip", "gain_mm": 7}]
    answer = answer_of(tree)
    assert any(disc.status in VALID and disc.thickness_mm == 5 for plan in plans_of(answer) for disc in plan.discs)
    assert not any(disc.released for plan in plans_of(answer) for disc in plan.discs)
