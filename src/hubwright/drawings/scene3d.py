"""A 3-D scene as GLB: wheel, swept space, what stands around it, and the places of the least gaps."""

from __future__ import annotations

from typing import Any

import numpy as np

from hubwright.drawings.mapchart import pose_of
from hubwright.jobs.room_table import RoomTable
from hubwright.quantities.axes import to_corner

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int64]]

TURN, SWEPT_TURN, SWEPT_STATES = 72, 32, 24
MM = 0.001
COLOURS = {
    "wheel": (60, 60, 64, 255),
    "wheel in the state of the least gap": (205, 120, 45, 255),
    "swept space": (120, 150, 200, 60),
    "obstacle": (90, 120, 160, 255),
    "least gap": (190, 40, 45, 255),
}
TO_GLTF = np.array([[0.0, -1.0, 0.0], [0.0, 0.0, 1.0], [-1.0, 0.0, 0.0]])
"""From vehicle axes (X forward, Y left, Z up) to those of glTF 2.0 (3.4: Y up, Z forward, right-handed), front to -Z."""


def scene_glb(room: RoomTable) -> bytes:
    """The scene as a binary glTF 2.0 file in metres; the same answer gives the same bytes.

    Holds one node each for the parked wheel, the wheel in the state of its least gap with the disc looked at, the swept
    space (the wheel in states all over the map), every obstacle, and a small ball at the place of each least gap.
    """
    import trimesh  # noqa: PLC0415 - heavy, and only needed here

    row, mapped = room.with_disc[0], room.mapped
    visual_of: Any = trimesh.visual  # its classes carry no types
    scene: Any = trimesh.Scene()

    def add(name: str, vertices: Floats, faces: Whole, colour: tuple[int, int, int, int]) -> None:
        inside = to_corner(vertices, room.side) @ TO_GLTF.T * MM
        turned = faces if room.side == "left" else faces[:, ::-1]
        material = visual_of.material.PBRMaterial(
            name=name, baseColorFactor=np.array(colour, np.uint8), metallicFactor=0.0, roughnessFactor=0.9,
            alphaMode="BLEND" if colour[3] < 255 else "OPAQUE", doubleSided=True,
        )  # fmt: skip
        visual = visual_of.TextureVisuals(material=material)
        mesh = trimesh.Trimesh(inside, turned, visual=visual, process=False)
        mesh.merge_vertices()  # obstacles come as loose triangles: less than half the bytes
        scene.add_geometry(mesh, geom_name=name, node_name=name)

    parked = pose_of(room, 0.0, 0.0)
    add("wheel", *_turned(room, *parked, 0.0, TURN), COLOURS["wheel"])
    if row.travel_mm is not None and row.steer_deg is not None:
        name = "wheel in the state of the least gap"
        add(name, *_turned(room, *pose_of(room, row.travel_mm, row.steer_deg), row.thickness_mm, TURN), COLOURS[name])
    add("swept space", *_swept(room, row.thickness_mm), COLOURS["swept space"])
    for one in mapped.obstacles:
        triangles = one.triangles_mm
        if np.all(triangles[:, 0] == triangles[:, 1]) or np.all(triangles[:, 1] == triangles[:, 2]):
            triangles = ribbons(triangles)
        if one.carried:
            triangles = _with_hub(triangles, *parked)
        faces = np.arange(3 * len(triangles)).reshape(-1, 3)
        add(f"obstacle: {one.name}", triangles.reshape(-1, 3), faces, COLOURS["obstacle"])
    for number, gap in enumerate(room.with_disc):
        if gap.place_mm is not None and gap.travel_mm is not None:
            ball = trimesh.creation.icosphere(subdivisions=2, radius=9.0)
            name = f"least gap {number + 1}: {gap.obstacle}"
            add(name, ball.vertices + np.array(gap.place_mm), np.asarray(ball.faces), COLOURS["least gap"])
    return bytes(scene.export(file_type="glb"))


def _turned(room: RoomTable, origin: Floats, axis: Floats, disc_mm: float, turn: int) -> tuple[Floats, Whole]:
    """The section turned about the spin axis: a closed surface."""
    outline = room.mapped.outline
    one = np.cross(axis, [0.0, 0.0, 1.0])
    one /= np.linalg.norm(one)
    other = np.cross(axis, one)
    angle = np.linspace(0.0, 2.0 * np.pi, turn, endpoint=False)
    ring = np.cos(angle)[:, None] * one + np.sin(angle)[:, None] * other
    corners = len(outline.rho_mm)
    places = origin + (outline.y_mm[None, :, None] + disc_mm) * axis + outline.rho_mm[None, :, None] * ring[:, None, :]
    i, j = (part.ravel() for part in np.meshgrid(np.arange(turn), np.arange(corners), indexing="ij"))
    a, b = i * corners + j, ((i + 1) % turn) * corners + j
    c, d = ((i + 1) % turn) * corners + (j + 1) % corners, i * corners + (j + 1) % corners
    return places.reshape(-1, 3), np.concatenate([np.column_stack([a, b, c]), np.column_stack([a, c, d])])


def _swept(room: RoomTable, disc_mm: float) -> tuple[Floats, Whole]:
    """The wheel in states spread over the map, as one bundle of its outermost rings."""
    poses = room.mapped.poses
    picked = np.unique(np.linspace(0, len(poses) - 1, min(SWEPT_STATES, len(poses))).round().astype(int))
    vertices, faces, count = [], [], 0
    for state in picked:
        v, f = _turned(room, poses.origin_mm[state], poses.axis[state], disc_mm, SWEPT_TURN)
        vertices.append(v)
        faces.append(f + count)
        count += len(v)
    return np.concatenate(vertices), np.concatenate(faces)


def ribbons(triangles: Floats) -> Floats:
    """Points and lines made visible: small crossed triangles along them."""
    wide = np.array([[0.0, 0.0, 1.5], [0.0, 0.0, -1.5], [1.5, 1.5, 0.0]])
    one = np.stack([triangles[:, 0] + wide[0], triangles[:, 0] + wide[1], triangles[:, 2] + wide[2]], axis=1)
    two = np.stack([triangles[:, 2] + wide[0], triangles[:, 2] + wide[1], triangles[:, 0] + wide[2]], axis=1)
    return np.concatenate([one, two])


def _with_hub(triangles: Floats, origin: Floats, axis: Floats) -> Floats:
    """What the knuckle carries, at its parked place in corner axes."""
    ahead = np.array([1.0, 0.0, 0.0]) - axis[0] * axis
    ahead /= np.linalg.norm(ahead)
    return np.asarray(origin + triangles @ np.stack([ahead, axis, np.cross(ahead, axis)]))
