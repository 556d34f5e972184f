"""Colours by role, light and dark. Base rules name plain colours, so that converters that know no media rules print well.

Every class begins with ``hw-``: a style sheet inside an inline SVG reaches the whole page.
"""

from __future__ import annotations

from functools import cache

FONT = "system-ui, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif"

ROLES: dict[str, tuple[str, str]] = {
    "paper": ("#ffffff", "#15191c"),
    "ink": ("#1b2329", "#e8ecee"),
    "soft": ("#566068", "#a6b0b6"),
    "faint": ("#c9cfd3", "#3d464c"),
    "ground": ("#eef0f1", "#20262a"),
    "metal": ("#d5dade", "#39424a"),
    "rubber": ("#e4e3df", "#2b2b29"),
    "disc": ("#8a4b12", "#e6a765"),
    "disc-fill": ("#f6dfc4", "#57391c"),
    "body": ("#2c4a73", "#9dbbe6"),
    "good": ("#1d6144", "#79cfa6"),
    "good-fill": ("#cfe6da", "#1f4535"),
    "doubt": ("#7a5600", "#e0b85a"),
    "bad": ("#98282b", "#f0918f"),
    "wish": ("#5a3c86", "#c2a6ee"),
}
"""Role: colour on light, colour on dark. Text roles keep 4.5:1 against the paper of their own mode."""


def _rules(column: int) -> str:
    rules = [
        f".hw-s-{role}{{stroke:{colours[column]}}}.hw-f-{role}{{fill:{colours[column]}}}"
        for role, colours in ROLES.items()
    ]
    return "".join([*rules, f".hw-halo{{stroke:{ROLES['paper'][column]}}}"])


@cache
def css() -> str:
    """The style sheet of every drawing. Print is always light: dark is for screens only."""
    return (
        f".hw-drawing{{font-family:{FONT};font-variant-numeric:tabular-nums;max-width:100%;height:auto}}"
        ".hw-drawing text{stroke-linejoin:round;paint-order:stroke}"
        f"{_rules(0)}"
        f"@media screen and (prefers-color-scheme:dark){{{_rules(1)}}}"
        "@media print{.hw-s-soft{stroke:#333}.hw-f-soft{fill:#333}}"
    )


def page_css() -> str:
    """The same for drawings that stand in a page: light or dark as the page is, by the page's ``color-scheme``."""
    pairs = [(role, f"light-dark({light},{dark})") for role, (light, dark) in ROLES.items()]
    rules = "".join(f".hw-s-{role}{{stroke:{colour}}}.hw-f-{role}{{fill:{colour}}}" for role, colour in pairs)
    halo = f".hw-halo{{stroke:light-dark({ROLES['paper'][0]},{ROLES['paper'][1]})}}"
    return (
        f".hw-drawing{{font-family:{FONT};font-variant-numeric:tabular-nums;max-width:100%;height:auto}}"
        f".hw-drawing text{{stroke-linejoin:round;paint-order:stroke}}{rules}{halo}"
        "@media print{.hw-s-soft{stroke:#333}.hw-f-soft{fill:#333}}"
    )
