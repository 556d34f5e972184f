"""A long bolt or stud bends where its seat is out of square; a slipped disc hangs on it."""

from __future__ import annotations

from hubwright.checks import assumed
from hubwright.checks.clamp import MATERIAL
from hubwright.checks.given import Given
from hubwright.engineering.joint.bending import seat_angle_stress_mpa, slip_stress_mpa
from hubwright.errors import BadInput, OutsideValidity
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import marked, say
from hubwright.language.words import side_word
from hubwright.quantities.axes import Side
from hubwright.quantities.text import length, number
from hubwright.tables.property_classes import property_class

QUESTION = "joint"
LONG_D = 3.0
"""A fastener free over more than this many diameters counts as long; common practice, no source."""
BEAM = marked("Bernoulli beam, both ends held (derived)")


def judge(found: Given, side: Side, thickness_mm: float, each_n: float | None) -> Finding | None:
    """Bending of the free length with the disc; None where the fastener is short and nothing is to be said.

    Args:
        found: The joint.
        side: Left or right.
        thickness_mm: Disc, per side.
        each_n: Greatest force across the face of all load cases, per fastener; None where not known.
    """
    free = found.clamped_mm + thickness_mm
    if free <= LONG_D * found.thread.d_mm or found.fastener.property_class is None:
        return None
    try:
        strength = property_class(found.fastener.property_class, found.thread.d_mm).yield_min_mpa
    except (BadInput, OutsideValidity):
        return None
    error, steel = assumed.seat_error(found.own), MATERIAL["steel"][0]
    crooked = [seat_angle_stress_mpa(found.thread, at, error.band.nominal, steel) for at in (found.clamped_mm, free)]
    steps = [
        error.step,
        Step(
            say(
                "crooked seat: {crooked} MPa with disc, {crooked2} today; yield {strength}",
                crooked=number(crooked[1], 0),
                crooked2=number(crooked[0], 0),
                strength=number(strength, 0),
            ),
            say(BEAM),
        ),
    ]
    words = say(
        "{side}: with the disc the fasteners are free over {free}, {free2} diameters",
        side=side_word(side),
        free=length(free),
        free2=number(free / found.thread.d_mm, 1),
    )
    if each_n is None:
        sentence = say("{words}; if the disc slips, they alone carry it: never without full clamp force.", words=words)
        return Finding(
            QUESTION,
            Verdict.CAUTION,
            sentence,
            None,
            Case(side, say("long fasteners")),
            Evidence.PREDICTED,
            tuple(steps),
        )
    hung = slip_stress_mpa(found.thread, free, each_n)
    steps.append(
        Step(
            say(
                "{each} kN on each if the disc slips: {hung} MPa over {free}",
                each=number(each_n / 1000, 1),
                hung=number(hung, 0),
                free=length(free),
            ),
            say(BEAM),
        )
    )
    sentence = say(
        "{words}: if the disc ever slips they bend with {hung} times their yield strength.",
        words=words,
        hung=number(hung / strength, 1),
    )
    todo = say(
        "Long fasteners rely on clamp force alone: clean faces, re-check, no slip-on discs beyond the house rule."
    )
    return Finding(
        QUESTION,
        Verdict.CAUTION,
        sentence,
        None,
        Case(side, say("long fasteners")),
        Evidence.PREDICTED,
        tuple(steps),
        todo,
    )
