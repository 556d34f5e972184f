"""What changes at once when the slider moves: the disc being tried, its verdicts, pictures and figures."""

from __future__ import annotations

from dataclasses import dataclass, replace

from markupsafe import Markup

from hubwright.drawings.table import table_html
from hubwright.drawings.trial import Corner, Picture, corners_of, gaps_of, section_of
from hubwright.drawings.windows import top_mm
from hubwright.findings import Case, Finding
from hubwright.jobs.answer import AxleAnswer, DiscAnswer, PlanAnswer
from hubwright.jobs.bench import PlanBench
from hubwright.jobs.trial import DiscToTry, piece_of, trial_on
from hubwright.jobs.trying import Tried
from hubwright.language import say
from hubwright.language.words import kind_word, status_word
from hubwright.parts.job import AxleName
from hubwright.parts.shop import StockDisc
from hubwright.quantities.rounding import down
from hubwright.quantities.text import thickness
from hubwright.web.bench.asked import Asked
from hubwright.web.bench.cells import Cell, cell_of
from hubwright.web.bench.figures import figures_of
from hubwright.web.desk import Desk, Seen
from hubwright.web.drawn import drawn
from hubwright.web.render import html
from hubwright.web.working import Worked, mapped_corners


@dataclass(frozen=True)
class OnBench:
    """A disc on the bench of one axle under one plan, judged."""

    answer: AxleAnswer
    plan: PlanAnswer
    under: PlanBench
    corners: tuple[Corner, ...]
    one: Tried | None
    disc: DiscAnswer

    @property
    def piece(self) -> StockDisc | None:
        """The disc itself; None = without one."""
        return None if self.one is None else self.one.disc

    @property
    def title(self) -> str:
        """Such as ``7.5 mm plain disc, per side``."""
        if self.one is None:
            return say("No disc")
        size, kind = thickness(self.disc.thickness_mm), kind_word(self.disc.kind)
        return say("{size} {kind} disc, per side", size=size, kind=kind)


@dataclass(frozen=True)
class Layered:
    """A picture in two layers; ``over`` is sent anew for every disc, ``under`` only with the whole page.

    Attributes:
        id: Of the upper layer.
        moved: How far the wheel of the lower layer moves for each mm of disc, x to the right and y down, user units.
    """

    id: str
    under: Markup
    over: Markup
    moved: tuple[float, float]


@dataclass(frozen=True)
class Trial:
    """A disc being tried.

    Attributes:
        disc: The answer for it.
        title: Such as ``7.5 mm plain disc, per side``.
        says: Title and verdict in a few words.
        assumed: What was assumed of a disc the shelf has not.
        cells: One for each question, as the verdict weighs them.
        limit: The finding that decides: the one that refuses, else the one with the least left over.
        place: Corner, side, point and state of that.
        sections, gaps: Left, then right.
        figures: As a table.
    """

    disc: DiscAnswer
    title: str
    says: str
    assumed: str
    cells: tuple[Cell, ...]
    limit: Finding | None
    place: Case | None
    sections: tuple[Layered, ...]
    gaps: tuple[Layered, ...]
    figures: Markup


def on_bench(desk: Desk, seen: Seen, worked: Worked, name: AxleName, asked: Asked) -> OnBench:
    """Put the disc asked for on the bench and judge it."""
    axle, answer = worked.benches.axles[name], worked.answer.axle(name)
    under, plan = axle.under(bool(asked.with_work)), plan_at(answer, asked)
    thickest = top_mm(plan, answer.wish_mm)

    def make() -> tuple[Corner, ...]:
        return corners_of(under, thickest, mapped_corners(worked, name))

    corners = desk.once("corners", seen, make, name, under.work, worked.waiting)
    wanted = DiscToTry(name, asked.thickness_mm or 0.0, asked.kind, asked.name)
    one = piece_of(under, wanted)
    return OnBench(answer, plan, under, corners, one, trial_on(axle, wanted, with_work=bool(asked.with_work)).disc)


def trial_of(on: OnBench, *, under: bool) -> Trial:
    """Everything that changes at once with the disc; ``under``: with the layers that do not, too."""
    disc, limit = on.disc, limit_of(on.disc)
    sections = [_layered("section", one, section_of(one, on.piece, under=under)) for one in on.corners]
    gaps = [_layered("gap", one, gaps_of(one, disc.thickness_mm, under=under)) for one in on.corners]
    return Trial(
        disc,
        on.title,
        say("{disc}: {status}", disc=on.title, status=status_word(disc.status)),
        on.one.assumed if on.one is not None else "",
        tuple(cell_of(finding) for finding in disc.findings),
        limit,
        case_of(disc, limit) if limit is not None else None,
        tuple(sections),
        tuple(gaps),
        html(table_html(figures_of(on.under, disc))),
    )


def plan_at(answer: AxleAnswer, asked: Asked) -> PlanAnswer:
    """With the work offered, or as the car stands."""
    return answer.plans[-1] if asked.with_work else answer.plans[0]


def limit_of(disc: DiscAnswer) -> Finding | None:
    """The finding that decides what becomes of a disc: the first that makes it what it is, the tightest of a valid one."""
    decides = [finding for finding in disc.findings if finding.sentence in disc.reasons]
    if decides:
        return decides[0]
    known = [finding for finding in disc.findings if finding.margin_mm is not None]
    return min(known, key=lambda finding: down(finding.margin_mm or 0.0, 0.1), default=None)


def case_of(disc: DiscAnswer, finding: Finding) -> Case | None:
    """Where a finding comes from; both sides where the other one says the same."""
    case = finding.case
    if case is None:
        return None
    alike = {
        other.case.side
        for other in disc.every
        if other.case is not None
        and (other.question, other.verdict, other.margin_mm) == (finding.question, finding.verdict, finding.margin_mm)
        and (other.case.item, other.case.state) == (case.item, case.state)
    }
    return replace(case, side="both") if alike >= {"left", "right"} else case


def _layered(what: str, corner: Corner, picture: Picture) -> Layered:
    x, y = corner.moved
    over, under = drawn(picture.over).svg, drawn(picture.under).svg
    return Layered(f"{what}-{corner.room.side}", under, over, (round(x, 5), round(-y, 5)))
