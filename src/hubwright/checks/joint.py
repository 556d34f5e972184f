"""One wheel's joint as the fastener checks see it: what holds it, within which limits, and what was tried."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hubwright.checks.house import House
from hubwright.findings import Case, Finding, Verdict
from hubwright.language import marked, say
from hubwright.language.words import seat_word, side_word
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.shop import Shop, StockFastener
from hubwright.parts.wheel import WheelSet
from hubwright.quantities.axes import Side
from hubwright.quantities.text import length, plain
from hubwright.tables.threads import Thread, thread, turns

QUESTION = "fastener"
STACK = marked(
    "geometry of the stack; floor 0.8 d (German test practice, secondary), wanted 1.0 d and more (common practice, no source)"
)


@dataclass(frozen=True)
class Choice:
    """What holds the wheel with the disc fitted.

    Attributes:
        kind: bolt or nut.
        thread: Designation.
        seat: Seat, with its radius where it is a ball.
        length_mm: Bolt or stud length; None where nothing changes but the disc.
        engagement_mm, engagement_turns: With the disc fitted, brake disc fitted.
        change: Whether other fasteners than today's are needed.
        wheel_set: Which wheels it belongs to.
    """

    kind: str
    thread: str
    seat: str
    length_mm: float | None
    engagement_mm: float
    engagement_turns: float
    change: bool
    wheel_set: str

    @property
    def title(self) -> str:
        """Such as ``bolts M14x1.5, cone seat, 33 mm`` or ``nuts M12x1.5, cone seat, on studs of 38 mm``."""
        words = [
            say("bolts {thread}", thread=self.thread)
            if self.kind == "bolt"
            else say("nuts {thread}", thread=self.thread),
            say("{seat} seat", seat=self.seat) if self.seat else "",
        ]
        if self.length_mm is not None:
            size = plain(self.length_mm)
            words.append(say("on studs of {size} mm", size=size) if self.kind == "nut" else f"{size} mm")
        return ", ".join(word for word in words if word)


@dataclass(frozen=True)
class Fastening:
    """Finding and choice for one disc on one wheel set."""

    finding: Finding
    choice: Choice | None


@dataclass(frozen=True)
class Limits:
    """Engagement allowed in one hub; ``most_mm`` None = what stands behind it was not read."""

    floor_mm: float
    wanted_mm: float
    most_mm: float | None
    most_why: str


@dataclass(frozen=True)
class Joint:
    """One wheel set on one side: whose it is, its fasteners and thread, its limits, and the shelf and rules it meets."""

    wheel_set: WheelSet
    side: Side
    fastener: Fastener
    thread: Thread
    limits: Limits
    shop: Shop
    house: House

    @property
    def case(self) -> Case:
        """Side and wheel set."""
        return Case(self.side, self.wheel_set.title)

    @property
    def where(self) -> str:
        """The same in words."""
        return say("{side}, {set}", side=side_word(self.side), set=self.wheel_set.title)


@dataclass(frozen=True)
class Try:
    """One length, tried with one disc."""

    length_mm: float
    engaged_mm: float
    verdict: Verdict
    words: str


def fastener_of(wheel_set: WheelSet, fitted: Fastener | None) -> Fastener | None:
    """The fasteners of a wheel set: its own, else those of the fitted wheels without their engagement.

    Another wheel has another pad under the fastener, so an engagement counted with the fitted wheels says nothing
    about it.
    """
    if wheel_set.fastener is not None or fitted is None:
        return wheel_set.fastener
    return fitted if wheel_set.role == "fitted" else replace(fitted, engagement_mm=None, engagement_turns=None)


def seat_words(fastener: Fastener | StockFastener) -> str:
    """``cone``, ``ball R13`` or ``flat``."""
    if fastener.seat == "ball" and fastener.seat_radius_mm is not None:
        return say("ball R{seat_radius}", seat_radius=plain(fastener.seat_radius_mm))
    return seat_word(fastener.seat or "")


def limits_of(hub: Hub, of: Thread, house: House) -> Limits:
    """Floor, wanted and most engagement in this hub."""
    policy = house.policy
    wanted_d = policy.engagement_wanted_aluminium_d if hub.material == "aluminium" else policy.engagement_wanted_steel_d
    floor, wanted = policy.engagement_floor_d * of.d_mm, wanted_d * of.d_mm
    if hub.blind_depth_mm is not None:
        most = hub.blind_depth_mm.value - policy.tip_clearance_mm
        return Limits(
            floor, wanted, most, say("{most} before the tip comes near the bottom of the hole", most=length(most))
        )
    if hub.flange_thickness_mm is not None and hub.free_behind_mm is not None:
        most = hub.flange_thickness_mm.value + hub.free_behind_mm.value - policy.tip_clearance_mm
        return Limits(
            floor,
            wanted,
            most,
            say(
                "{most} before the tip comes within {tip_clearance} of what stands behind the flange",
                most=length(most),
                tip_clearance=length(policy.tip_clearance_mm),
            ),
        )
    return Limits(floor, wanted, None, "")


def stock_lengths(fastener: Fastener, of: Thread, shop: Shop, kind: str) -> tuple[float, ...]:
    """Stock lengths of the same thread, seat and radius, ascending."""
    return tuple(
        sorted(
            {
                size
                for stock in shop.fastener
                if stock.kind == kind
                and thread(stock.thread).designation == of.designation
                and (
                    kind == "stud" or (stock.seat == fastener.seat and stock.seat_radius_mm == fastener.seat_radius_mm)
                )
                for size in stock.lengths_mm
            }
        )
    )


def choice_of(joint: Joint, kind: str, best: Try, changed: bool) -> Choice:
    """The length that was picked, as what holds the wheel."""
    return Choice(
        kind,
        joint.thread.designation,
        seat_words(joint.fastener),
        best.length_mm,
        best.engaged_mm,
        turns(best.engaged_mm, joint.thread),
        changed,
        joint.wheel_set.title,
    )
