"""Words every sheet uses: axles, sides, verdicts, and whether the car is released."""

from __future__ import annotations

from hubwright.findings import Verdict
from hubwright.jobs.answer import Answer, AxleAnswer
from hubwright.language import marked, say
from hubwright.parts.job import Job
from hubwright.quantities.text import joined

AXLES = {"front": marked("Front axle"), "rear": marked("Rear axle")}
SIDES = {"left": marked("left"), "right": marked("right"), "both": marked("both sides")}
CORNERS = {
    ("front", "left"): marked("Front left"), ("front", "right"): marked("Front right"),
    ("rear", "left"): marked("Rear left"), ("rear", "right"): marked("Rear right"),
}  # fmt: skip
CORNER_MARKS = {
    ("front", "left"): marked("FL"), ("front", "right"): marked("FR"),
    ("rear", "left"): marked("RL"), ("rear", "right"): marked("RR"),
}  # fmt: skip
"""Above boxes to tick; explained where they stand."""
KINDS = {"plain": marked("plain disc"), "lipped": marked("lipped disc"), "bolted": marked("bolted adapter")}
QUESTIONS = {
    "clearance": marked("Clearance"), "brake": marked("Brake"), "centring": marked("Centring"),
    "fastener": marked("Fasteners"), "policy": marked("House rules"), "joint": marked("Joint"), "law": marked("Law"),
    "torque": marked("Torque"), "load": marked("Load"),
}  # fmt: skip
VERDICTS = {
    Verdict.PASS: marked("fits"), Verdict.CAUTION: marked("caution"), Verdict.UNKNOWN: marked("not known"),
    Verdict.FAIL: marked("no"),
}  # fmt: skip
STATUSES = {
    "valid": marked("valid"), "caution": marked("caution"), "not known": marked("not known"),
    "refused": marked("refused"),
}  # fmt: skip
USES = {
    "street": marked("street"), "track": marked("track"), "laden": marked("laden"), "off-road": marked("off-road"),
}  # fmt: skip
STANDING = marked(
    "A wheel that comes off can kill. Decision support for trained people: the vehicle maker's instructions, local law "
    "and a licensed inspector overrule it."
)
NEVER = "–"


def state_words(answer: Answer) -> tuple[str, bool]:
    """Whether the car is released, in words, and whether it is."""
    fitted = [axle for axle in answer.axles if axle.plan.recommended_mm is not None]
    ready = [axle for axle in fitted if axle.released]
    if not fitted:
        return say("NOT RELEASED. No disc is recommended: nothing here is to be fitted."), False
    if len(ready) == len(fitted):
        return say("Released: the margins were read with these discs fitted, both sides."), True
    if ready:
        done = joined([say(AXLES[axle.axle]) for axle in ready], say("and"))
        return say("NOT RELEASED. Only {axle} was measured with the disc fitted, both sides.", axle=done), False
    return say("NOT RELEASED. Nothing has been measured with the discs fitted yet: fit, measure, then release."), False


def wish_of(axle: AxleAnswer) -> str:
    """What was asked for on this axle."""
    return say("{axle}: {wish}", axle=say(AXLES[axle.axle]), wish=axle.wish)


def job_facts(job: Job, answer: Answer, customer: str = "") -> tuple[tuple[str, str], ...]:
    """Whose car, which car, what for; only what is stated."""
    car = job.car
    rows = [
        (say("Job"), answer.title),
        (say("Car"), car.description or ""),
        (say("Customer"), customer),
        (say("Plate"), car.plate or ""),
        (say("Day"), answer.date.isoformat()),
        (say("Use"), say(USES.get(answer.use, answer.use))),
        (say("Reason"), job.request.reason or ""),
    ]
    return tuple((name, value) for name, value in rows if value)
