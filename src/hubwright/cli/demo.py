"""``hubwright demo``: the demo cars, from job file to answer and drawings."""

from __future__ import annotations

import sys
from pathlib import Path

from hubwright.cli.commands import leave
from hubwright.cli.show import print_answer
from hubwright.cli.work import answered, loaded, write_drawings
from hubwright.jobs.demo import FIRST, demo_jobs
from hubwright.jobs.schema import answer_json


def run_demo(out: Path) -> None:
    """Assess every demo job into a folder."""
    with demo_jobs() as paths:
        if not paths:
            leave("no demo jobs were found.")
        for path in paths:
            _one(path, out / path.stem)
    sys.stdout.write(f"\nAnswers (JSON) and drawings (SVG) are in {out}. Start with {out / FIRST}.\n")


def _one(path: Path, out: Path) -> None:
    job = loaded(path)
    answer = answered(job)
    if path.stem == FIRST:
        print_answer(answer)
        sys.stdout.write("\nThe other demo cars in short:\n")
    else:
        for axle in answer.axles:
            sys.stdout.write(f"\n{answer.title}, {axle.axle} axle (asked: {axle.wish})\n  {axle.decision}\n")
    try:
        out.mkdir(parents=True, exist_ok=True)
        (out / "answer.json").write_text(answer_json(answer) + "\n", encoding="utf-8")
    except OSError as error:
        leave(f"--out {out}: wanted a folder that can be written; {error.strerror or error}.")
    write_drawings(job, answer, out)
