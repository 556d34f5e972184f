"""What the page of side effects shows."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks.effect import Effect
from hubwright.errors import Fault
from hubwright.findings import Finding
from hubwright.jobs.answer import Answer, PackageAnswer
from hubwright.jobs.shown import Shown
from hubwright.jobs.side_effects import AxleChange, CarChange, axle_change, car_changes
from hubwright.jobs.speedometer import speed_effects
from hubwright.language import say
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.text import MINUS, change_of, number, percent, thickness, torque, unit
from hubwright.web.desk import Desk, Seen
from hubwright.web.frame import Frame, axle_words, frame_of
from hubwright.web.looked_at import SHAPES, WHY, LookedAt, Pill, pills, why_words


@dataclass(frozen=True)
class AxlePart:
    """One axle on the page."""

    name: AxleName
    title: str
    change: AxleChange
    load: tuple[Finding, ...]
    speed: tuple[Effect, ...]
    packages: tuple[PackageAnswer, ...]


@dataclass(frozen=True)
class EffectsView:
    """The whole page.

    Attributes:
        axles: Front first; empty while the job file has faults.
        car: Pairs of discs on both axles.
        waiting: Whether a map is still being drawn, so that recommendations rest on readings alone.
    """

    frame: Frame
    asked: tuple[LookedAt, ...]
    faults: tuple[Fault, ...]
    pills: tuple[Pill, ...] = ()
    axles: tuple[AxlePart, ...] = ()
    car: tuple[CarChange, ...] = ()
    waiting: bool = False

    def typed(self, field: str) -> str:
        """What stands in one field of the form."""
        return next((one.typed for one in self.asked if one.field == field), "")

    def fault(self, field: str) -> Fault | None:
        """What is wrong with it."""
        return next((fault for fault in self.faults if fault.field == field), None)

    def why(self, shown: Shown) -> str:
        """Why a disc is shown."""
        return why_words(shown)

    def pair(self, change: CarChange) -> str:
        """Which discs a pair holds, in words."""
        words = say(WHY[change.why])
        front, rear = (thickness(t) if t else say("none") for t in (change.front_mm, change.rear_mm))
        return say("Front {front}, rear {rear} ({why})", front=front, rear=rear, why=words)

    def signed(self, effect: Effect) -> str:
        """The change with its sign and unit; empty where only words tell it."""
        return signed_change(effect)

    def shape(self, finding: Finding) -> str:
        """Shape of a verdict."""
        return SHAPES[finding.verdict]


def signed_change(effect: Effect) -> str:
    """The change with its sign and unit, such as ``+30.0 mm``; a ratio and a share as a percentage."""
    change = effect.change
    if change is None:
        return ""
    if effect.unit == "mm":
        text, of = change_of(change), unit()
    elif effect.unit in ("N·m", "N·m/°"):
        size, _, name = torque(change).partition(" ")
        text, of = size if size.startswith(MINUS) else f"+{size}", f"{name}{effect.unit.removeprefix('N·m')}"
    elif effect.unit in ("ratio", "share"):
        text, of = percent(change, 1).removesuffix(" %"), "%"
    else:
        plain = number(change, 0 if abs(change) >= 10 else 2 if abs(change) < 1 else 1)
        text, of = plain if plain.startswith(MINUS) else f"+{plain}", effect.unit
    return f"{text if any(digit in text for digit in '123456789') else '±0'} {of}"


def effects_view(desk: Desk, seen: Seen, asked: tuple[LookedAt, ...]) -> EffectsView:
    """The page for what the address asks: ``t`` for both axles, ``front`` and ``rear`` for one."""
    frame = frame_of(desk, seen, "effects")
    faults = tuple(fault for one in asked for fault in one.faults)
    if seen.job is None:
        return EffectsView(frame, asked, faults)
    both, *own = (one.thickness_mm for one in asked)
    chosen: dict[str, float | None] = {}
    for name, thickness_mm in zip(("front", "rear"), own, strict=True):
        chosen[name] = thickness_mm if thickness_mm is not None else both
    worked = desk.worked(seen)
    job, answer = seen.job, worked.answer

    def make() -> tuple[tuple[AxlePart, ...], tuple[CarChange, ...]]:
        parts = tuple(_axle(job, answer, name, chosen[name]) for name, _ in job.axles)
        there: dict[str, float | None] = {name: chosen[name] for name, _ in job.axles}
        return parts, car_changes(job, answer, there)

    axles, car = desk.once("side effects", seen, make, *sorted(chosen.items()), desk.today(), worked.waiting)
    path = f"/jobs/{frame.job_id}/effects"
    return EffectsView(frame, asked, faults, pills(job, path, both), axles, car, worked.waiting)


def _axle(job: Job, answer: Answer, name: AxleName, chosen_mm: float | None) -> AxlePart:
    own = answer.axle(name)
    return AxlePart(
        name, axle_words(name), axle_change(job, name, own, chosen_mm), own.load, speed_effects(job, dict(job.axles)[name]),
        own.packages,
    )  # fmt: skip
