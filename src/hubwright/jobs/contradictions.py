"""Figures of one job file that cannot both be true. Each is a fault, like a mistyped number; nothing is guessed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

from hubwright.errors import BadInput
from hubwright.jobs.lines import Path
from hubwright.jobs.suspension_geometry import impossible_points
from hubwright.language import say
from hubwright.language.part_words import suspension_word
from hubwright.language.words import kind_word
from hubwright.parts.corner import Corner, GapReading, MotionReading, Point
from hubwright.parts.hardpoints import NEEDED, WHOLE_AXLE, CornerPoints, HardPoints
from hubwright.parts.hub import Fastener, Hub
from hubwright.parts.job import Axle, Job
from hubwright.parts.scan import Line
from hubwright.parts.shop import Shop
from hubwright.parts.wheel import Tyre
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import plain, pointed
from hubwright.tables.threads import thread

BEYOND_TRAVEL_MM = 5.0
"""How far a reading may lie beyond the stated travel before one of them must be wrong; a guess."""
APART_IN_DOUBTS = 6.0
"""Readings of one gap in one state further apart than this many combined doubts contradict each other; a guess."""
LEAST_STEP_MM = 0.5
"""Two readings of a curve nearer to each other than this are one; the slope between them would be nothing but doubt."""


@dataclass(frozen=True)
class Clash:
    """One contradiction, at the place where the second figure stands."""

    path: Path
    wanted: str
    given: str
    todo: str


def contradictions(job: Job) -> tuple[Clash, ...]:
    """Every contradiction in a job, in the order of its nouns."""
    found = list(shop_clashes(job.shop))
    for name, axle in job.axles:
        found += _axle(axle, (name,))
    return tuple(found)


def shop_clashes(shop: Shop) -> Iterator[Clash]:
    """Contradictions on the shelf."""
    for number, disc in enumerate(shop.disc):
        path = ("shop", "disc", number)
        if disc.lip_inner_mm is not None and disc.lip_outer_mm is not None and disc.lip_inner_mm >= disc.lip_outer_mm:
            yield Clash(
                (*path, "lip_inner_mm"),
                say("less than the lip's outside {lip_outer}", lip_outer=plain(disc.lip_outer_mm)),
                plain(disc.lip_inner_mm),
                say("Measure the lip again."),
            )
        if disc.kind == "plain" and disc.lip_length_mm:
            yield Clash(
                (*path, "lip_length_mm"),
                say("no lip on a {kind} disc", kind=kind_word(disc.kind)),
                plain(disc.lip_length_mm),
                say("Call it lipped."),
            )
        if disc.kind == "lipped" and disc.lip_length_mm == 0:
            yield Clash(
                (*path, "lip_length_mm"), say("a lip on a lipped disc"), "0", say("Measure the lip, or call it plain.")
            )
        if disc.counterbore_mm is not None and disc.counterbore_mm >= disc.thickness_mm:
            yield Clash(
                (*path, "counterbore_mm"),
                say("less than the disc's {thickness}", thickness=plain(disc.thickness_mm)),
                plain(disc.counterbore_mm),
                say("Measure the counterbore again."),
            )
    for number, fastener in enumerate(shop.fastener):
        yield from _thread(fastener.thread, ("shop", "fastener", number, "thread"))
        if fastener.kind != "nut" and not fastener.lengths_mm:
            yield Clash(
                ("shop", "fastener", number), say("the lengths kept"), say("none"), say("Add lengths_mm = [...].")
            )


def _axle(axle: Axle, path: Path) -> Iterator[Clash]:
    if axle.hardpoints is not None:
        yield from suspension_clashes(axle.hardpoints, (*path, "hardpoints"))
    for side in SIDES:
        for number, edge in enumerate(axle.corner(side).line):
            yield from _edge(edge, (*path, side, "line", number))
    if axle.wish and axle.wish.aim == "thickness" and axle.wish.thickness_mm is None:
        yield Clash(
            (*path, "wish"),
            say("thickness_mm for the aim thickness"),
            say("none"),
            say("Add thickness_mm, or another aim."),
        )
    fitted = [number for number, wheel_set in enumerate(axle.wheel_set) if wheel_set.role == "fitted"]
    if len(fitted) > 1:
        yield Clash(
            (*path, "wheel_set", fitted[1], "role"),
            say("one fitted set"),
            say("a second one"),
            say("Call it winter, spare or other."),
        )
    for number, package in enumerate(axle.package):
        yield from _tyre(package.tyre, (*path, "package", number, "tyre"))
        if package.fastener:
            yield from _fastener(package.fastener, axle.hub, (*path, "package", number, "fastener"))
    for number, wheel_set in enumerate(axle.wheel_set):
        yield from _tyre(wheel_set.tyre, (*path, "wheel_set", number, "tyre"))
        if wheel_set.fastener:
            yield from _fastener(wheel_set.fastener, axle.hub, (*path, "wheel_set", number, "fastener"))
    yield from _hub(axle.hub, (*path, "hub"))
    if axle.fastener:
        yield from _fastener(axle.fastener, axle.hub, (*path, "fastener"))
    yield from _motion(axle.motion, (*path, "motion"))
    for side in SIDES:
        yield from _corner(axle, axle.corner(side), (*path, side))


def _hub(hub: Hub, path: Path) -> Iterator[Clash]:
    nose, spigot = hub.nose_diameter_mm, hub.spigot_diameter_mm
    if nose and spigot and nose.value > spigot.value:
        yield Clash(
            (*path, "nose_diameter_mm"),
            say("at most the spigot's {spigot}", spigot=plain(spigot.value)),
            plain(nose.value),
            say("A nose thicker than the spigot would keep every wheel off."),
        )
    if hub.face_inner_mm is not None and hub.face_outer_mm is not None and hub.face_inner_mm >= hub.face_outer_mm:
        yield Clash(
            (*path, "face_inner_mm"),
            say("less than the face's outside {face_outer}", face_outer=plain(hub.face_outer_mm)),
            plain(hub.face_inner_mm),
            say("Measure the ring the wheel sits on again."),
        )


def _fastener(fastener: Fastener, hub: Hub, path: Path) -> Iterator[Clash]:
    if fastener.thread is not None:
        yield from _thread(fastener.thread, (*path, "thread"))
    if fastener.kind == "bolt" and hub.stud_length_mm is not None:
        yield Clash(
            (*path, "kind"), say("nut, since the hub has studs"), say("bolt"), say("Say which of the two the car has.")
        )
    if fastener.kind == "bolt" and fastener.closed_depth_mm is not None:
        yield Clash(
            (*path, "closed_depth_mm"),
            say("no closed end on a bolt"),
            plain(fastener.closed_depth_mm.value),
            say("Take it out."),
        )
    inner, outer = fastener.seat_inner_mm, fastener.seat_outer_mm
    if inner is not None and outer is not None and inner >= outer:
        yield Clash(
            (*path, "seat_inner_mm"),
            say("less than the seat's outside {outer}", outer=plain(outer)),
            plain(inner),
            say("Measure again."),
        )
    if fastener.open_end and fastener.closed_depth_mm is not None:
        yield Clash((*path, "open_end"), say("false for a nut with a closed end"), say("true"), say("Say which it is."))
    if fastener.seat != "ball" and fastener.seat_radius_mm is not None:
        yield Clash(
            (*path, "seat_radius_mm"),
            say("a ball seat for a radius"),
            fastener.seat or say("no seat"),
            say('Write seat = "ball".'),
        )
    length, turns = fastener.engagement_mm, fastener.engagement_turns
    if length and turns and fastener.thread is not None and not list(_thread(fastener.thread, path)):
        pitch_mm = thread(fastener.thread).pitch_mm
        if abs(length.value - turns.value * pitch_mm) > pitch_mm + length.doubt:
            yield Clash(
                (*path, "engagement_turns"),
                say(
                    "about {turns} for {length} mm engaged",
                    turns=pointed(f"{length.value / pitch_mm:.1f}"),
                    length=plain(length.value),
                ),
                plain(turns.value),
                say("Count again with the brake disc fitted."),
            )


def _thread(text: str, path: Path) -> Iterator[Clash]:
    try:
        thread(text)
    except BadInput as error:
        for fault in error.faults:
            yield Clash(path, fault.wanted, fault.given, fault.todo)


def _tyre(tyre: Tyre, path: Path) -> Iterator[Clash]:
    radii = [item.radius_mm for item in tyre.half_width]
    for number in range(1, len(radii)):
        if min(abs(radii[number] - before) for before in radii[:number]) < LEAST_STEP_MM:
            wanted = say("each radius once, {step} mm apart or more", step=plain(LEAST_STEP_MM))
            yield Clash(
                (*path, "half_width", number, "radius_mm"),
                wanted,
                say("{radii} again", radii=plain(radii[number])),
                say("Keep one."),
            )
    now, new = tyre.tread_depth_mm, tyre.new_tread_depth_mm
    if now and new and now.value > new.value + now.doubt + new.doubt:
        yield Clash(
            (*path, "tread_depth_mm"),
            say("at most the new depth, {new}", new=plain(new.value)),
            plain(now.value),
            say("Read it again."),
        )
    if tyre.section_width_mm:
        half = tyre.section_width_mm.value / 2 + tyre.section_width_mm.doubt + 1
        for number, item in enumerate(tyre.half_width):
            if item.half_width_mm > half:
                yield Clash(
                    (*path, "half_width", number, "half_width_mm"),
                    say(
                        "at most half the section, {section_width}",
                        section_width=plain(tyre.section_width_mm.value / 2),
                    ),
                    plain(item.half_width_mm),
                    say("Measure both again; a half width counts from the rim centre plane."),
                )


def _motion(motion: tuple[MotionReading, ...], path: Path) -> Iterator[Clash]:
    for (_, first), (number, second) in combinations(enumerate(motion), 2):
        if abs(first.travel_mm - second.travel_mm) < LEAST_STEP_MM:
            wanted = say("each travel once, {step} mm apart or more", step=plain(LEAST_STEP_MM))
            given = say("{travel} after {travel2}", travel=plain(second.travel_mm), travel2=plain(first.travel_mm))
            yield Clash((*path, number, "travel_mm"), wanted, given, say("Use repeats: [a, b]."))


def _corner(axle: Axle, corner: Corner, path: Path) -> Iterator[Clash]:
    yield from _motion(corner.motion, (*path, "motion"))
    if corner.hub:
        yield from _hub(corner.hub, (*path, "hub"))
    lines = [line.name for line in corner.body_line]
    for number, name in enumerate(lines):
        if name in lines[:number]:
            yield Clash(
                (*path, "body_line", number, "name"),
                say("each body line once"),
                repr(name),
                say("Give it another name."),
            )
    names = [point.name for point in corner.point]
    for number, point in enumerate(corner.point):
        if point.name in names[:number]:
            yield Clash(
                (*path, "point", number, "name"),
                say("each point once"),
                repr(point.name),
                say("Put its readings together."),
            )
        yield from _point(axle, point, (*path, "point", number))


def _point(axle: Axle, point: Point, path: Path) -> Iterator[Clash]:
    towards = {"outside": "inboard", "inside": "outboard"}[point.room]
    if point.toward == towards:
        yield Clash(
            (*path, "toward"),
            say("not inboard for outside room") if towards == "inboard" else say("not outboard for inside room"),
            towards,
            say("Change the room or the direction."),
        )
    for number, reading in enumerate(point.reading):
        yield from _reading(axle, point, reading, (*path, "reading", number))
    for (_, first), (number, second) in combinations(enumerate(point.reading), 2):
        if _same_state(first, second):
            a, b = point.gap(first), point.gap(second)
            allowed = APART_IN_DOUBTS * max(a.doubt + b.doubt, 0.5)
            if abs(a.value - b.value) > allowed:
                yield Clash(
                    (*path, "reading", number, "gap_mm"),
                    say(
                        "within {allowed} mm of the other reading of this state, {a}",
                        allowed=pointed(f"{allowed:.1f}"),
                        a=plain(a.value),
                    ),
                    plain(b.value),
                    say("Read it again; keep repeats in one reading: gap_mm = [a, b]."),
                )


def _reading(axle: Axle, point: Point, reading: GapReading, path: Path) -> Iterator[Clash]:
    for limit, sign in ((axle.bump_travel_mm, 1), (axle.droop_travel_mm, -1)):
        if limit is not None and sign * reading.travel_mm > limit.value + limit.doubt + BEYOND_TRAVEL_MM:
            yield Clash(
                (*path, "travel_mm"),
                say("at most the travel to full bump, {limit}", limit=plain(limit.value))
                if sign > 0
                else say("at most the travel to full droop, {limit}", limit=plain(limit.value)),
                plain(sign * reading.travel_mm),
                say("Travel counts from parked height."),
            )
    if axle.steer_max_deg is not None and abs(reading.steer_deg) > axle.steer_max_deg + 2:
        yield Clash(
            (*path, "steer_deg"),
            say("at most full lock, {steer_max}", steer_max=plain(axle.steer_max_deg)),
            plain(reading.steer_deg),
            say("Check the lock."),
        )


def _same_state(a: GapReading, b: GapReading) -> bool:
    def state(reading: GapReading) -> tuple[object, ...]:
        return (reading.travel_mm, reading.steer_deg, reading.disc_mm, reading.car_turned)

    return state(a) == state(b)


def suspension_clashes(suspension: HardPoints, path: Path) -> Iterator[Clash]:
    """Hard points that the kind of suspension needs and the job does not give, and figures that cannot be."""
    kind = suspension.kind
    given = {side: points for side in SIDES if (points := suspension.points(side)) is not None}
    if kind in WHOLE_AXLE:
        for side in SIDES:
            if side not in given:
                yield Clash(
                    (*path, side),
                    say("both wheels of a {kind}", kind=suspension_word(kind)),
                    say("nothing"),
                    say("Add its wheel centre and radius."),
                )
        for name in NEEDED[kind]:
            if not getattr(suspension, name):
                yield Clash(
                    (*path, name), say("this field for a {kind}", kind=suspension_word(kind)), say("nothing"), ""
                )
    elif not given:
        yield Clash(
            path,
            say("hard points of a {kind}, left or right", kind=suspension_word(kind)),
            say("neither"),
            say("Add them, or take the hard points out."),
        )
    for side, points in given.items():
        yield from _corner_points(kind, points, side, (*path, side))
    if suspension.same_both_sides and len(given) == 2 and kind not in WHOLE_AXLE:
        todo = say("Take same_both_sides out: both sides are read.")
        yield Clash((*path, "same_both_sides"), say("one side, to be mirrored"), say("both sides"), todo)
    for found in impossible_points(suspension, path):
        yield Clash(*found)
    stop = suspension.springs.bump_stop if suspension.springs else None
    if stop is not None and not _rises(stop.squeeze_mm, stop.force_n):
        wanted = say("squeeze and force of equal length, rising from 0 mm and 0 N")
        yield Clash((*path, "springs", "bump_stop"), wanted, say("another curve"), say("Give two points and more."))


def _corner_points(kind: str, points: CornerPoints, side: str, path: Path) -> Iterator[Clash]:
    if kind not in WHOLE_AXLE:
        for name in NEEDED[kind]:
            if not getattr(points, name):
                yield Clash(
                    (*path, name), say("this field for a {kind}", kind=suspension_word(kind)), say("nothing"), ""
                )
        if kind == "five link" and points.link and len(points.link) != 5:
            yield Clash((*path, "link"), say("five links"), str(len(points.link)), "")
    y = points.wheel_centre_mm[1]
    if (y <= 0) if side == "left" else (y >= 0):
        wanted = (
            say("Y above 0 for a left wheel (Y points left)")
            if side == "left"
            else say("Y below 0 for a right wheel (Y points left)")
        )
        yield Clash((*path, "wheel_centre_mm"), wanted, plain(y), say("Check the axes: X forward, Y left, Z up."))


def _rises(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    if len(one) != len(other) or len(one) < 2 or one[0] != 0 or other[0] != 0:
        return False
    return all(b > a for values in (one, other) for a, b in pairwise(values))


def _edge(edge: Line, path: Path) -> Iterator[Clash]:
    counts = {len(edge.clock_deg), len(edge.radius_mm), len(edge.outboard_mm)}
    by_clock, by_points = counts != {0}, bool(edge.points_mm)
    if by_clock == by_points:
        given = say("both") if by_clock else say("neither")
        yield Clash(path, say("either clock_deg, radius_mm and outboard_mm, or points_mm"), given, "")
    elif by_clock and len(counts) != 1:
        given = say(
            "{clock}, {radius} and {outboard}",
            clock=len(edge.clock_deg),
            radius=len(edge.radius_mm),
            outboard=len(edge.outboard_mm),
        )
        yield Clash(path, say("as many clock angles as radii and outboard places"), given, "")
