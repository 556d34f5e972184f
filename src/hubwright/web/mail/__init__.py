"""Measuring by mail: the shop makes a link for one job, its customer fills their own measuring sheet through it."""

from hubwright.web.mail.customer import router as customer_router
from hubwright.web.mail.routes import router

__all__ = ["customer_router", "router"]
