"""Links for customers who measure by mail: only their own readings, only as long as they hold."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import text

from hubwright.errors import BadInput, StoreRefusal
from hubwright.jobs.jobfile import known_keys
from hubwright.store import dialects
from hubwright.store.cupboard import Cupboard
from hubwright.store.link import EVERYTHING, Link, WhyNot, came_through, may_write, sheet_fields, sheet_tables

from .conftest import EXAMPLE, Place
from .test_people import Clock

NOW = datetime(2026, 5, 4, 8, tzinfo=UTC)


def link_to(*areas: str) -> Link:
    return Link("x", "j", areas or EVERYTHING, "Zoë", NOW, "Ann", NOW + timedelta(14), None, None, 0, None)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def shop(place: Place, clock: Clock) -> Iterator[Cupboard]:
    with Cupboard.open(place.data, place.database, clock=clock) as opened:
        yield opened


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("rear.hub.spigot_length_mm", "12.5"), ("front.left.ride_height_mm", "[352, 353]"), ("car.plate", '"AB 1"'),
        ("rear.track_mm", '{ value = 1540, u = 2, method = "tape", by = "customer" }'),
        ("rear.left.point[1].reading[+]", "{ travel_mm = 46, gap_mm = { value = 14.5, by = 'customer' } }"),
        ("rear.left.point[2].reading[1].gap_in", "0.5"), ("rear.wheel_set[2].tyre.half_width[+]", "{ radius_mm = 318 }"),
        ("rear.right.point[+]", "{ name = 'liner', room = 'outside', by = 'customer', reading = [{ gap_mm = 3 }] }"),
        ("rear.wheel_set[+]", "{ role = 'winter', wheel = { rim = '7Jx17' } }"), ("rear.track_mm", None),
    ],
)  # fmt: skip
def test_readings_of_the_measuring_sheet_may_be_written(field: str, value: str | None) -> None:
    assert may_write(link_to(), field, value)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("shop.policy.doubt_k", "0"), ("shop.disc[+]", "{ thickness_mm = 5, kind = 'plain' }"), ("shop", "{}"),
        ("rear.wish.thickness_mm", "20"), ("rear.wish", "{ aim = 'widest' }"), ("rear", "{ wish = { aim = 'widest' } }"),
        ("request.use", '"track"'), ("request.countries", "[]"), ("title", '"x"'), ("date", "2026-05-04"),
        ("hubwright_job", "1"), ("@stage", "released"), ("@customer", "x"), ("@note", "x"), ("", "1"), ("..", "1"),
        ("rear.package[+]", "{ name = 'x' }"), ("rear.torque[+]", "{ torque_nm = 120 }"), ("rear.original", "false"),
        ("rear.left.scan[+]", "{ file = '/etc/passwd' }"), ("rear.left", "{ scan = [{ file = 'x' }] }"),
        ("rear.wheel_set[1].wheel.profile[+]", "{ part = 'barrel', file = 'x' }"), ("rear.wheel_set[1].discs", "'stay'"),
        ("rear.wheel_set[+]", "{ role = 'winter', wheel = { profile = [{ part = 'cap', file = 'x' }] } }"),
        ("rear.left.point[1].work[+]", "{ name = 'roll', gain_mm = 9 }"), ("rear.left.point[1].by", "'workshop'"),
        ("rear.right.point[+]", "{ name = 'x', room = 'outside', work = [{ name = 'roll', gain_mm = 9 }] }"),
        ("rear.track_mm", "{ value = 1540, by = 'workshop' }"), ("rear.left.point[1]", None), ("rear.left.point", None),
        ("rear.left.point", "[]"), ("rear.left.point[1].reading[1]", None), ("rear.wheel_set[1]", None),
        ("rear.hub", None), ("rear.hub", "{}"), ("rear.hardpoints", "{}"), ("rear.suspension.kind", "'independent'"),
        ("car.tow", "{ ball_kg = 90 }"), ("nonsense", "1"), ("rear.nonsense", "1"),
    ],
)  # fmt: skip
def test_decisions_policies_stock_files_and_whole_tables_may_not(field: str, value: str | None) -> None:
    assert not may_write(link_to(), field, value)


def test_a_link_to_one_corner_leaves_the_rest_alone() -> None:
    link = link_to("rear.left", "rear.hub.spigot_length_mm")
    assert may_write(link, "rear.left.point[1].reading[+]", "{ travel_mm = 46, gap_mm = 14.5 }")
    assert may_write(link, "rear.hub.spigot_length_mm", "12")
    for field in (
        "rear.right.camber_deg",
        "rear.hub.bolt_circle",
        "rear.track_mm",
        "front.left.camber_deg",
        "car.plate",
    ):
        assert not may_write(link, field, "1")
    assert not may_write(link, "rear", "{ left = { camber_deg = 1 }, right = { camber_deg = 1 } }")


def test_every_table_of_the_sheet_is_one_of_the_job_file() -> None:
    assert sheet_tables() < set(known_keys())
    assert all(field.rpartition(".")[0] in sheet_tables() for field in sheet_fields())


def test_a_link_is_made_opened_counted_and_ends_by_itself(shop: Cupboard, clock: Clock) -> None:
    job_id = shop.add(EXAMPLE, "Ann").job_id
    token, link = shop.links.make(job_id, "Ann", customer="  Zoë  B. ")
    assert (link.customer, link.author, link.areas) == ("Zoë B.", "customer: Zoë B.", EVERYTHING)
    assert link.expires_at - link.made_at == timedelta(days=14)
    assert shop.links.look_up(token) == link
    shop.links.count_use(link.id)
    shop.links.count_use(link.id)
    (seen,) = shop.links.of(job_id)
    assert (seen.uses, seen.used_at) == (2, clock.at)
    clock.at += timedelta(days=14)
    assert shop.links.look_up(token) is WhyNot.EXPIRED
    for unknown in ("", token[:-1], token.swapcase(), "\ud800", link.id):
        assert shop.links.look_up(unknown) is WhyNot.UNKNOWN


def test_a_revoked_link_leads_nowhere_at_once_and_the_first_who_revoked_stays(shop: Cupboard, clock: Clock) -> None:
    job_id = shop.add(EXAMPLE, "Ann").job_id
    token, link = shop.links.make(job_id, "Ann", areas=["rear", "rear"], days=1)
    other, _ = shop.links.make(job_id, "Ann")
    assert link.areas == ("rear",)
    assert shop.links.revoke(link.id, "Bo").revoked_by == "Bo"
    assert shop.links.revoke(link.id, "Cy").revoked_by == "Bo"
    clock.at += timedelta(days=2)
    assert shop.links.look_up(token) is WhyNot.REVOKED
    assert isinstance(shop.links.look_up(other), Link)
    with pytest.raises(StoreRefusal, match="no such link"):
        shop.links.revoke("nothing", "Bo")


def test_all_faults_of_a_link_are_told_at_once(shop: Cupboard) -> None:
    job_id = shop.add(EXAMPLE, "Ann").job_id
    with pytest.raises(BadInput) as caught:
        shop.links.make(job_id, "Ann", areas=["shop", "@stage", "rear"], customer="x" * 81, days=0)
    assert [fault.field for fault in caught.value.faults] == ["areas", "areas", "customer", "days"]
    with pytest.raises(BadInput, match="areas"):
        shop.links.make(job_id, "Ann", areas=[])
    with pytest.raises(StoreRefusal, match="none of that name"):
        shop.links.make("nothing", "Ann")


def test_what_came_through_a_link_is_told_from_what_others_entered(shop: Cupboard) -> None:
    job_id = shop.add(EXAMPLE, "Ann").job_id
    _, link = shop.links.make(job_id, "Ann")
    _, other = shop.links.make(job_id, "Ann")
    shop.enter(job_id, [("rear.hub.spigot_length_mm", "12.4")], link.author, base=1, note=link.note)
    shop.enter(job_id, [("rear.track_mm", "1541")], "Ann", base=2, note=link.note)
    shop.enter(job_id, [("car.seats", "4")], other.author, base=3, note=other.note)
    assert [step.number for step in came_through(link, shop.history(job_id))] == [2]


def test_no_token_is_readable_in_the_database_a_backup_or_an_export(
    shop: Cupboard, elsewhere: Cupboard, tmp_path: Path
) -> None:
    job_id = shop.add(EXAMPLE, "Ann").job_id
    token, link = shop.links.make(job_id, "Ann", customer="Zoë")
    shop.backup(tmp_path / "all.zip")
    shop.export(tmp_path / "job.zip", "Ann", [job_id])
    with dialects.reading(shop._engine) as connection:
        assert token not in str(connection.execute(text("SELECT * FROM link")).all())
    elsewhere.bring(tmp_path / "job.zip", "Bo")
    assert elsewhere.links.of(job_id) == ()
    elsewhere.restore(tmp_path / "all.zip", force=True)
    assert elsewhere.links.of(job_id) == (link,)
