"""The shop: name and address, house rules, shelf, tools, their history, and everything out and in again."""

from hubwright.web.shop.routes import router

__all__ = ["router"]
