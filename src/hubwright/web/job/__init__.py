"""Pages every job has: where it opens, its history with undo, entries put aside, its files, the job file out and in."""

from hubwright.web.job.routes import router

__all__ = ["router"]
