"""Killed, crowded, full, cut off: no confirmed reading is lost, none is there twice."""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from sqlalchemy import create_engine, event, insert, text

from hubwright.errors import StoreRefusal
from hubwright.store import dialects, tables
from hubwright.store.cupboard import DATABASE_FILE, Cupboard
from hubwright.store.lookup import columns_of
from hubwright.store.merge import Content
from hubwright.store.things import Query

from .conftest import Place
from .test_two_people import SMALL

ENTER = """
import sys
from pathlib import Path
from hubwright.store.cupboard import Cupboard
with Cupboard.open(Path(sys.argv[1]), sys.argv[2] or None) as cupboard:
    number = int(sys.argv[4])
    while True:
        base = cupboard.job(sys.argv[3]).revision
        receipt = cupboard.enter(sys.argv[3], [("rear.hub.spigot_length_mm", f"{number / 1000}")], "Bo", base=base)
        cupboard.attach(sys.argv[3], str(number).encode(), f"{number}.txt", "Bo")
        print(number, flush=True)
        number += 1
"""


@pytest.mark.slow
def test_a_program_killed_while_readings_are_entered_loses_none_that_was_confirmed(place: Place) -> None:
    chance = random.Random(7)
    with place.open() as cupboard:
        job_id = cupboard.add(SMALL, "Ann").job_id
    confirmed: list[int] = []
    for start in range(1, 5):
        command = [sys.executable, "-c", ENTER, str(place.data), place.database or "", job_id, str(start * 1000)]
        surroundings = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
        with subprocess.Popen(command, stdout=subprocess.PIPE, env=surroundings, text=True) as program:
            assert program.stdout is not None
            confirmed.append(int(program.stdout.readline()))
            time.sleep(chance.uniform(0.05, 0.6))
            program.send_signal(signal.SIGKILL)
            confirmed += [int(line) for line in program.stdout if line.endswith("\n")]
    assert len(confirmed) >= 4
    with place.open() as cupboard:
        values = {change.value for revision in cupboard.history(job_id) for change in revision.changes}
        names = {item.name for item in cupboard.attachments(job_id)}
        assert {f"{number / 1000}" for number in confirmed} <= values
        assert {f"{number}.txt" for number in confirmed} <= names
        assert cupboard.check().problems == ()


def enter_for(cupboard: Cupboard, job_id: str, user: int, until: float) -> Counter[str]:
    """One user adding readings to a job others work on too; what was confirmed."""
    confirmed: Counter[str] = Counter()
    base = cupboard.job(job_id).revision
    number = 0
    while number == 0 or time.monotonic() < until:
        number += 1
        value = f"{user}-{number}"
        receipt = cupboard.enter(job_id, [("@complaint" if user % 2 else "@note", value)], f"user {user}", base=base)
        confirmed[value] += 1
        base = receipt.revision
    return confirmed


@pytest.mark.slow
def test_fifty_users_at_once_lose_nothing_and_store_nothing_twice(cupboard: Cupboard) -> None:
    jobs = [cupboard.add(SMALL, "Ann").job_id for _ in range(10)]
    until = time.monotonic() + 4
    with ThreadPoolExecutor(50) as crowd:
        results = list(crowd.map(lambda user: (user, enter_for(cupboard, jobs[user % 10], user, until)), range(50)))
    assert all(confirmed for _, confirmed in results)
    for number, job_id in enumerate(jobs):
        kept = Counter(
            change.value
            for item in (*cupboard.history(job_id), *cupboard.asides(job_id))
            for change in item.changes
        )  # fmt: skip
        wanted = sum((confirmed for user, confirmed in results if user % 10 == number), Counter[str]())
        assert kept == wanted
    assert cupboard.check().problems == ()


def test_readers_see_one_moment_while_others_write(cupboard: Cupboard) -> None:
    job_id = cupboard.add(SMALL, "Ann").job_id
    with dialects.reading(cupboard._engine) as connection:
        before = connection.execute(text("SELECT count(*) FROM revision")).scalar()
        writer = threading.Thread(target=lambda: cupboard.enter(job_id, [("@note", "x")], "Bo", base=1))
        writer.start()
        writer.join()
        assert connection.execute(text("SELECT count(*) FROM revision")).scalar() == before
    assert len(cupboard.history(job_id)) == 2


def fill_up(cupboard: Cupboard, job_id: str) -> list[str]:
    """Enter until the disk is full; what was confirmed."""
    confirmed = []
    with pytest.raises(StoreRefusal, match="disk is full"):
        for number in range(2000):
            value = f"{number} " + random.Random(number).randbytes(1500).hex()
            base = cupboard.job(job_id).revision
            cupboard.enter(job_id, [("@note", value)], "Bo", base=base)
            confirmed.append(value)
    return confirmed


def assert_whole(cupboard: Cupboard, job_id: str, confirmed: list[str]) -> None:
    assert confirmed
    assert [change.value for revision in cupboard.history(job_id) for change in revision.changes] == confirmed
    assert cupboard.check().problems == ()


def test_a_full_database_refuses_the_entry_keeps_all_before_and_goes_on_when_there_is_room(tmp_path: Path) -> None:
    with Cupboard.open(tmp_path) as cupboard:
        job_id = cupboard.add(SMALL, "Ann").job_id
        room = [80]
        event.listen(cupboard._engine, "connect", lambda line, _: line.execute(f"PRAGMA max_page_count = {room[0]}"))
        cupboard.close()  # its next line to the database hears of the limit
        confirmed = fill_up(cupboard, job_id)
        assert_whole(cupboard, job_id, confirmed)
        room[0] = 10_000
        cupboard.close()
        cupboard.enter(job_id, [("@note", "room again")], "Bo", base=1)
        assert cupboard.check().problems == ()
        kept = {change.value for item in (*cupboard.history(job_id), *cupboard.asides()) for change in item.changes}
        assert kept == {*confirmed, "room again"}


def test_a_disk_that_is_really_full_loses_nothing(tmp_path: Path) -> None:
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = shutil.which("mount") and os.geteuid() == 0
    if not mounted or subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", str(disk)], capture_output=True, check=False
    ).returncode:  # fmt: skip
        pytest.skip("a small disk can only be mounted by root")
    try:
        with Cupboard.open(disk / "data") as cupboard:
            job_id = cupboard.add(SMALL, "Ann").job_id
            confirmed = fill_up(cupboard, job_id)
            assert_whole(cupboard, job_id, confirmed)
            with pytest.raises(StoreRefusal, match="not stored"):
                cupboard.attach(job_id, b"x" * 2_000_000, "a.jpg", "Bo")
            with pytest.raises(StoreRefusal, match="not written"):
                cupboard.backup(disk / "all.zip")
            assert [path.name for path in disk.iterdir()] == ["data"]
            cupboard.backup(tmp_path / "all.zip")
        with Cupboard.open(disk / "data") as cupboard:
            assert_whole(cupboard, job_id, confirmed)
    finally:
        subprocess.run(["umount", str(disk)], check=True)
    with Cupboard.open(tmp_path / "restored") as cupboard:
        assert cupboard.restore(tmp_path / "all.zip").problems == ()
        assert_whole(cupboard, job_id, confirmed)


FULL = """
CREATE FUNCTION full_disk() RETURNS trigger LANGUAGE plpgsql AS
$$ BEGIN RAISE EXCEPTION 'could not extend file' USING ERRCODE = '53100'; END $$;
CREATE TRIGGER full_disk BEFORE INSERT ON revision EXECUTE FUNCTION full_disk();
"""


def test_a_full_server_refuses_the_entry_and_keeps_all_before(new_database: str, tmp_path: Path) -> None:
    engine = create_engine(new_database)
    with Cupboard.open(tmp_path, new_database) as cupboard:
        job_id = cupboard.add(SMALL, "Ann").job_id
        with engine.begin() as connection:
            connection.execute(text(FULL))
        with pytest.raises(StoreRefusal, match="disk is full"):
            cupboard.enter(job_id, [("@note", "x")], "Bo", base=1)
        assert cupboard.job(job_id).revision == 1
        with engine.begin() as connection:
            connection.execute(text("DROP TRIGGER full_disk ON revision"))
        assert cupboard.enter(job_id, [("@note", "x")], "Bo", base=1).revision == 2
    engine.dispose()


@pytest.mark.slow
def test_connections_cut_off_by_the_server_lose_nothing_and_store_nothing_twice(
    new_database: str, tmp_path: Path
) -> None:
    cut = create_engine(new_database, isolation_level="AUTOCOMMIT")
    others = text(
        "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE pid <> pg_backend_pid() AND usename = 'shop'"
    )
    over = threading.Event()

    def cutting() -> None:
        with cut.connect() as connection:
            while not over.wait(0.05):
                connection.execute(others)

    with Cupboard.open(tmp_path, new_database) as cupboard:
        job_id = cupboard.add(SMALL, "Ann").job_id
        saboteur = threading.Thread(target=cutting)
        saboteur.start()
        confirmed, tried = [], []
        try:
            for number in range(40):
                tried.append(str(number))
                try:
                    cupboard.enter(job_id, [("@note", str(number))], "Bo", base=cupboard.job(job_id).revision)
                except StoreRefusal:
                    continue
                confirmed.append(str(number))
        finally:
            over.set()
            saboteur.join()
        kept = Counter(change.value for revision in cupboard.history(job_id) for change in revision.changes)
        assert set(confirmed) <= set(kept) <= set(tried)
        assert set(kept.values()) == {1}
        assert cupboard.check().problems == ()
    cut.dispose()


@pytest.mark.slow
def test_what_is_confirmed_while_a_backup_is_restored_over_it_is_here_or_in_the_backup_made_before(
    cupboard: Cupboard, tmp_path: Path
) -> None:
    job_id = cupboard.add(SMALL, "Ann").job_id
    cupboard.backup(tmp_path / "early.zip")
    confirmed: list[str] = []
    over = threading.Event()

    def user() -> None:
        number = 0
        while not over.is_set():
            number += 1
            try:
                base = cupboard.job(job_id).revision
                cupboard.enter(job_id, [("@note", str(number))], "Bo", base=base)
            except StoreRefusal:  # the revision it saw is gone, or the tables are being put in place
                continue
            confirmed.append(str(number))

    writer = threading.Thread(target=user)
    writer.start()
    while len(confirmed) < 5:
        time.sleep(0.01)
    cupboard.restore(tmp_path / "early.zip", force=True)
    over.set()
    writer.join()
    (before,) = (cupboard.data / "backups").glob("before-restore-*.zip")
    with Cupboard.open(tmp_path / "before") as old:
        old.restore(before)
        kept = {
            change.value
            for place in (old, cupboard)
            for item in (*place.history(job_id), *place.asides(job_id))
            for change in item.changes
        }
    assert set(confirmed) <= kept


def test_two_programs_opening_an_empty_place_at_once_both_succeed(place: Place) -> None:
    ready = threading.Barrier(6)

    def open_and_add(_: int) -> str:
        ready.wait()
        with place.open() as cupboard:
            return cupboard.add(SMALL, "Ann").job_id

    with ThreadPoolExecutor(6) as crowd:
        made = list(crowd.map(open_and_add, range(6)))
    with place.open() as cupboard:
        assert {line.id for line in cupboard.find()} == set(made)


@pytest.mark.slow
def test_ten_thousand_jobs_are_searched_and_listed(cupboard: Cupboard) -> None:
    rows = []
    for number in range(10_000):
        data = SMALL.replace(
            b'"Small"', f'"Hatchback number {number}, {"rubs" if number % 1000 == 0 else "quiet"}"'.encode()
        )
        rows.append({
            "id": f"j{number:05}", "head": 1, "stage_sha256": "", "changed_by": "Ann",
            "changed_at": f"2026-05-04T00:00:00.{number:06}Z", **columns_of(Content(data, {"@customer": f"Zoë {number}"})),
        })  # fmt: skip
    dialects.write(cupboard._engine, lambda connection: connection.execute(insert(tables.job), rows))
    found = cupboard.find(Query(words="hatchback RUBS"))
    assert [line.id for line in found] == [f"j{number:05}" for number in range(9000, -1, -1000)]
    assert [line.id for line in cupboard.find(Query(customer="zoe 1234"))] == ["j01234"]
    assert len(cupboard.find(Query(limit=100, skip=9950))) == 50


def test_the_database_file_forces_every_confirmation_to_the_disk(tmp_path: Path) -> None:
    with Cupboard.open(tmp_path) as cupboard, dialects.reading(cupboard._engine) as connection:
        told = [
            connection.exec_driver_sql(f"PRAGMA {name}").scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys")
        ]
    assert told == ["wal", 2, 1]
    assert (tmp_path / DATABASE_FILE).exists()


@pytest.mark.slow
def test_a_log_cut_off_anywhere_leaves_every_reading_before_the_cut_and_nothing_half(tmp_path: Path) -> None:
    """What a power cut may do to the end of the log, where the disk had not promised it yet."""
    chance = random.Random(11)
    with Cupboard.open(tmp_path / "a") as cupboard:
        job_id = cupboard.add(SMALL, "Ann").job_id
        ends = []
        for number in range(2, 12):
            cupboard.enter(job_id, [("@note", f"{number}")], "Bo", base=number - 1)
            ends.append((tmp_path / "a" / f"{DATABASE_FILE}-wal").stat().st_size)
        files = {path.name: path.read_bytes() for path in (tmp_path / "a").glob(f"{DATABASE_FILE}*")}
    log = files[f"{DATABASE_FILE}-wal"]
    assert ends == sorted(set(ends)) and ends[-1] == len(log)
    for number in range(12):
        cut = chance.randrange(ends[0], len(log))
        folder = tmp_path / f"cut{number}"
        folder.mkdir()
        (folder / DATABASE_FILE).write_bytes(files[DATABASE_FILE])
        (folder / f"{DATABASE_FILE}-wal").write_bytes(log[:cut] + chance.randbytes(len(log) - cut))
        with Cupboard.open(folder) as cupboard:
            assert len(cupboard.history(job_id)) == 1 + sum(end <= cut for end in ends)
            assert cupboard.check().problems == ()
