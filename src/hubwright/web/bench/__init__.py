"""The bench of one axle: the decision, every disc with its reasons, and any thickness tried while the picture moves."""

from hubwright.web.bench.routes import router

__all__ = ["router"]
