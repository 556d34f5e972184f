"""Wheel and tyre seen from above, straight ahead: the section from front to back, as far as size and readings tell."""

from __future__ import annotations

from hubwright.checks.rolling import radius_of, size_of
from hubwright.jobs.map_outline import inset_of, package_outline
from hubwright.parts.wheel import WheelSet

Corners = tuple[tuple[float, float], ...]


def seen_from_above(wheel_set: WheelSet) -> Corners | None:
    """Corners (forward, outboard of the hub face) in mm, in order; None where neither size nor readings tell.

    With rim and tyre known the true outline, front and back; else a plain box of radius and section width.
    """
    found = package_outline(wheel_set)
    if found is not None:
        outline, _ = found
        pairs = [(float(rho), float(y)) for rho, y in zip(outline.rho_mm, outline.y_mm, strict=True)]
        front = sorted(pairs, key=lambda pair: pair[1])
        outer = _rim_of(front)
        return (*outer, *((-forward, y) for forward, y in reversed(outer)))
    radius, size = radius_of(wheel_set.tyre), size_of(wheel_set.tyre)
    width = wheel_set.tyre.section_width_mm.value if wheel_set.tyre.section_width_mm else None
    width = width if width is not None else (size.section_width_mm if size is not None else None)
    if radius is None or width is None:
        return None
    middle = -inset_of(wheel_set)
    return (
        (radius[0], middle - width / 2), (radius[0], middle + width / 2),
        (-radius[0], middle + width / 2), (-radius[0], middle - width / 2),
    )  # fmt: skip


def _rim_of(pairs: list[tuple[float, float]]) -> Corners:
    """The outermost run from the inboard to the outboard side: what is seen from above."""
    rim: list[tuple[float, float]] = []
    for spot in pairs:
        while len(rim) > 1 and _below(rim[-2], rim[-1], spot):
            rim.pop()
        rim.append(spot)
    return tuple(rim)


def _below(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
    """Whether b lies inside the line from a to c."""
    return (c[1] - a[1]) * (b[0] - a[0]) <= (c[0] - a[0]) * (b[1] - a[1])
