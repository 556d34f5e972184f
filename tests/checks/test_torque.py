from __future__ import annotations

import pytest
from tests.checks.cases import GONE, front, job_with

from hubwright.checks.torque import UNKNOWN, torque_of
from hubwright.findings import Verdict
from hubwright.quantities.text import speaking


def test_without_a_record_the_torque_is_unknown_and_must_be_looked_up() -> None:
    answer = torque_of(front(job_with({"front.torque": []})))
    assert UNKNOWN in answer.sentence
    assert answer.records == ()
    assert answer.findings[0].verdict is Verdict.UNKNOWN


def test_a_record_is_shown_as_it_stands_with_source_date_and_stages() -> None:
    line = torque_of(front(job_with())).records[0]
    for part in (
        "120 N·m",
        "60 N·m – 120 N·m",
        "owner's handbook (invented)",
        "2025-03-01",
        "clean and dry",
        "M14x1.5",
    ):
        assert part in line.sentence
    assert line.stages_nm == (60, 120)


def test_two_records_that_disagree_are_both_named() -> None:
    conflict = torque_of(front(job_with())).findings[0]
    assert conflict.verdict is Verdict.CAUTION
    for part in ("disagree", "120 N·m", "owner's handbook", "140 N·m", "wheel maker's leaflet"):
        assert part in conflict.sentence


def test_records_for_different_lubrication_are_told_apart_and_not_called_a_contradiction() -> None:
    found = torque_of(front(job_with({"front.torque.1.lubrication": "oiled"}))).findings
    assert "so does their lubrication" in found[0].sentence
    assert "disagree" not in found[0].sentence


def test_equal_records_raise_no_conflict() -> None:
    changes = {"front.torque.1.torque_nm": 120, "front.torque.1.stages": [60, 120]}
    assert torque_of(front(job_with(changes))).findings == ()


@pytest.mark.parametrize(
    ("found", "record", "consequence"),
    [("copper grease", "clean and dry", "clamps harder"), ("clean and dry", "oiled", "may come loose")],
)
def test_a_figure_for_another_state_of_lubrication_is_warned_of_in_plain_words(
    found: str, record: str, consequence: str
) -> None:
    changes = {"front.torque.1": GONE, "front.torque.0.lubrication": record, "front.fastener.lubrication": found}
    warnings = torque_of(front(job_with(changes))).findings
    assert [item.verdict for item in warnings] == [Verdict.CAUTION]
    assert consequence in warnings[0].sentence


def test_the_order_is_the_records_own_or_the_usual_one_by_the_number_of_holes() -> None:
    assert torque_of(front(job_with())).order.startswith("1-3-5-2-4")
    own = torque_of(front(job_with({"front.torque.0.order": "star, from the top"})))
    assert own.order == "star, from the top (as on record)"
    assert "unknown" in torque_of(front(job_with({"front.hub.bolt_circle": GONE}))).order


def test_the_records_re_check_is_followed_and_without_one_practices_differ() -> None:
    assert torque_of(front(job_with())).recheck.startswith("after 50 km")
    without = torque_of(front(job_with({"front.torque.0.recheck": GONE}))).recheck
    assert "practices differ, from 50 to 1000 km" in without
    assert any("50-100 km" in warning for warning in torque_of(front(job_with())).warnings)


def test_inch_countries_read_the_record_in_their_own_unit() -> None:
    with speaking("inch"):
        assert "89 lb-ft" in torque_of(front(job_with())).sentence
