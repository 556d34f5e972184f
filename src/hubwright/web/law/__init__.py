"""Law: each dated limit against its measure, duties for the inspector, and the packs of rules the program holds."""

from hubwright.web.law.routes import router

__all__ = ["router"]
