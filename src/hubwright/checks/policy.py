"""House rules about a disc as such, and whether it belongs on this hub at all."""

from __future__ import annotations

from hubwright.checks.house import House
from hubwright.errors import BadInput
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import say
from hubwright.language.words import kind_word
from hubwright.parts.hole_circle import HoleCircle, read_hole_circle
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.job import Wish
from hubwright.parts.shop import StockDisc
from hubwright.quantities.text import joined, thickness

QUESTION = "policy"
SAME_CIRCLE_MM = 0.2
"""Two hole circles further apart than this are not the same; a guess."""


def judge(hub: Hub, fastener: Fastener | None, wish: Wish | None, house: House, disc: StockDisc) -> Finding:
    """Whether the shop would fit this disc here, apart from every measure."""
    against = list(_objections(hub, fastener, wish, house, disc))
    if against:
        return Finding(
            QUESTION,
            Verdict.FAIL,
            say("House rules: {against}.", against=joined(against)),
            None,
            Case("both", say("house rules")),
            Evidence.NONE,
            (Step(joined(against), say("policy of the shop")),),
        )
    return Finding(
        QUESTION,
        Verdict.PASS,
        say("House rules: nothing against it; one disc per hub, no studs cut."),
        None,
        Case("both", say("house rules")),
        Evidence.NONE,
    )


def _objections(hub: Hub, fastener: Fastener | None, wish: Wish | None, house: House, disc: StockDisc) -> list[str]:
    found = []
    largest = house.policy.largest_bolt_through_mm
    if largest is not None and disc.kind != "bolted" and disc.thickness_mm > largest:
        found.append(say("discs with through fasteners only up to {largest}", largest=thickness(largest)))
    if wish is not None and wish.discs and disc.kind not in wish.discs:
        found.append(
            say("the customer wants {discs} discs only", discs=joined([kind_word(kind) for kind in wish.discs], "or"))
        )
    if disc.bolt_circle and hub.bolt_circle and not same_circle(disc.bolt_circle, hub.bolt_circle):
        found.append(
            say(
                "a {bolt_circle} disc does not go on a {bolt_circle2} hub",
                bolt_circle=disc.bolt_circle,
                bolt_circle2=hub.bolt_circle,
            )
        )
    if (
        disc.kind == "bolted"
        and fastener is not None
        and fastener.kind == "bolt"
        and hub.stud_length_mm is None
        and disc.counterbore_mm is None
    ):
        found.append(say("this adapter states no counterbore for the bolts that hold it"))
    return found


def same_circle(first: str, second: str) -> bool:
    """Whether two designations name the same hole circle; texts that cannot be read differ."""
    try:
        a, b = read_hole_circle(first), read_hole_circle(second)
    except BadInput:
        return False
    return is_same(a, b)


def is_same(a: HoleCircle, b: HoleCircle) -> bool:
    """Whether two hole circles are the same."""
    return a.holes == b.holes and abs(a.diameter_mm - b.diameter_mm) <= SAME_CIRCLE_MM
