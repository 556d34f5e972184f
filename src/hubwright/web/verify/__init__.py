"""Verify: readings with the disc fitted against what was predicted, and who answers for letting the car go."""

from hubwright.web.verify.routes import router

__all__ = ["router"]
