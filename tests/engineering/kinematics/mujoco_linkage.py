"""A double wishbone as bodies, hinges and equality constraints of a general multibody engine, closed by projection.

The engine supplies forward kinematics, constraint errors and their Jacobian; the pose follows by Gauss-Newton steps on
them. Nothing of the program under test is used.
"""

from __future__ import annotations

import mujoco
import numpy as np

from hubwright.engineering.kinematics.hardpoints import DoubleWishbone
from hubwright.engineering.kinematics.linkage import Point

CLOSED_MM = 1e-7
MASS = '<inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>'


def _xyz(point: Point, origin: Point = (0.0, 0.0, 0.0)) -> str:
    return " ".join(repr(float(a - b)) for a, b in zip(point, origin, strict=True))


def _arm(name: str, front: Point, rear: Point, outer: Point) -> str:
    along = " ".join(repr(float(a - b)) for a, b in zip(front, rear, strict=True))
    return (
        f'<body pos="{_xyz(rear)}"><joint type="hinge" axis="{along}"/>{MASS}'
        f'<site name="{name}" pos="{_xyz(outer, rear)}"/></body>'
    )


def model_of(p: DoubleWishbone) -> mujoco.MjModel:
    """The engine's model, lengths in mm."""
    w = p.wheel.centre_mm
    ends = {"upper": p.upper_outer_mm, "lower": p.lower_outer_mm, "tie": p.tie_outer_mm}
    rack = _xyz(p.rack_direction or (0.0, 1.0, 0.0))
    sites = "".join(f'<site name="{name} end" pos="{_xyz(place, w)}"/>' for name, place in ends.items())
    connects = "".join(f'<connect site1="{name}" site2="{name} end"/>' for name in ends)
    xml = f"""<mujoco><option gravity="0 0 0" jacobian="dense"/><worldbody>
      {_arm("upper", p.upper_front_mm, p.upper_rear_mm, p.upper_outer_mm)}
      {_arm("lower", p.lower_front_mm, p.lower_rear_mm, p.lower_outer_mm)}
      <body pos="{_xyz(p.tie_inner_mm)}"><joint name="rack" type="slide" axis="{rack}"/>{MASS}
        <body><joint type="ball"/>{MASS}<site name="tie" pos="{_xyz(p.tie_outer_mm, p.tie_inner_mm)}"/></body></body>
      <body pos="{_xyz(w)}"><joint name="travel" type="slide" axis="0 0 1"/>
        <joint type="slide" axis="1 0 0"/><joint type="slide" axis="0 1 0"/><joint type="ball"/>{MASS}
        <site name="wheel"/>{sites}</body>
    </worldbody><equality>{connects}<joint joint1="travel"/><joint joint1="rack"/></equality></mujoco>"""
    return mujoco.MjModel.from_xml_string(xml)


def solve_by_engine(model: mujoco.MjModel, travel_mm: np.ndarray, rack_mm: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Wheel centres (n, 3) in mm and carrier rotations (n, 3, 3), each state started from the one before it."""
    data = mujoco.MjData(model)
    joints = [model.joint(name).id for name in ("travel", "rack")]
    rows = [int(np.flatnonzero((model.eq_obj1id == j) & (model.eq_type == mujoco.mjtEq.mjEQ_JOINT))[0]) for j in joints]
    site = model.site("wheel").id
    centres, turns = np.empty((len(travel_mm), 3)), np.empty((len(travel_mm), 3, 3))
    for k, (travel, rack) in enumerate(zip(travel_mm, rack_mm, strict=True)):
        model.eq_data[rows[0], 0], model.eq_data[rows[1], 0] = travel, rack
        for _ in range(40):
            mujoco.mj_fwdPosition(model, data)
            error = data.efc_pos[: data.nefc]
            if np.abs(error).max() < CLOSED_MM:
                break
            jacobian = np.reshape(data.efc_J, (data.nefc, model.nv))
            step = -np.linalg.lstsq(jacobian, error, rcond=1e-12)[0]
            mujoco.mj_integratePos(model, data.qpos, step, 1.0)
        else:
            raise RuntimeError("the engine's constraints did not close")
        centres[k], turns[k] = data.site_xpos[site], np.reshape(data.site_xmat[site], (3, 3))
    return centres, turns
