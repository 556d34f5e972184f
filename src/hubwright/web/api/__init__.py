"""Everything the page can do, for programs: JSON, TOML and drawings under ``/api/v1``, described at ``/api/openapi.json``.

Addresses and names under ``/api/v1`` stay; what has to change gets another number.
"""

from fastapi import APIRouter

from hubwright.web.api import (
    about,
    answer,
    bench,
    corner,
    entries,
    files,
    jobfile,
    jobs,
    links,
    moving,
    paper,
    people,
    rules,
    scans,
    shop,
)
from hubwright.web.api.described import PREFIX

PARTS = (jobs, jobfile, entries, files, links, answer, bench, corner, scans, paper, rules, moving, shop, people)
"""Subjects of the API; each has its own router."""

router = APIRouter()
router.include_router(about.router)
for part in PARTS:
    router.include_router(part.router, prefix=PREFIX)

__all__ = ["PARTS", "router"]
