"""What leaves the workshop on paper.

``print_sheet(kind, job, answer, identity, options)`` gives a `Printed` (name, media type, bytes); ``kinds_for(answer)``
says which kinds there is something for. See ``docs/paper.md``.
"""

from __future__ import annotations

from hubwright.reports.disc_order import axles_to_draw
from hubwright.reports.options import Identity, Options, Photograph, identity_of
from hubwright.reports.printing import Order, Printed, answered, formats_of, kinds_for, print_sheet, print_together

__all__ = [
    "Identity",
    "Options",
    "Order",
    "Photograph",
    "Printed",
    "answered",
    "axles_to_draw",
    "formats_of",
    "identity_of",
    "kinds_for",
    "print_sheet",
    "print_together",
]
