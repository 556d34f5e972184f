from __future__ import annotations

import pytest

from hubwright.errors import BadInput, OutsideValidity
from hubwright.tables.embedding import embedding_guide
from hubwright.tables.friction import class_of_words, friction_class
from hubwright.tables.practice import practices
from hubwright.tables.thread_limits import limits_of_size
from hubwright.tables.tightening import tightening_method, tightening_order


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("clean and dry", "C"), ("oiled", "B"), ("copper grease", "B"), ("anti-seize", "A"), ("not lubricated", "C"),
        ("friction class D", "D"), ("dry, no grease on the threads", "C"), ("wax coated", "A"),
    ],
)  # fmt: skip
def test_a_state_of_lubrication_in_words_is_taken_for_a_class(words: str, name: str) -> None:
    found = class_of_words(words)
    assert found is not None and found.name == name


def test_words_nobody_understands_are_not_taken_for_anything() -> None:
    assert class_of_words("as usual") is None
    assert class_of_words("class Z") is None


def test_a_class_without_a_high_end_says_that_its_end_is_a_guess() -> None:
    assert friction_class("E").open_end
    assert not friction_class("b").open_end
    with pytest.raises(BadInput, match="friction class"):
        friction_class("F")


def test_the_scatter_of_a_method_is_read_by_its_name() -> None:
    found = tightening_method("Torque wrench, friction estimated")
    assert (found.factor_low, found.factor_high) == (1.6, 2.0)
    with pytest.raises(BadInput, match="impact wrench"):
        tightening_method("by feel")


def test_the_usual_order_follows_the_number_of_fasteners() -> None:
    assert tightening_order(5) == "1-3-5-2-4"
    assert tightening_order(7) is None


def test_rougher_faces_settle_more() -> None:
    fine, rough = embedding_guide(5), embedding_guide(100)
    assert (fine.interface_um, rough.interface_um) == (2, 3.5)
    with pytest.raises(OutsideValidity):
        embedding_guide(200)


def test_threads_without_a_full_row_say_so() -> None:
    full, part = limits_of_size("M14x1.5"), limits_of_size("M10x1.25")
    assert full is not None and full.nut_minor_max_mm == 12.676
    assert part is not None and part.nut_minor_max_mm is None
    assert limits_of_size("M13x1.5") is None


def test_practices_are_found_by_the_beginning_of_their_topic() -> None:
    assert len(practices("re-torque distance")) == 5
    assert practices("nothing of the kind") == ()
