"""The shelf: all jobs of the shop, found by plate, customer, axle, stage and day; new ones come in here."""

from hubwright.web.shelf.routes import router

__all__ = ["router"]
