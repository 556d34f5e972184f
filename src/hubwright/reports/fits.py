"""What is to be fitted on each axle: the recommended disc, what holds the wheel, and what is on record about it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hubwright.checks.clearance import NO_PUSH, room_of, state_words
from hubwright.checks.house import house_of
from hubwright.checks.joint import Choice
from hubwright.errors import OutsideValidity
from hubwright.jobs.answer import Answer, AxleAnswer, DiscAnswer, PlanAnswer
from hubwright.language.place_words import place_word
from hubwright.parts.hole_circle import hole_circle_or_none
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES, Side

NEAR_TRAVEL_MM, NEAR_STEER_DEG = 3.0, 1.0
"""A reading this near to a state was taken in it."""


@dataclass(frozen=True)
class Fit:
    """One axle with its recommended disc."""

    name: AxleName
    axle: Axle
    answer: AxleAnswer
    plan: PlanAnswer
    disc: DiscAnswer

    @property
    def corners(self) -> tuple[tuple[AxleName, Side], ...]:
        """Its corners, left first."""
        return tuple((self.name, side) for side in SIDES)

    @property
    def choice(self) -> Choice | None:
        """What holds the fitted wheels."""
        return self.disc.fasteners[0] if self.disc.fasteners else None


def fits_of(job: Job, answer: Answer) -> tuple[Fit, ...]:
    """Every axle on which a disc is recommended, front first."""
    found = []
    for name, axle in job.axles:
        own = answer.axle(name)
        disc = own.plan.recommended
        if disc is not None:
            found.append(Fit(name, axle, own, own.plan, disc))
    return tuple(found)


def holes_of(axle: Axle) -> int | None:
    """How many fasteners hold one wheel; None where nobody stated it."""
    for text in (axle.hub.bolt_circle, axle.fitted.wheel.bolt_circle if axle.fitted else None):
        circle = hole_circle_or_none(text)
        if circle is not None:
            return circle.holes
    return None


@dataclass(frozen=True)
class Proof:
    """One state in which the gap has to be read with the disc fitted.

    Attributes:
        side, point, state: Where and when.
        predicted_mm: Free air expected with the disc and the work done.
        needed_mm: What must be left to release: the margin.
        read_mm: What was read with this disc fitted in this state; None = not yet.
    """

    side: Side
    point: str
    state: str
    predicted_mm: float
    needed_mm: float
    read_mm: float | None


def proofs_of(job: Job, name: AxleName, axle: Axle, thickness_mm: float, *, with_work: bool) -> tuple[Proof, ...]:
    """Where the least margin of every point lies with the disc fitted: what is read there releases the car."""
    found = []
    for side in SIDES:
        try:
            room = room_of(axle, side, house_of(job), steered=job.is_steered(name), with_work=with_work)
        except OutsideValidity:
            continue
        for swept in room.swept:
            curve, push = swept.curve, swept.curve.push
            if float(push.max()) <= NO_PUSH:
                continue
            state = int(swept.slack_at(thickness_mm).argmin())
            pushed = float(np.broadcast_to(push, curve.gap_mm.shape)[state]) * thickness_mm
            predicted = float(curve.gap_mm[state]) + swept.gain_mm - pushed
            read = [
                reading.gap_mm.value
                for reading in curve.point.reading
                if reading.disc_mm == thickness_mm
                and abs(reading.travel_mm - float(curve.travel_mm[state])) <= NEAR_TRAVEL_MM
                and abs(reading.steer_deg - curve.steer_deg) <= NEAR_STEER_DEG
            ]
            found.append(
                Proof(
                    side,
                    place_word(curve.point.name),
                    state_words(curve, state),
                    predicted,
                    swept.margin_mm,
                    read[-1] if read else None,
                )
            )
    return tuple(found)


def mapped_places(disc: DiscAnswer, proofs: tuple[Proof, ...]) -> tuple[tuple[str, str], ...]:
    """Side and words of every clearance of a disc that no reading stands behind: places of a map, to be looked at too."""
    read = {(proof.side, proof.point) for proof in proofs}
    found = [
        (finding.case.side, ", ".join(text for text in (finding.case.item, finding.case.state) if text))
        for finding in disc.every
        if finding.question == "clearance" and finding.case is not None and finding.margin_mm is not None
        and (finding.case.side, finding.case.item) not in read
    ]  # fmt: skip
    return tuple(dict.fromkeys(found))
