"""Which gives way first when a thread is pulled too hard: the bolt, its own thread, or the thread in hub or nut?"""

from __future__ import annotations

from hubwright.checks import assumed
from hubwright.checks.assumed import Assumed
from hubwright.checks.clamp import Clamp, kilonewtons
from hubwright.checks.joint import Choice
from hubwright.engineering.joint.strip import StripStrength, ThreadLimits, strip_strength
from hubwright.errors import BadInput, OutsideValidity
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import marked, say
from hubwright.language.part_words import material_word
from hubwright.language.words import side_word
from hubwright.parts.hub import Fastener, Hub
from hubwright.quantities.axes import Side
from hubwright.quantities.text import joined, length, number
from hubwright.tables.property_classes import property_class
from hubwright.tables.thread_limits import limits_of_size
from hubwright.tables.threads import thread
from hubwright.uncertainty.band import Band, corners, exactly

QUESTION = "joint"
STRENGTH_MPA = {"steel": Band(500, 700, 900), "aluminium": Band(200, 260, 320)}
SHEAR_RATIO = {"steel": 0.6, "aluminium": 0.7}
BOLT_SHEAR_RATIO = 0.62
RATIO_SOURCE = marked("shear over tensile strength 0.62 bolt, 0.6 steel, 0.7 aluminium (VDI 2230, from memory)")
SOURCE = marked("FED-STD-H28/2B (areas), Alexander SAE 770420 as used in VDI 2230 (strengths)")


def hub_strength(hub: Hub, fastener: Fastener) -> Assumed:
    """Tensile strength of what the thread is cut in: as stated, else by material, else by anything it may be."""
    what = say("strength of the nut") if fastener.kind == "nut" else say("strength of the hub")
    if hub.thread_strength_mpa is not None:
        return Assumed(what, exactly(hub.thread_strength_mpa), False, say("stated in the job"), "MPa", 0)
    material = _material(hub, fastener)
    if material is None:
        low, high = STRENGTH_MPA["aluminium"].low, STRENGTH_MPA["steel"].high
        return Assumed(
            what,
            assumed.between((low, high)),
            True,
            say("{guess}: nobody stated the material", guess=say(assumed.GUESS)),
            "MPa",
            0,
        )
    return Assumed(
        what,
        STRENGTH_MPA[material],
        True,
        say("{guess} for {material}", guess=say(assumed.GUESS), material=material_word(material)),
        "MPa",
        0,
    )


def _material(hub: Hub, fastener: Fastener) -> str | None:
    return "steel" if fastener.kind == "nut" else hub.material


def strength_of(hub: Hub, fastener: Fastener, engaged_mm: float) -> StripStrength | tuple[str, ...]:
    """Forces at which bolt, bolt thread and hub thread give way, or what is missing."""
    needs = []
    if fastener.thread is None:
        return (say("the thread of the fasteners"),)
    of, size = thread(fastener.thread), None
    size = limits_of_size(of.designation)
    if size is None or size.nut_minor_max_mm is None or size.nut_pitch_max_mm is None:
        needs.append(say("limits of size of {designation}, which the table does not have", designation=of.designation))
    if fastener.property_class is None:
        needs.append(say("the property class of the fasteners"))
    if engaged_mm <= 0:
        needs.append(say("some thread engaged"))
    if (
        needs
        or size is None
        or size.nut_minor_max_mm is None
        or size.nut_pitch_max_mm is None
        or fastener.property_class is None
    ):
        return tuple(needs)
    try:
        bolt = property_class(fastener.property_class, of.d_mm)
    except (BadInput, OutsideValidity):
        return (say("a property class the table knows"),)
    limits = ThreadLimits(
        size.pitch_mm,
        size.bolt_major_min_mm,
        size.bolt_major_max_mm,
        size.bolt_pitch_min_mm,
        size.bolt_pitch_max_mm,
        of.minor_internal_mm,
        size.nut_minor_max_mm,
        of.d2_mm,
        size.nut_pitch_max_mm,
    )
    strength = hub_strength(hub, fastener).band
    ratio = SHEAR_RATIO[_material(hub, fastener) or "steel"]

    def at(nut_mpa: float) -> StripStrength:
        return strip_strength(
            limits,
            engaged_mm=engaged_mm,
            stress_area_mm2=of.stress_area_mm2,
            bolt_strength_mpa=bolt.tensile_min_mpa,
            nut_strength_mpa=nut_mpa,
            bolt_shear_ratio=BOLT_SHEAR_RATIO,
            nut_shear_ratio=ratio,
        )

    low, middle, high = at(strength.low), at(strength.nominal), at(strength.high)
    return StripStrength(
        corners(lambda f: f, _span(low.bolt_thread_n, middle.bolt_thread_n, high.bolt_thread_n)),
        corners(lambda f: f, _span(low.nut_thread_n, middle.nut_thread_n, high.nut_thread_n)),
        middle.bolt_break_n,
    )


def _span(low: Band, middle: Band, high: Band) -> Band:
    return Band(min(low.low, middle.low, high.low), middle.nominal, max(low.high, middle.high, high.high))


def judge(hub: Hub, fastener: Fastener | None, side: Side, choice: Choice | None, clamp: Clamp | None) -> Finding:
    """Whether the thread that is engaged with the disc outlasts the bolt, and if not, the clamp."""
    case = Case(side, say("thread"))
    if fastener is None or choice is None:
        return _unknown(
            say("{side}: thread stripping: unknown: needs fasteners that reach.", side=side_word(side)), case
        )
    found = strength_of(hub, fastener, choice.engagement_mm)
    if isinstance(found, tuple):
        return _unknown(
            say(
                "{side}, {wheel_set}: thread stripping: unknown: needs {found}.",
                side=side_word(side),
                wheel_set=choice.wheel_set,
                found=joined(found),
            ),
            case,
        )
    hub_assumed = hub_strength(hub, fastener)
    weakest = Band(
        min(found.bolt_thread_n.low, found.nut_thread_n.low),
        min(found.bolt_thread_n.nominal, found.nut_thread_n.nominal),
        min(found.bolt_thread_n.high, found.nut_thread_n.high),
    )

    steps = (
        Step(
            say(
                "engaged {engagement}, class {property_class}",
                engagement=length(choice.engagement_mm),
                property_class=fastener.property_class,
            ),
            say("with the disc and the fasteners chosen"),
        ),
        hub_assumed.step,
        Step(
            say(
                "bolt thread strips at {bolt_thread}, hub or nut thread at {nut_thread}",
                bolt_thread=kilonewtons(found.bolt_thread_n),
                nut_thread=kilonewtons(found.nut_thread_n),
            ),
            say(SOURCE),
        ),
        Step(
            say("bolt breaks at {bolt_break} kN or more", bolt_break=number(found.bolt_break_n / 1000, 0)),
            say("ISO 898-1, Rm × As"),
        ),
        Step(say(RATIO_SOURCE), say("from memory")),
    )
    grade = Evidence.PREDICTED if hub_assumed.guessed else Evidence.MEASURED
    where = say("{side}, {set}", side=side_word(side), set=choice.wheel_set)
    if weakest.low >= found.bolt_break_n:
        words = say(
            "{where}: the bolt breaks before {engagement} of thread strips.",
            where=where,
            engagement=length(choice.engagement_mm),
        )
        return Finding(QUESTION, Verdict.PASS, words, None, case, grade, steps)
    against = None if clamp is None else clamp.preload_n
    places = {"where": where, "engagement": length(choice.engagement_mm), "force": kilonewtons(weakest)}
    if found.nut_thread_n.nominal < found.bolt_thread_n.nominal:
        words = say(
            "{where}: with {engagement} in use the hub or nut thread may strip ({force}) before the bolt breaks",
            **places,
        )
    else:
        words = say(
            "{where}: with {engagement} in use the bolt thread may strip ({force}) before the bolt breaks", **places
        )
    todo = say("A stripped thread shows no warning: keep to the record, no impact wrench to the end.")
    if against is None:
        return Finding(QUESTION, Verdict.CAUTION, say("{words}.", words=words), None, case, grade, steps, todo)
    words = say("{words}; tightening reaches {against}.", words=words, against=kilonewtons(against))
    whole = weakest.high < against.low and not hub_assumed.guessed and clamp is not None and not clamp.guesses
    return Finding(QUESTION, Verdict.FAIL if whole else Verdict.CAUTION, words, None, case, grade, steps, todo)


def _unknown(sentence: str, case: Case) -> Finding:
    return Finding(QUESTION, Verdict.UNKNOWN, sentence, None, case, Evidence.NONE)
