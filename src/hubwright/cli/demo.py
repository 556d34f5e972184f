"""``hubwright demo``: the demo cars, from job file to answer and drawings."""

from __future__ import annotations

import sys
from importlib.resources import as_file, files
from pathlib import Path

from hubwright.cli.commands import leave
from hubwright.cli.show import print_answer
from hubwright.cli.work import answered, loaded, write_drawings
from hubwright.jobs.schema import answer_json

FIRST = "hatchback-rear-flush"
"""Its whole answer is printed; the others are summed up."""


def demo_jobs(folder: Path) -> list[Path]:
    """The demo jobs, the one that is shown whole first."""
    return sorted(folder.glob("*.toml"), key=lambda path: (path.stem != FIRST, path.stem))


def run_demo(out: Path) -> None:
    """Assess every demo job into a folder."""
    with as_file(files("hubwright").joinpath("demo_jobs")) as packaged:
        folder = packaged if packaged.is_dir() else Path(__file__).resolve().parents[3] / "examples"
        paths = demo_jobs(folder)
        if not paths:
            leave(f"no demo jobs were found in {folder.name}.")
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
