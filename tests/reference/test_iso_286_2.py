"""ISO 286-2: the fit 50 H7/g6."""

from __future__ import annotations

from hubwright.engineering.centring.fit import fit_clearance_um
from hubwright.tables.iso286 import size_limits


def test_50_h7_g6_has_9_to_50_micrometres_of_clearance() -> None:
    # ISO 286-2: hole 0/+25, shaft -9/-25 um (read).
    clearance = fit_clearance_um(size_limits("H7", 50), size_limits("g6", 50))
    assert (clearance.low, clearance.high) == (9, 50)
