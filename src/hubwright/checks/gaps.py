"""The gap at one point over the whole travel: swept readings, or a parked reading carried through the travel."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise

import numpy as np

from hubwright.checks.half_widths import HALF_WIDTH_DOUBT_MM, HalfWidth, membrane_half_width, read_half_width
from hubwright.engineering.placement import (
    Array,
    Curve,
    gap_change,
    push,
    sagitta,
    smooth_through,
)
from hubwright.findings import Evidence
from hubwright.language import say
from hubwright.parts.corner import GapReading, MotionReading, Point
from hubwright.parts.job import Axle
from hubwright.quantities.axes import Side, to_left
from hubwright.quantities.reading import Reading

STEP_MM = 0.25
"""Travel between states looked at; the gap changes by far less than 0.05 mm over it."""
REACH_MM = 3.0
"""A travel within this of a reading counts as read there."""
FAR_MM = 15.0
"""Between readings and further than this from both, a gap counts as predicted, with half the model's doubt (its curve
meets both readings); a guess."""
SAME_STEER_DEG = 1.0
DISAGREE_K = 2.0
"""Readings with different discs further apart than so many joint doubts are not of the same car as it stands."""
ANGLE_DOUBT_DEG = 0.1
"""Of a camber nobody stated a doubt for; a guess."""
STEEPEST_CAMBER_DEG = 20.0
"""A camber carried on beyond its readings stops here, where readings are refused as well."""
EDGE_MM = 1e-6
"""Kept from the ends of what a model holds for, so that float noise does not step over them."""


@dataclass(frozen=True)
class Motion:
    """Camber and half-track by travel at one corner. ``guessed`` names what no reading stands behind."""

    camber: Curve
    half_track: Curve
    low_mm: float
    high_mm: float
    camber_doubt_deg: float
    half_track_doubt_mm: float


@dataclass(frozen=True)
class GapCurve:
    """Bare gap by travel at one point and one steer angle.

    Attributes:
        side, point: Where.
        steer_deg: Of the wheel, left turn positive.
        travel_mm: Ascending, shape (n,).
        gap_mm: Bare gap, shape (n,).
        doubt_mm: Standard uncertainty, shape (n,).
        push: Share of a disc's thickness taken from the gap, shape (n,).
        read_mm: Travels at which it was read.
        evidence: By state, shape (n,).
        model: How the states between and beyond the readings were found, in words.
    """

    side: Side
    point: Point
    steer_deg: float
    travel_mm: Array
    gap_mm: Array
    doubt_mm: Array
    push: Array
    read_mm: tuple[float, ...]
    evidence: tuple[Evidence, ...]
    model: str


def motion_of(axle: Axle, side: Side) -> Motion | None:
    """How this corner moves, from its own readings or the axle's; None when nobody read camber at two heights."""
    corner = axle.corner(side)
    readings = sorted(corner.motion or axle.motion, key=lambda item: item.travel_mm)
    if len(readings) < 2:
        return None
    travel = np.array([item.travel_mm for item in readings])
    tracked = [item for item in readings if item.half_track_mm is not None]
    return Motion(
        camber=smooth_through(travel, np.array([item.camber_deg.value for item in readings])),
        half_track=_half_track(tracked),
        low_mm=float(travel[0]),
        high_mm=float(travel[-1]),
        camber_doubt_deg=max(
            item.camber_deg.u if item.camber_deg.u is not None else ANGLE_DOUBT_DEG for item in readings
        ),
        half_track_doubt_mm=max((item.half_track_mm.doubt for item in tracked if item.half_track_mm), default=1.0),
    )


def _half_track(tracked: list[MotionReading]) -> Curve:
    if not tracked:
        return lambda at: np.zeros(np.shape(at))
    travel = np.array([item.travel_mm for item in tracked])
    return smooth_through(travel, np.array([item.half_track_mm.value for item in tracked if item.half_track_mm]))


def camber_at(axle: Axle, side: Side, travel_mm: Array) -> Array:
    """Camber by travel: read, else the parked one throughout, else upright (only its cosine matters here)."""
    motion = motion_of(axle, side)
    if motion is not None:
        return np.clip(motion.camber(travel_mm), -STEEPEST_CAMBER_DEG, STEEPEST_CAMBER_DEG)
    parked = axle.corner(side).camber_deg
    return np.full(np.shape(travel_mm), parked.value if parked else 0.0)


def curves_of(axle: Axle, side: Side, point: Point, curvature_mm: float) -> tuple[GapCurve, ...]:
    """The bare gap of one point over the travel, one curve for each steer angle read."""
    readings = sorted(point.reading, key=lambda item: (item.steer_deg, item.travel_mm))
    return tuple(_curve(axle, side, point, group, curvature_mm) for group in _by_steer(readings))


def _by_steer(readings: list[GapReading]) -> list[list[GapReading]]:
    groups: list[list[GapReading]] = []
    for reading in readings:
        if groups and reading.steer_deg - groups[-1][0].steer_deg <= SAME_STEER_DEG:
            groups[-1].append(reading)
        else:
            groups.append([reading])
    return groups


@dataclass(frozen=True)
class _Knot:
    travel_mm: float
    gap_mm: float
    doubt_mm: float
    evidence: Evidence


def _curve(axle: Axle, side: Side, point: Point, group: list[GapReading], curvature_mm: float) -> GapCurve:
    steer = group[0].steer_deg
    knots = [
        _knot(axle, side, point, list(same))
        for _, same in groupby(
            sorted(group, key=lambda item: item.travel_mm), key=lambda item: round(item.travel_mm, 2)
        )
    ]
    model = _model(axle, side, point, steer)
    travel = _states(axle, point, knots, model.reach)
    gap, doubt, evidence = _through(knots, travel, model, curvature_mm, _model_doubt(axle, side, point, model))
    cambers = camber_at(axle, side, travel)
    corner_steer = to_left(side, steer)
    pushes = np.array([push(point.direction, float(camber), corner_steer) for camber in cambers])
    return GapCurve(
        side, point, steer, travel, gap, doubt, pushes, tuple(knot.travel_mm for knot in knots), evidence, model.words
    )


def _knot(axle: Axle, side: Side, point: Point, same: list[GapReading]) -> _Knot:
    """One state: repeats are averaged; rounds read with the car turned cancel the slope of the floor.

    Readings with different discs that disagree beyond their doubts are no repeats: something was done to the car between
    them, or one is wrong. Then the least free air counts.
    """
    camber = float(camber_at(axle, side, np.array([same[0].travel_mm]))[0])
    share = push(point.direction, camber, to_left(side, same[0].steer_deg))
    gaps = [point.gap(reading) for reading in same]
    bare = [gap.value + share * reading.disc_mm for gap, reading in zip(gaps, same, strict=True)]
    turned = [reading.car_turned for reading in same]
    reversal = any(turned) and not all(turned)
    if reversal:
        straight = [value for value, flag in zip(bare, turned, strict=True) if not flag]
        other = [value for value, flag in zip(bare, turned, strict=True) if flag]
        value = (float(np.mean(straight)) + float(np.mean(other))) / 2
        doubt = max(gap.method_doubt for gap in gaps) / np.sqrt(2)
    else:
        same, gaps, bare = _agreeing(same, gaps, bare)
        value = float(np.mean(bare))
        spread = Reading(tuple(bare), u=0.0).doubt
        doubt = float(np.hypot(max(gap.doubt for gap in gaps), spread))
    stated = any(gap.by == "customer" for gap in gaps)
    fitted = all(reading.disc_mm > 0 for reading in same)
    evidence = Evidence.STATED if stated else Evidence.FITTED if fitted else Evidence.MEASURED
    return _Knot(same[0].travel_mm, value, float(doubt), evidence)


def _agreeing(
    same: list[GapReading], gaps: list[Reading], bare: list[float]
) -> tuple[list[GapReading], list[Reading], list[float]]:
    """All readings of one state where those with different discs agree; else those of the disc with the least bare gap."""
    discs = sorted({reading.disc_mm for reading in same})
    members = [[index for index, reading in enumerate(same) if reading.disc_mm == disc] for disc in discs]
    means = [float(np.mean([bare[index] for index in own])) for own in members]
    doubts = [max(gaps[index].doubt for index in own) for own in members]
    lowest, highest = int(np.argmin(means)), int(np.argmax(means))
    if means[highest] - means[lowest] <= DISAGREE_K * float(np.hypot(doubts[lowest], doubts[highest])):
        return same, gaps, bare
    kept = members[lowest]
    return [same[index] for index in kept], [gaps[index] for index in kept], [bare[index] for index in kept]


@dataclass(frozen=True)
class _Model:
    """What carries a gap from one travel to another.

    Attributes:
        change: Of the gap since parked, by travel; None where nothing is known about it.
        reach: Travels for which it holds.
        words: What it is.
        width_doubt_mm: Of the difference of two half widths.
        guess: Whether the sidewall was not read where it is needed.
    """

    change: Curve | None
    reach: tuple[float, float]
    words: str
    width_doubt_mm: float = 0.0
    guess: bool = False


def _no_model() -> _Model:
    return _Model(None, (0.0, 0.0), say("straight lines between readings, less the bulge of a sidewall"))


def _model(axle: Axle, side: Side, point: Point, steer: float) -> _Model:
    """The calliper readings where they cover the travel, else the sidewall by size and rim, else nothing."""
    motion, fitted = motion_of(axle, side), axle.fitted
    if fitted is None or motion is None or point.height_mm is None or point.kind == "carried":
        return _no_model()
    if abs(steer) > SAME_STEER_DEG or point.direction != "outboard":
        return _no_model()
    height = point.height_mm.value
    read = read_half_width(fitted.tyre)
    if read is not None and read.covers(*_radii(axle, height)):
        return _carried(height, read, motion)
    guess = membrane_half_width(fitted)
    for width in (guess, read):
        if width is not None and width.covers(height, height):
            return _carried(height, width, motion)
    return _no_model()


def _radii(axle: Axle, height_mm: float) -> tuple[float, float]:
    """The radii of the tyre that pass a point on its way from droop to bump."""
    bump, droop = axle.bump_travel_mm, axle.droop_travel_mm
    return height_mm - (bump.value if bump else 0.0), height_mm + (droop.value if droop else 0.0)


def _carried(height: float, width: HalfWidth, motion: Motion) -> _Model:
    def change(travel: Array) -> Array:
        """Beyond the radii known the change stays what it was at their end; readings and bulge carry it on."""
        return gap_change(np.clip(travel, *reach), height, width.at, motion.camber, motion.half_track)

    reach = (height - width.high_mm + EDGE_MM, height - width.low_mm - EDGE_MM)
    return _Model(change, reach, width.words, width.doubt_mm, width.guess)


def _model_doubt(axle: Axle, side: Side, point: Point, model: _Model) -> float:
    motion = motion_of(axle, side)
    if motion is None or point.height_mm is None:
        return 0.0
    lean = point.height_mm.value * np.radians(motion.camber_doubt_deg)
    width = model.width_doubt_mm or HALF_WIDTH_DOUBT_MM
    return float(np.sqrt(width**2 + lean**2 + motion.half_track_doubt_mm**2))


def _states(axle: Axle, point: Point, knots: list[_Knot], reach: tuple[float, float]) -> Array:
    """Travels to look at: all between the readings, and parked height and the travel as far as the model goes."""
    low, high = knots[0].travel_mm, knots[-1].travel_mm
    if point.kind != "carried" and reach != (0.0, 0.0):
        low, high = min(low, max(0.0, reach[0])), max(high, min(0.0, reach[1]))
        if axle.bump_travel_mm is not None:
            high = max(high, min(axle.bump_travel_mm.value, reach[1]))
        if axle.droop_travel_mm is not None:
            low = min(low, max(-axle.droop_travel_mm.value, reach[0]))
    count = int(np.ceil((high - low) / STEP_MM)) + 1
    grid = np.linspace(low, high, max(count, 1))
    return np.unique(np.concatenate([grid, [knot.travel_mm for knot in knots]]))


def _through(
    knots: list[_Knot], travel: Array, model: _Model, curvature_mm: float, model_doubt: float
) -> tuple[Array, Array, tuple[Evidence, ...]]:
    """Gap and doubt at every travel: the readings are met, the model gives the shape between and beyond them.

    A sidewall that was read is trusted between the readings; a guessed one carries its doubt there too.
    """
    change = model.change
    at = np.array([knot.travel_mm for knot in knots])
    read = np.array([knot.gap_mm for knot in knots])
    doubts = np.array([knot.doubt_mm for knot in knots])
    shape = change(travel) if change else np.zeros(len(travel))
    residual = read - (change(at) if change else 0.0)
    gap = shape + np.interp(travel, at, residual)
    doubt = np.interp(travel, at, doubts)
    for first, second in pairwise(range(len(at))):
        between = (travel > at[first]) & (travel < at[second])
        doubt[between] = max(doubts[first], doubts[second])
        if change is None or at[first] < model.reach[0] or at[second] > model.reach[1]:
            gap[between] -= sagitta(travel[between], at[first], at[second], curvature_mm)
    away = np.abs(travel[:, None] - at[None, :])
    predicted = (travel < at[0] - REACH_MM) | (travel > at[-1] + REACH_MM)
    if model.guess:
        predicted = away.min(axis=1) > REACH_MM
    doubt[predicted] = np.hypot(doubt[predicted], model_doubt)
    if change is not None and not model.guess:
        lonely = ~predicted & (away.min(axis=1) > FAR_MM)
        doubt[lonely] = np.hypot(doubt[lonely], model_doubt / 2)
        predicted |= lonely
    nearest = away.argmin(axis=1)
    evidence = tuple(
        _grade(knots[int(number)].evidence, bool(far)) for number, far in zip(nearest, predicted, strict=True)
    )
    return gap, doubt, evidence


def _grade(read: Evidence, predicted: bool) -> Evidence:
    return Evidence.PREDICTED if predicted and read is not Evidence.STATED else read
