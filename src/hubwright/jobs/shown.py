"""Which discs of an axle are worth looking at side by side: recommended, asked for, and one chosen on the page."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.jobs.answer import AxleAnswer
from hubwright.jobs.trying import tried
from hubwright.parts.job import Job
from hubwright.parts.shop import StockDisc

RECOMMENDED, ASKED, CHOSEN = "recommended", "asked for", "chosen"


@dataclass(frozen=True)
class Shown:
    """One disc and why it is shown: any of `RECOMMENDED`, `ASKED`, `CHOSEN`."""

    disc: StockDisc
    why: tuple[str, ...]

    @property
    def thickness_mm(self) -> float:
        """Per side."""
        return self.disc.thickness_mm


def shown_discs(job: Job, answer: AxleAnswer, chosen_mm: float | None = None) -> tuple[Shown, ...]:
    """The discs to show for one axle, each once: recommended first, then asked for, then the chosen one."""
    found: list[Shown] = []
    best = answer.plan.recommended
    if best is not None:
        _add(found, tried(job, best.thickness_mm, best.kind, best.name).disc, RECOMMENDED)
    for thickness_mm, why in ((answer.wish_mm, ASKED), (chosen_mm, CHOSEN)):
        if thickness_mm:
            same = next((one.disc for one in found if one.thickness_mm == thickness_mm), None)
            _add(found, same or tried(job, thickness_mm).disc, why)
    return tuple(found)


def _add(found: list[Shown], disc: StockDisc, why: str) -> None:
    for number, one in enumerate(found):
        if one.disc == disc:
            found[number] = Shown(disc, (*one.why, why))
            return
    found.append(Shown(disc, (why,)))
