"""From job to answer."""

from __future__ import annotations

from datetime import date

from hubwright.checks import effects, load, roll
from hubwright.checks.effect import DiscEffects, Effect
from hubwright.checks.house import House, house_of
from hubwright.checks.law import NOT_ADVICE
from hubwright.checks.plausibility import questions
from hubwright.checks.standing import BodyStanding
from hubwright.checks.torque import torque_of
from hubwright.findings import Verdict
from hubwright.jobs.answer import ANSWER_VERSION, Answer, AxleAnswer, DiscAnswer, LawNote, PackageAnswer, PlanAnswer
from hubwright.jobs.bench import AxleBench, JobBench, benches_of
from hubwright.jobs.discs import disc_answer
from hubwright.jobs.maps import draw_maps, map_questions
from hubwright.jobs.order import order_of
from hubwright.jobs.provisional import provisional
from hubwright.jobs.trying import tried
from hubwright.language import marked, say
from hubwright.language.words import kind_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.shop import StockDisc
from hubwright.quantities.text import joined, length, percent, thickness
from hubwright.rules.model import RuleSet
from hubwright.selection.candidates import Candidate, Status
from hubwright.selection.next_reading import wanted_readings
from hubwright.selection.plans import Plan, shelf
from hubwright.selection.ranking import next_thicker, wish_words

CAUTIONS = (
    marked(
        "A wheel that comes off can kill. This is decision support for trained people; the vehicle maker's instructions, "
        "local law and a licensed inspector overrule it."
    ),
    marked("Never work under a car held only by a jack."),
    marked(
        "After any disc change check the tightening again after the first 50 to 100 km unless the vehicle maker says otherwise."
    ),
    marked("One disc per hub, never stacked; studs are never cut."),
    marked(
        "Torque is a record of vehicle, wheel, fastener and lubrication state: look it up. It is never computed here."
    ),
)
OFF_ROAD = marked("Off-road use: prove it under load with the axle crossed up, both ways, before release.")


def assess(job: Job, today: date | None = None) -> Answer:
    """Every stock disc on every axle of the job, with reasons.

    Args:
        job: From `hubwright.load` or built in Python.
        today: The day whose rules are asked where the job has no date; the present day when missing.
    """
    maps = draw_maps(job, house_of(job))
    answer = answer_on(benches_of(job, day_of(job, today), maps))
    maps.keep()
    return answer


def day_of(job: Job, today: date | None = None) -> date:
    """The day whose rules are asked: that of the job, else today."""
    return job.date or today or date.today()


def answer_on(at: JobBench) -> Answer:
    """The answer of a job whose axles are worked out."""
    job, day = at.job, at.day
    duties = tuple(
        LawNote(duty.jurisdiction, say(duty.text), duty.citation, say(duty.what_to_do))
        for duty in at.rules.obligations
        if duty.kind == "duty"
    )
    axles = tuple(_axle(at, axle) for axle in at.axles.values())
    raised = (*questions(job), *map_questions(job, at.house, at.maps.rooms))
    from hubwright import __version__  # noqa: PLC0415 - the package itself stands above this floor

    return Answer(
        ANSWER_VERSION,
        job.title,
        day,
        job.request.use,
        job.request.countries,
        axles,
        raised,
        duties,
        (
            *(say(caution) for caution in CAUTIONS),
            *((say(OFF_ROAD),) if job.request.use == "off-road" else ()),
            say(NOT_ADVICE),
        ),
        f"hubwright {__version__}",
        _together(job, axles),
    )


def _axle(at: JobBench, one: AxleBench) -> AxleAnswer:
    job, house, rules, name, axle = at.job, at.house, at.rules, one.name, one.axle
    plans = [under.plan for under in one.plans]
    answers = tuple(_plan(job, axle, plan) for plan in plans)
    chosen = next((answer for answer in answers if answer.recommended_mm is not None), answers[0])
    best = chosen.recommended
    words = [answers[0].decision]
    if len(answers) > 1 and _thicker(answers[1], answers[0]):
        words.append(answers[1].decision)
    return AxleAnswer(
        name,
        wish_words(axle.wish),
        axle.wish.thickness_mm if axle.wish else None,
        " ".join(words),
        best is not None and best.released,
        answers,
        wanted_readings(job, name, axle, plans[0].windows),
        provisional(job, name, axle, house, at.maps.rooms.get(name, {})),
        not job.shop.disc,
        torque_of(axle),
        load.judge(job, name, axle, rules),
        _effects(job, name, axle, best),
        *_other_wheels(job, name, axle, house, rules),
    )


def _effects(job: Job, name: AxleName, axle: Axle, best: DiscAnswer | None) -> tuple[DiscEffects, ...]:
    """What the recommended disc changes besides, then the wished one where it is another."""
    discs = [disc for disc in shelf(job) if best is not None and _is(disc, best)][:1]
    wished_mm = axle.wish.thickness_mm if axle.wish else None
    if wished_mm is not None and all(disc.thickness_mm != wished_mm for disc in discs):
        discs.append(tried(job, wished_mm).disc)
    return tuple(effects.effects_of(job, name, axle, disc) for disc in discs)


def _is(disc: StockDisc, answer: DiscAnswer) -> bool:
    return (disc.thickness_mm, disc.kind, disc.name) == (answer.thickness_mm, answer.kind, answer.name)


def _together(job: Job, axles: tuple[AxleAnswer, ...]) -> tuple[Effect, ...]:
    chosen = {answer.axle: answer.plan.recommended_mm or 0.0 for answer in axles}
    front_mm, rear_mm = chosen.get("front", 0.0), chosen.get("rear", 0.0)
    found = roll.car_effects(job, front_mm, rear_mm) if front_mm or rear_mm else ()
    return found if any(effect.known for effect in found) else ()


def _other_wheels(
    job: Job, name: AxleName, axle: Axle, house: House, rules: RuleSet
) -> tuple[tuple[BodyStanding, ...], tuple[PackageAnswer, ...]]:
    """The fitted wheels against the body lines, and the packages offered in their place."""
    if not (axle.package or axle.left.body_line or axle.right.body_line):
        return (), ()
    from hubwright.jobs.packages import packages_of, standing_now  # noqa: PLC0415 - compiled sums load slowly

    return standing_now(axle), packages_of(job, name, axle, house, rules)


def _thicker(with_work: PlanAnswer, without: PlanAnswer) -> bool:
    return with_work.recommended_mm is not None and with_work.recommended_mm > (without.recommended_mm or 0.0)


def _plan(job: Job, axle: Axle, plan: Plan) -> PlanAnswer:
    best = plan.recommended
    return PlanAnswer(
        plan.work,
        plan.as_it_stands,
        plan.windows,
        tuple(disc_answer(candidate) for candidate in plan.candidates),
        best.thickness_mm if best else None,
        plan.side_alone_mm[0],
        plan.side_alone_mm[1],
        order_of(job, axle, best) if best else (),
        _decision(job, axle, plan),
    )


def _decision(job: Job, axle: Axle, plan: Plan) -> str:
    done = say("With work done ({work})", work=joined(plan.work)) if plan.work else say("As the car stands")
    best, wish = plan.recommended, axle.wish
    if best is None:
        return f"{say('{done}: no disc.', done=done)} {_why_none(plan)}".strip()
    words = _recommendation(axle, best, done)
    if wish is not None and wish.thickness_mm is not None and best.thickness_mm < wish.thickness_mm:
        above = next_thicker(plan.candidates, best)
        asked = next((item for item in plan.candidates if item.thickness_mm == wish.thickness_mm), None)
        target = asked or above
        if target is not None and target.failing:
            reason = target.failing[0].sentence
            words = (
                f"{words} {say('Not {thickness}: {reason}', thickness=thickness(target.thickness_mm), reason=reason)}"
            )
        elif target is not None and target.status is Status.CAUTION:
            reason = next(finding.sentence for finding in target.findings if finding.verdict is Verdict.CAUTION)
            also = say(
                "{thickness} only with a caution: {reason}", thickness=thickness(target.thickness_mm), reason=reason
            )
            words = f"{words} {also}"
    return words


def _recommendation(axle: Axle, best: Candidate, done: str) -> str:
    track = say("track +{track}", track=length(2 * best.thickness_mm, decimals=0))
    if axle.track_mm is not None:
        track = f"{track}, {percent(2 * best.thickness_mm / axle.track_mm)}"
    places = {
        "done": done,
        "thickness": thickness(best.thickness_mm),
        "kind": kind_word(best.disc.kind),
        "track": track,
        "fasteners": best.choices[0].title if best.choices else "",
    }
    if best.status is Status.CAUTION and best.choices:
        return say("{done}: {thickness} {kind} disc per side ({track}), {fasteners} with a caution.", **places)
    if best.status is Status.CAUTION:
        return say("{done}: {thickness} {kind} disc per side ({track}) with a caution.", **places)
    if best.choices:
        return say("{done}: {thickness} {kind} disc per side ({track}), {fasteners}.", **places)
    return say("{done}: {thickness} {kind} disc per side ({track}).", **places)


def _why_none(plan: Plan) -> str:
    short = [finding for finding in plan.as_it_stands if finding.verdict is Verdict.FAIL]
    if short:
        worst = min(short, key=lambda finding: finding.margin_mm or 0.0)
        return say("Even without a disc: {worst_sentence}", worst_sentence=worst.sentence)
    if any(candidate.status is Status.OPEN for candidate in plan.candidates):
        return say("Readings are missing; what is not known is never taken as good.")
    thinnest = min(plan.candidates, key=lambda candidate: candidate.thickness_mm, default=None)
    if thinnest is None or not thinnest.failing:
        return ""
    return say(
        "The thinnest, {thickness}: {failing_sentence}",
        thickness=thickness(thinnest.thickness_mm),
        failing_sentence=thinnest.failing[0].sentence,
    )
