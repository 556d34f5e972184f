"""Which disc is to be drawn for the machine shop, and whether it may be: every window is asked first."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hubwright.drawings.machine_disc import MachineDisc, machine_disc
from hubwright.errors import BadInput, Fault
from hubwright.findings import Verdict
from hubwright.jobs.answer import Answer, AxleAnswer, DiscAnswer, PlanAnswer
from hubwright.jobs.assess import assess
from hubwright.language import marked, say
from hubwright.language.words import question_word, status_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import DEFAULT_DISCS, DiscKind, StockDisc
from hubwright.parts.wheel import Wheel
from hubwright.reports.options import Options
from hubwright.reports.words import disc_words

SOURCE = marked("drawing of a disc")
THICKEST_MM = 150.0
MACHINED: tuple[DiscKind, ...] = ("plain", "lipped")
GOOD = ("valid", "caution")


@dataclass(frozen=True)
class DiscOrder:
    """A disc that passes every window of its axle, ready to be drawn."""

    name: AxleName
    axle: Axle
    plan: PlanAnswer
    answer: DiscAnswer
    disc: StockDisc
    made: MachineDisc


def something_to_draw(answer: Answer) -> bool:
    """Whether a plain or lipped disc is recommended on any axle."""
    return bool(axles_to_draw(answer))


def axles_to_draw(answer: Answer) -> tuple[AxleName, ...]:
    """The axles a plain or lipped disc is recommended on: DXF and SVG hold one of them, the sheet all."""
    names: tuple[AxleName, ...] = ("front", "rear")
    drawn = {axle.axle for axle in answer.axles if _is_machined(axle)}
    return tuple(name for name in names if name in drawn)


def _is_machined(axle: AxleAnswer) -> bool:
    disc = axle.plan.recommended
    return disc is not None and disc.kind in MACHINED


def disc_orders(job: Job, answer: Answer, options: Options) -> tuple[DiscOrder, ...]:
    """The discs asked for: of one axle where one is named, else of every axle with something to draw.

    Raises:
        BadInput: as `disc_order`.
    """
    return tuple(_order(job, answer, options, name, axle) for name, axle in _axles(job, answer, options))


def disc_order(job: Job, answer: Answer, options: Options) -> DiscOrder:
    """The disc asked for, judged on its axle like any disc of the shelf.

    Raises:
        BadInput: when it is not clear which disc is meant; when any window refuses it or cannot be answered, naming each; when
            a reading for the drawing is missing.
    """
    axles = _axles(job, answer, options)
    if len(axles) > 1:
        raise BadInput(
            say(SOURCE), (Fault("axle", say("front or rear"), say("neither named, and both have a disc to draw")),)
        )
    return _order(job, answer, options, *axles[0])


def _axles(job: Job, answer: Answer, options: Options) -> list[tuple[AxleName, Axle]]:
    axles = dict(job.axles)
    if options.axle is not None and options.axle not in axles:
        known = " or ".join(axles) or say("an axle the job says something about")
        raise BadInput(say(SOURCE), (Fault("axle", known, options.axle),))
    if not axles:
        raise BadInput(
            say(SOURCE), (Fault("axle", say("front or rear"), say("a job that says nothing about any axle")),)
        )
    if options.axle is not None:
        return [(options.axle, axles[options.axle])]
    likely = [(name, axle) for name, axle in axles.items() if _is_machined(answer.axle(name))]
    return likely or list(axles.items())


def _order(job: Job, answer: Answer, options: Options, name: AxleName, axle: Axle) -> DiscOrder:
    best = answer.axle(name).plan.recommended
    if best is not None and best.kind == "bolted" and options.thickness_mm is None and options.disc_kind is None:
        todo = say("An adapter with fasteners of its own is an engineer's design.")
        raise BadInput(say(SOURCE), (Fault("kind", say("a plain or a lipped disc"), say("a bolted adapter"), todo),))
    thickness_mm = _thickness(answer.axle(name), options)
    kinds = MACHINED if options.disc_kind is None else (options.disc_kind,)
    shelf = job.shop.disc or DEFAULT_DISCS
    kept = [disc for disc in shelf if disc.thickness_mm == thickness_mm and disc.kind in kinds]
    discs = kept or [StockDisc(thickness_mm=thickness_mm, kind=kind) for kind in kinds]
    if not kept:
        job = replace(job, shop=replace(job.shop, disc=(*shelf, *discs)))
        answer = assess(job, answer.date)
    found = [(disc, *_judged(answer.axle(name), disc)) for disc in discs]
    for disc, plan, judged in found:
        if judged.status in GOOD:
            wheel = axle.fitted.wheel if axle.fitted else Wheel()
            made = machine_disc(axle.hub, wheel, axle.fastener, disc, job.shop.policy)
            return DiscOrder(name, axle, plan, judged, disc, made)
    raise BadInput(say(SOURCE), tuple(fault for disc, _, judged in found for fault in _refusals(disc, judged)))


def _thickness(axle: AxleAnswer, options: Options) -> float:
    given = options.thickness_mm if options.thickness_mm is not None else axle.plan.recommended_mm
    if given is None:
        given = axle.wish_mm
    if given is None:
        fault = Fault(
            "thickness_mm", say("a thickness per side"), say("none: no disc is recommended and none was asked for")
        )
        raise BadInput(say(SOURCE), (fault,))
    if not 0.0 < given <= THICKEST_MM:
        raise BadInput(
            say(SOURCE),
            (Fault("thickness_mm", say("more than 0 and at most {most} mm", most=f"{THICKEST_MM:g}"), f"{given:g}"),),
        )
    return given


def _judged(axle: AxleAnswer, disc: StockDisc) -> tuple[PlanAnswer, DiscAnswer]:
    """The best verdict on a disc: as the car stands, else with the work offered done."""
    found = [
        (plan, judged)
        for plan in axle.plans
        for judged in plan.discs
        if (judged.thickness_mm, judged.kind, judged.name) == (disc.thickness_mm, disc.kind, disc.name)
    ]
    return next(((plan, judged) for plan, judged in found if judged.status in GOOD), found[-1])


def _refusals(disc: StockDisc, judged: DiscAnswer) -> list[Fault]:
    wanted = say("a disc that passes every window")
    blocking = [item for item in judged.findings if item.verdict is Verdict.FAIL]
    if judged.status == "not known":
        blocking = [item for item in judged.findings if item.verdict is Verdict.UNKNOWN]
    return [
        Fault(
            say("{thickness} mm {kind}, {question}", thickness=f"{disc.thickness_mm:g}", kind=disc_words(disc.kind),
                question=question_word(item.question)),
            wanted,
            f"{status_word(judged.status)}: {item.sentence.rstrip('.')}",
            item.todo,
        )
        for item in blocking
    ]  # fmt: skip
