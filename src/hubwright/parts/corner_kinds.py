"""What kind of neighbour a point, line or scan is: it decides the margin."""

from __future__ import annotations

from typing import Literal

PointKind = Literal["body", "carried", "hose"]
