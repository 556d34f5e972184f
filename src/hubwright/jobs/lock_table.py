"""Gaps read at lock, with and without a disc: what a view from above shows where no scan is at hand."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.checks.clearance import Swept, room_of
from hubwright.checks.house import house_of
from hubwright.findings import Evidence, Verdict
from hubwright.language.place_words import place_word
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import DIRECTIONS, SIDES, Side, spin_axis, to_left
from hubwright.quantities.rounding import at_least

AT_LOCK_DEG = 1.0
"""A steer beyond this counts as steered."""


@dataclass(frozen=True)
class LockGap:
    """One point at one lock, in the state that leaves least with the disc.

    Attributes:
        side, point: Where.
        toward: Direction in which it was read: outboard, inboard, forward or rearward.
        steer_deg: Of the wheel, left turn positive; travel_mm: bump positive.
        bare_mm, gap_mm: Without and with the disc.
        wanted_mm: Margin, doubt and give.
        left_mm: What is left over; negative = short.
        push: Share of the thickness that the gap loses.
        evidence: What it rests on.
    """

    side: Side
    point: str
    toward: str
    steer_deg: float
    travel_mm: float
    bare_mm: float
    gap_mm: float
    wanted_mm: float
    left_mm: float
    push: float
    evidence: Evidence

    @property
    def verdict(self) -> Verdict:
        """Whether enough is left."""
        return Verdict.PASS if at_least(self.left_mm, 0.0) else Verdict.FAIL


@dataclass(frozen=True)
class LockView:
    """One wheel at one lock: every point read there, the tightest first; the spin axis forward and outboard."""

    side: Side
    steer_deg: float
    axis: tuple[float, float]
    gaps: tuple[LockGap, ...]


def lock_views(job: Job, name: AxleName, thickness_mm: float, *, with_work: bool = False) -> tuple[LockView, ...]:
    """Every lock at which anything was read, left side first; empty where nothing was."""
    axle, house = dict(job.axles)[name], house_of(job)
    found: dict[tuple[Side, int], list[LockGap]] = {}
    for side in SIDES:
        room = room_of(axle, side, house, steered=job.is_steered(name), with_work=with_work)
        for swept in room.swept:
            if abs(swept.curve.steer_deg) > AT_LOCK_DEG:
                gap = _gap(swept, side, thickness_mm)
                found.setdefault((side, round(gap.steer_deg)), []).append(gap)
    return tuple(
        LockView(side, steer, _axis(side, steer), tuple(sorted(gaps, key=lambda gap: gap.left_mm)))
        for (side, steer), gaps in sorted(found.items(), key=lambda item: (SIDES.index(item[0][0]), -item[0][1]))
    )


def _gap(swept: Swept, side: Side, thickness_mm: float) -> LockGap:
    curve = swept.curve
    slack = swept.slack_at(thickness_mm)
    state = int(slack.argmin())
    bare = float(curve.gap_mm[state] + swept.gain_mm)
    push = float(curve.push[state])
    wanted = swept.margin_mm + float(swept.guard_mm[state]) + float(swept.compliance_mm[state])
    return LockGap(
        side, place_word(curve.point.name), curve.point.direction, curve.steer_deg, float(curve.travel_mm[state]), bare,
        bare - push * thickness_mm, wanted, float(slack[state]), push, curve.evidence[state],
    )  # fmt: skip


def _axis(side: Side, steer_deg: float) -> tuple[float, float]:
    """Spin axis seen from above: forward and outboard."""
    forward, outboard, _ = spin_axis(0.0, to_left(side, steer_deg))
    return forward, outboard


def direction(toward: str) -> tuple[float, float]:
    """A direction seen from above: forward and outboard."""
    forward, outboard, _ = DIRECTIONS[toward]
    return forward, outboard
