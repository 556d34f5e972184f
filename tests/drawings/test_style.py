"""Words are readable on paper and on a dark screen."""

from __future__ import annotations

import pytest

from hubwright.drawings.style import ROLES, css

TEXT_ROLES = ("ink", "soft", "disc", "body", "good", "doubt", "bad", "wish")


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("mode", [0, 1])
@pytest.mark.parametrize("role", TEXT_ROLES)
def test_every_text_colour_has_the_contrast_wcag_asks_for(role: str, mode: int) -> None:
    """WCAG 2.2, success criterion 1.4.3: at least 4.5 to 1."""
    one, other = sorted((luminance(ROLES[role][mode]), luminance(ROLES["paper"][mode])))
    assert (other + 0.05) / (one + 0.05) >= 4.5


def test_dark_is_for_screens_only() -> None:
    assert "@media screen and (prefers-color-scheme:dark)" in css()
    assert "var(" not in css()
