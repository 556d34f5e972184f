"""The order of tightening goes from side to side and takes every hole once."""

from __future__ import annotations

import pytest

from hubwright.drawings.scene import Dot, Label, Ring
from hubwright.drawings.tightening import tightening_scene, turns_of


@pytest.mark.parametrize(
    ("holes", "order"),
    [
        (3, (1, 2, 3)),
        (4, (1, 3, 2, 4)),
        (5, (1, 3, 5, 2, 4)),
        (6, (1, 4, 3, 6, 2, 5)),
        (8, (1, 5, 3, 7, 2, 6, 4, 8)),
        (10, (1, 6, 2, 7, 3, 8, 4, 9, 5, 10)),
    ],
)
def test_the_usual_order_of_the_table_is_drawn(holes: int, order: tuple[int, ...]) -> None:
    assert turns_of(holes) == order


@pytest.mark.parametrize("holes", [4, 6, 8, 10])
def test_with_an_even_number_of_holes_every_other_turn_is_the_hole_opposite(holes: int) -> None:
    order = turns_of(holes)
    assert order is not None
    assert all((b - a) % holes == holes // 2 for a, b in zip(order[::2], order[1::2], strict=True))


def test_an_order_on_record_rules_and_words_that_name_none_are_not_guessed_at() -> None:
    assert turns_of(5, "crosswise 1-4-2-5-3") == (1, 4, 2, 5, 3)
    assert turns_of(5, "crosswise") is None
    assert turns_of(5, "1-2-3") is None
    assert turns_of(7) is None


def test_each_hole_holds_the_number_of_its_turn() -> None:
    scene = tightening_scene(5, turns_of(5))
    holes = [item for item in scene.items if isinstance(item, Dot) and item.name.startswith("hole")]
    labels = [item.text for item in scene.items if isinstance(item, Label)]
    assert len(holes) == 5
    assert labels == ["1", "4", "2", "5", "3"]
    assert not any(isinstance(item, Label) for item in tightening_scene(5, None).items)
    assert not any(isinstance(item, Ring) for item in scene.items)
