"""Paper from the page: every sheet the job has something for, one by one or all together, and the sheets of a whole day."""

from hubwright.web.paper.routes import router

__all__ = ["router"]
