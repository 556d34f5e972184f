"""What a corner's map was asked, kept between runs: the same question of the same corner is not worked out twice.

Kept beside the maps and never needed for an answer. An entry counts only for the very same job, scans, program,
language and units (it holds notes in words); the first question it does not hold makes the map, and everything asked is
kept anew.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from dataclasses import asdict
from functools import cached_property
from hashlib import sha256
from importlib.resources import files
from pathlib import Path
from typing import Any

from hubwright import __version__
from hubwright.checks.mapped import Air, MapRoom, Neighbour
from hubwright.errors import BadInput, Fault
from hubwright.jobs.cache import cache_folder
from hubwright.jobs.jobfile import adapter
from hubwright.language import say, spoken
from hubwright.parts.job import AxleName, Compliance, Job
from hubwright.quantities.axes import Side
from hubwright.quantities.text import unit

FORMAT = 1
SUBJECTS = ("engineering", "jobs", "checks", "parts", "quantities", "tables", "language")
"""Folders of the program whose change makes older answers void."""

Draw = Callable[[], "MapRoom | None"]


class KeptAnswers:
    """The answers of one corner: from the file of an earlier run as far as they go, else from its map."""

    def __init__(self, path: Path, draw: Draw, give: Compliance | None) -> None:
        self._path = path
        self._give = give
        self._draw = draw
        self._said: dict[str, Any] = _read(path)
        self._new = False

    @cached_property
    def _drawn(self) -> MapRoom | None:
        return self._draw()

    def room(self) -> MapRoom | None:
        """The corner's room; its map is drawn only for a question not asked before. None where no map can be drawn."""
        facts = self._said.get("facts")
        if facts is None:
            drawn = self._drawn
            if drawn is None:
                return None
            facts = {
                "side": drawn.side, "neighbours": [asdict(item) for item in drawn.neighbours.values()],
                "grade": drawn.grade, "covers": [drawn.covers_bump, drawn.covers_lock], "notes": drawn.notes,
            }  # fmt: skip
            self._said["facts"] = facts
            self._new = True
        about = [Neighbour(**item) for item in facts["neighbours"]]
        bump, lock = facts["covers"]
        return MapRoom(
            facts["side"], {item.name: item for item in about}, facts["grade"], bump, lock, self._give,
            tuple(facts["notes"]), self._settle, self._rough, self._gap_at,
        )  # fmt: skip

    def _ask(self, question: str, work_out: Callable[[MapRoom], Any]) -> Any:
        if question not in self._said:
            if self._drawn is None:
                raise BadInput(
                    say("the clearance map"), (Fault("scan", say("the shapes the map was drawn from"), say("none")),)
                )
            self._said[question] = work_out(self._drawn)
            self._new = True
        return self._said[question]

    def _settle(self, name: str, thickness_mm: float, enough_mm: float) -> Air:
        found = self._ask(
            f"air {name!r} {thickness_mm!r} {enough_mm!r}",
            lambda drawn: asdict(drawn.settle(name, thickness_mm, enough_mm)),
        )
        place = found["place_mm"]
        return Air(**{**found, "place_mm": None if place is None else tuple(place)})

    def _rough(self, name: str, thickness_mm: float) -> float:
        return float(self._ask(f"rough {name!r} {thickness_mm!r}", lambda drawn: drawn.rough_mm(name, thickness_mm)))

    def _gap_at(self, thickness_mm: float, travel_mm: float, steer_deg: float) -> tuple[float, float] | None:
        question = f"gap {thickness_mm!r} {travel_mm!r} {steer_deg!r}"
        found = self._ask(question, lambda drawn: drawn.gap_at(thickness_mm, travel_mm, steer_deg))
        return None if found is None else (float(found[0]), float(found[1]))

    def keep(self) -> None:
        """Write what was asked anew; a folder that cannot be written is no fault."""
        if not self._new:
            return
        part = self._path.with_suffix(f".{os.getpid()}.part")
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            part.write_text(json.dumps(self._said, default=float), encoding="utf-8")
            part.replace(self._path)
        except OSError:
            part.unlink(missing_ok=True) if self._path.parent.is_dir() else None


def kept_answers(job: Job, name: AxleName, side: Side, draw: Draw) -> KeptAnswers | None:
    """The kept answers of one corner; None where nothing is to be kept, or a scan cannot be read."""
    folder = cache_folder()
    if folder is None:
        return None
    mark = sha256(f"{FORMAT} {__version__} {name} {side} {spoken()} {unit()} {_program()}".encode())
    mark.update(adapter().dump_json(job))
    axle = dict(job.axles)[name]
    try:
        for scan in axle.corner(side).scan:
            mark.update(sha256(Path(scan.file).read_bytes()).digest())
    except OSError:
        return None
    return KeptAnswers(folder / f"{mark.hexdigest()}.json", draw, axle.compliance)


def _program() -> str:
    """Size and time of every source file that has a say, so that a changed program never repeats an older answer."""
    root = files("hubwright")
    marks = []
    for subject in SUBJECTS:
        folder = root.joinpath(subject)
        if isinstance(folder, Path):
            found = sorted(path for path in folder.rglob("*") if path.suffix in (".py", ".csv", ".toml", ".mo"))
            marks += [f"{path.name} {path.stat().st_size} {path.stat().st_mtime_ns}" for path in found]
    return sha256("\n".join(marks).encode()).hexdigest()


def _read(path: Path) -> dict[str, Any]:
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return found if isinstance(found, dict) else {}
