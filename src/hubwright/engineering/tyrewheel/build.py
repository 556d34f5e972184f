"""How a tyre is built inside, as far as its outline needs it: readings where there are any, named estimates else.

Source: estimates, common practice, no source, each named where it stands; the tread width formula is from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

SHOULDER_DROP_SHARE = 0.03
SIDEWALL_SKIN_MM = 4.0
BELT_DEPTH_MM = 13.0
BELT_INSET_MM = 18.0


@dataclass(frozen=True)
class Build:
    """Tread and carcass figures of one tyre, mm.

    Attributes:
        tread_width_mm: Across the tread from edge to edge.
        shoulder_drop_mm: How much nearer to the axis the tread edge lies than the crown.
        sidewall_skin_mm: From the ply to the outer surface at the sidewall.
        belt_depth_mm: From the tread edge down to the ply at the belt edge, radially.
        belt_inset_mm: From the tread edge inward to where the ply leaves the belt. This is the one figure the model is
            calibrated with: 18 mm makes the section width grow by 0.42 to 0.44 mm per mm of rim width for ordinary
            sizes on their measuring rims, against the 0.4 of UN R30 6.1.1.1.
        estimated: Names of the figures nobody measured.
    """

    tread_width_mm: float
    shoulder_drop_mm: float
    sidewall_skin_mm: float
    belt_depth_mm: float
    belt_inset_mm: float
    estimated: tuple[str, ...] = ()


def estimate_tread_width_mm(nominal_width_mm: float, aspect_percent: float) -> float:
    """Tread width of an ordinary road tyre, C = (1.075 - 0.005 Ra) S1^1.001 (ETRTO design guide, from memory), mm."""
    return float((1.075 - 0.005 * aspect_percent) * nominal_width_mm**1.001)


def build_from(
    nominal_width_mm: float,
    aspect_percent: float,
    *,
    tread_width_mm: float | None = None,
    shoulder_drop_mm: float | None = None,
    sidewall_skin_mm: float | None = None,
    belt_depth_mm: float | None = None,
    belt_inset_mm: float | None = None,
) -> Build:
    """The build of a tyre: what was read, and estimates for the rest, which are named in `Build.estimated`.

    Estimates: tread width as `estimate_tread_width_mm`; shoulder drop 3 % of the tread width, skin 4 mm, ply 13 mm
    under the tread edge (guesses, no source); belt inset by calibration (see `Build`).
    """
    tread = tread_width_mm or estimate_tread_width_mm(nominal_width_mm, aspect_percent)
    readings = {
        "tread_width_mm": (tread_width_mm, tread),
        "shoulder_drop_mm": (shoulder_drop_mm, SHOULDER_DROP_SHARE * tread),
        "sidewall_skin_mm": (sidewall_skin_mm, SIDEWALL_SKIN_MM),
        "belt_depth_mm": (belt_depth_mm, BELT_DEPTH_MM),
        "belt_inset_mm": (belt_inset_mm, BELT_INSET_MM),
    }
    figures = {name: guess if read is None else read for name, (read, guess) in readings.items()}
    return Build(**figures, estimated=tuple(name for name, (read, _) in readings.items() if read is None))
