"""What the bench shows."""

from __future__ import annotations

from dataclasses import dataclass, replace

from markupsafe import Markup

from hubwright.drawings.compare import package_svg
from hubwright.drawings.trial import NARROW_PX, px_per_mm, windows_at
from hubwright.drawings.windows import top_mm
from hubwright.jobs.answer import AxleAnswer, DiscAnswer, PackageAnswer, PlanAnswer
from hubwright.jobs.trying import kind_at, kinds_of, tried
from hubwright.language import say
from hubwright.language.words import kind_word
from hubwright.parts.job import AxleName, Job
from hubwright.parts.shop import DiscKind
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import joined, thickness
from hubwright.web.bench.asked import Asked, query_of
from hubwright.web.bench.beside import Beside, beside_of
from hubwright.web.bench.cells import Cell, cells_of, columns_of
from hubwright.web.bench.trial import Trial, on_bench, plan_at, trial_of
from hubwright.web.desk import Desk, Seen
from hubwright.web.drawn import Drawn, drawn
from hubwright.web.frame import STEPS, Frame, axle_words, frame_of

NOTHING = Markup("")


@dataclass(frozen=True)
class Row:
    """One disc of the shelf: its verdicts, and the address under which it lies on the bench."""

    disc: DiscAnswer
    title: str
    address: str
    current: bool
    recommended: bool
    wished: bool
    cells: tuple[Cell | None, ...]


@dataclass(frozen=True)
class PlanLink:
    """A way of doing it, and its address."""

    title: str
    address: str
    current: bool


@dataclass(frozen=True)
class Offered:
    """A package offered in place of the fitted wheels."""

    answer: PackageAnswer
    title: str
    pictures: tuple[Drawn, ...]


@dataclass(frozen=True)
class LiveView:
    """What changes with the disc, sent alone where a script asks for it."""

    asked: Asked
    address: str
    trial: Trial | None
    beside: Beside | None
    alone: bool = True

    @property
    def thickness_mm(self) -> float:
        """On the bench."""
        return self.asked.thickness_mm or 0.0


@dataclass(frozen=True)
class BenchView:
    """The whole page.

    Attributes:
        frame: Around it.
        name: Which axle.
        asked: What is on the bench.
        address: Of the page without its query.
        answer, plan: Of the axle; None while there is none.
        waiting: Whether a map is still being drawn, so that the answer rests on readings alone.
        trial: The disc being tried.
        beside: What is told of it once the hand rests.
        windows: Every window with the thickness marked.
        px_per_mm: How far that mark moves for each mm.
        plans: As it stands, with work done.
        kinds: Kinds of disc to choose from, with their words.
        most_mm: End of the slider.
        rows, columns: The shelf.
        packages: Offered packages.
        measure: Address of the measuring sheet; empty where there is none.
        alone: Whether only what changes with the disc is sent; here all of it is.
    """

    frame: Frame
    name: AxleName
    asked: Asked
    address: str
    answer: AxleAnswer | None = None
    plan: PlanAnswer | None = None
    waiting: bool = False
    trial: Trial | None = None
    beside: Beside | None = None
    windows: Markup = NOTHING
    px_per_mm: float = 0.0
    plans: tuple[PlanLink, ...] = ()
    kinds: tuple[tuple[DiscKind, str], ...] = ()
    most_mm: float = 0.0
    rows: tuple[Row, ...] = ()
    columns: tuple[tuple[str, str], ...] = ()
    packages: tuple[Offered, ...] = ()
    measure: str = ""
    alone: bool = False

    @property
    def thickness_mm(self) -> float:
        """On the bench."""
        return self.asked.thickness_mm or 0.0

    @property
    def in_field(self) -> str:
        """What stands in the field of the thickness: what was typed where it cannot be used."""
        if self.fault("t") is not None:
            return self.asked.typed
        return "" if self.asked.thickness_mm is None else f"{self.asked.thickness_mm:g}"

    def fault(self, field: str) -> object:
        """What is wrong with one field of the address."""
        return next((fault for fault in self.asked.faults if fault.field == field), None)


def bench_view(desk: Desk, seen: Seen, name: AxleName, asked: Asked) -> BenchView:
    """The whole page for what the address asks; what it leaves open is chosen as the answer would."""
    frame, address = frame_of(desk, seen, "bench", name), f"/jobs/{seen.stored.id}/bench/{name}"
    job = seen.job
    if job is None or name not in dict(job.axles):
        return BenchView(frame, name, asked, address)
    worked = desk.worked(seen)
    answer = worked.answer.axle(name)
    settled = settled_for(job, answer, asked)
    plan = plan_at(answer, settled)
    on = on_bench(desk, seen, worked, name, settled)
    columns = columns_of(plan.discs)
    titles = {question: cell.title for disc in plan.discs for question, cell in cells_of(disc).items()}
    windows = windows_at(plan, answer.wish_mm, settled.thickness_mm or 0.0, axle_words(name))
    return BenchView(
        frame,
        name,
        settled,
        address,
        answer,
        plan,
        worked.waiting,
        trial_of(on, under=True),
        beside_of(on),
        drawn(windows).svg,
        round(px_per_mm(plan, answer.wish_mm), 5),
        tuple(_plan_link(one, settled, address) for one in answer.plans),
        tuple((kind, kind_word(kind)) for kind in kinds_of(job)),
        top_mm(plan, answer.wish_mm),
        tuple(_row(disc, plan, answer, settled, address, columns) for disc in plan.discs),
        tuple((question, titles[question]) for question in columns),
        _packages(desk, seen, job, name, answer),
        f"/jobs/{frame.job_id}/measure/{name}" if any(step.key == "measure" for step in STEPS) else "",
    )


def live_view(desk: Desk, seen: Seen, name: AxleName, asked: Asked, *, beside: bool) -> LiveView | None:
    """What changes with the disc: at once, or (``beside``) when the hand rests; None where there is no such axle."""
    job = seen.job
    if job is None or name not in dict(job.axles):
        return None
    worked = desk.worked(seen)
    settled = settled_for(job, worked.answer.axle(name), asked)
    on = on_bench(desk, seen, worked, name, settled)
    address = f"/jobs/{seen.stored.id}/bench/{name}"
    if beside:
        return LiveView(settled, address, None, beside_of(on))
    return LiveView(settled, address, trial_of(on, under=False), None)


def settled_for(job: Job, answer: AxleAnswer, asked: Asked) -> Asked:
    """What is asked with everything open filled in: the recommended disc, else the wished one, else the thinnest."""
    work = bool(answer.plan.work) if asked.with_work is None else asked.with_work and len(answer.plans) > 1
    plan = answer.plans[-1] if work else answer.plans[0]
    t, kind, name = asked.thickness_mm, asked.kind, asked.name
    if t is None:
        best = plan.recommended
        if best is not None and kind in (None, best.kind):
            t, kind, name = best.thickness_mm, best.kind, best.name
        else:
            first = min((disc.thickness_mm for disc in plan.discs), default=0.0)
            t = answer.wish_mm if answer.wish_mm is not None else first
    if t > 0:
        kind = kind or kind_at(job, t)
        one = tried(job, t, kind, name)
        name = one.disc.name if one.kept and name is not None else None
    return replace(asked, thickness_mm=t, kind=kind or "plain", name=name, with_work=work)


def _plan_link(plan: PlanAnswer, asked: Asked, address: str) -> PlanLink:
    title = say("With work done: {work}", work=joined(plan.work)) if plan.work else say("As the car stands")
    query = query_of(replace(asked, with_work=bool(plan.work)))
    return PlanLink(title, address + query, bool(plan.work) == bool(asked.with_work))


def _row(
    disc: DiscAnswer, plan: PlanAnswer, answer: AxleAnswer, asked: Asked, address: str, columns: tuple[str, ...]
) -> Row:
    here = replace(asked, thickness_mm=disc.thickness_mm, kind=disc.kind, name=disc.name)
    current = (asked.thickness_mm, asked.kind) == (disc.thickness_mm, disc.kind) and asked.name in (None, disc.name)
    title = f"{thickness(disc.thickness_mm)} {kind_word(disc.kind)}"
    cells = cells_of(disc)
    return Row(
        disc, title, address + query_of(here), current, disc is plan.recommended, disc.thickness_mm == answer.wish_mm,
        tuple(cells.get(question) for question in columns),
    )  # fmt: skip


def _packages(desk: Desk, seen: Seen, job: Job, name: AxleName, answer: AxleAnswer) -> tuple[Offered, ...]:
    def make() -> tuple[Offered, ...]:
        return tuple(_offered(job, name, number, package) for number, package in enumerate(answer.packages))

    return desk.once("packages", seen, make, name) if answer.packages else ()


def _offered(job: Job, name: AxleName, number: int, package: PackageAnswer) -> Offered:
    sizes = [size for size in (package.tyre, package.rim) if size]
    title = f"{package.name} ({joined(sizes)})" if sizes else package.name
    axle = dict(job.axles)[name]
    sides = SIDES if axle.left.body_line or axle.right.body_line else SIDES[:1]
    pictures = tuple(drawn(package_svg(job, name, side, number, width_px=NARROW_PX + 20)) for side in sides)
    return Offered(package, title, pictures)
