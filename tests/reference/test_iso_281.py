"""ISO 281 basic rating life: worked examples of textbooks."""

from __future__ import annotations

import pytest

from hubwright.engineering.handling.bearing_life import (
    equivalent_load_n,
    joined_life,
    life_hours,
    mean_load_n,
    rating_life_mrev,
)


def test_a_ball_bearing_of_22_4_kn_under_3_2_kn_turns_343_million_times() -> None:
    # Textbook example (read): C 22.4 kN, P 3.2 kN, 650 rpm -> 343 Mrev, 8795 h.
    life = rating_life_mrev(22_400, 3_200, 3)
    assert life == pytest.approx(343, rel=0.001)
    assert life_hours(life, 650) == pytest.approx(8795, rel=0.001)


def test_faires_problem_601_gives_2770_pounds_and_14000_hours() -> None:
    # Faires, Design of Machine Elements, problem 601 (read): F_r 1500, F_a 1000, X 0.56, Y 1.93, C 29 900 lb, 1500 rpm.
    load = equivalent_load_n(1500, 1000, 0.56, 1.93, 0.22)
    assert load == pytest.approx(2770)
    life = rating_life_mrev(29_900, load, 3)
    assert life == pytest.approx(1258, rel=0.001)
    assert life_hours(life, 1500) == pytest.approx(14_000, rel=0.002)


def test_a_turning_outer_ring_adds_its_factor_to_the_radial_load() -> None:
    # Textbook example (read): V 1.2, X 0.56, Y 1.53, 7 and 3 kN -> 9.294 kN; V stands on the radial load.
    assert equivalent_load_n(1.2 * 7, 3, 0.56, 1.53, 0.28) == pytest.approx(9.294)


def test_a_6309_under_10_kn_lives_169_million_turns() -> None:
    # From memory: C 55.3 kN, 3000 rpm -> 169 Mrev, 940 h.
    life = rating_life_mrev(55.3, 10, 3)
    assert life == pytest.approx(169, rel=0.001)
    assert life_hours(life, 3000) == pytest.approx(940, rel=0.001)


def test_a_thrust_below_the_limit_does_not_count() -> None:
    assert equivalent_load_n(1000, 1000, 0.35, 0.57, 1.14) == 1000


def test_two_equal_rows_live_as_long_as_product_of_survivals_says() -> None:
    # Second method: each row survives with 0.9^((L/L10)^e); both together reach 0.9 at the joined life.
    e = 10 / 9
    joined = joined_life((100.0, 100.0), e)
    assert 0.9 ** ((joined / 100) ** e) * 0.9 ** ((joined / 100) ** e) == pytest.approx(0.9)


def test_a_mixture_of_equal_loads_is_that_load() -> None:
    assert mean_load_n((5.0, 5.0), (0.3, 0.7), 10 / 3) == pytest.approx(5.0)
