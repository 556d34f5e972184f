"""What one person likes: language, units, light or dark, and the name written beside their entries."""

from __future__ import annotations

from typing import Annotated
from urllib.parse import quote, urlsplit

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.web.forms import Posted, posted
from hubwright.web.options import Options
from hubwright.web.preferences import COOKIE, preferences_of
from hubwright.web.render import page
from hubwright.web.who import NAME_COOKIE

router = APIRouter(include_in_schema=False)
A_YEAR_S = 365 * 24 * 3600


@router.get("/settings")
def settings(request: Request) -> Response:
    """The form."""
    return page(request, "settings.html", back=_inside(request.headers.get("referer", "")))


@router.post("/settings")
def keep(request: Request, form: Annotated[Posted, Depends(posted)]) -> Response:
    """Kept in this browser, and back to where one came from."""
    likes = preferences_of(".".join(form.text(name) for name in ("language", "system", "appearance")))
    options: Options = request.app.state.options
    answer = RedirectResponse(_inside(form.text("back")), 303)
    answer.set_cookie(COOKIE, likes.cookie, A_YEAR_S, samesite="lax", secure=options.secure)
    if not options.network:
        name = quote(form.text("name")[:200], safe="")
        answer.set_cookie(NAME_COOKIE, name, A_YEAR_S, samesite="lax", secure=options.secure, httponly=True)
    return answer


def _inside(address: str) -> str:
    """The path of an address of ours; the shelf for any other."""
    parts = urlsplit(address)
    path = parts.path if parts.path.startswith("/") and not parts.path.startswith(("//", "/\\")) else "/"
    return path if path != "/settings" else "/"
