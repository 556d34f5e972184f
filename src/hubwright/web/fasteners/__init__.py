"""What holds the wheels: every length drawn and judged, every wheel set, the joint, and the torque on record."""

from hubwright.web.fasteners.routes import router

__all__ = ["router"]
