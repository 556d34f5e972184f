"""The QR code (ISO/IEC 18004) that opens the job, as SVG of one path."""

from __future__ import annotations

import segno

QUIET = 4
"""White modules around the code (ISO/IEC 18004, 6.3.8: four)."""


def code_svg(text: str) -> str:
    """The code of a text; the same text gives the same bytes."""
    rows = list(segno.make_qr(text, error="m", boost_error=False).matrix)
    size = len(rows) + 2 * QUIET
    path = "".join(
        f"M{x + QUIET} {y + QUIET}h1v1h-1z" for y, row in enumerate(rows) for x, module in enumerate(row) if module
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size} {size}" shape-rendering="crispEdges">'
        f'<rect width="{size}" height="{size}" fill="#fff"/><path d="{path}" fill="#000"/></svg>'
    )
