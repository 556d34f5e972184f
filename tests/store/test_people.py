"""Accounts and sessions: only the right person gets in, and somebody can always manage."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from pathlib import Path

import pytest
from argon2 import PasswordHasher
from sqlalchemy import select, text

from hubwright.errors import BadInput, StoreRefusal
from hubwright.store import dialects, tables
from hubwright.store.cupboard import Cupboard
from hubwright.store.people import People
from hubwright.store.person import Role, key_of
from hubwright.store.secret import Passwords, digest
from hubwright.store.sessions import IDLE, LONGEST, NOTED_EVERY

from .conftest import EXAMPLE, Place

QUICK = Passwords(PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))
WORD = "nine blue vans"


class Clock:
    """A clock that is set by hand."""

    def __init__(self) -> None:
        self.at = datetime(2026, 5, 4, 8, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.at


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def shop(place: Place, clock: Clock) -> Iterator[Cupboard]:
    """A cupboard with one who manages, and quick hashes."""
    with Cupboard.open(place.data, place.database, clock=clock) as opened:
        opened.people = People(opened._engine, clock, opened._new_key, QUICK)
        opened.people.add("Ann", WORD, "manage", "setup")
        yield opened


def stored(shop: Cupboard, name: str) -> str:
    wanted = select(tables.person.c.password).where(tables.person.c.name_key == key_of(name))
    return str(dialects.read(shop._engine, lambda connection: connection.execute(wanted).scalar_one()))


def test_all_faults_of_a_new_person_are_told_at_once(shop: Cupboard) -> None:
    with pytest.raises(BadInput) as caught:
        shop.people.add(" aNN ", "ann", "boss", "Ann")
    assert [fault.field for fault in caught.value.faults] == ["password", "password", "role", "name"]
    assert "'ann'" not in str(caught.value).replace("'aNN'", "")
    for name in ("", " ", "x" * 81, "a\nb\x00", "Customer: Bo", "CUSTOMER Bo", "\u202egnp"):
        with pytest.raises(BadInput, match="name"):
            shop.people.add(name, WORD, "measure", "Ann")
    for password in ("x" * 9, "x" * 201, "half \ud800 letters", "ANN the TECHNICIAN"):
        with pytest.raises(BadInput, match="password"):
            shop.people.add("Ann the Technician", password, "measure", "Ann")
    assert [person.name for person in shop.people.everybody()] == ["Ann"]


def test_the_first_person_must_be_able_to_manage(cupboard: Cupboard) -> None:
    with pytest.raises(BadInput, match="first person"):
        cupboard.people.add("Bo", WORD, "measure", "setup")
    assert not cupboard.people.can_be_managed()
    assert cupboard.people.add("Bo", WORD, "manage", "setup").role is Role.MANAGE
    assert cupboard.people.can_be_managed()


def test_only_name_and_password_together_let_in(shop: Cupboard) -> None:
    shop.people.add("Zoë B.", WORD, "measure", "Ann")
    assert shop.people.sign_in("  ZOË   b. ", WORD) == shop.people.named("zoë b.")
    for name, password in (("Zoe B.", WORD), ("Zoë B.", f"{WORD} "), ("nobody", WORD), ("", ""), ("Ann\0", WORD)):
        assert shop.people.sign_in(name, password) is None
    assert shop.people.sign_in("Ann", WORD * 100) is None
    assert WORD not in stored(shop, "Zoë B.")


def test_a_password_typed_on_another_keyboard_is_the_same_password(shop: Cupboard) -> None:
    shop.people.add("Bo", "grüne Hände", "measure", "Ann")
    assert shop.people.sign_in("Bo", "gru\u0308ne Ha\u0308nde") is not None


def test_an_unknown_name_costs_as_many_hashes_as_a_known_one(shop: Cupboard, monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[str] = []
    verify = PasswordHasher.verify

    def counted(self: PasswordHasher, stored: str, password: str) -> bool:
        seen.append(stored.rsplit("$", 2)[0])
        return verify(self, stored, password)

    monkeypatch.setattr(PasswordHasher, "verify", counted)
    shop.people.sign_in("Ann", "wrong in every way")
    shop.people.sign_in("nobody", "wrong in every way")
    assert len(seen) == 2 and seen[0] == seen[1]


def test_a_hash_of_older_parameters_is_made_again_at_the_next_sign_in(shop: Cupboard, clock: Clock) -> None:
    before = stored(shop, "Ann")
    stronger = People(shop._engine, clock, shop._new_key, Passwords(PasswordHasher(2, 16, 1)))
    assert stronger.sign_in("Ann", "wrong in every way") is None
    assert stored(shop, "Ann") == before
    assert stronger.sign_in("Ann", WORD) is not None
    after = stored(shop, "Ann")
    assert after != before and "m=16,t=2" in after
    assert stronger.sign_in("Ann", WORD) is not None
    assert stored(shop, "Ann") == after


def test_there_is_always_somebody_who_can_manage(shop: Cupboard) -> None:
    for attempt in (lambda: shop.people.set_role("Ann", "decide", "Ann"), lambda: shop.people.deactivate("ann", "Ann")):
        with pytest.raises(StoreRefusal, match="nobody with access could manage"):
            attempt()
    assert shop.people.named("Ann").role is Role.MANAGE
    shop.people.add("Bo", WORD, "manage", "Ann")

    def resign(name: str) -> bool:
        try:
            shop.people.set_role(name, "measure", name)
        except StoreRefusal:
            return False
        return True

    with ThreadPoolExecutor(2) as both:
        assert sorted(both.map(resign, ("Ann", "Bo"))) == [False, True]
    assert shop.people.can_be_managed()


def test_two_people_of_one_name_cannot_be_made_at_once(shop: Cupboard) -> None:
    def make(number: int) -> bool:
        try:
            shop.people.add("Bo" if number % 2 else "BO", WORD, "measure", "Ann")
        except BadInput:
            return False
        return True

    with ThreadPoolExecutor(6) as crowd:
        assert sum(crowd.map(make, range(6))) == 1
    assert len(shop.people.everybody()) == 2


def test_somebody_without_access_keeps_the_name_and_can_come_back(shop: Cupboard) -> None:
    shop.people.add("Bo", WORD, "measure", "Ann")
    token = shop.sessions.begin(shop.people.named("Bo").id)
    assert not shop.people.deactivate("Bo", "Ann").active
    assert shop.people.sign_in("Bo", WORD) is None
    assert shop.sessions.who(token) is None
    with pytest.raises(StoreRefusal, match="no access"):
        shop.sessions.begin(shop.people.named("Bo").id)
    with pytest.raises(BadInput, match="nobody else has"):
        shop.people.add("bo", WORD, "measure", "Ann")
    assert shop.people.activate("Bo", "Ann").active
    assert shop.people.sign_in("Bo", WORD) is not None
    assert shop.sessions.who(token) is None


def test_a_new_password_ends_every_session_and_only_the_new_one_lets_in(shop: Cupboard) -> None:
    ann = shop.people.named("Ann")
    tokens = [shop.sessions.begin(ann.id) for _ in range(3)]
    assert {shop.sessions.who(token) for token in tokens} == {ann}
    with pytest.raises(BadInput, match="at least 10"):
        shop.people.set_password("Ann", "short", "Ann")
    assert shop.sessions.who(tokens[0]) == ann
    shop.people.set_password("Ann", "ten red cars", "Ann")
    assert [shop.sessions.who(token) for token in tokens] == [None] * 3
    assert shop.people.sign_in("Ann", WORD) is None
    assert shop.people.sign_in("Ann", "ten red cars") is not None


def test_a_session_ends_when_nobody_comes_for_half_a_day_and_after_a_week_in_any_case(
    shop: Cupboard, clock: Clock
) -> None:
    ann = shop.people.named("Ann")
    left, used = shop.sessions.begin(ann.id), shop.sessions.begin(ann.id)
    start = clock.at
    while clock.at < start + LONGEST - NOTED_EVERY:
        assert shop.sessions.who(used) == ann
        clock.at += IDLE - NOTED_EVERY
    assert shop.sessions.who(left) is None
    clock.at = start + LONGEST
    assert shop.sessions.who(used) is None
    assert shop.sessions.of(ann.id) == ()
    shop.sessions.begin(ann.id)
    count = select(tables.session.c.token_sha256)
    assert len(dialects.read(shop._engine, lambda connection: connection.execute(count).all())) == 1


def test_signing_out_ends_one_session_and_everywhere_ends_all(shop: Cupboard) -> None:
    ann = shop.people.named("Ann")
    tokens = [shop.sessions.begin(ann.id) for _ in range(3)]
    shop.sessions.end(tokens[0])
    shop.sessions.end("no such token")
    assert [shop.sessions.who(token) for token in tokens] == [None, ann, ann]
    assert shop.sessions.end_all(ann.id) == 2
    assert shop.sessions.who(tokens[1]) is None


def test_people_and_sessions_are_in_a_backup_but_no_secret_is_readable_there_or_in_the_database(
    shop: Cupboard, tmp_path: Path, elsewhere: Cupboard
) -> None:
    job_id = shop.add(EXAMPLE, "Ann").job_id
    token = shop.sessions.begin(shop.people.named("Ann").id)
    shop.backup(tmp_path / "all.zip")
    shop.export(tmp_path / "jobs.zip", "Ann")
    with dialects.reading(shop._engine) as connection:
        rows = str(
            connection.execute(text("SELECT * FROM session")).all() + connection.execute(select(tables.person)).all()
        )
    assert digest(token) in rows and token not in rows and WORD not in rows
    elsewhere.bring(tmp_path / "jobs.zip", "Bo")
    assert elsewhere.people.everybody() == ()
    elsewhere.restore(tmp_path / "all.zip", force=True)
    assert elsewhere.people.everybody() == shop.people.everybody()
    assert elsewhere.people.sign_in("Ann", WORD) is not None
    assert elsewhere.job(job_id).data == EXAMPLE


def test_a_backup_is_not_restored_over_people_without_being_told_to(
    shop: Cupboard, elsewhere: Cupboard, tmp_path: Path
) -> None:
    elsewhere.add(EXAMPLE, "Bo")
    elsewhere.backup(tmp_path / "other.zip")
    with pytest.raises(StoreRefusal, match="jobs, people"):
        shop.restore(tmp_path / "other.zip")
    assert [person.name for person in shop.people.everybody()] == ["Ann"]
