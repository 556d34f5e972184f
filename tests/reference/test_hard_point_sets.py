"""Four sets of hard points solved by an independent rigid-link Newton program (see the shared data's provenance).

Every column of that table follows the definitions used here: camber true inclination, steer positive to the left,
kingpin and caster projected on the car's own planes, scrub and trail in the wheel's own directions on the ground.
Nothing has to be converted but metres to millimetres.
"""

import csv
import json
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from hubwright.engineering.kinematics.build import linkage_of
from hubwright.engineering.kinematics.characteristics import characteristics
from hubwright.engineering.kinematics.hardpoints import DoubleWishbone, Strut
from hubwright.engineering.kinematics.linkage import Linkage, Point, Wheel
from hubwright.engineering.kinematics.solve import solve


def linkage_from(points: dict[str, object]) -> Linkage:
    def mm(key: str) -> Point:
        x, y, z = (1000.0 * v for v in points[key])  # type: ignore[attr-defined] # three numbers
        return (x, y, z)

    wheel = Wheel("left", mm("W"), 1000.0 * float(str(points["R"])), float(str(points.get("camber0", 0.0))), 0.0)
    low = {"lower_front_mm": mm("LF"), "lower_rear_mm": mm("LB"), "lower_outer_mm": mm("LO")}
    tie = {"tie_inner_mm": mm("TI"), "tie_outer_mm": mm("TO")}
    if points["type"] == "mcp":
        return linkage_of(Strut(wheel, mm("SC"), mm("SU"), **low, **tie))
    return linkage_of(DoubleWishbone(wheel, mm("UF"), mm("UB"), mm("UO"), **low, **tie))


@pytest.mark.parametrize("name", ["dw_sedan", "dw_bus", "dw_book", "strut_generic"])
def test_every_column_agrees_within_a_hundredth_of_a_millimetre_and_a_thousandth_of_a_degree(
    name: str, shared: Callable[[str], Path]
) -> None:
    points = json.loads(shared("kinematics/hardpoints.json").read_text())["sets"][name]
    with shared("kinematics/kinematics_reference.csv").open() as file:
        rows = [row for row in csv.DictReader(file) if row["set"] == name]

    def column(key: str) -> np.ndarray:
        return np.array([float(row[key]) for row in rows])

    states = solve(linkage_from(points), column("bump_mm"), column("rack_mm"))
    found = characteristics(states)
    ours_mm = {
        "wheel_dx_mm": found.centre_shift_mm[:, 0],
        "wheel_dy_mm": found.centre_shift_mm[:, 1],
        "bump_mm": found.centre_shift_mm[:, 2],
        "scrub_mm": found.scrub_mm,
        "trail_mm": found.trail_mm,
    }
    ours_deg = {
        "camber_deg": found.camber_deg,
        "steer_deg": found.steer_deg,
        "kpi_deg": found.kingpin_inclination_deg,
        "caster_deg": found.caster_deg,
    }
    assert len(rows) == 29
    assert np.all(states.solved)
    for key, ours in ours_mm.items():
        np.testing.assert_allclose(ours, column(key), rtol=0.0, atol=0.01, err_msg=key)
    for key, ours in ours_deg.items():
        np.testing.assert_allclose(ours, column(key), rtol=0.0, atol=0.001, err_msg=key)
