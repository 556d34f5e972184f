"""What else discs change: each axle, the car as a whole, loads and speeds, and what would have to be read to know more."""

from hubwright.web.effects.routes import router

__all__ = ["router"]
