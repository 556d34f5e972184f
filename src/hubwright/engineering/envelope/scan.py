"""The door for scans and meshes: PLY, OBJ, STL, glTF and GLB through trimesh, loaded only when a file is read.

Source: the file formats' own, through trimesh.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import numpy as np

from hubwright.engineering.envelope.obstacles import mesh, points
from hubwright.errors import BadInput, Fault
from hubwright.language import say

Floats = np.ndarray[Any, np.dtype[np.float64]]

MOST_NUMBERS = 6_000_000
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
        wanted = say("one of {known}", known=", ".join(SUFFIXES))
        raise BadInput(str(path), (Fault(say("file name"), wanted, path.suffix or say("no suffix")),))
    visual_of: Any = trimesh.visual  # its classes carry no types
    try:
        _refuse_bombs(path)
        # Materials and pictures are of no use here, and could be of any size.
        plain: dict[str, Any] = {} if path.suffix.lower() in (".ply", ".stl") else {"skip_materials": True}
        loaded = trimesh.load(path, process=False, **plain)
        for part in getattr(loaded, "geometry", {}).values():  # pictures laid on it would be copied with it
            if hasattr(part, "faces"):
                part.visual = visual_of.ColorVisuals()
        parts = loaded.dump() if isinstance(loaded, trimesh.Scene) else [loaded]
    except Exception as error:  # readers of many formats raise whatever they please
        raise BadInput(
            str(path), (Fault("file", say("a readable {suffix} file", suffix=path.suffix), str(error)),)
        ) from error
    _refuse_cut_short(path, sum(len(getattr(part, "vertices", ())) for part in parts))
    shapes = [_triangles(part) for part in parts if len(getattr(part, "vertices", ())) > 0]
    if not shapes:
        raise BadInput(str(path), (Fault("file", say("a mesh or points"), say("nothing of the kind")),))
    return unit_mm * np.concatenate(shapes)


def _refuse_bombs(path: Path) -> None:
    """Hold back a glTF file of a few bytes that claims so many numbers that making room for them would stop the machine.

    Raises:
        ValueError: it claims more than any scan that is taken holds.
    """
    if path.suffix.lower() not in (".gltf", ".glb"):
        return
    data = path.read_bytes()
    if (
        path.suffix.lower() == ".glb"
    ):  # glTF 2.0, 4.4: header of 12 bytes, then the JSON chunk with its length before it
        data = data[20 : 20 + int.from_bytes(data[12:16], "little")]
    found = json.loads(data)
    if any(_elsewhere(one.get("uri", "")) for one in found.get("buffers", [])):
        raise ValueError(say("a part of it in another folder"))
    accessors = found.get("accessors", [])
    if any(one.get("count", 0) > MOST_NUMBERS or "sparse" in one for one in accessors):
        raise ValueError(say("more places than can be read, or sparse ones"))


def _elsewhere(uri: str) -> bool:
    return not uri.startswith("data:") and ("/" in uri or "\\" in uri)


def _refuse_cut_short(path: Path, vertices: int) -> None:
    """Hold back a text file that ends before what its head or form promises: what is missing could stand in the way.

    Raises:
        BadInput: cut short.
    """
    data = path.read_bytes()
    suffix, short = path.suffix.lower(), False
    if suffix == ".ply":
        head = re.match(rb"ply\s.*?element vertex (\d+).*?end_header", data[:65536], re.DOTALL)
        short = head is not None and vertices < int(head[1])
    elif suffix == ".stl" and data[:5] == b"solid":
        binary = len(data) == 84 + 50 * int.from_bytes(data[80:84], "little")
        short = not binary and b"endsolid" not in data[-1024:]
    if short:
        todo = say("Copy it again from the scanner.")
        raise BadInput(str(path), (Fault("file", say("a whole file"), say("one that is cut short"), todo),))


def _triangles(part: Any) -> Floats:  # one of several classes of an untyped library
    faces = getattr(part, "faces", None)
    vertices = np.asarray(part.vertices, float)
    return points(vertices) if faces is None or len(faces) == 0 else mesh(vertices, np.asarray(faces))
