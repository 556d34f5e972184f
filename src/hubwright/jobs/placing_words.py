"""How a scan lies, in words: what the picks say of themselves, what was taken out, and what must be asked."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hubwright.jobs.placing import BESIDE_AXIS_MM, Doubtful, Placing, above, depth, weighted
from hubwright.language import marked, say, say_n
from hubwright.quantities.text import length, number

UNITS = {"mm": marked("millimetres"), "cm": marked("centimetres"), "m": marked("metres"), "in": marked("inches")}


def unit_word(unit: str) -> str:
    """A unit a scan may be in, as a word."""
    return say(UNITS[unit])


@dataclass(frozen=True)
class Question:
    """One thing that must be asked, and what to do about it.

    Attributes:
        code: Of `hubwright.jobs.placing.Doubtful`.
        text: What was found.
        todo: What to do.
        grave: Whether it speaks against the placing itself.
    """

    code: Doubtful
    text: str
    todo: str
    grave: bool


def facts_of(placing: Placing) -> tuple[str, ...]:
    """Whole sentences: size, residuals of the picks, noise, what was taken out and left out, and why."""
    scan, placed, count = placing.scan, placing.placed, len(placing.shape.triangles_mm)
    size = {"unit": unit_word(scan.unit), "length": length(placing.size.mm(scan.unit), 0)}
    if placing.shape.is_points:
        found = [say_n("{count} point.", "{count} points.", count)]
    else:
        found = [say_n("{count} triangle.", "{count} triangles.", count)]
    found.append(say("Read as {unit} it is {length} long.", **size))
    found += _picks(placing)
    if placed.noise_mm is not None:
        text = say("Noise {noise} (standard deviation), owed to every gap.", noise=length(placed.noise_mm, 2))
        stated = say("Doubt of its points {noise}, as stated, owed to every gap.", noise=length(placed.noise_mm, 2))
        found.append(stated if scan.u_mm is not None else text)
    else:
        found.append(say("It is a mesh and nobody stated the doubt of its points: state it, it is owed to every gap."))
    if placed.rule:
        found.append(
            say_n("{count} outlier thrown out: {rule}.", "{count} outliers thrown out: {rule}.", placed.removed,
                  rule=say("farther than 5 times the usual scatter from the plane through its 8 neighbours"))
        )  # fmt: skip
    if placed.left_out:
        found.append(say("Left out by hand: {left_out} of {count}.", left_out=placed.left_out, count=count))
    if not placing.stands_on_motion:
        found.append(say("The job does not say yet how the wheel stands: it is drawn upright."))
    if placing.outline is None:
        found.append(say("Size of tyre and rim of the fitted wheels are not known: the wheel is drawn schematically."))
    return tuple(found)


def _picks(placing: Placing) -> list[str]:
    picks = placing.picks
    if picks is None:
        return [say("It lies in the car's axes as its file says.")]
    found: list[str] = []
    if len(picks.plane_mm):
        found.append(_scatter_words(
            say("Hub plane: {count} points, the worst {worst} off, in the mean {rms}.", **_spread(picks.plane_off_mm)),
            say("Hub plane: three points always lie on a plane, so nothing tells how well they were picked."),
            len(picks.plane_mm),
        ))  # fmt: skip
    if len(picks.circle_mm):
        radius = length(picks.circle_radius_mm)
        found.append(_scatter_words(
            say("Circle round the hub: radius {radius}, {count} points, the worst {worst} off, in the mean {rms}.",
                radius=radius, **_spread(picks.circle_off_mm)),
            say("Circle round the hub: radius {radius}; three points always lie on a circle.", radius=radius),
            len(picks.circle_mm),
        ))  # fmt: skip
    if placing.placed.picks_mm is not None:
        text = say(
            "From the picks {doubt} of doubt where the scan lies, owed to every gap.",
            doubt=length(placing.placed.picks_mm),
        )
        found.append(text)
    return found


def _scatter_words(told: str, untold: str, count: int) -> str:
    return told if count > 3 else untold


def _spread(off_mm: np.ndarray) -> dict[str, object]:
    worst = float(np.abs(off_mm).max()) if len(off_mm) else 0.0
    rms = float(np.sqrt((off_mm**2).mean())) if len(off_mm) else 0.0
    return {"count": len(off_mm), "worst": length(worst, 2), "rms": length(rms, 2)}


def questions_of(placing: Placing) -> tuple[Question, ...]:
    """Everything to be asked, the gravest first."""
    return tuple(Question(code, *_question(code, placing), code in placing.asked) for code in placing.doubtful)


def _question(code: Doubtful, placing: Placing) -> tuple[str, str]:
    middles, weight = weighted(placing.sample_mm)
    left = placing.side == "left"
    if code == "size":
        size = {"length": length(placing.size.mm(placing.scan.unit), 0), "unit": unit_word(placing.scan.unit)}
        return say("Read as {unit} the scan is {length} long. Is the unit right?", **size), say(
            "An arch is about a metre long. Choose another unit, or leave out what does not belong to the car."
        )
    if code == "far":
        near = float(np.linalg.norm(middles, axis=1).min())
        return say("Nothing of the scan comes nearer to the hub than {near}.", near=length(near, 0)), say(
            "Look at the unit, at the picks, or at the origin of a file in the car's axes."
        )
    if code == "below":
        far = np.hypot(middles[:, 0], middles[:, 2]) > BESIDE_AXIS_MM
        share = f"{number(100.0 * above(middles[far], weight[far]), 0)} %"
        return say("Only {share} of the scan stands above the hub. Is it upside down?", share=share), (
            say("Forward points backwards, outboard points inboard, or it is the scan of the right wheel.")
            if left
            else say("Forward points backwards, outboard points inboard, or it is the scan of the left wheel.")
        )
    if code == "outside":
        inside, outside = depth(middles)
        reach = {"outside": length(max(outside, 0.0), 0), "inside": length(max(inside, 0.0), 0)}
        return say(
            "The scan reaches {outside} outside the hub face, but {inside} inside it. Is it inside out?", **reach
        ), (
            say("Forward points backwards, or it is the scan of the right wheel.")
            if left
            else say("Forward points backwards, or it is the scan of the left wheel.")
        )
    if code == "other side":
        words = say("The scan lies beyond the middle of the car. Is it the scan of the right wheel?")
        if not left:
            words = say("The scan lies beyond the middle of the car. Is it the scan of the left wheel?")
        return words, say("In the car's axes Y is above 0 on the left and below 0 on the right.")
    return _of_picks(code, placing)


def _of_picks(code: Doubtful, placing: Placing) -> tuple[str, str]:
    picks = placing.picks
    if code == "centre off plane":
        off = length(abs(placing.centre_off_mm or 0.0))
        return say(
            "The hub centre lies {off} off the plane of the hub face. Was the end of the spigot picked?", off=off
        ), say("Pick a circle round the hub instead of the centre: its depth does not count.")
    if code == "plane scatter" and picks is not None:
        worst = int(np.argmax(np.abs(picks.plane_off_mm))) + 1
        off = length(abs(float(picks.plane_off_mm[worst - 1])))
        return say(
            "Point {number} of the hub plane lies {off} off the plane of all. Is it on the same face?",
            number=worst,
            off=off,
        ), say("Pick it again: all points belong on the face a disc sits on.")
    if code == "circle scatter" and picks is not None:
        worst = int(np.argmax(np.abs(picks.circle_off_mm))) + 1
        off = length(abs(float(picks.circle_off_mm[worst - 1])))
        return say(
            "Point {number} of the circle lies {off} off it. Is it on the same edge?", number=worst, off=off
        ), say("Pick it again: all points belong on one round edge, such as that of the spigot.")
    if code == "in the tyre":
        return say("Part of the scan lies where the parked tyre is. Was it scanned with the wheel on?"), say(
            "Leave out what belongs to the wheel, or hub and brake nearer to the spin axis than a given distance."
        )
    if code == "in the rim" and placing.outline is not None:
        inside = length(5.0 * int(placing.outline.rho_mm.min() / 5.0), 0)
        return say("Part of the scan stands inside the rim. Are hub and brake in it?"), say(
            "They go with the wheel: leave out what lies nearer to the spin axis than {inside}, say.", inside=inside
        )
    return say("Three points tell nothing about how well they were picked."), say("Pick one or two more of each.")
