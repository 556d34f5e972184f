"""A scan for a viewer to pick in, and the wheel beside it, as binary glTF 2.0."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from hubwright.drawings.moving_scene import LOOKS, add_mesh, spokes_of, turned
from hubwright.drawings.scene3d import COLOURS, MM, TO_GLTF
from hubwright.jobs.placing import middle_of
from hubwright.jobs.scans import Shape, hub_axes
from hubwright.quantities.axes import Side, mirrored, to_corner

if TYPE_CHECKING:
    from hubwright.engineering.envelope.outline import Outline

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int64]]

MOST_TRIANGLES, MOST_POINTS = 150_000, 200_000
"""What a tablet still turns without a stutter; a guess, not measured on one."""
NEIGHBOURS = 10
LAMP = np.array([0.48, 0.36, 0.8])
STEPS = 600
"""Cells along a scan from which thinning begins."""
USUAL_WHEEL = np.array([[210.0, -110.0], [320.0, -110.0], [320.0, 110.0], [210.0, 110.0]])
"""Radius and place along the axis of the wheel drawn where the fitted tyre is not known; schematic."""


def scan_glb(shape: Shape) -> bytes:
    """The scan in its own axes about its middle, in metres, as node ``scan``; thinned to what a tablet can turn.

    Thinning keeps places of the scan itself, one for each cell of a grid, so that whatever is picked was scanned.
    """
    import trimesh  # noqa: PLC0415 - heavy, and only needed here

    vertices, faces = thinned(shape)
    near = (vertices - middle_of(shape)) * MM
    scene: Any = trimesh.Scene()
    points_of: Any = trimesh.PointCloud
    visual_of: Any = trimesh.visual
    if len(faces):
        material = visual_of.material.PBRMaterial(
            name="scan", baseColorFactor=np.array(COLOURS["obstacle"], np.uint8), metallicFactor=0.0,
            roughnessFactor=0.9, doubleSided=True,
        )  # fmt: skip
        visual = visual_of.TextureVisuals(material=material)
        scene.add_geometry(
            trimesh.Trimesh(near, faces, visual=visual, process=False), geom_name="scan", node_name="scan"
        )
    else:
        scene.add_geometry(points_of(near, colors=_shades(near)), geom_name="scan", node_name="scan")
    return bytes(scene.export(file_type="glb"))


def _shades(places: Floats) -> np.ndarray[Any, np.dtype[np.uint8]]:
    """Colours (n, 4) as if a lamp shone on the surface the points lie on, so that its shape is seen without triangles."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, and only for points

    count, base = len(places), np.array(COLOURS["obstacle"][:3], float)
    light = np.ones(count)
    if count > NEIGHBOURS:
        cloud = places[np.asarray(cKDTree(places).query(places, k=NEIGHBOURS)[1])]
        spread = cloud - cloud.mean(axis=1, keepdims=True)
        normal = np.linalg.eigh(np.einsum("nki,nkj->nij", spread, spread))[1][:, :, 0]
        light = 0.5 + 0.9 * np.abs(normal @ LAMP)
    shaded = np.clip(base * light[:, None], 0, 255).astype(np.uint8)
    return np.column_stack([shaded, np.full(count, 255, np.uint8)])


def thinned(shape: Shape) -> tuple[Floats, Whole]:
    """Vertices (v, 3) mm and triangles (k, 3) of a scan; no triangles where it is points."""
    places = shape.triangles_mm[:, 0] if shape.is_points else shape.triangles_mm.reshape(-1, 3)
    most = MOST_POINTS if shape.is_points else MOST_TRIANGLES
    extent = float(np.ptp(places, axis=0).max())
    vertices, owner = np.unique(places, axis=0, return_inverse=True) if len(places) <= 3 * most else (places, None)
    steps = STEPS
    while owner is None or (len(vertices) if shape.is_points else len(_faces(owner, shape))) > most:
        vertices, owner = _cells(places, extent, steps)
        steps = int(steps * 0.75)
    faces = _faces(owner, shape)
    return vertices, faces


def _cells(places: Floats, extent: float, steps: int) -> tuple[Floats, Whole]:
    """The first place in each cell of a grid, and for every place its cell."""
    cell = np.floor((places - places.min(axis=0)) * (steps / max(extent, 1e-9))).astype(np.int64)
    key = (cell[:, 0] * (steps + 1) + cell[:, 1]) * (steps + 1) + cell[:, 2]
    _, first, owner = np.unique(key, return_index=True, return_inverse=True)
    return places[first], owner


def _faces(owner: Whole, shape: Shape) -> Whole:
    if shape.is_points:
        return np.empty((0, 3), np.int64)
    faces = owner.reshape(-1, 3)
    whole = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    return np.asarray(faces[whole], np.int64)


def wheel_glb(outline: Outline | None, hub_mm: Floats, axis: Floats, side: Side) -> bytes:
    """The parked wheel as nodes ``tyre`` and ``spokes (schematic)``, in metres and the axes of glTF, front to -Z."""
    import trimesh  # noqa: PLC0415 - heavy, and only needed here

    rho, y = USUAL_WHEEL.T if outline is None else (outline.rho_mm, outline.y_mm)
    scene: Any = trimesh.Scene()
    turn = hub_axes(axis).T
    if side == "right":
        turn = mirrored(mirrored(turn).T).T  # rows and columns: a rotation again
    matrix = np.eye(4)
    matrix[:3, :3] = TO_GLTF @ turn
    matrix[:3, 3] = TO_GLTF @ to_corner(hub_mm, side) * MM
    scene.graph.update(frame_from=scene.graph.base_frame, frame_to="wheel", matrix=matrix)
    add_mesh(scene, "tyre", *turned(np.asarray(rho), np.asarray(y)), "wheel", side, LOOKS["tyre"])
    middle = 0.5 * float(np.min(y) + np.max(y))
    spokes = spokes_of(0.0, float(np.min(rho)), middle)
    add_mesh(scene, "spokes (schematic)", *spokes, "wheel", side, LOOKS["spokes (schematic)"])
    return bytes(scene.export(file_type="glb"))
