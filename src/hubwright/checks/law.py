"""Law window: each dated limit against the measure it asks for. Unknown is never a pass."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from hubwright.checks.clearance import Room
from hubwright.engineering.placement import Array
from hubwright.findings import Bound, Case, Evidence, Finding, Interval, Step, Verdict, Window
from hubwright.language import marked, say
from hubwright.language.part_words import breach_word, fact_word, seen_word
from hubwright.language.place_words import place_word
from hubwright.language.words import side_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import joined, length, percent, thickness
from hubwright.rules.applies import applicability
from hubwright.rules.comparisons import judge as keeps
from hubwright.rules.comparisons import limit_words
from hubwright.rules.model import Rule, RuleSet
from hubwright.rules.ruleset import rules_for

QUESTION = "law"
NOT_ADVICE = marked("Not legal advice: the local inspector decides.")
GRAVITY = (Verdict.FAIL, Verdict.CAUTION, Verdict.UNKNOWN, Verdict.PASS)
"""A rule that is broken, or broken unless a fact nobody gave says otherwise, is told before one that is only open."""
UNCHANGED_BY_A_DISC = frozenset(
    {
        "speedometer_over_kmh",
        "odometer_error_ratio",
        "tyre_diameter_change_mm",
        "wheel_width_increase_mm",
        "bolt_circle_change_mm",
        "fixing_count",
        "suspension_travel_reduction_ratio",
        "speed_symbol_spare_kmh",
        "tyre_symbol_speed_kmh",
        "lock_difference_turns",
        "flare_width_mm",
        "guard_rear_edge_height_mm",
        "guard_lip_depth_mm",
        "guard_edge_radius_ratio",
        "guard_width_over_tyre_mm",
    }
)
"""Quantities a disc leaves as they are; they are asked when tyres, wheels or bodywork change."""
ABOUT_TRACK = frozenset(
    {
        "track_increase_ratio",
        "track_increase_mm",
        "track_increase_side_mm",
        "disc_thickness_mm",
        "disc_not_original_mm",
    }
)
"""Quantities by which a jurisdiction says something about discs."""


@dataclass(frozen=True)
class Measure:
    """What one rule asked for, for one disc; ``value`` None = not measured; ``base``: what a share is taken of."""

    value: float | None
    words: str
    case: Case
    base: float | None = None


def law_of(job: Job, today: date) -> RuleSet:
    """The rules of the job's countries on the day of the visit (today where the job has none)."""
    return rules_for(job.request.countries, job.date or today)


def facts_of(job: Job, name: AxleName, axle: Axle) -> dict[str, str]:
    """What the rules may be restricted to, as far as it is known."""
    facts = {
        "axle": "steered" if job.is_steered(name) else "not steered",
        "axle_original": "yes" if axle.original else "no",
    }
    if job.car.frame is not None:
        facts["frame"] = job.car.frame
    if job.car.category is not None:
        facts["category"] = job.car.category
    if job.car.seats is not None:
        facts["seats"] = "under 10" if job.car.seats < 10 else "10 or more"
    return facts


def judge(
    job: Job, name: AxleName, axle: Axle, rooms: tuple[Room, ...], law: RuleSet, thickness_mm: float
) -> tuple[Finding, ...]:
    """Every rule that a disc touches, answered for one thickness; one finding per rule and unanswered country."""
    facts = facts_of(job, name, axle)
    findings = [
        Finding(
            QUESTION,
            Verdict.UNKNOWN,
            f"{gap.reason}.",
            None,
            Case("both", gap.jurisdiction or say("no country")),
            Evidence.NONE,
            todo=say("Ask the local inspector."),
        )
        for gap in law.unknown
    ]
    for rule in law.rules:
        if rule.quantity not in UNCHANGED_BY_A_DISC:
            finding = held(rule, facts, measure_of(rule, axle, rooms, thickness_mm))
            if finding is not None:
                findings.append(finding)
    return (*findings, *_silent(law, thickness_mm))


def _silent(law: RuleSet, thickness_mm: float) -> list[Finding]:
    """A jurisdiction whose rules say nothing about track or discs has not allowed a disc: that is unknown too."""
    if not law.known or any(rule.quantity in ABOUT_TRACK for rule in law.rules) or thickness_mm == 0:
        return []
    sentence = say("No rule about track or discs is known here for {asked}.", asked=joined(law.asked))
    return [
        Finding(
            QUESTION,
            Verdict.UNKNOWN,
            sentence,
            None,
            Case("both", say("track")),
            Evidence.NONE,
            todo=say("Ask the inspector."),
        )
    ]


def held(rule: Rule, facts: dict[str, str], measure: Measure) -> Finding | None:
    """One measure held against one rule; None where the rule does not apply."""
    applies = applicability(rule, facts)
    if applies.applies is False:
        return None
    step = Step(
        say("{measure_words}; limit {rule}", measure_words=measure.words, rule=limit_words(rule)),
        f"{rule.citation} ({seen_word(rule.how_seen)})",
    )
    if measure.value is None:
        sentence = f"{rule.jurisdiction}: {say(rule.title)}: {measure.words}."
        return Finding(
            QUESTION, Verdict.UNKNOWN, sentence, None, measure.case, Evidence.NONE, (step,), say(rule.what_to_do)
        )
    if keeps(rule, measure.value, measure.base):
        sentence = f"{rule.jurisdiction}: {measure.words}, {limit_words(rule)}."
        return Finding(QUESTION, Verdict.PASS, sentence, None, measure.case, Evidence.MEASURED, (step,))
    words = f"{rule.jurisdiction}: {measure.words}, {limit_words(rule)}: {breach_word(rule.on_breach)}."
    todo = f"{say(rule.breach)} {say(rule.what_to_do)}"
    if applies.applies is None:
        asked = joined([fact_word(fact) for fact in applies.missing])
        return Finding(
            QUESTION,
            Verdict.CAUTION,
            say("{words} Whether it applies depends on: {asked}.", words=words, asked=asked),
            None,
            measure.case,
            Evidence.MEASURED,
            (step,),
            todo,
        )
    verdict = Verdict.CAUTION if rule.on_breach == "declaration needed" else Verdict.FAIL
    return Finding(QUESTION, verdict, words, None, measure.case, Evidence.MEASURED, (step,), todo)


def measure_of(rule: Rule, axle: Axle, rooms: tuple[Room, ...], thickness_mm: float) -> Measure:
    """What a rule asks for, with one disc; without a value where it was not measured."""
    quantity = rule.quantity
    both = Case("both", say(rule.title))
    if quantity in ("track_increase_ratio", "track_increase_mm"):
        return _track(rule, axle, thickness_mm)
    if quantity in ("disc_thickness_mm", "disc_not_original_mm"):
        return Measure(thickness_mm, say("disc {thickness} per side", thickness=thickness(thickness_mm)), both)
    if quantity == "track_increase_side_mm":
        return Measure(thickness_mm, say("{thickness} per side", thickness=thickness(thickness_mm)), both)
    if quantity in ("gap_body_mm", "gap_chassis_mm", "gap_steered_any_mm", "gap_lock_bump_mm"):
        return _gap(quantity, rooms, thickness_mm)
    if quantity in ("cover_upper_half_mm", "poke_bodywork_tread_mm"):
        return _cover(quantity, axle, thickness_mm)
    return Measure(None, say("not measured"), both)


def _track(rule: Rule, axle: Axle, thickness_mm: float) -> Measure:
    case = Case("both", say(rule.title))
    if axle.track_mm is None:
        return Measure(None, say("the track was not measured"), case)
    reference = axle.largest_series_track_mm or axle.track_mm
    increase = axle.track_mm + 2 * thickness_mm - reference
    against = (
        say("against {reference}", reference=length(reference, decimals=0))
        if axle.largest_series_track_mm
        else say("against {reference} as it stands", reference=length(reference, decimals=0))
    )
    if rule.quantity == "track_increase_mm":
        return Measure(increase, say("track +{increase} {against}", increase=length(increase), against=against), case)
    return Measure(
        increase / reference,
        say("track {increase} {against}", increase=percent(increase / reference), against=against),
        case,
    )


def _gap(quantity: str, rooms: tuple[Room, ...], thickness_mm: float) -> Measure:
    kinds = {"gap_body_mm": ("body",), "gap_chassis_mm": ("carried", "hose")}.get(quantity, ("body", "carried", "hose"))
    lock_only = quantity in ("gap_steered_any_mm", "gap_lock_bump_mm")
    best: tuple[float, str, str] | None = None
    for room in rooms:
        for swept in room.swept:
            curve = swept.curve
            if curve.point.kind in kinds and (not lock_only or abs(curve.steer_deg) > 1):
                left: Array = curve.gap_mm + swept.gain_mm - curve.push * thickness_mm
                if best is None or float(left.min()) < best[0]:
                    best = (float(left.min()), room.side, place_word(curve.point.name))
    if best is None or any(room.unread for room in rooms):
        return Measure(None, say("gaps not read in every state"), Case("both", say("gap")))
    return Measure(
        best[0],
        say("{left} left at {point}, {side}", left=length(best[0]), point=best[2], side=side_word(best[1])),
        Case(best[1], best[2]),
    )


def _cover(quantity: str, axle: Axle, thickness_mm: float) -> Measure:
    covers = [
        (corner.cover_mm.value - thickness_mm, side)
        for side in SIDES
        if (corner := axle.corner(side)).cover_mm is not None
    ]
    if len(covers) < len(SIDES):
        return Measure(None, say("cover beyond the tread was not measured on both sides"), Case("both", say("arch")))
    left, side = min(covers)
    words = (
        say("arch covers the tread by {left}, {side}", left=length(left), side=side_word(side))
        if left >= 0
        else say("tread stands {left} out, {side}", left=length(-left), side=side_word(side))
    )
    return Measure(left if quantity == "cover_upper_half_mm" else -left, words, Case(side, say("arch")))


def window_of(job: Job, name: AxleName, axle: Axle, law: RuleSet) -> Window:
    """The thicknesses the track rules allow; what cannot be computed is left open."""
    facts = facts_of(job, name, axle)
    bounds = []
    for rule in law.rules:
        limit = _most_of(rule, axle)
        if limit is not None and applicability(rule, facts).applies and rule.on_breach != "declaration needed":
            bounds.append(
                Bound("most", limit, Case("both", f"{rule.jurisdiction} {say(rule.title)}"), limit_words(rule))
            )
    bounds.sort(key=lambda bound: bound.at_mm)
    most = bounds[0].at_mm if bounds else None
    intervals = () if most is not None and most < 0 else (Interval(0.0, most),)
    if not law.known:
        words = "; ".join(gap.reason for gap in law.unknown)
    elif most is None:
        words = say("no limit on thickness found")
    else:
        words = say(
            "up to {most}: {item}, {bounds_sentence}",
            most=length(most),
            item=bounds[0].case.item,
            bounds_sentence=bounds[0].sentence,
        )
    return Window(QUESTION, "any", "both", intervals, tuple(bounds), known=law.known, sentence=words)


def _most_of(rule: Rule, axle: Axle) -> float | None:
    """The thickness at which a rule that grows with it is just kept."""
    if rule.comparison == "must_be_zero" and rule.quantity == "disc_not_original_mm":
        return 0.0
    if rule.comparison != "at_most" or not rule.values:
        return None
    limit = rule.values[0]
    if rule.quantity in ("disc_thickness_mm", "track_increase_side_mm"):
        return limit
    if axle.track_mm is None:
        return None
    reference = axle.largest_series_track_mm or axle.track_mm
    if rule.quantity == "track_increase_ratio":
        return (reference * (1 + limit) - axle.track_mm) / 2
    return (reference + limit - axle.track_mm) / 2 if rule.quantity == "track_increase_mm" else None


def summary(findings: tuple[Finding, ...]) -> Finding:
    """All rules of one disc as one finding: what stands against it first, then what is open, then what is kept."""
    if not findings:
        return Finding(
            QUESTION,
            Verdict.UNKNOWN,
            f"{say('No rule touches a disc here.')} {say(NOT_ADVICE)}",
            None,
            Case("both", say("law")),
            Evidence.NONE,
        )
    verdict = min((finding.verdict for finding in findings), key=GRAVITY.index)
    governing = [finding for finding in findings if finding.verdict is verdict]
    sentence = governing[0].sentence
    if verdict is not Verdict.PASS and len(governing) > 1:
        sentence = say("{sentence} ({count} more)", sentence=sentence, count=len(governing) - 1)
    return Finding(
        QUESTION,
        verdict,
        sentence,
        None,
        governing[0].case,
        governing[0].evidence,
        tuple(step for finding in findings for step in finding.working),
        governing[0].todo,
    )
