"""Tables of every version are brought up to date, with a backup first; newer ones are left alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import create_engine, text

import hubwright.store.migrations.versions
from hubwright.errors import StoreRefusal
from hubwright.store import dialects, migrate
from hubwright.store.cupboard import DATABASE_FILE, Cupboard
from hubwright.store.tables import metadata
from hubwright.store.things import Query

from .conftest import EXAMPLE, Place


def run(place: Place, *statements: str) -> None:
    engine = create_engine(place.database or f"sqlite:///{place.data / DATABASE_FILE}")
    with engine.begin() as connection:
        for statement in statements:
            connection.execute(text(statement))
    engine.dispose()


def test_the_steps_are_the_files_and_lead_to_the_tables_of_the_program(cupboard: Cupboard) -> None:
    folder = Path(hubwright.store.migrations.versions.__path__[0])
    assert tuple(sorted(path.name[:4] for path in folder.glob("[0-9]*.py"))) == migrate.STEPS
    with dialects.reading(cupboard._engine) as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []


def test_a_store_of_the_first_version_is_brought_up_to_date_after_a_backup(place: Place, tmp_path: Path) -> None:
    with place.open() as first:
        job_id = first.add(EXAMPLE, "Ann").job_id
        first.enter(job_id, [("@customer", "Zoë")], "Bo", base=1)
        history = first.history(job_id)
    later = ("shop", "link", "session", "person", "attachment")
    run(place, *(f"DROP TABLE {name}" for name in later), "UPDATE alembic_version SET version_num = '0001'")
    with place.open() as second:
        assert second.job(job_id).data == EXAMPLE
        assert second.history(job_id) == history
        second.attach(job_id, b"photo", "a", "Ann")
        assert second.check().problems == ()
    (backup,) = (place.data / "backups").iterdir()
    with Cupboard.open(tmp_path / "restored") as restored:
        assert restored.restore(backup).problems == ()
        assert restored.history(job_id) == history
        assert restored.attachments(job_id) == ()


def test_tables_of_a_newer_program_are_refused_and_left_alone(place: Place) -> None:
    with place.open() as first:
        job_id = first.add(EXAMPLE, "Ann").job_id
    run(place, "UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(StoreRefusal, match="newer hubwright"):
        place.open()
    run(place, f"UPDATE alembic_version SET version_num = '{migrate.NEWEST}'")
    with place.open() as again:
        assert again.job(job_id).data == EXAMPLE


def test_other_peoples_tables_are_refused(place: Place) -> None:
    place.data.mkdir()
    run(place, "CREATE TABLE invoices (id INTEGER)")
    with pytest.raises(StoreRefusal, match="invoices"):
        place.open()


@pytest.mark.parametrize("url", ["mysql://x", "nonsense", "postgresql://shop:secret@/none?host=/nowhere", ""])
def test_a_database_that_cannot_be_used_is_refused_without_showing_its_password(url: str, tmp_path: Path) -> None:
    (tmp_path / "data").write_text("a file, no folder")
    with pytest.raises(StoreRefusal) as caught:
        Cupboard.open(tmp_path / ("data" if not url else "other"), url or None)
    assert "secret" not in str(caught.value)


def test_a_file_that_is_no_database_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / DATABASE_FILE).write_bytes(b"something else entirely" * 100)
    with pytest.raises(StoreRefusal, match="no database"):
        Cupboard.open(tmp_path)
    assert (tmp_path / DATABASE_FILE).read_bytes() == b"something else entirely" * 100


def test_a_changed_past_a_cut_off_end_and_a_wrong_list_are_found_and_the_list_is_mended(place: Place) -> None:
    with place.open() as cupboard:
        jobs = [cupboard.add(EXAMPLE, "Ann").job_id for _ in range(4)]
        cupboard.enter(jobs[1], [("@note", "x")], "Bo", base=1)
    run(
        place,
        f"UPDATE revision SET author = 'Mallory' WHERE job_id = '{jobs[0]}'",
        f"DELETE FROM revision WHERE job_id = '{jobs[1]}' AND number = 2",
        f"UPDATE job SET words = 'nothing', due = '2026-01-01' WHERE id = '{jobs[2]}'",
        f"UPDATE revision SET card = 'no card' WHERE job_id = '{jobs[3]}'",
    )
    with place.open() as cupboard:
        problems = {problem.split()[1].strip(":,"): problem for problem in cupboard.check().problems}
        assert set(problems) == set(jobs)
        assert "due, words" in problems[jobs[2]]
    with place.open() as cupboard:
        run(
            place,
            f"UPDATE job SET head = 1 WHERE id = '{jobs[1]}'",
            f"UPDATE revision SET card = '{{}}' WHERE job_id = '{jobs[3]}'",
        )
        assert cupboard.mend_list() == 2
        assert [line.id for line in cupboard.find(Query(words="alignment")) if line.id == jobs[2]] == [jobs[2]]
        assert [problem.split()[1].strip(":,") for problem in cupboard.check().problems] == [jobs[0]]
