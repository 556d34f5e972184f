"""A look through the whole cupboard: is everything there, and is it what was put in?"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, func, or_, select, text, update

from hubwright.language import say
from hubwright.store import blobs, dialects
from hubwright.store.chain import link, sha256, unpacked
from hubwright.store.entries import content_of, revision_row
from hubwright.store.lookup import columns_of
from hubwright.store.shop_rows import problems_of
from hubwright.store.tables import attachment, job, revision
from hubwright.store.things import Audit


def audit(engine: Engine, files: Path) -> Audit:
    """Check the database, every history link by link, every attachment's bytes."""

    def work(connection: Connection) -> Audit:
        problems = [*_database(connection), *problems_of(connection)]
        for row in connection.execute(select(job).order_by(job.c.id)).mappings().all():
            try:
                problems += _job(connection, row)
            except (ValueError, KeyError, TypeError, AttributeError) as error:
                problems.append(say("job {id}: its rows cannot be read ({error})", id=row["id"], error=error))
        kept = connection.execute(select(attachment)).mappings().all()
        for item in kept:
            if (problem := blobs.problem_with(files, item["sha256"])) is not None:
                problems.append(
                    say(
                        "job {job_id}, attachment {id} ({name}): {problem}",
                        job_id=item["job_id"],
                        id=item["id"],
                        name=item["name"],
                        problem=problem,
                    )
                )
        known = {item["sha256"] for item in kept}
        orphans = sum(path.name not in known for path in blobs.all_names(files))
        jobs, revisions = (
            connection.execute(select(func.count()).select_from(table)).scalar_one() for table in (job, revision)
        )
        return Audit(jobs, revisions, len(kept), tuple(problems), orphans)

    return dialects.read(engine, work)


def _database(connection: Connection) -> Iterator[str]:
    if connection.dialect.name != "sqlite":
        return
    for check in ("integrity_check", "foreign_key_check"):
        for row in connection.execute(text(f"PRAGMA {check}")):
            if tuple(row) != ("ok",):
                yield f"database: {check}: {tuple(row)}"


def _job(connection: Connection, row: Any) -> Iterator[str]:
    before, number, newest = "", 0, None
    past = connection.execute(select(revision).where(revision.c.job_id == row["id"]).order_by(revision.c.number))
    for step in past.mappings():
        number += 1
        try:
            whole = sha256(unpacked(step["data"])) == step["data_sha256"]
        except zlib.error:
            whole = False
        if step["number"] != number or not whole or step["chain"] != link(before, step):
            yield say("job {id}: revision {number} is not what was stored", id=row["id"], number=step["number"])
            return
        before, newest = step["chain"], step
    if newest is None or row["head"] != number:
        yield say(
            "job {id}: its history ends at {number}, its line says {head}",
            id=row["id"],
            number=number,
            head=row["head"],
        )
        return
    wrong = [name for name, value in columns_of(content_of(newest)).items() if row[name] != value]
    if wrong:
        yield say("job {id}: the list does not say what the file says ({wrong})", id=row["id"], wrong=", ".join(wrong))


def mend_list(engine: Engine) -> int:
    """Work out again what lists and searches need, from every job's newest revision; how many lines were wrong."""
    ids = dialects.read(
        engine, lambda connection: connection.execute(select(job.c.id).order_by(job.c.id)).scalars().all()
    )
    return sum(dialects.write(engine, _mending(job_id)) for job_id in ids)


def _mending(job_id: str) -> Callable[[Connection], bool]:
    def work(connection: Connection) -> bool:
        head = dialects.head_for_update(connection, job_id)
        if head is None:
            return False
        columns = columns_of(content_of(revision_row(connection, job_id, head)))
        wrong = or_(*(job.c[name].is_distinct_from(value) for name, value in columns.items()))
        return connection.execute(update(job).where(job.c.id == job_id, wrong).values(**columns)).rowcount == 1

    return work
