"""The hand-over sheet, in the customer's words: what was done, what belongs where, when to come back, when to stop."""

from __future__ import annotations

from hubwright.checks.joint import fastener_of, seat_words
from hubwright.jobs.answer import Answer, AxleAnswer
from hubwright.language import say
from hubwright.language.words import axle_title
from hubwright.parts.job import Axle, Job
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.text import day, length, thickness
from hubwright.reports.content import (
    Blank,
    Blanks,
    Block,
    Checklist,
    Column,
    Facts,
    Heading,
    Notice,
    Paragraph,
    Step,
    Table,
    Together,
    Verdict,
)
from hubwright.reports.fits import Fit, fits_of
from hubwright.reports.options import Identity, Options
from hubwright.reports.words import disc_words, job_facts, state_words

CUSTOMERS = ("track",)
"""Besides what deserves a word anyway, a customer is told what changes of these."""


def blocks_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """Everything on the sheet."""
    fits = fits_of(job, answer)
    blocks: list[Block] = [Facts(job_facts(job, answer, identity.customer))]
    _, released = state_words(answer)
    if not released:
        text = say("The car stays here until it has been measured with the discs fitted and released.")
        blocks.append(Notice(say("Not for hand-over yet"), (text,)))
    blocks.append(Heading(say("What was done")))
    for axle in answer.axles:
        blocks += _done(axle, next((fit for fit in fits if fit.name == axle.axle), None))
    if fits:
        blocks += _belongs(job, fits)
    blocks += _come_back(fits, identity)
    blocks.append(Notice(say("Stop, and call us, if"), stop_list(), large=True))
    blocks += _papers(answer)
    closing = (
        _told(job, answer),
        Blanks(
            (
                Blank(say("Customer: told and understood, signature")),
                Blank(_workshop(job.shop.name)),
                Blank(say("Day")),
                Blank(say("Telephone of the workshop")),
            )
        ),
        Notice("", answer.cautions),
    )
    return (*blocks, Together(closing))


def _workshop(name: str | None) -> str:
    return say("For {shop}, signature", shop=name) if name else say("For the workshop, signature")


def _done(axle: AxleAnswer, fit: Fit | None) -> tuple[Block, ...]:
    title = axle_title(axle.axle)
    if fit is None:
        return (Verdict(title, say("Nothing was changed."), ""),)
    t = fit.disc.thickness_mm
    text = say("A {thickness} {kind} behind each wheel", thickness=thickness(t), kind=disc_words(fit.disc.kind))
    said = next((one.effects for one in axle.effects if one.thickness_mm == t), ())
    changes = [effect.sentence for effect in said if effect.known and (effect.alarm or effect.name in CUSTOMERS)]
    work = [say("Done to the car: {work}.", work=item) for item in fit.plan.work]
    said_too = fit.disc.reasons if fit.disc.status == "caution" else ()
    mind = (Notice(say("Mind"), said_too, large=True),) if said_too else ()
    return (Verdict(title, text), *(Paragraph(sentence) for sentence in (*work, *changes)), *mind)


def _belongs(job: Job, fits: tuple[Fit, ...]) -> tuple[Block, ...]:
    columns = (Column(say("Wheels"), 1.0), Column(say("Discs"), 0.9), Column(say("Fasteners that belong to them"), 1.7))
    rows = [row for fit in fits for row in _sets(fit)]
    note = say("Fasteners that are too short do not hold, fasteners that are too long strike what is behind the hub.")
    return (Heading(say("Which fasteners belong to which wheels"), note), Table(columns, tuple(rows)))


def _sets(fit: Fit) -> list[tuple[str, str, str]]:
    """One line for each wheel set: whether the discs stay, and what holds it."""
    rows = []
    sets = fit.axle.wheel_set or (WheelSet(role="fitted"),)
    for wheel_set in sets:
        stays = wheel_set.role == "fitted" or wheel_set.discs == "stay"
        name = f"{axle_title(fit.name)}: {wheel_set.title}"
        with_disc = say("with {thickness} discs", thickness=thickness(fit.disc.thickness_mm))
        rows.append((name, with_disc if stays else say("without discs"), _held_by(fit, wheel_set, stays)))
    return rows


def _held_by(fit: Fit, wheel_set: WheelSet, stays: bool) -> str:
    if not stays:
        return as_fitted(fit.axle, wheel_set) or say("those of these wheels, not on record")
    if fit.disc.kind == "bolted":
        return say("the adapter's own; the original ones hold the adapter")
    for choice in fit.disc.fasteners:
        if choice.wheel_set == wheel_set.title:
            return choice.title
    return say("not known: ask before these wheels go on")


def as_fitted(axle: Axle, wheel_set: WheelSet) -> str:
    """The fasteners of a wheel set as they were found; empty where nobody stated them."""
    fastener = fastener_of(wheel_set, axle.fastener)
    if fastener is None or fastener.thread is None:
        return ""
    kind = say("bolts {thread}", thread=fastener.thread) if fastener.kind == "bolt" else say("nuts {thread}", thread=fastener.thread)  # fmt: skip
    words = [kind, seat_words(fastener)]
    if fastener.kind == "bolt" and fastener.length_mm is not None:
        words.append(length(fastener.length_mm.value))
    return ", ".join(word for word in words if word)


def _come_back(fits: tuple[Fit, ...], identity: Identity) -> tuple[Block, ...]:
    rechecks = dict.fromkeys(fit.answer.torque.recheck for fit in fits)
    return (
        Heading(say("Come back: the tightening is checked again")),
        *(Paragraph(say("Record: {words}.", words=words)) for words in rechecks),
        Blanks(
            (
                Blank(say("Appointment"), value=day(identity.due) if identity.due else ""),
                Blank(say("Odometer today")),
                Blank(say("At the latest at")),
            ),
            across=3,
        ),
    )


def stop_list() -> tuple[str, ...]:
    """What a driver notices before a wheel comes off or a tyre is cut (common practice, no source)."""
    return (
        say("a wheel knocks, clicks or creaks, or a fastener is loose or missing;"),
        say("the steering wheel or the car begins to shake;"),
        say("a tyre rubs or smells, in a bend, over a bump or when the car is full;"),
        say("the car pulls to one side, or the brake pedal feels different."),
        say("Do not drive on, not even slowly: have the car fetched."),
    )


def _told(job: Job, answer: Answer) -> Checklist:
    steps = [
        Step(say("Why and when the tightening is checked again.")),
        Step(say("What to watch for, and to stop at once.")),
        Step(say("Which fasteners belong to which wheels, the spare included.")),
        Step(say("Whoever changes a wheel must know that discs are fitted; one disc per hub, never two.")),
        Step(
            say("More load, other tyres or a change to the springs: ask first, the room was worked out without them.")
        ),
    ]
    if job.request.use == "off-road":
        steps.append(Step(say("Off the road: look at tyres and arches after the first crossed-up passage.")))
    if answer.law_notes:
        steps.append(Step(say("Which papers are still open, and that the car may not be driven without them.")))
    return Checklist(say("Told to the customer, in words"), (say("told"),), tuple(steps))


def _papers(answer: Answer) -> tuple[Block, ...]:
    if not answer.law_notes:
        return ()
    rows = tuple((note.jurisdiction, note.text, note.citation) for note in answer.law_notes)
    columns = (Column(say("Law"), 0.35), Column(say("Still for the inspector"), 2.0), Column(say("Citation"), 0.9))
    return (Heading(say("Papers")), Table(columns, rows))
