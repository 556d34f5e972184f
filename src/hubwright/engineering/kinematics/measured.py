"""Motion from readings at a few heights with the spring out: fitted curves with their doubt.

``value(z) = b0 + b1 z + b2 z^2`` by weighted least squares, ``b = (X' W X)^-1 X' W y``, covariance ``(X' W X)^-1``
(ISO/IEC Guide 98-3 H.3 for the straight line; general form from memory). As many terms as there are different heights,
three at most. Terms the readings cannot give come from the class prior: they enter as readings of the term itself, with
the prior's doubt, so that their doubt is carried into every prediction and the result names them as guessed. With more
readings than terms the spread about the curve is compared with the stated doubts; where it is larger, all doubts grow
by the ratio (Birge ratio, from memory).

Source: JCGM 100:2008 H.3 and as said above.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from hubwright.engineering.kinematics.priors import CurvePrior
from hubwright.errors import BadInput, Fault, MissingReading, OutsideValidity
from hubwright.language import marked, marked_as, say
from hubwright.quantities.axes import Array

TERMS = (marked_as("curve", "level"), marked_as("curve", "slope"), marked_as("curve", "bend"))
SAME_HEIGHT_MM = 0.5
CAMBER_MAX_DEG = 6.0


@dataclass(frozen=True)
class FittedMotion:
    """A curve against travel with its doubt.

    Attributes:
        coefficients: Level, slope per mm, bend per mm^2, (3,).
        covariance: Of the coefficients, (3, 3).
        guessed: Terms that no reading supports: they are the class prior.
        lowest_mm, highest_mm: Travel over which there are readings; outside it the curve is stretched.
        birge: By how much the doubts grew because the readings scatter more than they should; 1 = not at all.
    """

    coefficients: Array
    covariance: Array
    guessed: tuple[str, ...]
    lowest_mm: float
    highest_mm: float
    birge: float


def fit_motion(
    travel_mm: ArrayLike, reading: ArrayLike, doubt: ArrayLike, prior: CurvePrior | None = None
) -> FittedMotion:
    """Fit gaps, camber or half-track readings against travel.

    Args:
        travel_mm: Height of each reading over parked, positive = bump, (n,).
        reading: In its own unit, (n,).
        doubt: Standard uncertainty of each, same unit, (n,) or a number, above 0.
        prior: For the terms the readings cannot give; not asked where there are three heights.

    Raises:
        BadInput: no reading, a doubt of 0 or below, a value that is no number.
        MissingReading: fewer than three heights and no prior.
    """
    z, y, u = (np.array(a, float).ravel() for a in np.broadcast_arrays(travel_mm, reading, doubt))
    if len(z) == 0 or not np.all(np.isfinite([z, y, u])) or np.any(u <= 0.0):
        raise BadInput(
            say("readings"),
            (Fault(say("travel, reading, doubt"), say("finite numbers, doubts above 0"), say("other")),),
        )
    known = min(3, 1 + int(np.sum(np.diff(np.sort(z)) > SAME_HEIGHT_MM)))
    if known < 3 and prior is None:
        raise MissingReading(
            say("a reading at {count} more height(s)", count=3 - known),
            say("to bend the curve of the motion"),
            say("Spring out, three heights."),
        )
    design, values, doubts = np.vander(z, 3, increasing=True), y, u
    for term in range(known, 3):
        assert prior is not None
        guess = (prior.slope_per_mm, prior.u_slope_per_mm) if term == 1 else (prior.bend_per_mm2, prior.u_bend_per_mm2)
        design = np.vstack([design, np.eye(3)[term]])
        values, doubts = np.append(values, guess[0]), np.append(doubts, guess[1])
    # columns of very different size: scale them to one before the sum is solved
    scale = np.array([1.0, 1e-2, 1e-4])
    weighted = design * scale / doubts[:, None]
    inverse = np.linalg.inv(weighted.T @ weighted)
    scaled = inverse @ weighted.T @ (values / doubts)
    left_over = weighted @ scaled - values / doubts
    spare = len(z) - known
    birge = max(1.0, float(np.sqrt(left_over @ left_over / spare))) if spare > 0 else 1.0
    return FittedMotion(
        coefficients=scaled * scale,
        covariance=inverse * np.outer(scale, scale) * birge**2,
        guessed=TERMS[known:],
        lowest_mm=float(z.min()),
        highest_mm=float(z.max()),
        birge=birge,
    )


def from_prior(prior: CurvePrior, level: float = 0.0, u_level: float = 0.0) -> FittedMotion:
    """The curve where nothing at all is measured against travel: the class prior, every moving term a guess."""
    values = np.array([level, prior.slope_per_mm, prior.bend_per_mm2])
    doubts = np.array([u_level, prior.u_slope_per_mm, prior.u_bend_per_mm2])
    return FittedMotion(values, np.diag(doubts**2), TERMS[1:], 0.0, 0.0, 1.0)


def predict(motion: FittedMotion, travel_mm: ArrayLike) -> tuple[Array, Array]:
    """Value and standard uncertainty at each travel, (n,) each; ``u^2 = x' C x`` (JCGM 100 eq. 13)."""
    x = np.vander(np.asarray(travel_mm, float).ravel(), 3, increasing=True)
    return x @ motion.coefficients, np.sqrt(np.einsum("ni,ij,nj->n", x, motion.covariance, x))


def change(motion: FittedMotion, travel_mm: ArrayLike) -> tuple[Array, Array]:
    """Value at each travel less the value at travel 0, and its standard uncertainty, (n,) each.

    The level and its doubt fall out: a camber gauge that reads 0.3 deg too much does so at every height.
    """
    x = np.vander(np.asarray(travel_mm, float).ravel(), 3, increasing=True)
    x[:, 0] = 0.0
    return x @ motion.coefficients, np.sqrt(np.einsum("ni,ij,nj->n", x, motion.covariance, x))


def hub_poses_from_motion(
    camber: FittedMotion, half_track: FittedMotion, travel_mm: ArrayLike, toe_deg: float = 0.0
) -> tuple[Array, Array]:
    """Hub origin and spin axis from measured motion, in corner axes with the parked wheel centre as origin.

    Args:
        camber: In deg, negative = top inboard.
        half_track: Outboard move of the wheel centre in mm; its level is ignored (the parked place is 0).
        travel_mm: (n,), positive = bump.
        toe_deg: Held at every height.

    Returns:
        Wheel centre (n, 3) mm and unit axis (n, 3): ``(cos c sin t, cos c cos t, -sin c)``. The move along the car is
        not measured and stands at 0.
    """
    z = np.asarray(travel_mm, float).ravel()
    lean, toe = np.radians(predict(camber, z)[0]), np.radians(toe_deg)
    axis = np.stack([np.cos(lean) * np.sin(toe), np.cos(lean) * np.cos(toe), -np.sin(lean)], axis=1)
    centre = np.stack([np.zeros_like(z), change(half_track, z)[0], z], axis=1)
    return centre, axis


def gap_from_parked(
    *,
    gap_mm: ArrayLike,
    half_width_parked_mm: ArrayLike,
    half_width_mm: ArrayLike,
    lip_height_mm: ArrayLike,
    travel_mm: ArrayLike,
    camber_parked_deg: ArrayLike,
    camber_deg: ArrayLike,
    half_track_change_mm: ArrayLike,
) -> Array:
    """Gap between arch lip and tyre at a travel, from the parked gap; all arguments (n,) or numbers.

    ``g(z) = g(0) - [w(h - z) - w(h)] - [(h - z) sin c(z) - h sin c(0)] - dy(z)``, h = lip over the parked wheel centre,
    w = half width of the tyre at a radius, dy = outboard move of the wheel centre. Derived: the sidewall point level
    with the lip leans inboard by its height over the wheel centre times the sine of the (negative) camber. It holds
    while the lip stands over the wheel centre and the camber is at most 6 deg (the cosine, taken for 1, is then off by
    less than 0.6 %).

    Raises:
        OutsideValidity: travel above the lip height, or more camber.
    """
    g, w0, w, h, z, c0, c, dy = (
        np.asarray(a, float)
        for a in (
            gap_mm,
            half_width_parked_mm,
            half_width_mm,
            lip_height_mm,
            travel_mm,
            camber_parked_deg,
            camber_deg,
            half_track_change_mm,
        )
    )
    formula, source = "gap_from_parked", marked("derived, see its description")
    if np.any(z >= h):
        raise OutsideValidity(formula, "travel_mm", float(np.max(z)), "a lip above the wheel centre", source)
    if np.any(np.abs(np.append(c, c0)) > CAMBER_MAX_DEG):
        raise OutsideValidity(formula, "camber_deg", float(np.max(np.abs(c))), "camber up to 6 deg", source)
    lean = (h - z) * np.sin(np.radians(c)) - h * np.sin(np.radians(c0))
    return np.asarray(g - (w - w0) - lean - dy)
