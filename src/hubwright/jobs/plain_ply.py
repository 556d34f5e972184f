"""The plain kinds of PLY without a mesh library, for the quick first answer: vertices first, then triangles.

Source: G. Turk, The PLY Polygon File Format (1994), from memory. Whatever else a PLY file may hold is left to the mesh
library; this reader answers None then.
"""

from __future__ import annotations

import re
from typing import Any

import numpy as np

Floats = np.ndarray[Any, np.dtype[np.float64]]
Whole = np.ndarray[Any, np.dtype[np.int64]]

NUMBER = {
    "char": "i1", "int8": "i1", "uchar": "u1", "uint8": "u1", "short": "i2", "int16": "i2", "ushort": "u2",
    "uint16": "u2", "int": "i4", "int32": "i4", "uint": "u4", "uint32": "u4", "float": "f4", "float32": "f4",
    "double": "f8", "float64": "f8",
}  # fmt: skip
HEAD = re.compile(rb"ply\r?\n(.*?)end_header\r?\n", re.DOTALL)


def read_plain_ply(data: bytes) -> tuple[Floats, Whole] | None:
    """Vertices (v, 3) and triangles (k, 3) of a PLY file, or None where it is not one of the plain kinds."""
    head = HEAD.match(data)
    if head is None:
        return None
    try:
        return _read(head[1].decode("ascii").split("\n"), data[head.end() :])
    except (ValueError, KeyError, IndexError, TypeError):
        return None


def _read(lines: list[str], body: bytes) -> tuple[Floats, Whole] | None:
    words = [line.split() for line in lines if line.split() and not line.startswith(("comment", "obj_info"))]
    kind = next(word[1] for word in words if word[0] == "format")
    order = {"binary_little_endian": "<", "binary_big_endian": ">", "ascii": ""}[kind]
    elements: list[tuple[str, int, list[list[str]]]] = []
    for word in words:
        if word[0] == "element":
            elements.append((word[1], int(word[2]), []))
        elif word[0] == "property":
            elements[-1][2].append(word[1:])
    if [name for name, _, _ in elements] not in (["vertex"], ["vertex", "face"]):
        return None
    count, fields = elements[0][1], elements[0][2]
    if any(field[0] == "list" for field in fields):
        return None
    names = [field[1] for field in fields]
    axes = [names.index(axis) for axis in "xyz"]
    if not order:
        return _ascii(body, count, axes, elements)
    row = np.dtype([(f"{number}", order + NUMBER[field[0]]) for number, field in enumerate(fields)])
    table = np.frombuffer(body, row, count)
    vertices = np.column_stack([table[f"{axis}"] for axis in axes]).astype(float)
    if len(elements) == 1 or elements[1][1] == 0:
        return vertices, np.empty((0, 3), np.int64)
    lists = elements[1][2]
    if len(lists) != 1 or lists[0][0] != "list":
        return None
    face = np.dtype([("n", order + NUMBER[lists[0][1]]), ("v", order + NUMBER[lists[0][2]], (3,))])
    faces = np.frombuffer(body, face, elements[1][1], count * row.itemsize)
    return None if np.any(faces["n"] != 3) else (vertices, faces["v"].astype(np.int64))


def _ascii(
    body: bytes, count: int, axes: list[int], elements: list[tuple[str, int, list[list[str]]]]
) -> tuple[Floats, Whole] | None:
    lines = [line.split() for line in body.decode("ascii").split("\n") if line.strip()]
    vertices = np.array([[float(line[axis]) for axis in axes] for line in lines[:count]]).reshape(-1, 3)
    if len(vertices) != count:
        return None
    if len(elements) == 1 or elements[1][1] == 0:
        return vertices, np.empty((0, 3), np.int64)
    faces = list(lines[count : count + elements[1][1]])
    if len(faces) != elements[1][1] or any(line[0] != "3" for line in faces) or len(elements[1][2]) != 1:
        return None
    return vertices, np.array([[int(cell) for cell in line[1:4]] for line in faces], np.int64)
