"""Centring: plain discs up to a thickness, lipped ones from another on, and nothing between."""

from __future__ import annotations

from typing import Any

import pytest
from tests.checks.bench import disc, fitted, house, hub

from hubwright.checks import centring
from hubwright.findings import Finding, Verdict

HUB: dict[str, Any] = {"spigot_length_mm": 10.0, "spigot_diameter_mm": 66.6, "nose_length_mm": 0}
WHEEL: dict[str, Any] = {"bore_mm": 66.6, "bore_chamfer_mm": 2.5}
LIP: dict[str, Any] = {"lip_outer_mm": 66.6, "lip_inner_mm": 53.0, "lip_length_mm": 8.0}


def judged(thickness_mm: float, kind: str = "plain", *, on: Any = None, at: Any = None, **lip: Any) -> Finding:
    return centring.judge(
        hub(**{**HUB, **(on or {})}),
        fitted(**{**WHEEL, **(at or {})}),
        "left",
        house(),
        disc(thickness_mm, kind, **lip),
    )


def verdict(*args: Any, **more: Any) -> Verdict:
    return judged(*args, **more).verdict


def test_between_plain_and_lipped_lies_the_dead_zone() -> None:
    """Derived: h 10, c 2.5, e 4: plain up to 3.5; lipped from 10 + 1 = 11 on."""
    assert [verdict(t) for t in (3.0, 3.5, 3.6, 8.0)] == [Verdict.PASS, Verdict.PASS, Verdict.FAIL, Verdict.FAIL]
    assert [verdict(t, "lipped") for t in (8.0, 10.9, 11.0)] == [Verdict.FAIL, Verdict.FAIL, Verdict.CAUTION]
    plain, lipped = (centring.window_of(hub(**HUB), fitted(**WHEEL), "left", house(), k) for k in ("plain", "lipped"))
    for tenth in range(1, 200):
        inside = 35 < tenth < 110
        assert (plain.allows(tenth / 10) or lipped.allows(tenth / 10)) is not inside


def test_5_mm_on_a_spigot_of_12_5_leave_4_5_of_pilot() -> None:
    """Derived: 12.5 - 5 - 3 = 4.5, 4 wanted."""
    found = judged(5.0, on={"spigot_length_mm": 12.5}, at={"bore_chamfer_mm": 3.0})
    assert found.margin_mm == pytest.approx(0.5)
    assert "4.5 mm of pilot" in found.sentence


def test_a_steel_wheel_may_ask_for_another_pilot_and_doubt_is_owed() -> None:
    rules = house(least_pilot_steel_mm=6.0)
    steel = fitted(**WHEEL, material="steel")
    assert centring.judge(hub(**HUB), steel, "left", rules, disc(3.0)).verdict is Verdict.FAIL
    assert judged(3.5, on={"spigot_length_mm": {"value": 10.0, "u": 0.2}}).verdict is Verdict.FAIL
    assert judged(3.5, on={"spigot_length_mm": [9.7, 10.3]}).verdict is Verdict.FAIL


def test_the_axle_end_must_pass_the_lip() -> None:
    """Derived: 10 + 6 - 12 = 4 mm into the lip; 53 - 52 = 1 mm of air, 0.5 wanted."""
    nose = {"nose_length_mm": 6.0, "nose_diameter_mm": 52.0}
    assert verdict(12.0, "lipped", on=nose, **LIP) is Verdict.PASS
    assert verdict(12.0, "lipped", on={**nose, "nose_diameter_mm": 52.6}, **LIP) is Verdict.FAIL
    assert verdict(16.0, "lipped", on={**nose, "nose_diameter_mm": 60.0}, **LIP) is Verdict.PASS
    assert verdict(12.0, "lipped", on={"nose_length_mm": 6.0}, **LIP) is Verdict.UNKNOWN
    assert verdict(12.0, "lipped", on={"nose_length_mm": None}, **LIP) is Verdict.UNKNOWN


def test_a_wheel_bored_larger_than_the_hub_lets_the_lip_go_around_the_spigot() -> None:
    """Derived: (73.1 - 66.6)/2 = 3.25 mm of wall, 2.5 wanted: 8 mm becomes possible."""
    unstated = judged(8.0, "lipped", at={"bore_mm": 73.1})
    assert unstated.verdict is Verdict.CAUTION and "states no size of its lip" in unstated.sentence
    assert any("3.25 mm" in step.text for step in unstated.working)
    assert verdict(8.0, "lipped", at={"bore_mm": 71.5}) is Verdict.FAIL
    around = {"lip_outer_mm": 73.1, "lip_inner_mm": 66.6, "lip_length_mm": 8.0}
    assert verdict(8.0, "lipped", at={"bore_mm": 73.1}, **around) is Verdict.PASS


def test_a_lip_bored_for_the_axle_end_does_not_go_around_the_spigot() -> None:
    inside = {"lip_outer_mm": 73.1, "lip_inner_mm": 53.0, "lip_length_mm": 8.0}
    assert verdict(8.0, "lipped", at={"bore_mm": 73.1}, **inside) is Verdict.FAIL


@pytest.mark.parametrize(
    ("lip", "wheel", "words"),
    [
        ({"lip_outer_mm": 66.0}, {}, "does not centre a bore"),
        ({"lip_outer_mm": 66.9}, {}, "does not go into a bore"),
        ({"lip_inner_mm": 62.0}, {}, "wall of the lip 2.3 mm"),
        ({"lip_length_mm": 6.0}, {}, "lip inside the wheel's bore 3.5 mm"),
        ({}, {"bore_depth_mm": 5.0}, "bore depth left"),
        ({}, {"cap_room_mm": 7.0}, "centre cap"),
        ({"lip_length_mm": 0.0}, {}, "no lip"),
    ],
)
def test_a_lip_that_does_not_fit_the_wheel_is_refused_by_what_is_wrong(lip: Any, wheel: Any, words: str) -> None:
    found = judged(12.0, "lipped", at=wheel, **{**LIP, **lip})
    assert found.verdict is Verdict.FAIL
    assert words in found.sentence


def test_spigot_or_chamfer_not_read_is_unknown_for_every_kind() -> None:
    for on, at in (({"spigot_length_mm": None}, {}), ({}, {"bore_chamfer_mm": None})):
        for kind in ("plain", "lipped", "bolted"):
            assert verdict(12.0, kind, on=on, at=at) is Verdict.UNKNOWN
