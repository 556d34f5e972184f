"""Car and request: who wants what on which car, its wheel sets, records of torque, and what the effects are worked out from."""

from hubwright.web.car.routes import router

__all__ = ["router"]
