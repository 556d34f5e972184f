"""Do tyres and wheels of one axle carry what the plate allows, with a trailer on the ball, at the car's speed?"""

from __future__ import annotations

import math

from hubwright.checks.rolling import radius_of, size_of
from hubwright.engineering.handling.load import (
    AxleLoads,
    axle_sufficiency,
    speed_spare_kmh,
    tow_change_kg,
    wheel_rating_at_kg,
    with_trailer,
)
from hubwright.errors import BadInput, OutsideValidity
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import marked, say
from hubwright.language.part_words import seen_word
from hubwright.language.words import axle_word
from hubwright.parts.job import Axle, AxleName, Job
from hubwright.parts.tyre_size import TyreSize
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.rounding import down, up
from hubwright.quantities.text import joined, length, number, plain
from hubwright.rules.applies import applicability
from hubwright.rules.comparisons import judge as keeps
from hubwright.rules.model import Rule, RuleSet
from hubwright.tables.tyre_indices import load_index, speed_symbol

QUESTION = "load"
SPEED, SYMBOL = "speed_symbol_spare_kmh", "tyre_symbol_speed_kmh"
LEVER = marked("lever about the rear axle (derived)")
SNOW_MARKS = ("mud and snow", "snow flake")


def judge(job: Job, name: AxleName, axle: Axle, law: RuleSet) -> tuple[Finding, ...]:
    """Every load question of one axle, wheel set by wheel set. None of them hangs on the disc."""
    wanted = axle_load(job, name, axle)
    found: list[Finding] = [*_towed(job, name, axle)]
    for wheel_set in axle.wheel_set:
        size = size_of(wheel_set.tyre)
        found += [_tyres(wheel_set, size, wanted), _wheels(wheel_set, wanted), _speed(job, wheel_set, size, law)]
    return tuple(found)


def axle_load(job: Job, name: AxleName, axle: Axle) -> tuple[float, tuple[Step, ...], str] | None:
    """Load the axle may come to: its plate, and with a trailer what the lever adds; the greater one."""
    if axle.plate_load_kg is None:
        return None
    tow, base, plate = job.car.tow, job.car.wheelbase_mm, axle.plate_load_kg
    step = Step(say("plate load of the axle {plate} kg", plate=number(plate, 0)), say("plate of the vehicle"))
    if tow.nose_weight_kg is None:
        return plate, (step,), ""
    if tow.behind_axle_mm is None or base is None:
        return plate, (step,), say("the tow lever (needs the ball's distance behind the axle and the wheelbase)")
    change = tow_change_kg(tow.nose_weight_kg, tow.behind_axle_mm, base)
    loads = with_trailer(AxleLoads(plate, plate), change)
    towed = loads.front_kg if name == "front" else loads.rear_kg
    by = change.front_kg if name == "front" else change.rear_kg
    text = say(
        "{nose_weight} kg on the ball {behind_axle} behind the axle: {by} kg on this axle",
        nose_weight=plain(tow.nose_weight_kg),
        behind_axle=length(tow.behind_axle_mm, 0),
        by=number(by, 1),
    )
    if towed > plate:
        text = say(
            "{text}; on top of the plate load that is {towed} kg: load the car less when towing",
            text=text,
            towed=number(towed, 0),
        )
    return max(plate, towed), (step, Step(text, say(LEVER))), ""


def _towed(job: Job, name: AxleName, axle: Axle) -> tuple[Finding, ...]:
    """The axle as weighed with the trailer on the ball, against its plate; nothing where there is no trailer."""
    tow, base, case = job.car.tow, job.car.wheelbase_mm, Case("both", say("axle"), say("trailer on the ball"))
    if tow.nose_weight_kg is None:
        return ()
    lacking = (
        (say("the axle's load parked"), axle.parked_load_kg is None),
        (say("its plate load"), axle.plate_load_kg is None),
        (say("the ball's distance behind the axle"), tow.behind_axle_mm is None),
        (say("the wheelbase"), base is None),
    )
    needs = [text for text, is_lacking in lacking if is_lacking]
    if axle.parked_load_kg is None or axle.plate_load_kg is None or tow.behind_axle_mm is None or base is None:
        return (
            _unknown(
                say(
                    "The {axle} axle with the trailer: unknown: needs {needs}.",
                    axle=axle_word(name),
                    needs=joined(needs),
                ),
                case,
            ),
        )
    change = tow_change_kg(tow.nose_weight_kg, tow.behind_axle_mm, base)
    by = change.front_kg if name == "front" else change.rear_kg
    towed = axle.parked_load_kg + by
    step = Step(f"{number(axle.parked_load_kg, 0)} + {number(by, 1)} = {number(towed, 0)} kg", say(LEVER))
    words = say(
        "The {axle} axle with the trailer: {towed} kg, plate {plate_load} kg",
        axle=axle_word(name),
        towed=number(towed, 0),
        plate_load=number(axle.plate_load_kg, 0),
    )
    return (_judged(axle.plate_load_kg - towed, words, case, (step,), "", say("Less load in the car or on the ball.")),)


def _tyres(wheel_set: WheelSet, size: TyreSize | None, wanted: tuple[float, tuple[Step, ...], str] | None) -> Finding:
    case, who = Case("both", wheel_set.title, say("load index")), wheel_set.title
    if wanted is None or size is None or size.load_index is None:
        needs = [
            text
            for text, lacking in (
                (say("the plate load of the axle"), wanted is None),
                (say("the load index"), size is None or size.load_index is None),
            )
            if lacking
        ]
        return _unknown(say("{who}: tyre load: unknown: needs {needs}.", who=who, needs=joined(needs)), case)
    try:
        each = load_index(size.load_index)
    except BadInput as error:
        return _unknown(say("{who}: tyre load: unknown: {faults}", who=who, faults=error.faults[0]), case)
    enough = axle_sufficiency(each.single_kg, 2, 1.0, wanted[0])
    steps = (
        *wanted[1],
        Step(
            say(
                "2 × {single} kg (load index {load_index}) − {wanted} = {spare} kg",
                single=number(each.single_kg, 0),
                load_index=size.load_index,
                wanted=number(wanted[0], 0),
                spare=number(enough.spare_kg, 0),
            ),
            each.source,
        ),
    )
    words = say(
        "{who}: tyres carry {capacity} kg, the axle may come to {wanted} kg",
        who=who,
        capacity=number(down(enough.capacity_kg, 1), 0),
        wanted=number(wanted[0], 0),
    )
    return _judged(enough.spare_kg, words, case, steps, wanted[2], say("Tyres of a higher load index."))


def _wheels(wheel_set: WheelSet, wanted: tuple[float, tuple[Step, ...], str] | None) -> Finding:
    wheel, case, who = wheel_set.wheel, Case("both", wheel_set.title, say("wheel rating")), wheel_set.title
    radius = radius_of(wheel_set.tyre)
    lacking = (
        (say("the plate load of the axle"), wanted is None),
        (say("the wheel's load rating"), wheel.rating_kg is None),
        (say("the circumference of that rating"), wheel.rated_circumference_mm is None),
        (say("the inset"), wheel.inset_mm is None),
        (say("the size of the tyre"), radius is None),
    )
    needs = [text for text, is_lacking in lacking if is_lacking]
    if (
        wanted is None
        or wheel.rating_kg is None
        or wheel.rated_circumference_mm is None
        or wheel.inset_mm is None
        or radius is None
    ):
        return _unknown(say("{who}: wheel rating: unknown: needs {needs}.", who=who, needs=joined(needs)), case)
    around = 2 * math.pi * radius[0]
    try:
        each = wheel_rating_at_kg(wheel.rating_kg, wheel.rated_circumference_mm, around, wheel.inset_mm.value)
    except OutsideValidity as error:
        return _unknown(say("{who}: wheel rating: unknown: {error}", who=who, error=error), case)
    enough = axle_sufficiency(each, 2, 1.0, wanted[0])
    steps = (
        *wanted[1],
        radius[1],
        Step(
            say(
                "rated {rating} kg at {rated_circumference}; at {around} {each} kg",
                rating=number(wheel.rating_kg, 0),
                rated_circumference=length(wheel.rated_circumference_mm, 0),
                around=length(around, 0),
                each=number(each, 0),
            ),
            say("UN R124 annex 6, bending moment (from memory)"),
        ),
    )
    words = say(
        "{who}: wheels carry {capacity} kg, the axle may come to {wanted} kg",
        who=who,
        capacity=number(down(enough.capacity_kg, 1), 0),
        wanted=number(wanted[0], 0),
    )
    return _judged(enough.spare_kg, words, case, steps, wanted[2], say("Wheels of a higher rating, or a smaller tyre."))


def _judged(spare_kg: float, words: str, case: Case, steps: tuple[Step, ...], open_: str, todo: str) -> Finding:
    if spare_kg < 0:
        return Finding(
            QUESTION,
            Verdict.FAIL,
            say("{words}: {spare} kg short.", words=words, spare=number(up(-spare_kg, 1), 0)),
            None,
            case,
            Evidence.STATED,
            steps,
            todo,
        )
    if open_:
        return Finding(
            QUESTION,
            Verdict.CAUTION,
            say("{words}; not looked at: {open}.", words=words, open=open_),
            None,
            case,
            Evidence.STATED,
            steps,
        )
    return Finding(
        QUESTION,
        Verdict.PASS,
        say("{words}: {spare} kg spare.", words=words, spare=number(down(spare_kg, 1), 0)),
        None,
        case,
        Evidence.STATED,
        steps,
    )


def _speed(job: Job, wheel_set: WheelSet, size: TyreSize | None, law: RuleSet) -> Finding:
    case, who, top = Case("both", wheel_set.title, say("speed symbol")), wheel_set.title, job.car.top_speed_kmh
    if top is None or size is None or size.speed_symbol is None:
        needs = [
            text
            for text, lacking in (
                (say("the greatest speed of the car"), top is None),
                (say("the speed symbol"), size is None or size.speed_symbol is None),
            )
            if lacking
        ]
        return _unknown(say("{who}: speed symbol: unknown: needs {needs}.", who=who, needs=joined(needs)), case)
    try:
        symbol = speed_symbol(size.speed_symbol)
    except BadInput as error:
        return _unknown(say("{who}: speed symbol: unknown: {faults}", who=who, faults=error.faults[0]), case)
    spare = speed_spare_kmh(symbol.speed_kmh, top)
    step = Step(f"{plain(symbol.speed_kmh)} − {plain(top)} = {number(spare, 0)} km/h", symbol.source)
    words = say(
        "{who}: symbol {symbol} is good for {speed} km/h, the car reaches {top}",
        who=who,
        symbol=symbol.symbol,
        speed=plain(symbol.speed_kmh),
        top=plain(top),
    )
    if spare >= 0:
        return Finding(QUESTION, Verdict.PASS, say("{words}.", words=words), None, case, Evidence.STATED, (step,))
    snow = any(mark in SNOW_MARKS for mark in size.marks)
    return _too_slow(
        words, case, step, {SPEED: spare, SYMBOL: symbol.speed_kmh}, {"tyre": "snow" if snow else "normal"}, law
    )


def _too_slow(
    words: str, case: Case, step: Step, figures: dict[str, float], facts: dict[str, str], law: RuleSet
) -> Finding:
    """The symbol is below the greatest speed: what the rules of the countries asked for say about it."""
    rules = [rule for rule in law.rules if rule.quantity in figures and applicability(rule, facts).applies]
    broken = [rule for rule in rules if not keeps(rule, figures[rule.quantity])]
    kept = [rule for rule in rules if rule not in broken]
    if broken:
        rule = broken[0]
        steps = (step, _cited(rule))
        return Finding(
            QUESTION,
            Verdict.FAIL,
            f"{words}: {rule.jurisdiction}: {say(rule.breach)}",
            None,
            case,
            Evidence.STATED,
            steps,
            say(rule.what_to_do),
        )
    if kept:
        rule = kept[0]
        text = say("{words}: allowed for snow tyres by exception ({citation}).", words=words, citation=rule.citation)
        return Finding(
            QUESTION, Verdict.CAUTION, text, None, case, Evidence.STATED, (step, _cited(rule)), say(rule.what_to_do)
        )
    text = say("{words}: no rule known here allows that.", words=words)
    return Finding(
        QUESTION,
        Verdict.CAUTION,
        text,
        None,
        case,
        Evidence.STATED,
        (step,),
        say("Take it as refused until the inspector says otherwise."),
    )


def _cited(rule: Rule) -> Step:
    return Step(say(rule.title), f"{rule.citation} ({seen_word(rule.how_seen)})")


def _unknown(sentence: str, case: Case) -> Finding:
    return Finding(QUESTION, Verdict.UNKNOWN, sentence, None, case, Evidence.NONE)
