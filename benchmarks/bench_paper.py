"""How long a sheet takes once the compiler is warm, and how long the first one takes.

Run: PYTHONPATH=. python benchmarks/bench_paper.py. The goal: every sheet under 300 ms once warm.
"""

from __future__ import annotations

import resource
import time
from dataclasses import replace
from pathlib import Path
from statistics import median

import hubwright
from hubwright.errors import BadInput
from hubwright.reports import Options, answered, identity_of, kinds_for, print_sheet

ROOT = Path(__file__).resolve().parents[1]
JOBS = (
    "hatchback-rear-flush",
    "coupe-front-dead-zone",
    "saloon-studs",
    "off-roader-adapter",
    "compact-front-lock",
    "estate-full-data",
)
REPEATS = 7
LONG_RUN = 300


def main() -> None:
    options = Options()
    first = True
    print(f"{'sheet':18} {'job':24} {'first, ms':>10} {'median, ms':>11} {'worst, ms':>10} {'KiB':>6}")
    worst = 0.0
    for name in JOBS:
        path = ROOT / "examples" / f"{name}.toml"
        job, identity = hubwright.load(path), identity_of(path.read_bytes())
        answer = answered(job, options)
        for kind in kinds_for(answer):
            times = []
            for number in range(REPEATS + 1):
                # a revision of its own each time, so that nothing is answered from memory of the same page
                own = replace(identity, revision=number)
                begun = time.perf_counter()
                try:
                    size = len(print_sheet(kind, job, answer, own, options).data)
                except BadInput:
                    size = 0
                times.append(1000 * (time.perf_counter() - begun))
            worst = max(worst, *times[1:])
            note = " (loads the compiler)" if first else ""
            first = False
            print(
                f"{kind:18} {name:24} {times[0]:10.0f} {median(times[1:]):11.0f} {max(times[1:]):10.0f} {size / 1024:6.0f}{note}"
            )
    print(f"worst of all once warm: {worst:.0f} ms")
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    begun = time.perf_counter()
    for number in range(LONG_RUN):
        print_sheet("job-card", job, answer, replace(identity, revision=number), options)
    each = 1000 * (time.perf_counter() - begun) / LONG_RUN
    after = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{LONG_RUN} job cards, one after the other: {each:.0f} ms each, memory {before:.0f} to {after:.0f} MiB")


if __name__ == "__main__":
    main()
