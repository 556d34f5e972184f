"""Offered packages of one axle in the answer."""

from __future__ import annotations

from hubwright.checks.house import House
from hubwright.checks.outlines import Built, try_built
from hubwright.checks.package_law import lead_window_percent
from hubwright.checks.standing import BodyStanding, standings
from hubwright.engineering.tyrewheel.loaded import GRAVITY_M_S2, estimate_vertical_stiffness_n_mm, under_load
from hubwright.engineering.tyrewheel.replace import indicated_speed_kmh
from hubwright.errors import OutsideValidity
from hubwright.findings import Finding, Verdict
from hubwright.jobs.answer import PackageAnswer
from hubwright.jobs.discs import disc_answer
from hubwright.language import say
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.quantities.text import joined, length, number, thickness
from hubwright.rules.model import RuleSet
from hubwright.selection.candidates import Status
from hubwright.selection.packages import PackageChoice, package_choices

ASKED = {
    Status.VALID: (),
    Status.CAUTION: (Verdict.CAUTION,),
    Status.OPEN: (Verdict.UNKNOWN,),
    Status.REFUSED: (Verdict.FAIL,),
}


def standing_now(axle: Axle) -> tuple[BodyStanding, ...]:
    """The fitted wheels against the body lines; nothing where there are none, or no outline."""
    fitted = axle.fitted
    if fitted is None or not (axle.left.body_line or axle.right.body_line):
        return ()
    shape, _ = try_built(fitted.wheel, fitted.tyre)
    return standings(axle, shape) if shape is not None else ()


def packages_of(job: Job, name: AxleName, axle: Axle, house: House, rules: RuleSet) -> tuple[PackageAnswer, ...]:
    """The answer for every package offered on one axle."""
    return tuple(_answer(job, axle, choice) for choice in package_choices(job, name, axle, house, rules))


def _answer(job: Job, axle: Axle, choice: PackageChoice) -> PackageAnswer:
    sums, new = choice.sums, choice.built
    discs = tuple(disc_answer(candidate) for candidate in choice.candidates)
    valid = [disc.thickness_mm for disc in discs if disc.status in ("valid", "caution")]
    if choice.bare in (Status.VALID, Status.CAUTION):
        valid.insert(0, 0.0)
    window, shown = _speedometer(job, choice)
    return PackageAnswer(
        choice.offered.title,
        choice.offered.tyre.designation,
        choice.offered.wheel.rim,
        choice.bare.value,
        _decision(choice, valid),
        _reasons(choice),
        sums.figures if sums else None,
        sums.edges if sums else None,
        sums.change if sums else None,
        sums.same_outer_disc_mm if sums else None,
        sums.same_outer_inset_mm if sums else None,
        sums.same_track_disc_mm if sums else None,
        window,
        shown,
        _loaded_radius(axle, choice) if new is not None else None,
        choice.standing,
        choice.findings,
        discs,
        tuple(dict.fromkeys(valid)),
        choice.recommended_mm,
        tuple(dict.fromkeys((*_guesses("fitted", choice.fitted), *_guesses("offered", new)))),
    )


def _guesses(whose: str, built: Built | None) -> list[str]:
    return [f"{whose}: {name}" for name in built.guessed] if built is not None else []


def _reasons(choice: PackageChoice) -> tuple[str, ...]:
    if choice.built is None and choice.bare is Status.OPEN:
        return (choice.why,)
    wanted = ASKED[choice.bare]
    sentences = [
        finding.sentence
        for finding in choice.findings
        if finding.verdict in wanted and (finding.question != "law" or choice.bare is not Status.OPEN)
    ]
    return tuple(dict.fromkeys(sentences))


def _decision(choice: PackageChoice, valid: list[float]) -> str:
    if choice.built is None and choice.bare is Status.OPEN:
        return say("{offered_title}: not known. {why}", offered_title=choice.offered.title, why=choice.why)
    words = {
        Status.VALID: say("goes without a disc"),
        Status.CAUTION: say("goes without a disc, with a caution"),
        Status.OPEN: say("not known without more readings"),
        Status.REFUSED: say("does not go without a disc"),
    }[choice.bare]
    text = say("{name}: {words}.", name=choice.offered.title, words=words)
    refusing = [finding for finding in choice.findings if finding.verdict is Verdict.FAIL]
    if refusing:
        text = f"{text} {_worst(refusing).sentence}"
    elif choice.bare is Status.OPEN:
        first = next(finding for finding in choice.findings if finding.verdict is Verdict.UNKNOWN)
        text = f"{text} {first.sentence}"
    discs = [value for value in valid if value > 0]
    if discs:
        with_disc = say("With a disc: {discs}.", discs=joined([thickness(value) for value in discs], "or"))
        text = f"{text} {with_disc}"
    return f"{text} {_same_place(choice)}".rstrip()


def _worst(refusing: list[Finding]) -> Finding:
    return min(refusing, key=lambda finding: finding.margin_mm if finding.margin_mm is not None else 0.0)


def _same_place(choice: PackageChoice) -> str:
    """The same outer position as now with the other wheel."""
    sums = choice.sums
    if sums is None or sums.same_outer_disc_mm is None or sums.same_outer_inset_mm is None:
        return ""
    inset = number(sums.same_outer_inset_mm, 1)
    if sums.same_outer_disc_mm >= 0:
        return say(
            "Same outer position as now: disc of {disc}, or inset {inset} mm.",
            disc=length(sums.same_outer_disc_mm),
            inset=inset,
        )
    return say("Same outer position as now: no disc does it; an inset of {inset} mm would.", inset=inset)


def _speedometer(job: Job, choice: PackageChoice) -> tuple[tuple[float, float] | None, float | None]:
    if choice.fitted is None or choice.built is None:
        return None, None
    old, new = (2.0 * built.tyre.radius_mm for built in (choice.fitted, choice.built))
    lead = job.car.speedometer_lead_percent
    shown = None if lead is None else indicated_speed_kmh(100.0, old, new, lead)
    return lead_window_percent(old, new), shown


def _loaded_radius(axle: Axle, choice: PackageChoice) -> float | None:
    """Under half the axle load, by the stiffness read, else the estimate from size and pressure."""
    tyre, built = choice.offered.tyre, choice.built
    if built is None or axle.axle_load_kg is None:
        return None
    try:
        stiffness = tyre.vertical_stiffness_n_mm
        if stiffness is None:
            aspect = built.tyre_size.aspect_percent
            if tyre.pressure_kpa is None or aspect is None:
                return None
            size = built.tyre_size.section_width_mm
            stiffness = estimate_vertical_stiffness_n_mm(tyre.pressure_kpa, aspect, size, 2 * built.tyre.radius_mm)
        return under_load(built.tyre, axle.axle_load_kg / 2 * GRAVITY_M_S2, stiffness).loaded_radius_mm
    except OutsideValidity:
        return None
