"""From a view to a page."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from hubwright import __version__
from hubwright.language import LANGUAGES, part_words, say, say_n, spoken, words
from hubwright.language.words import stage_word
from hubwright.quantities import text
from hubwright.web.forms import TOKEN_COOKIE, TOKEN_FIELD, token_of
from hubwright.web.options import Options
from hubwright.web.preferences import Preferences
from hubwright.web.who import Role, Who, who_of

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

STATIC = Path(str(files("hubwright.web").joinpath("static")))


@cache
def environment() -> Environment:
    """Templates, with the words, figures and addresses every page may use."""
    made = Environment(
        loader=PackageLoader("hubwright.web"), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
        lstrip_blocks=True, extensions=["jinja2.ext.do"],
    )  # fmt: skip
    made.globals.update(
        _=say, ngettext=say_n, asset=asset, length=text.length, figure=text.figure, number=text.number, unit=text.unit,
        thickness=text.thickness, percent=text.percent, torque=text.torque, left_over=text.left_over,
        change_of=text.change_of, day=text.day, form_field=TOKEN_FIELD, languages=LANGUAGES, version=__version__,
        new_key=lambda: secrets.token_hex(16), stage_word=stage_word,
        here_and_then=lambda moment: text.moment(moment.astimezone()), fits_word=words.fits_word, law_word=words.law_word,
        kind_word=words.kind_word, plain=text.plain, seat_word=words.seat_word, side_word=words.side_word,
        status_word=words.status_word, question_word=words.question_word, grade_word=part_words.grade_word,
    )  # fmt: skip
    made.filters["address"] = lambda part: quote(str(part), safe="")
    return made


@cache
def asset(name: str) -> str:
    """The address of a static file, changed whenever the file is."""
    from hubwright.web.drawn import DRAWINGS_CSS, drawings_css  # noqa: PLC0415 - drawings import slowly

    data = drawings_css().encode() if name == DRAWINGS_CSS else (STATIC / name).read_bytes()
    return f"/static/{name}?v={sha256(data).hexdigest()[:12]}"


def page(
    request: Request, template: str, view: DataclassInstance | None = None, status: int = 200, **more: Any
) -> HTMLResponse:
    """A whole page, or the block named by the request where a script asked for a part of it only.

    Args:
        request: The request.
        template: Its file.
        view: What the page shows, as ``view`` in the template.
        status: Of the answer.
        more: Further names for the template.
    """
    context = context_of(request, view, more)
    found = environment().get_template(template)
    block = request.headers.get("hw-part", "")
    part = found.blocks.get(block)
    whole = found.render(context) if part is None else "".join(part(found.new_context(context)))
    answer = HTMLResponse(whole, status, {"vary": "hw-part"})
    return with_token(request, answer)


def context_of(request: Request, view: object, more: Mapping[str, Any]) -> dict[str, Any]:
    """What every template knows: the view, who is at work, what they like, the token for forms."""
    likes: Preferences = request.state.likes
    options: Options = request.app.state.options
    return {
        "view": view, "likes": likes, "who": who_of(request), "token": token_of(request), "here": str(request.url.path),
        "network": options.network, "language": spoken(), "main_links": main_links(who_of(request)), "stranger": False, **more,
    }  # fmt: skip


def main_links(who: Who) -> tuple[tuple[str, str], ...]:
    """Pages beside the jobs: label and address, those the person may open. A feature with a page of its own adds it here."""
    links: list[tuple[Role, str, str]] = [
        ("measure", say("Jobs"), "/"),
        ("measure", say("Law packs"), "/law"),
        ("manage", say("Shop"), "/shop"),
        ("manage", say("People"), "/people"),
    ]
    return tuple((label, address) for role, label, address in links if who.may(role))


def with_token(request: Request, answer: HTMLResponse) -> HTMLResponse:
    """The answer with the cookie of the form token, where it was made for this request."""
    if getattr(request.state, "form_token_is_new", False):
        options: Options = request.app.state.options
        token = request.state.form_token
        answer.set_cookie(TOKEN_COOKIE, token, httponly=True, samesite="lax", secure=options.secure, path="/")
    return answer


def html(text_: str) -> Markup:
    """HTML or SVG our own code has made and escaped, fit to stand in a page as it is."""
    return Markup(text_)
