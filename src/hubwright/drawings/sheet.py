"""All drawings of one job's answer, by name."""

from __future__ import annotations

from collections.abc import Iterator

from hubwright.drawings.gapchart import gap_chart_svg
from hubwright.drawings.section import section_svg
from hubwright.drawings.windows import windows_svg
from hubwright.jobs.answer import Answer, AxleAnswer, DiscAnswer
from hubwright.language import say
from hubwright.language.words import axle_word, kind_word, side_word, status_word
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import plain


def drawings_of(job: Job, answer: Answer) -> Iterator[tuple[str, str]]:
    """Name and SVG of every drawing: windows of each plan; sections and gap charts of each corner; offered packages.

    Sections and charts show the recommended disc under the plan that recommends it; without one the disc asked for,
    without a wish the thinnest of the shelf, so that a refusal can be seen too.
    """
    for axle in answer.axles:
        name: AxleName = "front" if axle.axle == "front" else "rear"
        for plan in axle.plans:
            with_work = "-with-work" if plan.work else ""
            title = say(
                "{title}, {axle} axle, {work}",
                title=answer.title,
                axle=axle_word(name),
                work=", ".join(plan.work) if plan.work else say("as it stands"),
            )
            yield (
                f"{name}-windows{with_work}",
                windows_svg(plan, axle.wish_mm, title),
            )
        yield from _corners(job, axle, name)
        if axle.packages:
            yield from _packages(job, axle, name)


def _packages(job: Job, axle: AxleAnswer, name: AxleName) -> Iterator[tuple[str, str]]:
    from hubwright.drawings.compare import package_svg  # noqa: PLC0415 - compiled sums load slowly

    for number in range(len(axle.packages)):
        for side in SIDES:
            yield (
                f"{name}-{side}-package-{number + 1}",
                package_svg(job, name, side, number),
            )


def _corners(job: Job, axle: AxleAnswer, name: AxleName) -> Iterator[tuple[str, str]]:
    disc = shown_disc(axle)
    if disc is None:
        return
    with_work = bool(axle.plan.work)
    for side in SIDES:
        title = say(
            "{axle} {side}, {thickness} mm {kind} disc ({status})",
            axle=axle_word(name),
            side=side_word(side),
            thickness=plain(disc.thickness_mm),
            kind=kind_word(disc.kind),
            status=status_word(disc.status),
        )
        yield (
            f"{name}-{side}-section",
            section_svg(job, name, side, disc.thickness_mm, kind=disc.kind, with_work=with_work, title=title),
        )
        yield (
            f"{name}-{side}-hub",
            section_svg(
                job, name, side, disc.thickness_mm, kind=disc.kind, with_work=with_work, view="hub", title=title
            ),
        )
        yield (
            f"{name}-{side}-gap",
            gap_chart_svg(job, name, side, disc.thickness_mm, with_work=with_work, title=title),
        )


def shown_disc(axle: AxleAnswer) -> DiscAnswer | None:
    """The disc worth drawing: recommended, else the one asked for, else the thinnest; None with an empty shelf."""
    plan = axle.plan
    if plan.recommended is not None:
        return plan.recommended
    asked = [disc for disc in plan.discs if disc.thickness_mm == axle.wish_mm]
    return next(iter(asked or plan.discs), None)
