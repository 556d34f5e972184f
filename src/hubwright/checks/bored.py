"""Does the wheel's bore belong to the hub's spigot? Length of pilot is worth nothing where the diameters do not meet."""

from __future__ import annotations

from dataclasses import replace

from hubwright.findings import SEVERITY, Finding, Step, Verdict
from hubwright.language import say
from hubwright.language.words import side_word
from hubwright.parts.hub import Hub
from hubwright.parts.wheel import Wheel, WheelSet
from hubwright.quantities.axes import Side
from hubwright.quantities.text import length

TIGHT_MM = 0.2
"""A bore read smaller than its spigot by no more than this is how two callipers differ; a guess."""
LOOSE_MM = 0.6
"""Play in diameter from which nothing but a ring can centre the wheel: makers leave 0.05 to 0.2 mm; common practice, no
source."""


def bored_for(hub: Hub, wheel_set: WheelSet, side: Side, found: Finding) -> Finding:
    """The finding about a wheel that the hub's own spigot centres, made worse where bore and spigot do not meet.

    A bore that is too small cannot be seated; one that is too large needs a ring, whose inside is then the bore.
    """
    bore, spigot = wheel_set.wheel.bore_mm, hub.spigot_diameter_mm
    if bore is None or spigot is None:
        return found
    play = bore.value - spigot.value
    places = {
        "side": side_word(side), "set": wheel_set.title, "bore": length(bore.value, 2),
        "spigot": length(spigot.value, 2), "play": length(play, 2),
    }  # fmt: skip
    if too_tight(hub, wheel_set.wheel):
        words = say(
            "{side}, {set}: the wheel's bore of {bore} does not go over the hub's spigot of {spigot}.", **places
        )
        todo = say("Read both again; take a wheel bored for this hub.")
        return _worse(found, Verdict.FAIL, words, play, todo)
    if play > LOOSE_MM:
        words = say(
            "{side}, {set}: the bore of {bore} has {play} of play on the spigot of {spigot}; only a ring centres the wheel.",
            **places,
        )
        todo = say("Where a ring is fitted, enter its inside as the wheel's bore and its chamfer as the bore's.")
        return _worse(found, Verdict.CAUTION, words, None, todo)
    return found


def too_tight(hub: Hub, wheel: Wheel) -> bool:
    """Whether the wheel cannot go over the hub's spigot."""
    bore, spigot = wheel.bore_mm, hub.spigot_diameter_mm
    return bore is not None and spigot is not None and bore.value - spigot.value < -TIGHT_MM


def _worse(found: Finding, verdict: Verdict, words: str, margin_mm: float | None, todo: str) -> Finding:
    step = Step(words, say("common practice, no source"))
    if SEVERITY[found.verdict] >= SEVERITY[verdict]:
        return replace(found, working=(*found.working, step))
    margin = found.margin_mm if margin_mm is None else margin_mm
    return replace(found, verdict=verdict, sentence=words, margin_mm=margin, working=(*found.working, step), todo=todo)
