"""What the fitted tyres do to the speedometer, beside those of the placard. A disc leaves it as it is."""

from __future__ import annotations

import math

from hubwright.checks.effect import Effect, changed
from hubwright.checks.package_law import R39_SPEEDS_KMH
from hubwright.checks.rolling import radius_of
from hubwright.engineering.handling.change import Change
from hubwright.engineering.tyrewheel.replace import indicated_speed_limits_kmh
from hubwright.findings import Step
from hubwright.language import marked, say
from hubwright.parts.job import Axle, Job
from hubwright.parts.wheel import Tyre
from hubwright.quantities.text import length, number, percent, plain

TOPIC = "speed"
R39 = marked("UN R39 5.3: 0 ≤ V1 − V2 ≤ V2/10 + 4 km/h; true speeds of 5.2.5 (from memory)")


def speed_effects(job: Job, axle: Axle) -> tuple[Effect, ...]:
    """Circumference against the placard's tyre and what the speedometer shows; what is not stated is named."""
    return (_circumference(axle), _shown(job))


def _circumference(axle: Axle) -> Effect:
    fitted = radius_of(axle.fitted.tyre) if axle.fitted is not None else None
    series = radius_of(Tyre(designation=axle.series_tyre)) if axle.series_tyre else None
    needs = tuple(
        words
        for found, words in ((fitted, say("the size of the fitted tyre")), (series, say("the tyre of the placard")))
        if found is None
    )
    if fitted is None or series is None:
        text = say("How far the fitted tyres roll against those of the placard is not known.")
        return Effect("rolling circumference", TOPIC, "mm", text, known=False, needs=needs)
    around = Change(2.0 * math.pi * series[0], 2.0 * math.pi * fitted[0])
    share = around.with_disc / around.standard - 1.0
    text = say(
        "The fitted tyre is {share} around against the {series} of the placard, so the speedometer shows {shown} "
        "against it. A disc changes neither.",
        share=percent(share), series=axle.series_tyre, shown=percent(1.0 / (1.0 + share) - 1.0),
    )  # fmt: skip
    step = Step(f"2π × {length(fitted[0])} / (2π × {length(series[0])}) − 1 = {percent(share)}", series[1].source)
    return changed("rolling circumference", TOPIC, "mm", around, text, fitted[1], series[1], step)


def _shown(job: Job) -> Effect:
    lead = job.car.speedometer_lead_percent
    if lead is None:
        text = say("What the speedometer shows with the fitted tyres was not read.")
        needs = (say("what the speedometer shows at a true speed"),)
        return Effect("speedometer", TOPIC, "km/h", text, known=False, needs=needs)
    broken = [true for true in R39_SPEEDS_KMH if not _lawful(true, true * (1.0 + lead / 100.0))]
    shown = number(100.0 + lead, 1)
    if broken:
        text = say("The speedometer shows {shown} km/h at a true 100: outside UN R39 at {true} km/h.",
                   shown=shown, true=plain(broken[0]))  # fmt: skip
    else:
        text = say("The speedometer shows {shown} km/h at a true 100: within UN R39.", shown=shown)
    step = Step(say("read on the road: shown over true {lead}", lead=percent(lead / 100.0, 1)), R39)
    return Effect("speedometer", TOPIC, "km/h", text, 100.0, 100.0 + lead, alarm=bool(broken), working=(step,))


def _lawful(true_kmh: float, shown_kmh: float) -> bool:
    low, high = indicated_speed_limits_kmh(true_kmh)
    return low - 1e-9 <= shown_kmh <= high + 1e-9
