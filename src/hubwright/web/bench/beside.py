"""What is drawn and told once the hand rests: workings with their sources, the figures of every picture, the joint close up."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from hubwright.drawings.table import Table, table_html
from hubwright.drawings.trial import gap_table_of, gaps_of, joint_of, map_gaps_of, section_of, section_table_of
from hubwright.drawings.windows import windows_table
from hubwright.findings import Finding
from hubwright.language import say
from hubwright.language.words import question_word
from hubwright.web.bench.cells import place_of
from hubwright.web.bench.trial import OnBench
from hubwright.web.drawn import drawn
from hubwright.web.render import html


@dataclass(frozen=True)
class Working:
    """One question: every finding behind its verdict; ``id`` of the place where it is told."""

    id: str
    title: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class Figures:
    """What a picture shows, in sentences and as a table."""

    title: str
    notes: tuple[str, ...]
    table: Markup


@dataclass(frozen=True)
class Beside:
    """Beside the disc being tried.

    Attributes:
        title: Which disc.
        workings: One for each question asked.
        joints: Hub, disc and wheel close up: left, then right; the left one alone where both hubs are alike.
        by_map: Gap against travel by the clearance map: left, then right; empty where there is none.
        figures: Of every picture.
    """

    title: str
    workings: tuple[Working, ...]
    joints: tuple[Markup, ...]
    by_map: tuple[Markup, ...]
    figures: tuple[Figures, ...]


def beside_of(on: OnBench) -> Beside:
    """Everything about the disc that nobody looks at while the slider moves."""
    disc, corners = on.disc, on.corners
    alike = corners[0].bare.hub == corners[-1].bare.hub
    joints = [joint_of(corner, on.piece) for corner in (corners[:1] if alike else corners)]
    figures = []
    for corner in corners:
        section = section_of(corner, on.piece, under=False)
        title = say("{corner}: section", corner=corner.title)
        figures.append(_figures(title, section.notes, section_table_of(corner, on.piece)))
    for corner in corners:
        gaps = gaps_of(corner, disc.thickness_mm, under=False)
        table = gap_table_of(corner, disc.thickness_mm)
        figures.append(_figures(table.caption, gaps.notes, table))
    by_map = [found for corner in corners if (found := map_gaps_of(corner, disc.thickness_mm)) is not None]
    figures += [_figures(table.caption, picture.notes, table) for picture, table in by_map]
    figures.append(_figures(say("Windows"), (), windows_table(on.plan)))
    return Beside(
        on.title,
        tuple(_workings(on)),
        tuple(drawn(joint.over).svg for joint in joints),
        tuple(drawn(picture.over).svg for picture, _ in by_map),
        tuple(figures),
    )


def _workings(on: OnBench) -> list[Working]:
    grouped: dict[str, list[Finding]] = {finding.question: [finding] for finding in on.disc.findings}
    for finding in on.disc.every:
        known = grouped.setdefault(finding.question, [])
        if all(finding.sentence != other.sentence or finding.working != other.working for other in known):
            known.append(finding)
    return [Working(place_of(question), question_word(question), tuple(found)) for question, found in grouped.items()]


def _figures(title: str, notes: tuple[str, ...], table: Table) -> Figures:
    return Figures(title, notes, html(table_html(table)))
