"""Many users who enter readings at once over HTTP, each on a connection of their own; then every confirmed one is looked for."""

from __future__ import annotations

import http.client
import json
import random
import statistics
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from threading import Barrier
from urllib.parse import urlsplit

from tests.journeys.server import Site

SMALL = b"""\
hubwright_job = 1
title = "Fifty users"
[request]
use = "street"
[rear.hub]
spigot_length_mm = 12.5
"""
FIELDS = ("rear.track_mm", "front.track_mm", "rear.hub.spigot_length_mm", "front.hub.spigot_length_mm")
OURS = {"X-Hubwright": "1", "Content-Type": "application/json"}


@dataclass(frozen=True)
class Confirmed:
    """One reading the server has confirmed."""

    job_id: str
    field: str
    value: float
    wait_s: float


@dataclass(frozen=True)
class Tally:
    """What came of it.

    Attributes:
        confirmed: Readings the server confirmed.
        lost: Those of them that are nowhere in the history or among the entries put aside.
        refused: Answers other than a receipt.
    """

    confirmed: tuple[Confirmed, ...]
    lost: tuple[Confirmed, ...]
    refused: tuple[str, ...]

    @property
    def words(self) -> str:
        """In one line."""
        waits = sorted(1000 * one.wait_s for one in self.confirmed)
        median, most = statistics.median(waits), waits[int(0.95 * len(waits))]
        return (
            f"{len(self.confirmed)} confirmed, {len(self.lost)} lost, {len(self.refused)} refused; receipt after "
            f"{median:.0f} ms (median), {most:.0f} ms (95 %), {waits[-1]:.0f} ms (longest)"
        )


def _user(address: str, user: int, job_id: str, seconds: float, ready: Barrier) -> tuple[list[Confirmed], list[str]]:
    chance, parts = random.Random(user), urlsplit(address)
    line = http.client.HTTPConnection(parts.hostname or "", parts.port, timeout=60)
    confirmed: list[Confirmed] = []
    refused: list[str] = []
    base, number = 1, 0
    ready.wait()
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        number += 1
        field = chance.choice(FIELDS)
        value = 10 + user / 10 + number / 1e5 if "spigot" in field else 1400 + user + number / 1e4
        entry = {"base": base, "readings": [{"field": field, "value": value}], "key": f"u{user}-{number}"}
        sent = time.perf_counter()
        line.request(
            "POST", f"/api/v1/jobs/{job_id}/entries", json.dumps(entry), {**OURS, "Cookie": f"hw_name=user%20{user}"}
        )
        answer = line.getresponse()
        body = answer.read()
        if answer.status != 200:
            refused.append(f"{answer.status}: {body[:200]!r}")
            continue
        confirmed.append(Confirmed(job_id, field, value, time.perf_counter() - sent))
        base = json.loads(body)["revision"]
    line.close()
    return confirmed, refused


def entering_at_once(site: Site, users: int, jobs: int, seconds: float) -> Tally:
    """Let users enter readings, several to a job where there are fewer jobs, and look for every confirmed one.

    Args:
        site: A running server.
        users: How many.
        jobs: Shared out among them.
        seconds: How long they go on.
    """
    with site.cupboard() as cupboard:
        names = [cupboard.add(SMALL, "crowd").job_id for _ in range(jobs)]
    ready = Barrier(users)
    with ThreadPoolExecutor(users) as crowd:
        work = [crowd.submit(_user, site.address, user, names[user % jobs], seconds, ready) for user in range(users)]
        done = [one.result() for one in work]
    confirmed = tuple(one for found, _ in done for one in found)
    refused = tuple(text for _, found in done for text in found)
    return Tally(confirmed, missing_from(site, confirmed), refused)


def missing_from(site: Site, confirmed: Sequence[Confirmed]) -> tuple[Confirmed, ...]:
    """Confirmed readings that are nowhere: neither in a history nor put aside."""
    kept: set[tuple[str, str, float]] = set()
    with site.cupboard() as cupboard:
        for job_id in {one.job_id for one in confirmed}:
            for item in (*cupboard.history(job_id), *cupboard.asides(job_id)):
                kept |= {(job_id, change.field, float(change.value)) for change in item.changes if change.value}
    return tuple(one for one in confirmed if (one.job_id, one.field, one.value) not in kept)
