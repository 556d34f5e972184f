"""Links and springs: hard points of one axle's suspension, its springs and stops, what stands on its wheels."""

from hubwright.web.links.routes import router

__all__ = ["router"]
