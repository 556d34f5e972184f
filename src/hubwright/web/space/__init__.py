"""The space around the wheels: at lock from above, clearance map, gap by thickness, motion, and the 3-D view."""

from hubwright.web.space.routes import router

__all__ = ["router"]
