"""What is assumed where nobody measured it: from the shop where it states it, else a guess that is printed as one."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.findings import Step
from hubwright.language import marked, say
from hubwright.parts.assumptions import Assumptions
from hubwright.quantities.text import number
from hubwright.uncertainty.band import Band, exactly

SHOP = marked("stated by the shop")
GUESS = marked("guess of the program")


@dataclass(frozen=True)
class Assumed:
    """A range, whether it is a guess, and where it is from."""

    what: str
    band: Band
    guessed: bool
    source: str
    unit: str = ""
    decimals: int = 2

    @property
    def words(self) -> str:
        """Such as ``grip of the tyre 0.90 to 1.10``."""
        low, high = number(self.band.low, self.decimals), number(self.band.high, self.decimals)
        span = low if low == high else say("{low} to {high}", low=low, high=high)
        return f"{self.what} {span}{f' {self.unit}' if self.unit else ''}"

    @property
    def step(self) -> Step:
        """As a line of working."""
        return Step(say("{words} (guess)", words=self.words) if self.guessed else self.words, self.source)


def between(values: tuple[float, ...]) -> Band:
    """The band from one or two figures."""
    low, high = min(values), max(values)
    return Band(low, (low + high) / 2, high)


def face_friction(own: Assumptions) -> Assumed:
    """Friction of hub face against disc and disc against wheel."""
    what = say("friction of the faces")
    if own.face_friction:
        return Assumed(what, between(own.face_friction), False, say(SHOP))
    return Assumed(
        what,
        Band(0.10, 0.15, 0.20),
        True,
        say("{guess}: clean, dry metal faces; paint or rust leaves less", guess=say(GUESS)),
    )


def grip(own: Assumptions) -> Assumed:
    """Grip of the tyre, for braking, driving and cornering alike."""
    if own.grip:
        return Assumed(say("grip of the tyre"), between(own.grip), False, say(SHOP))
    return Assumed(
        say("grip of the tyre"), Band(0.9, 1.0, 1.1), True, say("{guess}: road tyres on dry asphalt", guess=say(GUESS))
    )


def kerb_factors(own: Assumptions) -> tuple[Assumed, Assumed, Assumed]:
    """Kerb strike: vertical, sideways and fore-aft force over the standing wheel load."""
    guessed = len(own.kerb_factors) != 3
    factors = (2.0, 1.0, 1.0) if guessed else own.kerb_factors
    source = say("{guess}: common practice, no source", guess=say(GUESS)) if guessed else say(SHOP)
    names = (
        say("kerb, vertical force over wheel load"),
        say("kerb, side force over wheel load"),
        say("kerb, fore-aft force over wheel load"),
    )
    first, second, third = (
        Assumed(name, exactly(f), guessed, source, "", 1) for name, f in zip(names, factors, strict=True)
    )
    return first, second, third


def wrench(own: Assumptions) -> Assumed:
    """How far the wrench may be off, percent."""
    if own.wrench_percent is not None:
        return Assumed(say("wrench good to"), exactly(own.wrench_percent), False, say(SHOP), "%", 0)
    return Assumed(
        say("wrench good to"),
        exactly(4.0),
        True,
        say("ISO 6789 permissible deviation above 10 N·m (from memory)"),
        "%",
        0,
    )


def roughness(own: Assumptions) -> Assumed:
    """Roughness Rz of the clamped faces."""
    if own.roughness_um is not None:
        return Assumed(say("roughness Rz"), exactly(own.roughness_um), False, say(SHOP), "µm", 0)
    return Assumed(
        say("roughness Rz"), exactly(25.0), True, say("{guess}: turned or milled faces", guess=say(GUESS)), "µm", 0
    )


def hat_rise(own: Assumptions) -> Assumed:
    """How much warmer the brake disc's hat is than when it was tightened."""
    if own.hat_rise_k is not None:
        return Assumed(say("hat warmer by"), exactly(own.hat_rise_k), False, say(SHOP), "K", 0)
    return Assumed(
        say("hat warmer by"),
        Band(0.0, 60.0, 150.0),
        True,
        say("{guess}: cold to hard braking", guess=say(GUESS)),
        "K",
        0,
    )


def rest_rise(own: Assumptions) -> Assumed:
    """How much warmer wheel, disc and bolts are."""
    if own.rest_rise_k is not None:
        return Assumed(say("wheel, disc and bolts warmer by"), exactly(own.rest_rise_k), False, say(SHOP), "K", 0)
    return Assumed(
        say("wheel, disc and bolts warmer by"),
        Band(-40.0, 20.0, 80.0),
        True,
        say("{guess}: winter cold to hard braking", guess=say(GUESS)),
        "K",
        0,
    )


def side_g(own: Assumptions) -> Assumed:
    """Side acceleration the bend is looked at with."""
    if own.side_g is not None:
        return Assumed(say("bend at"), exactly(own.side_g), False, say(SHOP), "g", 1)
    return Assumed(
        say("bend at"),
        exactly(0.5),
        True,
        say("{guess}: a brisk bend; the changes in percent hardly depend on it", guess=say(GUESS)),
        "g",
        1,
    )


def seat_error(own: Assumptions) -> Assumed:
    """How far a seat may be out of square with the thread."""
    if own.seat_error_deg is not None:
        return Assumed(say("seat out of square by"), exactly(own.seat_error_deg), False, say(SHOP), "°", 2)
    return Assumed(say("seat out of square by"), exactly(0.1), True, say(GUESS), "°", 2)
