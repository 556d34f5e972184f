"""Profiles of wheels from files beside the job file: CSV, or a revolved section in a DXF drawing."""

from __future__ import annotations

import io
import logging
import math
from collections.abc import Iterator
from pathlib import Path, PurePosixPath
from typing import Any

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.parts.profile_points import read_profile_points
from hubwright.quantities.text import plain

Points = tuple[tuple[float, float], ...]
Place = tuple[str | int, ...]
LARGEST_PROFILE_BYTES = 4 * 1024 * 1024
JOIN_MM = 0.02
"""Ends nearer than this are one corner."""
SAG_MM = 0.01
"""How far a chord may lie off the arc or spline it stands for."""
MM_PER_UNIT = {0: 1.0, 1: 25.4, 4: 1.0, 5: 10.0, 6: 1000.0}
"""$INSUNITS of DXF: none (taken as mm), inch, mm, cm, m."""
CURVES = "LINE LWPOLYLINE POLYLINE ARC SPLINE ELLIPSE"


def fill_profiles(tree: dict[str, Any], folder: Path | None) -> dict[Place, Fault]:
    """Put the points of every profile file named in a job's tree into it; faults by the place of the file's name.

    Args:
        tree: The job file as tables and lists, in the units used inside; lines that name a file get ``points_mm``.
        folder: Where the job file lies; None where the job came as text only, so that no file can be read.
    """
    faults: dict[Place, Fault] = {}
    for place, line in _lines(tree):
        name = line.get("file")
        if not isinstance(name, str) or line.get("points_mm") is not None:
            continue
        try:
            layer = line.get("layer")
            points = read_profile_file(folder, name, layer if isinstance(layer, str) else None)
        except BadInput as error:
            faults[(*place, "file")] = error.faults[0]
        else:
            line["points_mm"] = [list(point) for point in points]
    return faults


def _lines(tree: dict[str, Any]) -> Iterator[tuple[Place, dict[str, Any]]]:
    """Every profile line with its place; whatever is not a table or list is left to the validator."""
    for axle in ("front", "rear"):
        for sets in ("wheel_set", "package"):
            for number, item in enumerate(_items(_table(tree.get(axle)).get(sets))):
                lines = _items(_table(item.get("wheel")).get("profile"))
                for row, line in enumerate(lines):
                    yield (axle, sets, number, "wheel", "profile", row), line


def _table(value: Any) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}


def _items(value: Any) -> list[dict[str, Any]]:
    return [_table(item) for item in value] if isinstance(value, list) else []


def read_profile_file(folder: Path | None, name: str, layer: str | None = None) -> Points:
    """Points (distance from the spin axis, position outboard of the mounting face) from a file, mm.

    Args:
        folder: Where the job file lies.
        name: The file's name, in that folder or below it.
        layer: Layer of a DXF; None = all.

    Raises:
        BadInput: where there is no such file, it lies elsewhere, is too large, or does not hold one chain of points.
    """
    if folder is None:
        raise _refused(
            say("points_mm, since this job came without a folder"), name, say("Write the points into the job.")
        )
    inner = PurePosixPath(name)
    if inner.is_absolute() or ".." in inner.parts or "\\" in name or ":" in name:
        raise _refused(say("a file beside the job file"), name, say("Put it into the folder of the job file."))
    path = folder / inner
    if not path.resolve().is_relative_to(folder.resolve()):
        raise _refused(say("a file beside the job file"), name, say("Put it into the folder of the job file."))
    try:
        if path.stat().st_size > LARGEST_PROFILE_BYTES:
            raise _refused(
                say("at most {size} MiB", size=LARGEST_PROFILE_BYTES // 1024**2),
                name,
                say("Leave only the section in it."),
            )
        data = path.read_bytes()
    except OSError as error:
        raise _refused(
            say("a file that can be read"), f"{name}: {error.strerror or error}", say("Check the name.")
        ) from None
    if path.suffix.lower() == ".csv":
        return _csv(data, name)
    if path.suffix.lower() == ".dxf":
        return read_profile_dxf(data, name, layer)
    raise _refused(say("a .csv or .dxf file"), name, say("Save it as one of them."))


def _csv(data: bytes, name: str) -> Points:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _refused(say("UTF-8 text"), name, say("Save it as UTF-8 text.")) from None
    try:
        return read_profile_points(text, name)
    except BadInput as error:
        first = error.faults[0]
        where = (
            say("{name}, line {line}: {given}", name=name, line=first.line, given=first.given)
            if first.line
            else f"{name}: {first.given}"
        )
        raise _refused(first.wanted, where, say("The header is rho_mm,y_mm.")) from None


def read_profile_dxf(data: bytes, name: str, layer: str | None = None) -> Points:
    """The one chain of lines, polylines, arcs and splines of a DXF: x the distance from the spin axis, y outboard, mm.

    Arcs and splines become chords no more than 0.01 mm off. The drawing's own unit ($INSUNITS) counts; without one it
    is mm. The chain runs from its end with the larger y.

    Raises:
        BadInput: for a text that is no DXF, an unknown unit, a layer without lines, more than one chain, or points on
            the far side of the axis.
    """
    layers, pieces = _pieces(data, name, layer)
    if not pieces:
        there = (
            say("{name}: layers {layers}", name=name, layers=", ".join(sorted(layers)))
            if layers
            else say("{name}: no lines", name=name)
        )
        raise _refused(
            say("lines on the layer {layer}", layer=layer) if layer else say("lines of a profile"),
            there,
            say("Name another layer."),
        )
    chains = _chained(pieces)
    if len(chains) != 1:
        there = say("{name}: {chains} apart", name=name, chains=len(chains))
        raise _refused(say("one chain of lines"), there, say("Join the ends, or name the layer of the profile."))
    return _checked(chains[0], name)


def _pieces(data: bytes, name: str, layer: str | None) -> tuple[set[str], list[list[tuple[float, float]]]]:
    """All layers with curves, and the curves of the one asked for as chains of points, mm."""
    logging.getLogger("ezdxf").addHandler(logging.NullHandler())
    from ezdxf import recover  # noqa: PLC0415 - heavy, and only needed here
    from ezdxf.path import make_path  # noqa: PLC0415

    try:
        drawing, _ = recover.read(io.BytesIO(data))
        unit = int(drawing.header.get("$INSUNITS", 0))
        scale = MM_PER_UNIT.get(unit, 1.0)
        pieces: list[list[tuple[float, float]]] = []
        layers: set[str] = set()
        for entity in drawing.modelspace().query(CURVES):
            layers.add(entity.dxf.layer)
            if layer is None or entity.dxf.layer == layer:
                corners = make_path(entity).flattening(SAG_MM / scale)
                pieces.append([(float(corner.x) * scale, float(corner.y) * scale) for corner in corners])
    except Exception:  # noqa: BLE001 - whatever a broken drawing makes its reader raise
        raise _refused(say("a DXF drawing"), name, say("Save it again as DXF.")) from None
    if unit not in MM_PER_UNIT:
        raise _refused(
            say("a drawing in mm, cm, m or inch"),
            say("{name}: $INSUNITS {unit}", name=name, unit=unit),
            say("Set the drawing's unit."),
        )
    return layers, [piece for piece in pieces if len(piece) > 1]


def _chained(pieces: list[list[tuple[float, float]]]) -> list[list[tuple[float, float]]]:
    """Pieces joined where their ends meet, whichever way each was drawn."""
    chains: list[list[tuple[float, float]]] = []
    left = list(pieces)
    while left:
        chain = left.pop(0)
        while (found := _next(chain, left)) is not None:
            number, chain = found
            left.pop(number)
        chains.append(chain)
    return chains


def _next(
    chain: list[tuple[float, float]], left: list[list[tuple[float, float]]]
) -> tuple[int, list[tuple[float, float]]] | None:
    for number, piece in enumerate(left):
        for other in (piece, piece[::-1]):
            if math.dist(chain[-1], other[0]) <= JOIN_MM:
                return number, chain + other[1:]
            if math.dist(chain[0], other[-1]) <= JOIN_MM:
                return number, other[:-1] + chain
    return None


def _checked(chain: list[tuple[float, float]], name: str) -> Points:
    lowest = min(rho for rho, _ in chain)
    if lowest < -JOIN_MM or not all(math.isfinite(figure) for point in chain for figure in point):
        given = f"{name}: x = {plain(lowest)} mm"
        raise _refused(say("x from 0 up: the distance from the spin axis"), given, say("Draw one half of the section."))
    ordered = chain if chain[0][1] >= chain[-1][1] else chain[::-1]
    return tuple((max(rho, 0.0), y) for rho, y in ordered)


def _refused(wanted: str, given: str, todo: str) -> BadInput:
    return BadInput(say("profile"), (Fault("file", wanted, given, todo),))
