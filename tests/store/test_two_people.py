"""Whatever order people work in: nothing confirmed is lost, nothing is overwritten unseen."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hubwright.errors import StoreRefusal
from hubwright.store.cupboard import Cupboard
from hubwright.store.fields import overlaps, place_of
from hubwright.store.things import Aside, Revision

SMALL = b"""\
hubwright_job = 1
title = "Small"
[request]
use = "street"
[rear.hub] # read cold
spigot_length_mm = 12.5
[[rear.left.point]]
name = "lip"
room = "outside"
reading = [{ travel_mm = 0, gap_mm = 30 }, { travel_mm = 10, gap_mm = 28 }]
"""
READING = "rear.left.point[1].reading"
FIELDS = ("rear.hub.spigot_length_mm", "rear.track_mm", "front.hub.nose_length_mm", f"{READING}[1].gap_mm", "@customer")

people = st.sampled_from(("Ann", "Bo", "Cy"))
entries = st.tuples(
    st.just("enter"), people, st.integers(0, 3), st.sampled_from(FIELDS), st.integers(1, 4).map(lambda n: f"{n + 10}.5")
)
additions = st.tuples(
    st.just("enter"), people, st.integers(0, 3), st.just(f"{READING}[+]"),
    st.integers(20, 60).map(lambda travel: f"{{ travel_mm = {travel}, gap_mm = 20 }}"),
)  # fmt: skip
removals = st.tuples(st.just("enter"), people, st.integers(0, 3), st.just(f"{READING}[2]"), st.none())
undos = st.tuples(st.just("undo"), people, st.integers(0, 3))
settlements = st.tuples(st.just("settle"), people, st.integers(0, 3), st.booleans())
stories = st.lists(st.one_of(entries, entries, additions, removals, undos, settlements), max_size=9)


@pytest.mark.slow
@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(story=stories)
def test_every_confirmed_value_is_in_the_history_or_still_open(cupboard: Cupboard, story: list[tuple]) -> None:
    job_id = cupboard.add(SMALL, "Ann").job_id
    confirmed: list[tuple[str, str | None]] = []
    for what, author, back, *rest in story:
        head = cupboard.job(job_id).revision
        base = max(1, head - back)
        try:
            if what == "enter":
                before = cupboard.job(job_id)
                receipt = cupboard.enter(job_id, [(rest[0], rest[1])], author, base=base)
                if receipt.changes or receipt.aside:
                    confirmed.append((rest[0], rest[1]))
                else:
                    assert cupboard.job(job_id) == before
            elif what == "undo":
                cupboard.undo(job_id, author, revision=base)
            elif open_asides := cupboard.asides(job_id):
                cupboard.settle(open_asides[0].id, author, take=rest[0], base=base)
        except StoreRefusal:
            assert cupboard.job(job_id).revision == head
    history, asides = cupboard.history(job_id), cupboard.asides(job_id, also_settled=True)
    for field, value in confirmed:
        assert is_kept(field, value, history, asides), (field, value)
    for revision in history:
        assert_nothing_overwritten_unseen(revision, history)
    assert cupboard.job(job_id).faults == ()
    assert cupboard.check().problems == ()


def is_kept(field: str, value: str | None, history: tuple[Revision, ...], asides: tuple[Aside, ...]) -> bool:
    start = field.removesuffix("[+]")
    kept = [change for item in (*history, *asides) for change in item.changes]
    return any(change.field.startswith(start) and change.value == value for change in kept)


def assert_nothing_overwritten_unseen(revision: Revision, history: tuple[Revision, ...]) -> None:
    """Between what its author saw and what it became, nobody changed the place."""
    if revision.kind != "entry":
        return
    for change in revision.changes:
        place = place_of(change.field)
        if change.before is None and isinstance(place.path[-1], int):
            continue
        for between in history[revision.base : revision.number - 1]:
            assert not any(overlaps(place, other) for other in between.changes), (revision, between)
