"""Fifty users enter readings at once for a minute, over loopback or into one file; then every confirmed one is looked for.

    python benchmarks/bench_fifty_users.py [seconds] [--database postgresql://...] [--jobs 50] [--programs 5]

Without a database it works on SQLite in a folder of its own. The users are shared out over several programs, each opening the
store for itself; a user adds readings to a job (with --jobs below 50 several users share one).
"""

from __future__ import annotations

import argparse
import random
import statistics
import sys
import tempfile
import time
import tomllib
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from threading import Barrier

from hubwright.store.cupboard import Cupboard

USERS = 50
SMALL = b"""\
hubwright_job = 1
title = "Fifty users"
[request]
use = "street"
[rear.hub]
spigot_length_mm = 12.5
"""
FIELDS = ("rear.hub.spigot_length_mm", "rear.track_mm", "front.track_mm", "front.hub.spigot_length_mm")

Confirmed = tuple[str, str, str, float]
"""Job, field, value, seconds from sending to the receipt."""


def one_user(cupboard: Cupboard, user: int, job_id: str, until: float) -> list[Confirmed]:
    chance = random.Random(user)
    base = cupboard.job(job_id).revision
    confirmed = []
    while time.time() < until:
        field = chance.choice(FIELDS)
        value = (
            f"{10 + user / 10 + chance.random() / 10:.6f}"
            if "spigot" in field
            else f"{1400 + 200 * chance.random():.6f}"
        )
        sent = time.perf_counter()
        receipt = cupboard.enter(job_id, [(field, value)], f"user {user}", base=base)
        confirmed.append((job_id, field, value, time.perf_counter() - sent))
        base = receipt.revision
    return confirmed


def one_program(
    data: Path, database: str | None, users: list[int], jobs: list[str], seconds: float, ready: Barrier
) -> list[Confirmed]:
    with Cupboard.open(data, database) as cupboard, ThreadPoolExecutor(len(users)) as crowd:
        ready.wait()
        until = time.time() + seconds
        results = crowd.map(lambda user: one_user(cupboard, user, jobs[user % len(jobs)], until), users)
        return [item for result in results for item in result]


def missing_from(cupboard: Cupboard, confirmed: list[Confirmed]) -> int:
    kept = set()
    for job_id in {job_id for job_id, *_ in confirmed}:
        for item in (*cupboard.history(job_id), *cupboard.asides(job_id)):
            kept |= {(job_id, change.field, float(change.value)) for change in item.changes if change.value}
        tomllib.loads(cupboard.job(job_id).text)
    return sum((job_id, field, float(value)) not in kept for job_id, field, value, _ in confirmed)


def main() -> int:
    parser = argparse.ArgumentParser()
    parser.add_argument("seconds", nargs="?", type=float, default=60)
    parser.add_argument("--database")
    parser.add_argument("--jobs", type=int, default=USERS)
    parser.add_argument("--programs", type=int, default=5)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder)
        with Cupboard.open(data, asked.database) as cupboard:
            jobs = [cupboard.add(SMALL, "bench").job_id for _ in range(asked.jobs)]
            shares = [list(range(start, USERS, asked.programs)) for start in range(asked.programs)]
            spawn = get_context("spawn")
            with ProcessPoolExecutor(asked.programs, mp_context=spawn) as programs, spawn.Manager() as manager:
                ready = manager.Barrier(asked.programs)
                work = [
                    programs.submit(one_program, data, asked.database, share, jobs, asked.seconds, ready)
                    for share in shares
                ]
                confirmed = [item for future in work for item in future.result()]
            waits_ms = sorted(1000 * wait_s for *_, wait_s in confirmed)
            lost = missing_from(cupboard, confirmed)
            audit = cupboard.check()
            asides = len(cupboard.asides())
    print(
        f"{USERS} users, {asked.programs} programs, {asked.jobs} jobs, {asked.seconds:g} s: {len(confirmed)} confirmed, "
        f"{lost} lost, {asides} put aside; receipt after {statistics.median(waits_ms):.0f} ms (median), "
        f"{waits_ms[int(0.95 * len(waits_ms))]:.0f} ms (95 %), {waits_ms[-1]:.0f} ms (longest); problems: {audit.problems}"
    )
    return 1 if lost or audit.problems else 0


if __name__ == "__main__":
    sys.exit(main())
