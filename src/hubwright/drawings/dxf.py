"""From scene to DXF: circles as circles, dimensions as dimensions, so that a machine shop can measure in it."""

from __future__ import annotations

import io
import threading
from collections.abc import Iterator

from ezdxf._options import options
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from hubwright.drawings.scene import Dot, Group, Item, Label, Ring, Scene, Stroke

LAYERS = {
    "OUTLINE": ("CONTINUOUS", 50),
    "CENTRE": ("CENTER", 25),
    "HIDDEN": ("DASHED", 25),
    "HATCH": ("CONTINUOUS", 13),
    "TEXT": ("CONTINUOUS", 25),
    "DIMENSIONS": ("CONTINUOUS", 18),
}
"""Name: line type, width in hundredths of mm."""
ALIGNMENT = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}
MILLIMETRES = 4
DIMENSION = "dimension "
_FIXED = threading.Lock()


def dxf_of(scene: Scene) -> bytes:
    """The DXF (R2010) of a scene in mm. The same scene gives the same bytes: no clock is read.

    A group called ``dimension NAME`` becomes one aligned dimension between the ends of its first stroke.
    """
    with _FIXED:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True  # a fixed day and no random names in the head
        try:
            return _written(scene)
        finally:
            options.write_fixed_meta_data_for_testing = before


def _written(scene: Scene) -> bytes:
    document = new("R2010", setup=True, units=MILLIMETRES)
    for name, (kind, weight) in LAYERS.items():
        document.layers.add(name, linetype=kind, lineweight=weight)
    space = document.modelspace()
    for item in scene.items:
        _draw(space, item, scene.px)
    classes = document.classes
    classes.add_required_classes(document.dxfversion)
    classes.classes = dict(sorted(classes.classes.items()))  # they come from a set, in any order
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode("utf-8")


def _draw(space: Modelspace, item: Item, px: float) -> None:
    if isinstance(item, Group):
        if item.name.startswith(DIMENSION):
            _dimension(space, item, px)
            return
        for part in item.items:
            _draw(space, part, px)
    elif isinstance(item, Ring):
        space.add_circle(item.at, item.radius, dxfattribs={"layer": _layer(item.dash_px)})
    elif isinstance(item, Stroke):
        _stroke(space, item)
    elif isinstance(item, Label):
        _text(space, item, px)
    elif isinstance(item, Dot):
        space.add_circle(item.at, item.radius_px * px, dxfattribs={"layer": "TEXT"})


def _layer(dash_px: tuple[float, ...]) -> str:
    return "OUTLINE" if not dash_px else "CENTRE" if len(dash_px) > 2 else "HIDDEN"


def _stroke(space: Modelspace, item: Stroke) -> None:
    layer = {"layer": _layer(item.dash_px)}
    if item.closed and item.hatch:
        hatch = space.add_hatch(dxfattribs={"layer": "HATCH"})
        hatch.set_pattern_fill("ANSI31", scale=0.5)
        hatch.paths.add_polyline_path(item.points, is_closed=True)
    space.add_lwpolyline(item.points, close=item.closed, dxfattribs=layer)


def _text(space: Modelspace, item: Label, px: float) -> None:
    text = space.add_text(_plain(item.text), height=item.size_px * px * 0.72, dxfattribs={"layer": "TEXT"})
    text.set_placement(item.at, align=ALIGNMENT[item.anchor])


def _plain(text: str) -> str:
    """Text without what a DXF reader takes for a code of its own."""
    return " ".join(text.replace("%%", "% %").replace("^", "'").split())


def _dimension(space: Modelspace, group: Group, px: float) -> None:
    measured = next(_strokes(group))
    label = next(part for part in group.items if isinstance(part, Label))
    a, b = measured.points[0], measured.points[-1]
    size = 12.0 * px * 0.72
    made = space.add_aligned_dim(
        p1=a,
        p2=b,
        distance=0.0,
        text=_plain(label.text),
        dimstyle="EZDXF",
        override={"dimtxt": size, "dimasz": 6.0 * px, "dimblk": "", "dimexe": 0.0, "dimexo": 0.0, "dimtad": 1},
        dxfattribs={"layer": "DIMENSIONS"},
    )
    upright = abs(b[0] - a[0]) < abs(b[1] - a[1])
    beside = (a[0] - 0.75 * size, label.at[1]) if upright else (label.at[0] + size, label.at[1] + size / 2)
    made.set_location(beside, leader=False, relative=False)
    made.render()
    for part in group.items:
        if isinstance(part, Stroke) and part is not measured and not part.closed:
            space.add_lwpolyline(part.points, dxfattribs={"layer": "DIMENSIONS"})


def _strokes(group: Group) -> Iterator[Stroke]:
    return (part for part in group.items if isinstance(part, Stroke))
