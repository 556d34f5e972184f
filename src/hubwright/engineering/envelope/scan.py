"""The door for scans and meshes: PLY, OBJ, STL, glTF and GLB through trimesh, loaded only when a file is read.

Source: the file formats' own, through trimesh.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from hubwright.engineering.envelope.obstacles import mesh, points
from hubwright.errors import BadInput, Fault
from hubwright.language import say

Floats = np.ndarray[Any, np.dtype[np.float64]]

SUFFIXES = (".ply", ".obj", ".stl", ".gltf", ".glb")


def read_scan(path: Path, unit_mm: float) -> Floats:
    """Triangles (k, 3, 3) mm of a mesh, or points as triangles without area where the file holds no faces.

    Args:
        path: File in one of ``SUFFIXES``.
        unit_mm: Length of one unit of the file in mm (1 for mm, 1000 for metres): no format of these is sure to say.

    Raises:
        BadInput: Not a known suffix, unreadable, or empty.
    """
    import trimesh  # noqa: PLC0415 - heavy, and most jobs have no scan

    if path.suffix.lower() not in SUFFIXES:
        raise BadInput(
            str(path),
            (
                Fault(
                    say("file name"), say("one of {known}", known=", ".join(SUFFIXES)), path.suffix or say("no suffix")
                ),
            ),
        )
    try:
        loaded = trimesh.load(path, process=False)
        parts = loaded.dump() if isinstance(loaded, trimesh.Scene) else [loaded]
    except Exception as error:  # readers of many formats raise whatever they please
        raise BadInput(
            str(path), (Fault("file", say("a readable {suffix} file", suffix=path.suffix), str(error)),)
        ) from error
    shapes = [_triangles(part) for part in parts if len(getattr(part, "vertices", ())) > 0]
    if not shapes:
        raise BadInput(str(path), (Fault("file", say("a mesh or points"), say("nothing of the kind")),))
    return unit_mm * np.concatenate(shapes)


def _triangles(part: Any) -> Floats:  # one of several classes of an untyped library
    faces = getattr(part, "faces", None)
    vertices = np.asarray(part.vertices, float)
    return points(vertices) if faces is None or len(faces) == 0 else mesh(vertices, np.asarray(faces))
