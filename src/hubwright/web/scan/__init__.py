"""A scan brought in and placed: which file, its unit, the hub picked in it, what is left out; how it then lies."""

from hubwright.web.scan.routes import router

__all__ = ["router"]
