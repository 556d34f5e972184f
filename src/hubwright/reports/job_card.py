"""The job card for the lift: what to do first, why behind it, drawings to scale at the end."""

from __future__ import annotations

from hubwright.drawings.frame import Layout
from hubwright.drawings.scene import Scene
from hubwright.drawings.section import View, section_scene
from hubwright.drawings.svg import svg_of
from hubwright.findings import Verdict as Outcome
from hubwright.jobs.answer import Answer, AxleAnswer, DiscAnswer, OrderLine, PlanAnswer
from hubwright.language import say
from hubwright.language.words import axle_title, corner_title, fits_word, side_word, status_word
from hubwright.parts.job import Job
from hubwright.quantities.axes import Side
from hubwright.quantities.text import day, left_over, length, thickness, unit
from hubwright.reports.content import (
    Beside,
    Blank,
    Blanks,
    Block,
    Column,
    Facts,
    Heading,
    Notice,
    Paragraph,
    Picture,
    Table,
    Together,
    Verdict,
)
from hubwright.reports.fits import Fit, fits_of, mapped_places, proofs_of
from hubwright.reports.options import Identity, Options
from hubwright.reports.parts_list import count_words
from hubwright.reports.steps import step_blocks
from hubwright.reports.torque import order_picture, torque_blocks, torque_verdict, torque_warnings
from hubwright.reports.words import NEVER, disc_words, job_facts, question_title

HALF_MM = 90.0
WIDTHS_PX = {"corner": (360.0, 430.0), "hub": (330.0, 400.0, 470.0)}
"""Nominal widths of a view: the narrower, the larger its letters; the wider, the larger the scale it may be drawn to."""
ENOUGH = {"corner": 0.2, "hub": 1.0}
"""The scale at which no wider one is tried."""
ROOM_MM = {"a4": 214.0, "letter": 196.0}
"""What a page has for both views of an axle, one below the other."""
COLUMNS = ("clearance", "brake", "centring", "fastener", "law")


def blocks_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """Everything on the card."""
    fits = fits_of(job, answer)
    blocks: list[Block] = [Facts(job_facts(job, answer, identity.customer))]
    for axle in answer.axles:
        fit = next((fit for fit in fits if fit.name == axle.axle), None)
        blocks += _to_do(fit, options) if fit is not None else _nothing(axle)
    blocks.append(Notice("", answer.cautions))
    if fits:
        blocks += [*step_blocks(job, fits), *proof_table(job, fits), *_appointment(fits, identity)]
    for axle in answer.axles:
        blocks += _why(axle)
    for fit in fits:
        blocks += _drawings(job, fit, ROOM_MM[options.paper])
    return tuple(blocks)


def _nothing(axle: AxleAnswer) -> tuple[Block, ...]:
    asked = say("Asked: {wish}", wish=axle.wish)
    return (Heading(axle_title(axle.axle), asked), Verdict("", say("Nothing is fitted here."), axle.decision))


def _to_do(fit: Fit, options: Options) -> tuple[Block, ...]:
    asked = say("Asked: {wish}", wish=fit.answer.wish)
    disc = say(
        "{thickness} {kind}, per side", thickness=thickness(fit.disc.thickness_mm), kind=disc_words(fit.disc.kind)
    )
    left: list[Block] = [Verdict(say("Fit, left and right"), disc, _caution(fit.disc)), order_table(fit.plan.order)]
    single = torque_verdict(fit, options)
    left += [single, *torque_warnings(fit)] if single is not None else torque_blocks(fit, options)
    return (
        Together(
            (
                Heading(axle_title(fit.name), asked),
                Beside(tuple(left), order_picture(fit), 0.66),
            )
        ),
    )


def _caution(disc: DiscAnswer) -> str:
    return say("Caution: {reason}", reason=" ".join(disc.reasons)) if disc.status == "caution" else ""


def order_table(order: tuple[OrderLine, ...]) -> Table:
    """What to take from the shelf or to order."""
    return Table(
        (Column(say("Take"), 0.44, right=True), Column(say("Part"), 1.2), Column(say("Note"), 1.1)),
        tuple((count_words(line), line.item, line.note) for line in order),
    )


def proof_table(job: Job, fits: tuple[Fit, ...]) -> tuple[Block, ...]:
    """Where to read with the discs fitted, what to expect, and room to write it down."""
    rows: list[tuple[str, ...]] = []
    for fit in fits:
        proofs = proofs_of(job, fit.name, fit.axle, fit.disc.thickness_mm, with_work=bool(fit.plan.work))
        for proof in proofs:
            read = "" if proof.read_mm is None else length(proof.read_mm)
            figures = (length(proof.predicted_mm), length(proof.needed_mm), read, "")
            rows.append((corner_title(fit.name, proof.side), f"{proof.point}, {proof.state}", *figures))
        for side, words in mapped_places(fit.disc, proofs):
            rows.append((corner_title(fit.name, side), words, say("by map"), NEVER, "", ""))
    if not rows:
        return ()
    columns = (
        Column(say("Where"), 0.8), Column(say("Point and state"), 2.0), Column(say("Expected"), 0.65, right=True),
        Column(say("At least"), 0.75, right=True), Column(say("Read"), 0.65), Column(say("By"), 0.5),
    )  # fmt: skip
    return (
        Heading(say("Proof readings with the discs fitted"), say("Left and right apart. Less than the figure under “At least”: not released.")),
        Table(columns, tuple(rows), tall=True),
    )  # fmt: skip


def _appointment(fits: tuple[Fit, ...], identity: Identity) -> tuple[Block, ...]:
    due = day(identity.due) if identity.due else ""
    rechecks = dict.fromkeys(fit.answer.torque.recheck for fit in fits)
    return (
        Together(
            (
                Heading(say("Check the tightening again")),
                *(Paragraph(say("Record: {words}.", words=words)) for words in rechecks),
                Blanks(
                    (
                        Blank(say("Appointment"), value=due),
                        Blank(say("Odometer now")),
                        Blank(say("Work done by, day")),
                        Blank(say("Checked by, day")),
                    ),
                ),
            )
        ),
    )


def _why(axle: AxleAnswer) -> tuple[Block, ...]:
    plan = axle.plan
    title = say("Why: {axle}", axle=axle_title(axle.axle))
    blocks: list[Block] = [Heading(title), Paragraph(axle.decision), *_sides(plan)]
    blocks.append(disc_table(plan))
    blocks += _reasons(axle, plan)
    return tuple(blocks)


def _sides(plan: PlanAnswer) -> tuple[Block, ...]:
    alone = {"left": plan.left_alone_mm, "right": plan.right_alone_mm}
    rows = []
    for finding in plan.as_it_stands:
        side = finding.case.side if finding.case else "both"
        most = alone.get(side)
        rows.append((side_word(side), finding.sentence, NEVER if most is None else thickness(most)))
    title = say("Without a disc, with the work done") if plan.work else say("Without a disc")
    columns = (Column(say("Side"), 0.2), Column(title, 1.5), Column(say("By itself takes"), 0.4, right=True))
    return (Table(columns, tuple(rows)),) if rows else ()


def disc_table(plan: PlanAnswer) -> Table:
    """Every disc of the shelf against every question, with what is left over."""
    rows = tuple(
        (
            f"{thickness(disc.thickness_mm)} {disc_words(disc.kind)}",
            status_word(disc.status),
            *(_cell(disc, question) for question in COLUMNS),
        )
        for disc in plan.discs
    )
    titles = [Column(question_title(question), 0.8) for question in COLUMNS]
    return Table(
        (Column(say("Per side"), 1.15), Column(say("Result ({unit} left over)", unit=unit()), 0.9), *titles), rows
    )


def _cell(disc: DiscAnswer, question: str) -> str:
    for finding in disc.findings:
        if finding.question == question:
            word = fits_word(finding.verdict)
            if finding.margin_mm is None or finding.verdict is Outcome.UNKNOWN:
                return word
            return f"{word} {left_over(finding.margin_mm)}"
    return NEVER


def _reasons(axle: AxleAnswer, plan: PlanAnswer) -> tuple[Block, ...]:
    """Why the chosen disc, why not the one asked for, and why not the next thicker one."""
    chosen = plan.recommended
    picked = [chosen] if chosen is not None else []
    picked += [disc for disc in plan.discs if disc.thickness_mm == axle.wish_mm and disc is not chosen][:1]
    thicker = [disc for disc in plan.discs if chosen is None or disc.thickness_mm > chosen.thickness_mm]
    picked += [disc for disc in thicker[:1] if disc not in picked]
    rows = []
    for disc in picked:
        passed = [
            finding for finding in disc.findings if finding.verdict is Outcome.PASS and finding.margin_mm is not None
        ]
        said = disc.reasons or tuple(finding.sentence for finding in passed)
        rows.append((f"{thickness(disc.thickness_mm)}: {status_word(disc.status)}", "\n".join(said)))
    return (Table((Column(say("Disc"), 0.24), Column(say("What decides"))), tuple(rows)),) if rows else ()


def _drawings(job: Job, fit: Fit, room_mm: float) -> tuple[Block, ...]:
    t, kind, work = fit.disc.thickness_mm, fit.disc.kind, bool(fit.plan.work)

    def scene(side: Side, view: View, width_px: float) -> Scene:
        title, layout = f"{axle_title(fit.name)}, {side_word(side)}", Layout(HALF_MM, notes=False, width_px=width_px)
        return section_scene(
            job, fit.name, side, t, kind=kind, with_work=work, view=view, title=title, layout=layout
        )  # fmt: skip

    def both(view: View, most_mm: float) -> tuple[Scene, Scene]:
        tried, fitting = [], []
        for width_px in WIDTHS_PX[view]:
            pair = (scene("left", view, width_px), scene("right", view, width_px))
            tried.append(pair)
            if max(map(_height_mm, pair)) <= most_mm:
                fitting.append(pair)
                if min(map(_scale, pair)) >= ENOUGH[view]:
                    break
        return max(fitting or tried[-1:], key=lambda pair: min(map(_scale, pair)))

    corners = both("corner", room_mm / 2)
    hubs = both("hub", room_mm - max(map(_height_mm, corners)))
    title = say("Drawings to scale: {axle}", axle=axle_title(fit.name))
    return (
        Together(
            (
                Heading(title, say("Seen from behind. Solid: read or marked; dashed: assumed.")),
                _side_by_side(corners),
            )
        ),
        _side_by_side(hubs),
    )


def _scale(scene: Scene) -> float:
    """Paper over car; the first of equal ones has the largest letters."""
    return (scene.paper_mm or 0.0) / (scene.right - scene.left)


def _height_mm(scene: Scene) -> float:
    return _scale(scene) * (scene.top - scene.bottom)


def _side_by_side(pair: tuple[Scene, Scene]) -> Beside:
    left, right = (Picture(svg_of(one), one.description, one.paper_mm or HALF_MM) for one in pair)
    return Beside((left,), (right,), close=True)
