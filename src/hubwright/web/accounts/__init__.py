"""Signing in and out, one's own password, and the people of the shop with their roles."""

from hubwright.web.accounts.routes import router

__all__ = ["router"]
