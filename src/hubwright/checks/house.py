"""What the shop demands of this car: margins for its use and the house rules, resolved once."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hubwright.language import say
from hubwright.language.words import use_word
from hubwright.parts.job import Job
from hubwright.parts.shop import Policy
from hubwright.quantities.reading import Reading
from hubwright.tables.margins import margins


@dataclass(frozen=True)
class House:
    """Margins in mm by kind of neighbour, and the policy they come from.

    Attributes:
        margin_mm: ``body``, ``carried``, ``hose`` and ``caliper``.
        margin_source: Where each comes from.
        policy: House rules.
    """

    margin_mm: dict[str, float]
    margin_source: dict[str, str]
    policy: Policy

    def guard_mm(self, doubt_mm: float) -> float:
        """What a doubt costs: ``k u``."""
        return self.policy.doubt_k * doubt_mm

    def stated_guard_mm(self, *readings: Reading | None) -> float:
        """What the doubts of readings cost where somebody stated or showed them, added as squares.

        Used where the house rule already holds a reserve (pilot, engagement, caliper): a doubt that is only a guess
        costs nothing there, the spread of repeats does.
        """
        known = [replace(reading, u=reading.u or 0.0).doubt for reading in readings if reading is not None]
        return self.guard_mm(math.hypot(*known))


def house_of(job: Job) -> House:
    """The margins of the car's use, overruled where the shop states its own."""
    usual = margins(job.request.use)
    table = {
        "body": usual.tyre_to_body_mm,
        "carried": usual.tyre_to_carried_parts_mm,
        "hose": usual.tyre_to_hose_or_steering_mm,
        "caliper": usual.wheel_to_caliper_mm,
    }
    own = job.shop.policy.margins
    stated = {"body": own.body_mm, "carried": own.carried_mm, "hose": own.hose_mm, "caliper": own.caliper_mm}
    return House(
        margin_mm={kind: table[kind] if value is None else value for kind, value in stated.items()},
        margin_source={
            kind: say("{source}, use {use}", source=say(usual.source), use=use_word(usual.use))
            if value is None
            else say("policy of the shop")
            for kind, value in stated.items()
        },
        policy=job.shop.policy,
    )
