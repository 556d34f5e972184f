"""Whatever stands in a job file: it is a job or it is refused, and every job is answered."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.jobs.trees import NAMES, answer_of, at, changed, places, text_of, tree_of, without

import hubwright
from hubwright.errors import BadInput
from hubwright.findings import Finding, Verdict
from hubwright.jobs.answer import Answer

ODD: list[Any] = [
    0, 1, -1, -0.0, 1e-300, 1e-9, 0.5, 20, -20, 60, 400, 500, -500, 3000, 10**30, math.nan, math.inf, True, "", "x",
    [], {}, [0], [1, 2], {"value": 3, "u": 0}, {"value": [1, 9], "u": 1000}, "M14x0", "M1x9", "1/0", "5x0", "0x112",
    "235/41R18", "205/55R16 RE\u0130NF", "8Jx18 ET", "outboard", "inboard", "up", "forward", "customer", "bolted", "nut",
]  # fmt: skip
SCRAPS = [
    "=",
    "[",
    "]",
    "{",
    "}",
    '"',
    "'",
    "\n",
    ".",
    "-",
    "e9",
    ",",
    "#",
    "\0",
    "0",
    "nan",
    "[[",
    "\u2028",
    "mm",
    "\r",
]


def is_sound(answer: Answer) -> None:
    """What every answer owes its reader."""
    for axle in answer.axles:
        assert axle.decision
        for plan in axle.plans:
            for disc in plan.discs:
                refused = [found for found in disc.findings if found.verdict is Verdict.FAIL]
                assert (disc.status == "refused") == bool(refused)
                assert all(found.sentence for found in disc.findings)
                assert disc.status == "valid" or disc.reasons
                assert all(speaks(found) for found in disc.findings)


def speaks(found: Finding) -> bool:
    return "nan" not in found.sentence.split() and (found.margin_mm is None or math.isfinite(found.margin_mm))


@pytest.mark.slow
@given(name=st.sampled_from(NAMES), data=st.data())
@settings(max_examples=150)
def test_a_text_with_scraps_in_it_is_a_job_or_is_refused(name: str, data: st.DataObject) -> None:
    text = text_of(name)
    for _ in range(data.draw(st.integers(1, 4), "changes")):
        start = data.draw(st.integers(0, len(text)), "from")
        length = data.draw(st.sampled_from([0, 0, 1, 1, 2, 10, 60]), "taken out")
        scrap = data.draw(st.sampled_from(["", *SCRAPS]), "put in")
        text = text[:start] + scrap + text[start + length :]
    try:
        job = hubwright.parse(text)
    except BadInput as refusal:
        assert refusal.faults
        return
    is_sound(hubwright.assess(job))


@given(text=st.text(max_size=200))
def test_any_text_at_all_is_a_job_or_is_refused(text: str) -> None:
    try:
        hubwright.parse(text)
    except BadInput as refusal:
        assert refusal.faults


@pytest.mark.slow
@given(name=st.sampled_from(NAMES), data=st.data())
@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
def test_a_job_with_fields_taken_out_moved_or_made_odd_is_answered_or_refused(name: str, data: st.DataObject) -> None:
    tree = tree_of(name)
    for _ in range(data.draw(st.integers(1, 5), "changes")):
        all_places = places(tree)
        if not all_places:
            break
        place = data.draw(st.sampled_from(all_places), "place")
        what = data.draw(st.sampled_from(["out", "moved", "odd", "scaled"]), "change")
        value = at(tree, place)
        if what == "out":
            tree = without(tree, place)
        elif what == "moved":
            tree = changed(tree, place, at(tree, data.draw(st.sampled_from(all_places), "taken from")))
        elif what == "odd" or isinstance(value, bool) or not isinstance(value, int | float):
            tree = changed(tree, place, data.draw(st.sampled_from(ODD), "odd"))
        else:
            tree = changed(tree, place, value * data.draw(st.sampled_from([-1, 0, 0.1, 0.9, 1.1, 3, 20]), "times"))
    try:
        answer = answer_of(tree)
    except BadInput:
        return
    is_sound(answer)


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_a_job_without_any_one_of_its_fields_is_answered_or_refused(name: str) -> None:
    tree = tree_of(name)
    for place in places(tree):
        try:
            answer = answer_of(without(tree, place))
        except BadInput:
            continue
        is_sound(answer)
