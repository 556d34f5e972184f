"""What a person likes: language, units, light or dark. Kept in one cookie without any secret."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from hubwright.language import LANGUAGES, SOURCE
from hubwright.quantities.text import System

Appearance = Literal["auto", "light", "dark"]
COOKIE = "hw_likes"


@dataclass(frozen=True)
class Preferences:
    """How pages are spoken and shown."""

    language: str = SOURCE
    system: System = "metric"
    appearance: Appearance = "auto"

    @property
    def cookie(self) -> str:
        """As the cookie holds it, such as ``de.metric.auto``."""
        return f"{self.language}.{self.system}.{self.appearance}"


def preferences_of(cookie: str | None, accepted: str = "") -> Preferences:
    """From the cookie; what is missing or odd in it is as usual, the language as the browser asks for it."""
    parts = [*(cookie or "").split("."), "", "", ""][:3]
    language = parts[0] if parts[0] in LANGUAGES else _asked(accepted)
    system: System = "inch" if parts[1] == "inch" else "metric"
    appearance: Appearance = next((kind for kind in get_args(Appearance) if kind == parts[2]), "auto")
    return Preferences(language, system, appearance)


def _asked(accepted: str) -> str:
    """The first language of the browser's list there is a catalogue of (RFC 9110, 12.5.4; weights in order)."""
    weighted: list[tuple[float, str]] = []
    for part in accepted.split(",")[:20]:
        name, _, weight = part.strip().partition(";q=")
        try:
            weighted.append((float(weight or 1), name.split("-")[0].lower()))
        except ValueError:
            continue
    best = sorted(weighted, key=lambda pair: -pair[0])
    return next((name for weight, name in best if weight > 0 and name in LANGUAGES), SOURCE)
