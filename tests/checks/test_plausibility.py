"""Each question a careful colleague would ask is asked of the job that has the fault, and of no other."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from tests.jobs.trees import Tree, job_of, tree_of

from hubwright.checks.plausibility import Question, questions


def asked(tree: Tree) -> tuple[Question, ...]:
    return questions(job_of(tree))


def parked(tree: Tree, side: str, gap_mm: float, *, axle: str = "rear", **more: Any) -> None:
    tree.setdefault(axle, {}).setdefault(side, {}).setdefault("point", []).append(
        {"name": "fender", "room": "outside", "reading": [{"travel_mm": 0, "gap_mm": gap_mm}], **more}
    )


def turned(tree: Tree) -> None:
    for side, first, second in (("left", 27, 6), ("right", 5, 26)):
        readings = [{"travel_mm": 0, "gap_mm": first}, {"travel_mm": 0, "gap_mm": second, "car_turned": True}]
        parked(tree, side, 0, drop_mm=600, reading=readings, by="customer", u_mm=3)


def fore_and_aft(tree: Tree) -> None:
    for side, gaps in (("left", (30, 18)), ("right", (18, 30))):
        for toward, gap in zip(("forward", "rearward"), gaps, strict=True):
            parked(tree, side, gap, axle="front", name=toward, toward=toward)


def lean(tree: Tree) -> None:
    for axle in ("front", "rear"):
        parked(tree, "left", 26, axle=axle)
        parked(tree, "right", 20, axle=axle)


def wheel(tree: Tree) -> Any:
    return tree["rear"]["wheel_set"][0]


FAULTS: dict[str, tuple[str, Callable[[Tree], object], str]] = {
    "springs of three days": ("unsettled springs", lambda t: t["car"].update(springs_age_days=3), "3 days"),
    "air suspension of no stated mode": ("air suspension mode", lambda t: t["car"].update(suspension="air"), "no mode"),
    "ride heights 30 mm apart": ("ride height", lambda t: t["rear"]["left"].update(ride_height_mm=380), "30.0 mm"),
    "gaps apart on level ride heights": (
        "left-right difference",
        lambda t: (parked(t, "left", 30), parked(t, "right", 18)),
        "12.0 mm, but ride heights differ by only 2.0 mm",
    ),
    "the roomy side changes when the car is turned": ("floor slope", turned, "about 1.0°"),
    "front and rear lean alike": ("floor slope", lean, "more room on the left"),
    "a floor known to slope": ("floor slope", lambda t: t["car"].update(level_floor=False), "not to be level"),
    "toe left and right apart": (
        "steering not straight",
        lambda t: t.update(front={"left": {"toe_deg": 0.9}, "right": {"toe_deg": -0.6}}),
        "not straight ahead",
    ),
    "gaps ahead and behind lie opposite ways": ("steering not straight", fore_and_aft, "opposite ways"),
    "112 stated, the chord of 114.3 read": ("hole circle", lambda t: t["rear"]["hub"].update(chord_mm=67.2), "5x114.3"),
    "inset below zero on a car": ("inset sign", lambda t: wheel(t)["wheel"].update(inset_mm=-45), "−45 mm"),
    "a section too narrow for its size": (
        "section width",
        lambda t: wheel(t)["tyre"].update(section_width_mm=205, half_width=[]),
        "205 mm was read",
    ),
    "a tyre size that cannot be": ("designation", lambda t: wheel(t)["tyre"].update(designation="236/40R18"), "236"),
    "a rim size that cannot be": ("designation", lambda t: wheel(t)["wheel"].update(rim="8Jx18 ET"), "marks"),
    "a hole circle that cannot be": ("designation", lambda t: t["rear"]["hub"].update(bolt_circle="5x4.5"), "unit"),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_job_with_one_fault_is_asked_about_that_fault_alone(fault: str) -> None:
    about, spoil, words = FAULTS[fault]
    tree = tree_of("hatchback-rear-flush")
    spoil(tree)
    found = asked(tree)
    companions = {"left-right difference"} if spoil in (turned, fore_and_aft) else set()
    assert {question.about for question in found} - companions == {about}
    assert any(words in question.text for question in found)
    assert all(question.todo and question.place for question in found)


@pytest.mark.parametrize(
    "name", ["hatchback-rear-flush", "coupe-front-dead-zone", "saloon-studs", "compact-front-lock"]
)
def test_a_clean_job_is_asked_nothing(name: str) -> None:
    assert asked(tree_of(name)) == ()


@pytest.mark.parametrize(
    "change",
    [
        lambda t: t["car"].update(springs_age_days=8),
        lambda t: t["car"].update(suspension="air", suspension_mode="normal, levelled"),
        lambda t: t["rear"]["left"].update(ride_height_mm=364),
        lambda t: (t["car"].update(frame="ladder"), wheel(t)["wheel"].update(inset_mm=-20)),
        lambda t: wheel(t)["tyre"].update(designation="235/41R18"),
        lambda t: wheel(t)["tyre"].update(section_width_mm=246),
        lambda t: t["rear"]["hub"].update(chord_mm=66.1),
    ],
    ids=["settled", "mode stated", "14 mm apart", "off-roader", "no table row", "within 4 %", "a rough chord"],
)
def test_what_is_usual_is_not_asked_about(change: Callable[[Tree], object]) -> None:
    tree = tree_of("hatchback-rear-flush")
    change(tree)
    assert asked(tree) == ()
