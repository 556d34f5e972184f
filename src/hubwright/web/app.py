"""The server put together."""

from __future__ import annotations

from fastapi import Depends, FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, RedirectResponse, Response
from fastapi.staticfiles import StaticFiles
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect
from starlette.types import Scope

from hubwright import __version__
from hubwright.errors import HubwrightError
from hubwright.web import (
    accounts,
    bench,
    car,
    effects,
    fasteners,
    job,
    law,
    lines,
    links,
    mail,
    paper,
    scan,
    settings_page,
    sheet,
    shelf,
    shop,
    space,
    verify,
)
from hubwright.web.api import router as api
from hubwright.web.api.described import PROBLEM_KIND, describe
from hubwright.web.api.waiting import not_yet
from hubwright.web.desk import Desk
from hubwright.web.drawn import DRAWINGS_CSS, drawings_css
from hubwright.web.forms import BrokenForm, NotOurForm
from hubwright.web.gate import Doorkeeper, NotSignedIn, admitted, sign_in_address
from hubwright.web.guard import Guard
from hubwright.web.later import NotYet
from hubwright.web.limits import Limits
from hubwright.web.options import Options
from hubwright.web.pace import Pace
from hubwright.web.render import STATIC, page
from hubwright.web.trouble import trouble_of

FEATURES = (
    shelf.router,
    car.router,
    sheet.router,
    lines.router,
    links.router,
    job.router,
    bench.router,
    space.router,
    scan.router,
    fasteners.router,
    effects.router,
    law.router,
    verify.router,
    paper.router,
    mail.router,
    mail.customer_router,
    shop.router,
    accounts.router,
    settings_page.router,
)
"""Every feature's routes; a new feature adds its router here."""
A_YEAR = "public, max-age=31536000, immutable"


def create_app(desk: Desk, options: Options) -> FastAPI:
    """The whole server.

    Args:
        desk: The cupboard and what is kept beside it.
        options: Where it listens and who may come in.
    """
    app = FastAPI(
        title="hubwright", version=__version__, docs_url=None, redoc_url=None, openapi_url="/api/openapi.json",
        generate_unique_id_function=lambda route: route.name, dependencies=[Depends(admitted)],
    )  # fmt: skip
    app.openapi = lambda: describe(app)  # type: ignore[method-assign]
    app.state.desk, app.state.options, app.state.pace = desk, options, Pace()
    app.add_middleware(Limits)
    app.add_middleware(Doorkeeper, options=options, desk=desk)
    app.add_middleware(Guard, options=options)
    app.mount("/static", _Static(directory=STATIC), name="static")
    for router in (*FEATURES, api):
        app.include_router(router)
    for kind in (HTTPException, HubwrightError, NotOurForm, BrokenForm, NotSignedIn, RequestValidationError):
        app.add_exception_handler(kind, _troubled)
    app.add_exception_handler(NotYet, not_yet)
    app.add_exception_handler(ClientDisconnect, _hung_up)
    return app


def _hung_up(request: Request, error: Exception) -> Response:
    """The line broke while something was sent: nothing was taken in, nobody is there to be told."""
    return Response(status_code=400)


class _Static(StaticFiles):
    """Files whose address changes with their bytes may be kept by the browser for good."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """One file."""
        if path == DRAWINGS_CSS:
            answer: Response = Response(drawings_css(), media_type="text/css")
        else:
            answer = await super().get_response(path, scope)
        if answer.status_code == 200 and b"v=" in scope.get("query_string", b""):
            answer.headers["cache-control"] = A_YEAR
        return answer


async def _troubled(request: Request, error: Exception) -> Response:
    trouble = trouble_of(error)
    if isinstance(error, HTTPException) and error.status_code in (301, 302, 303, 307, 308):
        return RedirectResponse((error.headers or {}).get("location", "/"), error.status_code)
    headers = dict(getattr(error, "headers", None) or {})
    if request.url.path.startswith("/api/"):
        return JSONResponse(trouble.as_json, trouble.status, headers, PROBLEM_KIND)
    if isinstance(error, NotSignedIn):
        if "hw-part" in request.headers or "hx-request" in request.headers:
            headers["hx-redirect"] = sign_in_address(request)
        elif request.method == "GET":
            return RedirectResponse(sign_in_address(request), 303)
    answer = page(request, "trouble.html", trouble, trouble.status)
    answer.headers.update(headers)
    return answer
