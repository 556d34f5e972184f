"""From scene to SVG text. The same scene gives the same bytes."""

from __future__ import annotations

import math
import re
import zlib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal
from xml.sax.saxutils import escape, quoteattr

from hubwright.drawings.scene import Dot, Group, Hatch, Item, Label, Ring, Scene, Spot, Stroke
from hubwright.drawings.style import css

_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_HATCH_PX = 5.0
Layer = Literal["under", "over"]
_HATCHES: dict[Hatch, str] = {"rising": "M0 5L5 0", "falling": "M0 0L5 5", "dots": "M1 1h1.2", "sparse": "M0 5L5 0"}


def clean(text: str) -> str:
    """Text without the characters XML 1.0 (2.2) forbids."""
    return _NOT_XML.sub("\ufffd", text)


def figure(value: float, decimals: int = 3) -> str:
    """A coordinate: so many decimals at most, never minus zero.

    Raises:
        ValueError: for what is no number; a drawing with such a coordinate would be wrong without a word.
    """
    if not math.isfinite(value):
        raise ValueError("a coordinate of the drawing is not a finite number")
    text = f"{value:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


@dataclass(frozen=True)
class _Pen:
    """How coordinates are written: length of a nominal pixel in user units, and decimals."""

    px: float
    decimals: int

    def figure(self, value: float) -> str:
        return figure(value, self.decimals)

    def of_px(self, value_px: float) -> str:
        return figure(value_px * self.px, self.decimals)

    def spots(self, spots: Iterable[Spot]) -> str:
        return "L".join([f"{figure(x, self.decimals)} {figure(-y, self.decimals)}" for x, y in spots])


def svg_of(scene: Scene, *, decimals: int = 3, layer: Layer | None = None) -> str:
    """The SVG text of a scene, y turned down.

    The picture has a title and a description for the screen reader and scales with its surroundings; a to-scale view
    also states its width on paper.

    Args:
        scene: The scene.
        decimals: Of coordinates, at most; fewer make a smaller picture.
        layer: Where two pictures lie over each other: the one ``under`` is silent, the one ``over`` it has no ground.
    """
    hatches = sorted({(item.hatch, item.role) for item in _strokes(scene.items) if item.hatch})
    pen = _Pen(scene.px, decimals)
    body = "".join([_item(item, pen, "@") for item in scene.items])
    mark = f"hw-{scene.kind}-{zlib.crc32((scene.title + scene.description + body).encode('utf-8')):08x}"
    width, height = scene.right - scene.left, scene.top - scene.bottom
    size = ""
    if scene.paper_mm is not None:
        size = f' width="{figure(scene.paper_mm)}mm" height="{figure(scene.paper_mm * height / width)}mm"'
    patterns = "".join(_pattern(hatch, role, scene.px, mark) for hatch, role in hatches)
    view = f"{figure(scene.left)} {figure(-scene.top)} {figure(width)} {figure(height)}"
    paper = (
        f'<rect class="hw-f-paper" x="{figure(scene.left)}" y="{figure(-scene.top)}" width="{figure(width)}" '
        f'height="{figure(height)}"/>'
    )
    about, told = (
        f'role="img" aria-labelledby="{mark}-t {mark}-d"',
        (
            f'<title id="{mark}-t">{escape(clean(scene.title))}</title>'
            f'<desc id="{mark}-d">{escape(clean(scene.description))}</desc>'
        ),
    )
    if layer == "under":
        about, told = 'aria-hidden="true"', ""
    if layer == "over":
        paper = ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="hw-drawing hw-{scene.kind}" viewBox="{view}"{size} {about} '
        f'fill="none" stroke-linecap="round" stroke-linejoin="round">{told}'
        f"<style>{css()}</style><defs>{patterns}</defs>{paper}{body.replace('url(#@', f'url(#{mark}')}</svg>\n"
    )


def _strokes(items: tuple[Item, ...]) -> list[Stroke]:
    found: list[Stroke] = []
    for item in items:
        if isinstance(item, Stroke):
            found.append(item)
        elif isinstance(item, Group):
            found += _strokes(item.items)
    return found


def _pattern(hatch: Hatch, role: str, px: float, mark: str) -> str:
    scale = px * (2.0 if hatch == "sparse" else 1.0)
    width = 1.2 if hatch == "dots" else 0.7 if hatch != "sparse" else 0.45
    return (
        f'<pattern id="{mark}-{hatch}-{role}" width="{_HATCH_PX:g}" height="{_HATCH_PX:g}" '
        f'patternUnits="userSpaceOnUse" patternTransform="scale({figure(scale)})">'
        f'<path class="hw-s-{role}" d="{_HATCHES[hatch]}" stroke-width="{width:g}"/></pattern>'
    )


def _item(item: Item, pen: _Pen, mark: str) -> str:
    if isinstance(item, Group):
        title = f"<title>{escape(clean(item.title))}</title>" if item.title else ""
        inner = "".join([_item(part, pen, mark) for part in item.items])
        return f"<g data-part={quoteattr(clean(item.name))}>{title}{inner}</g>"
    if isinstance(item, Stroke):
        return _stroke(item, pen, mark)
    if isinstance(item, Ring):
        return _ring(item, pen)
    return _dot(item, pen) if isinstance(item, Dot) else _label(item, pen)


def _named(name: str) -> str:
    return f" data-part={quoteattr(clean(name))}" if name else ""


def _stroke(item: Stroke, pen: _Pen, mark: str) -> str:
    path = f"M{pen.spots(item.points)}{'Z' if item.closed else ''}"
    classes = [f"hw-s-{item.role}"] if item.role and item.width_px else []
    classes += [f"hw-f-{item.fill}"] if item.fill else []
    dash = ""
    if item.dash_px:
        dash = f' stroke-dasharray="{" ".join(pen.of_px(part) for part in item.dash_px)}"'
    look = f'class="{" ".join(classes)}" ' if classes else ""
    width = f' stroke-width="{pen.of_px(item.width_px)}"' if item.width_px else ""
    drawn = f'<path {look}d="{path}"{width}{dash}{_named(item.name)}/>'
    if item.hatch:
        drawn += f'<path fill="url(#{mark}-{item.hatch}-{item.role})" d="{path}"/>'
    return drawn


def _dot(item: Dot, pen: _Pen) -> str:
    fill = f" hw-f-{item.fill}" if item.fill else ""
    x, y = item.at
    return (
        f'<circle class="hw-s-{item.role}{fill}" cx="{pen.figure(x)}" cy="{pen.figure(-y)}" r="{pen.of_px(item.radius_px)}" '
        f'stroke-width="{pen.of_px(item.width_px)}"{_named(item.name)}/>'
    )


def _ring(item: Ring, pen: _Pen) -> str:
    dash = f' stroke-dasharray="{" ".join(pen.of_px(part) for part in item.dash_px)}"' if item.dash_px else ""
    x, y = item.at
    return (
        f'<circle class="hw-s-{item.role}" cx="{pen.figure(x)}" cy="{pen.figure(-y)}" r="{pen.figure(item.radius)}" '
        f'stroke-width="{pen.of_px(item.width_px)}"{dash}{_named(item.name)}/>'
    )


def _label(item: Label, pen: _Pen) -> str:
    x, y = item.at
    halo = f' stroke-width="{pen.of_px(3)}"' if item.halo else ""
    classes = f"hw-f-{item.role}{' hw-halo' if item.halo else ''}"
    weight = ' font-weight="600"' if item.bold else ""
    return (
        f'<text class="{classes}" x="{pen.figure(x)}" y="{pen.figure(-y)}" font-size="{pen.of_px(item.size_px)}" '
        f'text-anchor="{item.anchor}"{weight}{halo}>{escape(clean(item.text))}</text>'
    )
