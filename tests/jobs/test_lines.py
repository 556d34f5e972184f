"""Every field of a TOML text is found on its line."""

from __future__ import annotations

import tomllib

import pytest
from tests.jobs.trees import NAMES, places, text_of

from hubwright.jobs.lines import line_index, line_of, syntax_faults

TEXT = '''# a comment
title = "t" # another
a.b.c = 1
"quoted key" = 2
'single "quoted"'.inner = 3

[car]
seats = 5
[rear.hub]
spigot_length_mm = 12.5
[[rear.left.point]]
name = "one"
reading = [
  # the first
  { travel_mm = 0, gap_mm = 29 },

  { travel_mm = 46,
    gap_mm = 14 },
]
[[rear.left.point]]
name = "two"
[[rear.left.point.work]]
name = "roll"
[[rear.left.point.work]]
name = "pull"
[rear.right]
brake = { axial_gap_mm = 6, weights = [ [1, 2], [3] ] }
text = """
[not.a.table]
no = 1
"""
last = 1
'''.replace("  { travel_mm = 46,\n    gap_mm", "  { travel_mm = 46, gap_mm")

PLACES = {
    ("title",): 2,
    ("a",): 3,
    ("a", "b", "c"): 3,
    ("quoted key",): 4,
    ('single "quoted"', "inner"): 5,
    ("car",): 7,
    ("car", "seats"): 8,
    ("rear",): 9,
    ("rear", "hub", "spigot_length_mm"): 10,
    ("rear", "left", "point", 0): 11,
    ("rear", "left", "point", 0, "reading"): 13,
    ("rear", "left", "point", 0, "reading", 0): 15,
    ("rear", "left", "point", 0, "reading", 1, "gap_mm"): 17,
    ("rear", "left", "point", 1): 19,
    ("rear", "left", "point", 1, "work", 0, "name"): 22,
    ("rear", "left", "point", 1, "work", 1): 23,
    ("rear", "right", "brake", "axial_gap_mm"): 26,
    ("rear", "right", "brake", "weights", 1, 0): 26,
    ("rear", "right", "last"): 31,
}


@pytest.mark.parametrize("place", PLACES, ids=lambda place: ".".join(map(str, place)))
def test_a_field_is_found_on_its_line(place: tuple[str | int, ...]) -> None:
    tomllib.loads(TEXT)
    assert line_index(TEXT)[place] == PLACES[place]


def test_what_is_missing_is_found_at_the_nearest_thing_around_it() -> None:
    index = line_index(TEXT)
    assert line_of(("rear", "left", "point", 1, "room"), index) == 19
    assert line_of(("rear", "track_mm"), index) == 9
    assert line_of(("request",), index) is None


def test_what_looks_like_a_table_inside_a_text_is_none() -> None:
    assert ("not",) not in line_index(TEXT)


@pytest.mark.parametrize("name", NAMES)
def test_every_place_of_a_demo_job_has_a_line_and_lists_go_down_the_page(name: str) -> None:
    index = line_index(text_of(name))
    tree = tomllib.loads(text_of(name))
    for place in places(tree):
        assert place in index
        if isinstance(place[-1], int) and place[-1] > 0:
            assert index[place] >= index[(*place[:-1], place[-1] - 1)]


def test_line_ends_that_only_some_programs_know_do_not_move_the_lines() -> None:
    text = 'a = "x\u2028y" # \u0085\nb = = 2\n'
    assert [line for line, _ in syntax_faults(text)][-1] == 2
