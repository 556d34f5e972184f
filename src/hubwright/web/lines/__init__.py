"""Edges, outlines and curves: whatever is read as a row of figures, one row at a time, each saved as it is read."""

from hubwright.web.lines.routes import router

__all__ = ["router"]
