"""All clearance maps of one job: drawn or taken from the cache, and what is asked about them as a whole."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache, partial

from hubwright.checks.house import House
from hubwright.checks.mapped import MapRoom, disagreements
from hubwright.checks.plausibility import Question
from hubwright.jobs.kept_answers import KeptAnswers, kept_answers
from hubwright.jobs.mapping import MappedCorner, at_hand, has_shapes, map_of_corner
from hubwright.language import say
from hubwright.language.words import axle_word, side_word
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import SIDES, Side


@dataclass(frozen=True, eq=False)
class Maps:
    """The map of every corner that has one, by axle and side.

    Attributes:
        rooms: What the checks ask.
        kept: What is kept of what was asked in them.
        corners: The maps themselves, for pictures; drawn or taken from the cache on the first call.
    """

    rooms: dict[AxleName, dict[Side, MapRoom]]
    kept: tuple[KeptAnswers, ...] = ()
    corners: dict[tuple[AxleName, Side], Callable[[], MappedCorner | None]] = field(default_factory=dict)

    def keep(self) -> None:
        """Keep what was asked anew for the next run."""
        for answers in self.kept:
            answers.keep()


NO_MAPS = Maps({})


def draw_maps(job: Job, house: House) -> Maps:
    """The maps of a job, drawn or taken from the cache.

    Raises:
        BadInput: hard points, picks or shapes that cannot be.
    """
    found: dict[AxleName, dict[Side, MapRoom]] = {}
    kept: list[KeptAnswers] = []
    corners: dict[tuple[AxleName, Side], Callable[[], MappedCorner | None]] = {}
    for name, axle in job.axles:
        for side in SIDES:
            if not has_shapes(axle, side):
                continue

            corner = corners[name, side] = cache(partial(map_of_corner, job, name, side, house))

            def draw(corner: Callable[[], MappedCorner | None] = corner) -> MapRoom | None:
                drawn = corner()
                return None if drawn is None else drawn.room

            answers = kept_answers(job, name, side, draw)
            if answers is not None:
                kept.append(answers)
            room = draw() if answers is None else answers.room()
            if room is not None:
                found.setdefault(name, {})[side] = room
    return Maps(found, tuple(kept), corners)


def map_questions(job: Job, house: House, maps: dict[AxleName, dict[Side, MapRoom]]) -> tuple[Question, ...]:
    """Where readings and map disagree by more than their doubts."""
    found: list[Question] = []
    for name, axle in job.axles:
        for side in SIDES:
            if not at_hand(axle, side):
                text = say("The job names a scan, but its file is not at hand: no map was drawn for this corner.")
                found.append(
                    Question(
                        say("scan not at hand"),
                        say("{axle} axle, {side}", axle=axle_word(name), side=side_word(side)),
                        text,
                        say("Read the job from its own folder."),
                    )
                )
        for side, room in maps.get(name, {}).items():
            found += disagreements(room, axle, name, side, house)
    return tuple(found)
