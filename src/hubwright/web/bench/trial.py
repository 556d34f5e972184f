"""What changes when the slider moves: the disc being tried, its verdicts, pictures and figures."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.drawings.trial import Picture, corners_of, gaps_of, joint_of, section_of, windows_at
from hubwright.drawings.windows import top_mm, windows_table
from hubwright.findings import Finding
from hubwright.jobs.answer import AxleAnswer, DiscAnswer, PlanAnswer
from hubwright.jobs.bench import judged, judged_bare
from hubwright.jobs.trying import tried
from hubwright.language import say
from hubwright.language.words import axle_title, kind_word, status_word
from hubwright.parts.job import AxleName
from hubwright.quantities.text import thickness
from hubwright.web.bench.asked import Asked
from hubwright.web.bench.cells import Cell, cell_of
from hubwright.web.bench.figures import figures_of
from hubwright.web.desk import Desk, Seen
from hubwright.web.drawn import Drawn, drawn
from hubwright.web.render import html
from hubwright.web.working import Worked


@dataclass(frozen=True)
class Shown:
    """A picture of the page and what stands beside it in sentences."""

    drawn: Drawn
    notes: tuple[str, ...]


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
        sections, gaps: Left, then right.
        joints: Close up; the left one alone where both hubs are alike.
        windows: Every window with this thickness marked.
        figures: As a table.
    """

    disc: DiscAnswer
    title: str
    says: str
    assumed: str
    cells: tuple[Cell, ...]
    limit: Finding | None
    sections: tuple[Shown, ...]
    joints: tuple[Shown, ...]
    gaps: tuple[Shown, ...]
    windows: Drawn
    figures: Drawn


def trial_of(desk: Desk, seen: Seen, worked: Worked, name: AxleName, asked: Asked) -> Trial:
    """Everything about the disc asked for."""
    axle, answer = worked.benches.axles[name], worked.answer.axle(name)
    under, plan = axle.under(bool(asked.with_work)), plan_at(answer, asked)
    thickest = top_mm(plan, answer.wish_mm)
    corners = desk.once("corners", seen, lambda: corners_of(under, thickest), name, under.work, worked.waiting)
    t = asked.thickness_mm or 0.0
    one = None if t == 0 else tried(under.bench.job, t, asked.kind, asked.name)
    disc = judged_bare(under) if one is None else judged(under, one.disc)
    piece = None if one is None else one.disc
    joints = corners if corners[0].bare.hub != corners[-1].bare.hub else corners[:1]
    title = _title(disc)
    windows = windows_at(plan, answer.wish_mm, t, axle_title(name))
    return Trial(
        disc,
        title,
        say("{disc}: {status}", disc=title, status=status_word(disc.status)),
        one.assumed if one is not None else "",
        tuple(cell_of(finding) for finding in disc.findings),
        limit_of(disc),
        tuple(_shown(section_of(corner, piece)) for corner in corners),
        tuple(_shown(joint_of(corner, piece)) for corner in joints),
        tuple(_shown(gaps_of(corner, t)) for corner in corners),
        drawn(windows, windows_table(plan)),
        Drawn(html(""), drawn("", figures_of(under, disc)).table),
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
    return min(known, key=lambda finding: round(finding.margin_mm or 0.0, 3), default=None)


def _title(disc: DiscAnswer) -> str:
    if disc.thickness_mm == 0:
        return say("No disc")
    return say("{size} {kind} disc, per side", size=thickness(disc.thickness_mm), kind=kind_word(disc.kind))


def _shown(picture: Picture) -> Shown:
    return Shown(drawn(picture.svg, picture.table), picture.notes)
