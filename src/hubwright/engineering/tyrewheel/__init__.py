"""The shape that must not touch anything: tyre, rim and wheel as half-widths over the radius about the spin axis."""
