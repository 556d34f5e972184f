"""Words every sheet uses: marks above boxes, kinds of discs, and whether the car is released."""

from __future__ import annotations

from hubwright.jobs.answer import Answer
from hubwright.language import marked, say
from hubwright.language.words import axle_title, use_word
from hubwright.parts.job import Job
from hubwright.quantities.text import day, joined

STANDING = marked(
    "A wheel that comes off can kill. Decision support for trained people: the vehicle maker's instructions, local law "
    "and a licensed inspector overrule it."
)
NEVER = "–"


def corner_mark(axle: str, side: str) -> str:
    """A corner in two letters, for boxes to tick."""
    marks = {
        ("front", "left"): say("FL"),
        ("front", "right"): say("FR"),
        ("rear", "left"): say("RL"),
        ("rear", "right"): say("RR"),
    }
    return marks[axle, side]


def disc_words(kind: str) -> str:
    """A kind of disc as a thing to take from the shelf."""
    return {"plain": say("plain disc"), "lipped": say("lipped disc"), "bolted": say("bolted adapter")}[kind]


def question_title(question: str) -> str:
    """A question as the title of a column."""
    titles = {
        "clearance": say("Clearance"),
        "brake": say("Brake"),
        "centring": say("Centring"),
        "fastener": say("Fasteners"),
        "policy": say("House rules"),
        "joint": say("Joint"),
        "law": say("Law"),
    }
    return titles.get(question, question)


def state_words(answer: Answer) -> tuple[str, bool]:
    """Whether the car is released, in words, and whether it is."""
    fitted = [axle for axle in answer.axles if axle.plan.recommended_mm is not None]
    ready = [axle for axle in fitted if axle.released]
    if not fitted:
        return say("NOT RELEASED. No disc is recommended: nothing here is to be fitted."), False
    if len(ready) == len(fitted):
        return say("Released: the margins were read with these discs fitted, both sides."), True
    if ready:
        done = joined([axle_title(axle.axle) for axle in ready])
        return say("NOT RELEASED. Only this was measured with the disc fitted, both sides: {axle}.", axle=done), False
    return say("NOT RELEASED. Nothing has been measured with the discs fitted yet: fit, measure, then release."), False


def job_facts(job: Job, answer: Answer, customer: str = "") -> tuple[tuple[str, str], ...]:
    """Whose car, which car, what for; only what is stated."""
    car = job.car
    rows = [
        (say("Job"), answer.title),
        (say("Car"), car.description or ""),
        (say("Customer"), customer),
        (say("Plate"), car.plate or ""),
        (say("Day"), day(answer.date)),
        (say("Use"), use_word(answer.use)),
        (say("Reason"), job.request.reason or ""),
    ]
    return tuple((name, value) for name, value in rows if value)
