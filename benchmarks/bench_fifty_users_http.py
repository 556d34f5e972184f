"""Fifty users enter readings at once over HTTP on loopback for a minute; then every confirmed one is looked for.

    python benchmarks/bench_fifty_users_http.py [seconds] [--database postgresql://...] [--jobs 50]

Without a database the server works on SQLite in a folder of its own; with --jobs below 50 several users share a job.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

from tests.journeys.crowd import entering_at_once
from tests.journeys.server import Site

USERS = 50


def main() -> int:
    parser = argparse.ArgumentParser()
    parser.add_argument("seconds", nargs="?", type=float, default=60)
    parser.add_argument("--database")
    parser.add_argument("--jobs", type=int, default=USERS)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        site = Site(Path(folder), asked.database, demo=False)
        site.start()
        try:
            tally = entering_at_once(site, USERS, asked.jobs, asked.seconds)
            with site.cupboard() as cupboard:
                audit = cupboard.check()
        finally:
            site.stop()
    print(f"{USERS} users over HTTP, {asked.jobs} jobs, {asked.seconds:g} s: {tally.words}; problems: {audit.problems}")
    return 1 if tally.lost or tally.refused or audit.problems else 0


if __name__ == "__main__":
    sys.exit(main())
