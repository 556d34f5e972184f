"""Law and house rules: dated limits against what they ask for; unknown is never a pass."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from tests.checks.bench import disc, house, hub
from tests.jobs.trees import job_of, tree_of

from hubwright.checks import law, policy
from hubwright.findings import Finding, Verdict
from hubwright.parts.hub import Fastener
from hubwright.parts.job import Wish

DAY = date(2026, 5, 4)


def lawful(thickness_mm: float, *countries: str, car: Any = None, **axle: Any) -> Finding:
    tree = tree_of("hatchback-rear-flush")
    tree["request"]["countries"] = list(countries)
    tree["car"].update(car or {})
    tree["rear"].update(axle)
    job = job_of(tree)
    assert job.rear is not None
    return law.summary(law.judge(job, "rear", job.rear, (), law.law_of(job, DAY), thickness_mm))


def test_2_percent_of_a_track_of_1540_mm_are_15_4_mm_per_side() -> None:
    """Derived: 0.02 x 1540 / 2 = 15.4."""
    job = job_of(tree_of("hatchback-rear-flush"))
    assert job.rear is not None
    window = law.window_of(job, "rear", job.rear, law.law_of(job, DAY))
    assert window.intervals[0].high_mm == pytest.approx(15.4)
    assert lawful(15.5, "DE").verdict is Verdict.FAIL
    assert lawful(15.4, "DE").verdict is not Verdict.FAIL


def test_the_largest_track_of_the_series_is_the_reference() -> None:
    """Derived: 1540 + 2 x 20 against 1560 is +1.28 %."""
    assert lawful(20, "DE").verdict is Verdict.FAIL
    assert lawful(20, "DE", largest_series_track_mm=1560).verdict is not Verdict.FAIL


def test_a_frame_built_off_roader_may_have_4_percent_in_germany_and_no_disc_in_south_australia() -> None:
    """Derived: +50 mm on 1560 is 3.2 %, +70 mm is 4.5 %."""
    built: dict[str, Any] = {"car": {"frame": "ladder", "category": "off-road"}, "track_mm": 1560}
    built["largest_series_track_mm"] = 1560
    assert lawful(25, "DE", **built).verdict is not Verdict.FAIL
    assert lawful(35, "DE", **built).verdict is Verdict.FAIL
    assert lawful(25, "AU-SA", **built).verdict is Verdict.FAIL
    assert lawful(25, "DE", "AU-SA", **built).verdict is Verdict.FAIL


@pytest.mark.parametrize("countries", [(), ("ZZ",), ("DE", "ZZ")])
def test_a_country_that_is_not_named_or_has_no_rules_is_unknown(countries: tuple[str, ...]) -> None:
    assert lawful(3, *countries).verdict is Verdict.UNKNOWN


def test_a_track_nobody_measured_is_unknown() -> None:
    assert lawful(3, "DE", track_mm=None, largest_series_track_mm=None).verdict is Verdict.UNKNOWN


def test_a_limit_that_is_broken_but_hangs_on_a_fact_nobody_gave_is_a_caution_and_names_it() -> None:
    found = lawful(20, "DE", car={"frame": None, "category": None})
    assert found.verdict is Verdict.CAUTION
    assert "frame" in found.sentence


def judged(thickness_mm: float = 5, kind: str = "plain", *, on: Any = None, wish: Any = None, **more: Any) -> Finding:
    rules = house(**({"largest_bolt_through_mm": more.pop("largest")} if "largest" in more else {}))
    bolt = Fastener(kind="bolt", thread="M14x1.5")
    return policy.judge(
        hub(**(on or {})), bolt, Wish(aim="widest", **wish) if wish else None, rules, disc(thickness_mm, kind, **more)
    )


def test_a_disc_nothing_speaks_against_passes() -> None:
    assert judged().verdict is Verdict.PASS
    assert judged(on={"bolt_circle": "5x114.3"}, bolt_circle="5 x 4.5in").verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"thickness_mm": 25, "largest": 20}, "only up to 20 mm"),
        ({"kind": "lipped", "wish": {"discs": ["plain"]}}, "plain discs only"),
        ({"on": {"bolt_circle": "5x112"}, "bolt_circle": "5x114.3"}, "does not go on a 5x112 hub"),
        ({"on": {"bolt_circle": "5x112"}, "bolt_circle": "4x112"}, "does not go on a 5x112 hub"),
        ({"on": {"bolt_circle": "five"}, "bolt_circle": "5x112"}, "does not go on a five hub"),
        ({"kind": "bolted", "thickness_mm": 25}, "states no counterbore"),
    ],
)
def test_what_the_house_does_not_fit_is_refused_with_its_reason(asked: Any, words: str) -> None:
    found = judged(**asked)
    assert found.verdict is Verdict.FAIL
    assert words in found.sentence


def test_a_bolted_disc_may_be_thicker_than_bolts_may_go_through() -> None:
    assert judged(25, "bolted", largest=20, counterbore_mm=13).verdict is Verdict.PASS


def test_a_corner_with_a_hub_of_its_own_is_judged_by_it() -> None:
    tree = tree_of("hatchback-rear-flush")
    tree["rear"]["right"]["hub"] = {"bolt_circle": "5x114.3"}
    for stock in tree["shop"]["disc"]:
        stock["bolt_circle"] = "5x112"
    from hubwright import assess

    assert all(item.status == "refused" for plan in assess(job_of(tree)).axle("rear").plans for item in plan.discs)
