"""A 3-D scene for a viewer that moves the wheel: GLB with named nodes, and the poses of every state as plain data."""

from __future__ import annotations

from typing import Any

import numpy as np

from hubwright.drawings.scene3d import COLOURS, MM, TO_GLTF, ribbons
from hubwright.jobs.mapping import MappedCorner
from hubwright.jobs.scene_states import SceneState, SceneStates
from hubwright.language import say
from hubwright.language.place_words import place_word
from hubwright.quantities.axes import Side, mirrored, to_corner
from hubwright.quantities.rounding import at_least
from hubwright.quantities.text import length, short, spare

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int64]]

TURN, SPOKES = 72, 5
HUB_MM, DISC_MM = 70.0, 78.0
"""Radii of hub pad and disc in the picture; schematic."""
LOOKS = {
    "tyre": ((58, 58, 62, 255), 0.0, 0.95),
    "spokes (schematic)": ((178, 182, 186, 255), 0.3, 0.5),
    "disc": ((190, 112, 40, 255), 0.2, 0.6),
}


def moving_glb(mapped: MappedCorner, states: SceneStates) -> bytes:
    """Wheel, disc and obstacles as binary glTF 2.0 in metres; the same answer gives the same bytes.

    Node ``wheel`` stands in the state of the least gap and holds ``tyre``, ``disc`` and schematic spokes in hub axes: give it
    another pose of `scene_json` and all of it moves. What the knuckle carries hangs on ``wheel`` too.
    """
    import trimesh  # noqa: PLC0415 - heavy, and only needed here

    side, t = mapped.room.side, states.thickness_mm
    scene: Any = trimesh.Scene()
    scene.graph.update(frame_from=scene.graph.base_frame, frame_to="wheel", matrix=_matrix(states.least, side))
    outline = mapped.outline
    add_mesh(scene, "tyre", *turned(outline.rho_mm, outline.y_mm + t), "wheel", side, LOOKS["tyre"])
    rim = float(outline.rho_mm.min())
    middle = 0.5 * float(outline.y_mm.min() + outline.y_mm.max())
    add_mesh(scene, "spokes (schematic)", *spokes_of(t, rim, middle + t), "wheel", side, LOOKS["spokes (schematic)"])
    if t > 0:
        ring = np.array([32.0, DISC_MM, DISC_MM, 32.0])
        add_mesh(scene, "disc", *turned(ring, np.array([0.0, 0.0, t, t])), "wheel", side, LOOKS["disc"])
    for one in mapped.obstacles:
        triangles = one.triangles_mm
        if np.all(triangles[:, 0] == triangles[:, 1]) or np.all(triangles[:, 1] == triangles[:, 2]):
            triangles = ribbons(triangles)
        faces = np.arange(3 * len(triangles)).reshape(-1, 3)
        look = (COLOURS["obstacle"], 0.0, 0.9)
        name = f"obstacle: {one.name}"
        if one.carried:
            add_mesh(scene, name, triangles.reshape(-1, 3), faces, "wheel", side, look)
        else:
            add_mesh(scene, name, triangles.reshape(-1, 3), faces, None, side, look)
    return bytes(scene.export(file_type="glb"))


def scene_json(mapped: MappedCorner, states: SceneStates) -> dict[str, Any]:
    """Every state as a viewer needs it: pose of the node ``wheel``, both ends of the nearest gap, and the words for it."""
    side = mapped.room.side
    return {
        "side": side,
        "thickness_mm": states.thickness_mm,
        "travels_mm": list(states.travels_mm),
        "locks": states.locks,
        "states": [[None if one is None else _plain(one, side) for one in row] for row in states.states],
        "least": _plain(states.least, side),
    }


def state_sentence(state: SceneState) -> str:
    """The nearest place of one state in words."""
    if state.gap_mm is None or state.wanted_mm is None or state.left_mm is None:
        return say("{state}: nothing is near.", state=_begin(state.words))
    over = spare(state.left_mm) if at_least(state.left_mm, 0.0) else short(-state.left_mm)
    if state.gap_mm < 0:
        return say("{state}: {overlap} of overlap with {obstacle}.", state=_begin(state.words),
                   overlap=length(-state.gap_mm), obstacle=place_word(state.obstacle))  # fmt: skip
    return say(
        "{state}: {gap} to {obstacle}, {wanted} wanted: {over}.", state=_begin(state.words), gap=length(state.gap_mm),
        obstacle=place_word(state.obstacle), wanted=length(state.wanted_mm), over=over,
    )  # fmt: skip


def _begin(words: str) -> str:
    return words[:1].upper() + words[1:]


def _plain(state: SceneState, side: Side) -> dict[str, Any]:
    matrix = _matrix(state, side)
    return {
        "travel_mm": round(state.travel_mm, 2),
        "steer_deg": round(state.steer_deg, 2),
        "place": [round(float(value), 6) for value in matrix[:3, 3]],
        "turn": [round(value, 7) for value in _quaternion(matrix[:3, :3])],
        "near": None if state.place_mm is None else _gltf(state.place_mm, side),
        "wheel": None if state.wheel_mm is None else _gltf(state.wheel_mm, side),
        "gap_mm": None if state.gap_mm is None else round(state.gap_mm, 2),
        "enough": state.left_mm is None or at_least(state.left_mm, 0.0),
        "tag": "" if state.gap_mm is None else length(state.gap_mm),
        "state": _begin(state.words),
        "words": state_sentence(state),
    }


def _gltf(spot: tuple[float, float, float], side: Side) -> list[float]:
    return [round(float(value), 6) for value in TO_GLTF @ to_corner(np.array(spot), side) * MM]


def _matrix(state: SceneState, side: Side) -> Floats:
    """Pose of the hub axes (forward, outboard, up; on the right side forward, inboard, up) in the scene."""
    axis = np.array(state.axis)
    ahead = np.array([1.0, 0.0, 0.0]) - axis[0] * axis
    ahead /= np.linalg.norm(ahead)
    turn = np.column_stack([ahead, axis, np.cross(ahead, axis)])
    if side == "right":
        turn = mirrored(mirrored(turn).T).T  # rows and columns: a rotation again
    matrix = np.eye(4)
    matrix[:3, :3] = TO_GLTF @ turn
    matrix[:3, 3] = TO_GLTF @ to_corner(np.array(state.origin_mm), side) * MM
    return matrix


def _quaternion(turn: Floats) -> list[float]:
    """x, y, z, w of a rotation (Shepperd, J. Guidance and Control 1 (1978) 223)."""
    from scipy.spatial.transform import Rotation  # noqa: PLC0415 - only needed here

    return [float(value) for value in Rotation.from_matrix(turn).as_quat()]


def add_mesh(
    scene: Any, name: str, vertices: Floats, faces: Whole, parent: str | None, side: Side,
    look: tuple[tuple[int, int, int, int], float, float],
) -> None:  # fmt: skip
    """One mesh: in hub axes under ``wheel``, else in corner axes under the scene."""
    import trimesh  # noqa: PLC0415 - heavy, and only needed here

    visual_of: Any = trimesh.visual  # its classes carry no types
    placed = to_corner(vertices, side) * MM
    if parent is None:
        placed = placed @ TO_GLTF.T
    colour, metal, rough = look
    material = visual_of.material.PBRMaterial(
        name=name, baseColorFactor=np.array(colour, np.uint8), metallicFactor=metal, roughnessFactor=rough,
        doubleSided=True,
    )  # fmt: skip
    turned = faces if side == "left" else faces[:, ::-1]
    mesh = trimesh.Trimesh(placed, turned, visual=visual_of.TextureVisuals(material=material), process=False)
    mesh.merge_vertices()  # obstacles come as loose triangles: less than half the bytes
    scene.add_geometry(mesh, geom_name=name, node_name=name, parent_node_name=parent)


def turned(rho: Floats, y: Floats) -> tuple[Floats, Whole]:
    """A closed section turned about the spin axis, in hub axes."""
    angle = np.linspace(0.0, 2.0 * np.pi, TURN, endpoint=False)
    corners = len(rho)
    ring = np.column_stack([np.cos(angle), np.zeros(TURN), np.sin(angle)])
    places = rho[None, :, None] * ring[:, None, :] + y[None, :, None] * np.array([0.0, 1.0, 0.0])
    i, j = (part.ravel() for part in np.meshgrid(np.arange(TURN), np.arange(corners), indexing="ij"))
    a, b = i * corners + j, ((i + 1) % TURN) * corners + j
    c, d = ((i + 1) % TURN) * corners + (j + 1) % corners, i * corners + (j + 1) % corners
    return places.reshape(-1, 3), np.concatenate([np.column_stack([a, b, c]), np.column_stack([a, c, d])])


def spokes_of(pad_mm: float, rim_mm: float, rim_y_mm: float) -> tuple[Floats, Whole]:
    """A pad on the disc and spokes to the rim: only so that the wheel is seen as one; nothing of it is measured."""
    vertices, faces = turned(
        np.array([30.0, HUB_MM, HUB_MM, 30.0]), np.array([pad_mm, pad_mm, pad_mm + 12.0, pad_mm + 12.0])
    )
    every, count = [vertices], len(vertices)
    all_faces = [faces]
    quads = ((0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3))
    box_faces = np.array([corners for a, b, c, d in quads for corners in ((a, b, c), (a, c, d))])
    outer_y = max(rim_y_mm, pad_mm) + 10.0
    for number in range(SPOKES):
        angle = 2.0 * np.pi * number / SPOKES + 0.5 * np.pi
        ahead, across = np.array([np.cos(angle), 0.0, np.sin(angle)]), np.array([-np.sin(angle), 0.0, np.cos(angle)])
        spots = [
            radius * ahead + half * across + np.array([0.0, height, 0.0])
            for radius, y in ((HUB_MM - 8.0, pad_mm), (rim_mm, outer_y))
            for half in (-22.0, 22.0)
            for height in (y, y + 12.0)
        ]
        every.append(np.array(spots))
        all_faces.append(box_faces + count)
        count += 8
    return np.concatenate(every), np.concatenate(all_faces)
