"""``hubwright demo``: the demo cars, from job file to answer and drawings."""

from __future__ import annotations

import sys
from pathlib import Path

from hubwright.cli.commands import leave
from hubwright.cli.show import print_answer
from hubwright.cli.work import answered, folder_refused, loaded, write_drawings
from hubwright.jobs.demo import FIRST, demo_jobs
from hubwright.jobs.schema import answer_json
from hubwright.language import say
from hubwright.language.words import axle_word


def run_demo(out: Path) -> None:
    """Assess every demo job into a folder."""
    with demo_jobs() as paths:
        if not paths:
            leave(say("no demo jobs were found."))
        for path in paths:
            _one(path, out / path.stem)
    text = say("Answers (JSON) and drawings (SVG) are in {folder}. Start with {first}.", folder=out, first=out / FIRST)
    sys.stdout.write(f"\n{text}\n")


def _one(path: Path, out: Path) -> None:
    job = loaded(path)
    answer = answered(job)
    if path.stem == FIRST:
        print_answer(answer)
        sys.stdout.write(f"\n{say('The other demo cars in short:')}\n")
    else:
        for axle in answer.axles:
            head = say(
                "{title}, {axle} axle (asked: {wish})", title=answer.title, axle=axle_word(axle.axle), wish=axle.wish
            )
            sys.stdout.write(f"\n{head}\n  {axle.decision}\n")
    try:
        out.mkdir(parents=True, exist_ok=True)
        (out / "answer.json").write_text(answer_json(answer) + "\n", encoding="utf-8")
    except OSError as error:
        leave(folder_refused("--out", out, error))
    write_drawings(job, answer, out)
