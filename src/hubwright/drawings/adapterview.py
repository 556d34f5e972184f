"""A bolted adapter in section along one original stud: inner nut in its counterbore, stud end, pocket of the wheel."""

from __future__ import annotations

from hubwright.drawings.boltparts import area
from hubwright.drawings.frame import headed, scale_bar
from hubwright.drawings.marks import dimension, paragraph, wrapped
from hubwright.drawings.scene import CHAIN, DASHED, Item, Label, Spot, Stroke, box, line
from hubwright.drawings.svg import svg_of
from hubwright.jobs.adapter_stack import AdapterStack
from hubwright.language import say
from hubwright.quantities.text import figure, length, thickness

WIDTH_PX, SIDE_PX = 440.0, 26.0
FLANGE_MM, PAD_MM, NUT_RADII = 10.0, 22.0, 0.85
UNKNOWN_D_MM, UNKNOWN_PROUD_MM = 12.0, 25.0


def adapter_svg(stack: AdapterStack, wheels: str) -> str:
    """The section; what was not read is dashed."""
    d = (stack.d_mm or UNKNOWN_D_MM) / 2
    proud = stack.proud_mm if stack.proud_mm is not None else UNKNOWN_PROUD_MM
    t, bore = stack.thickness_mm, 2.2 * d
    half = max(3.6 * d, bore + 5.0, (stack.pocket_width_mm or 0.0) / 2 + 6.0)
    known = stack.web_mm is not None
    web = stack.web_mm if stack.web_mm is not None else t / 2
    ring: tuple[Spot, ...] = ((0.0, d + 0.5), (web, d + 0.5), (web, bore), (t, bore), (t, half), (0.0, half))
    items: list[Item] = [
        area("hub flange", box(-FLANGE_MM, 0.0, 0.0, half), "metal", "falling"),
        area("adapter", ring, "disc-fill", "rising", "disc", known),
        area("wheel", _wheel(stack, half), "ground", "sparse", "ink", stack.pocket_depth_mm is not None),
    ]
    height = stack.inner_height_mm
    if height is not None:
        items.append(area("inner nut", box(web, d, web + height, NUT_RADII * 2 * d), "metal", "dots"))
    sure = () if stack.proud_mm is not None else DASHED
    items.append(Stroke(box(-FLANGE_MM, -d, proud, d), "ink", 1.2, sure, True, "metal", name="original stud"))
    if height is not None and stack.proud_mm is not None:
        used = min(proud, web + height)
        if used > web:
            items.append(Stroke(box(web, -d, used, d), "good", 1.5, (), True, "good-fill", name="thread in use"))
    low, high = -FLANGE_MM, max(t + PAD_MM, proud)
    px = (high - low) / (WIDTH_PX - 2 * SIDE_PX)
    left, right = low - SIDE_PX * px, high + SIDE_PX * px
    items.append(line((left + 8 * px, 0.0), (right - 8 * px, 0.0), "ink", 0.8, CHAIN))
    items += _dimensions(stack, half, px)
    title, words = adapter_words(stack, wheels)
    lines = [part for text in words for part in wrapped(text, WIDTH_PX - 28, 11.5)]
    head = wrapped(title, 0.85 * WIDTH_PX, 14.0)
    top = half + (66 + 18 * len(head)) * px
    items += [Label((left + 14 * px, top - (18 + 18 * n) * px), text, 14.0, bold=True) for n, text in enumerate(head)]
    below = -half - 96 * px
    items += scale_bar(left + 14 * px, below, px)
    items.append(Label((right - 14 * px, below - 4 * px), say("outboard →"), 12.0, "end", bold=True))
    items += paragraph((left + 14 * px, below - 26 * px), lines, px, 11.5)
    bottom = below - (26 + 15.2 * len(lines)) * px
    return svg_of(headed("adapter", title, " ".join(words), tuple(items), (left, bottom, right, top), px))


def adapter_words(stack: AdapterStack, wheels: str) -> tuple[str, list[str]]:
    """Title and sentences."""
    title = say("Bolted adapter of {thickness}, {wheels}", thickness=thickness(stack.thickness_mm), wheels=wheels)
    words = []
    if stack.web_mm is not None:
        words.append(
            say(
                "{web} of metal under the inner nuts, {least} wanted.",
                web=length(stack.web_mm),
                least=length(stack.least_web_mm),
            )
        )
    if stack.beyond_mm is None:
        words.append(say("How far the original studs stand out was not read: dashed."))
    elif stack.beyond_mm <= 0:
        words.append(say("The original studs end {inside} inside the adapter.", inside=length(-stack.beyond_mm)))
    elif stack.pocket_depth_mm is None:
        words.append(
            say(
                "The studs stand {beyond} out of the adapter; the pockets of the wheel were not read.",
                beyond=length(stack.beyond_mm),
            )
        )
    elif stack.pocket_depth_mm == 0:
        words.append(
            say(
                "The studs stand {beyond} out and the wheel is flat: it cannot be mounted.",
                beyond=length(stack.beyond_mm),
            )
        )
    else:
        words.append(
            say(
                "The studs stand {beyond} out; the pocket is {depth} deep.",
                beyond=length(stack.beyond_mm),
                depth=length(stack.pocket_depth_mm),
            )
        )
    words.append(
        say(
            "The wheel hides the inner joint: re-checking it means wheels off. Outer studs of the adapter are not drawn."
        )
    )
    return title, words


def _wheel(stack: AdapterStack, half: float) -> tuple[Spot, ...]:
    t, depth = stack.thickness_mm, min(stack.pocket_depth_mm or 0.0, PAD_MM - 4.0)
    end = t + PAD_MM
    if depth <= 0:
        return box(t, 0.0, end, half)
    width = (stack.pocket_width_mm or 22.0) / 2
    return ((t, half), (t, width), (t + depth, width), (t + depth, 0.0), (end, 0.0), (end, half))


def _dimensions(stack: AdapterStack, half: float, px: float) -> list[Item]:
    items: list[Item] = []
    t, up = stack.thickness_mm, half + 16 * px
    spans = [(0.0, t, say("adapter"), 24.0)]
    if stack.web_mm is not None:
        spans += [(0.0, stack.web_mm, say("web"), 0.0)]
    if stack.pocket_depth_mm:
        spans.append((t, t + stack.pocket_depth_mm, say("pocket"), 0.0))
    for low, high, name, lift in spans:
        y = up + lift * px
        items += [line((x, half + 2 * px), (x, y + 4 * px), "soft", 0.5) for x in (low, high)]
        items += dimension((low, y), (high, y), px, "soft", name)
        items.append(Label(((low + high) / 2, y + 6 * px), f"{name} {figure(high - low)}", 11.0, "middle"))
    if stack.beyond_mm is not None and stack.proud_mm is not None:
        low, high = sorted((t, stack.proud_mm))
        y = -half - 18 * px
        role = "ink" if stack.beyond_mm <= 0 or (stack.pocket_depth_mm or 0.0) > stack.beyond_mm else "bad"
        if stack.beyond_mm > 0:
            words = say("stud {beyond} out", beyond=figure(stack.beyond_mm))
        else:
            words = say("stud {inside} inside", inside=figure(-stack.beyond_mm))
        items += [line((x, -half - 2 * px), (x, y - 4 * px), "soft", 0.5) for x in (low, high)]
        items += dimension((low, y), (high, y), px, role, "stud end")
        items.append(Label(((low + high) / 2, y - 14 * px), words, 11.5, "middle", role, bold=True))
    return items
