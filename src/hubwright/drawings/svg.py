"""From scene to SVG text. The same scene gives the same bytes."""

from __future__ import annotations

import math
import re
import zlib
from xml.sax.saxutils import escape, quoteattr

from hubwright.drawings.scene import Dot, Group, Hatch, Item, Label, Ring, Scene, Spot, Stroke
from hubwright.drawings.style import css

_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_HATCH_PX = 5.0
_HATCHES: dict[Hatch, str] = {"rising": "M0 5L5 0", "falling": "M0 0L5 5", "dots": "M1 1h1.2", "sparse": "M0 5L5 0"}


def clean(text: str) -> str:
    """Text without the characters XML 1.0 (2.2) forbids."""
    return _NOT_XML.sub("\ufffd", text)


def figure(value: float) -> str:
    """A coordinate: three decimals at most, never minus zero.

    Raises:
        ValueError: for what is no number; a drawing with such a coordinate would be wrong without a word.
    """
    if not math.isfinite(value):
        raise ValueError("a coordinate of the drawing is not a finite number")
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def svg_of(scene: Scene) -> str:
    """The SVG text of a scene, y turned down.

    The picture has a title and a description for the screen reader and scales with its surroundings; a to-scale view
    also states its width on paper.
    """
    hatches = sorted({(item.hatch, item.role) for item in _strokes(scene.items) if item.hatch})
    body = "".join(_item(item, scene.px, "@") for item in scene.items)
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
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="hw-drawing hw-{scene.kind}" viewBox="{view}"{size} role="img" '
        f'aria-labelledby="{mark}-t {mark}-d" fill="none" stroke-linecap="round" stroke-linejoin="round">'
        f'<title id="{mark}-t">{escape(clean(scene.title))}</title>'
        f'<desc id="{mark}-d">{escape(clean(scene.description))}</desc>'
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


def _item(item: Item, px: float, mark: str) -> str:
    if isinstance(item, Group):
        title = f"<title>{escape(clean(item.title))}</title>" if item.title else ""
        inner = "".join(_item(part, px, mark) for part in item.items)
        return f"<g data-part={quoteattr(clean(item.name))}>{title}{inner}</g>"
    if isinstance(item, Stroke):
        return _stroke(item, px, mark)
    if isinstance(item, Ring):
        return _ring(item, px)
    return _dot(item, px) if isinstance(item, Dot) else _label(item, px)


def _named(name: str) -> str:
    return f" data-part={quoteattr(clean(name))}" if name else ""


def _stroke(item: Stroke, px: float, mark: str) -> str:
    path = "M" + "L".join(_spot(spot) for spot in item.points) + ("Z" if item.closed else "")
    classes = [f"hw-s-{item.role}"] if item.role and item.width_px else []
    classes += [f"hw-f-{item.fill}"] if item.fill else []
    dash = ""
    if item.dash_px:
        dash = f' stroke-dasharray="{" ".join(figure(part * px) for part in item.dash_px)}"'
    look = f'class="{" ".join(classes)}" ' if classes else ""
    width = f' stroke-width="{figure(item.width_px * px)}"' if item.width_px else ""
    drawn = f'<path {look}d="{path}"{width}{dash}{_named(item.name)}/>'
    if item.hatch:
        drawn += f'<path fill="url(#{mark}-{item.hatch}-{item.role})" d="{path}"/>'
    return drawn


def _dot(item: Dot, px: float) -> str:
    fill = f" hw-f-{item.fill}" if item.fill else ""
    x, y = item.at
    return (
        f'<circle class="hw-s-{item.role}{fill}" cx="{figure(x)}" cy="{figure(-y)}" r="{figure(item.radius_px * px)}" '
        f'stroke-width="{figure(item.width_px * px)}"{_named(item.name)}/>'
    )


def _ring(item: Ring, px: float) -> str:
    dash = f' stroke-dasharray="{" ".join(figure(part * px) for part in item.dash_px)}"' if item.dash_px else ""
    x, y = item.at
    return (
        f'<circle class="hw-s-{item.role}" cx="{figure(x)}" cy="{figure(-y)}" r="{figure(item.radius)}" '
        f'stroke-width="{figure(item.width_px * px)}"{dash}{_named(item.name)}/>'
    )


def _label(item: Label, px: float) -> str:
    x, y = item.at
    halo = f' stroke-width="{figure(3 * px)}"' if item.halo else ""
    classes = f"hw-f-{item.role}{' hw-halo' if item.halo else ''}"
    weight = ' font-weight="600"' if item.bold else ""
    return (
        f'<text class="{classes}" x="{figure(x)}" y="{figure(-y)}" font-size="{figure(item.size_px * px)}" '
        f'text-anchor="{item.anchor}"{weight}{halo}>{escape(clean(item.text))}</text>'
    )


def _spot(spot: Spot) -> str:
    return f"{figure(spot[0])} {figure(-spot[1])}"
