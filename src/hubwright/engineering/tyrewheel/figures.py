"""The figures of a package that `replace` works with, from its shape and its designation.

Source: the sums of this package (`sidewall`, `surface`); load and speed by UN R30 annexes 3 and 4.
"""

from __future__ import annotations

from hubwright.engineering.tyrewheel.outline import Package
from hubwright.engineering.tyrewheel.replace import PackageFigures
from hubwright.engineering.tyrewheel.surface import Side, half_width_mm, widest
from hubwright.errors import OutsideValidity
from hubwright.parts.tyre_size import TyreSize
from hubwright.tables.tyre_indices import load_index, speed_symbol

SIDES: tuple[Side, Side] = ("outboard", "inboard")


def figures_of(package: Package, size: TyreSize | None = None, wheel_rating_kg: float | None = None) -> PackageFigures:
    """The figures of a package: the widest of sidewall (readings included), ribs and rim flanges, and its capacities.

    Args:
        package: With a tyre on it.
        size: Its designation, for load index and speed symbol (UN R30 annex 4); None leaves them unknown.
        wheel_rating_kg: What is stamped in the wheel.

    Raises:
        OutsideValidity: for a bare wheel.
        BadInput: for an index or symbol the tables do not have.
    """
    if package.tyre is None:
        raise OutsideValidity("Package figures", "tyre", None, "a package with a tyre", "geometry")
    sides = [2.0 * widest(package.tyre, side)[1] for side in SIDES]
    ribs = [2.0 * (half_width_mm(package.tyre, rib.radius_mm)[0] + rib.height_mm) for rib in package.ribs]
    index, symbol = (None, None) if size is None else (size.load_index, size.speed_symbol)
    return PackageFigures(
        float(max(*sides, *ribs, package.wheel.rim.overall_width_mm)),
        package.wheel.inset_mm,
        package.thickness_mm,
        2.0 * package.tyre.radius_mm,
        None if index is None else load_index(index).single_kg,
        None if symbol is None else speed_symbol(symbol).speed_kmh,
        wheel_rating_kg,
    )
