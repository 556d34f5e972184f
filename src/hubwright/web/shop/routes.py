"""Addresses of the shop's settings."""

from __future__ import annotations

import dataclasses
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import RedirectResponse, Response
from starlette.exceptions import HTTPException

from hubwright.errors import BadInput, Fault
from hubwright.parts.shop_settings import ShopSettings
from hubwright.quantities.text import System
from hubwright.store.shop_rows import StoredShop
from hubwright.web.desk import Desk, desk_of
from hubwright.web.fields.form import as_posted, asked
from hubwright.web.fields.tree import Tree
from hubwright.web.forms import Posted, posted
from hubwright.web.render import page
from hubwright.web.shop import in_job, keeping
from hubwright.web.shop.lines import changed_lines
from hubwright.web.shop.overview import overview_of
from hubwright.web.shop.parts import PARTS, Part
from hubwright.web.shop.views import History, lines_spec, section_of
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
router.include_router(keeping.router)
router.include_router(in_job.router)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]
NEW = "new"


@router.get("/shop")
def overview(request: Request, desk: AtDesk, kept: Annotated[int, Query(ge=0, le=10**9)] = 0) -> Response:
    """The shop at a glance."""
    stored = desk.cupboard.shop.now()
    faults: tuple[Fault, ...] = ()
    settings = None
    try:
        settings = stored.settings
    except BadInput as error:
        faults = error.faults
    return page(request, "shop/shop.html", overview_of(stored, settings, kept, desk.today().isoformat(), faults))


@router.get("/shop/history")
def history(request: Request, desk: AtDesk) -> Response:
    """Who, when, what."""
    return page(request, "shop/history.html", History(tuple(reversed(desk.cupboard.shop.history()))))


@router.post("/shop/undo")
def undo(request: Request, desk: AtDesk, form: Form) -> Response:
    """One revision taken back by a new one."""
    desk.cupboard.shop.undo(who_of(request).name, revision=form.whole("revision", 0) or None)
    return RedirectResponse("/shop/history", 303)


@router.get("/shop/{key}")
def section(request: Request, key: str, desk: AtDesk) -> Response:
    """A form that is no list."""
    part = _part(key, listed=False)
    return page(request, "shop/section.html", section_of(part, desk.cupboard.shop.now(), _system(request)))


@router.post("/shop/{key}")
def keep(request: Request, key: str, desk: AtDesk, form: Form) -> Response:
    """What was changed goes in; with faults nothing does, and the form comes back with all of them."""
    return _keep(request, desk, form, _part(key, listed=False), "")


@router.get("/shop/{key}/{number}")
def item(request: Request, key: str, number: str, desk: AtDesk) -> Response:
    """The form of one item, or of a new one."""
    part, stored = _part(key, listed=True), desk.cupboard.shop.now()
    _refuse_missing(part, number, stored)
    return page(request, "shop/section.html", section_of(part, stored, _system(request), number))


@router.post("/shop/{key}/{number}")
def keep_item(request: Request, key: str, number: str, desk: AtDesk, form: Form) -> Response:
    """One item changed or added."""
    part = _part(key, listed=True)
    _refuse_missing(part, number, _base(desk, form))
    return _keep(request, desk, form, part, number)


@router.post("/shop/{key}/{number}/remove")
def remove(request: Request, key: str, number: str, desk: AtDesk, form: Form) -> Response:
    """One item taken out."""
    part, stored = _part(key, listed=True), _base(desk, form)
    _refuse_missing(part, number, stored)
    taken = [(f"{part.key}[{number}]", None)]
    receipt = desk.cupboard.shop.enter(taken, who_of(request).name, base=stored.revision, key=form.text("key") or None)
    return RedirectResponse(f"/shop?kept={receipt.revision}#{part.key}", 303)


def _keep(request: Request, desk: Desk, form: Posted, part: Part, number: str) -> Response:
    before = _base(desk, form)
    tree, system = Tree(before.data), form.system("metric")
    found = asked(form, tree, system, root=ShopSettings)
    lines, faults = changed_lines(form, tree, {path: lines_spec(path) for path in part.lines})
    values: list[tuple[str, Any]] = [*found.values, *lines]
    faults = [*found.faults, *faults]
    if number == NEW and not values and not faults:
        values = [(f"{part.key}[+]", {})]
    entries = [tree.entry(path, value) for path, value in values]
    if not faults and not entries:
        return RedirectResponse("/shop", 303)
    if not faults:
        try:
            receipt = desk.cupboard.shop.enter(
                entries, who_of(request).name, base=before.revision, key=form.text("key") or None
            )
        except BadInput as error:
            faults = [as_posted(fault, tree) for fault in error.faults]
    if faults:
        faults = [_in_form(fault, part, number) for fault in faults]
        view = section_of(part, before, system, number, form, faults)
        return page(request, "shop/section.html", view, 422)
    return RedirectResponse(f"/shop?kept={receipt.revision}#{part.key}", 303)


def _in_form(fault: Fault, part: Part, number: str) -> Fault:
    """A fault of a whole item, at the first box of its form."""
    whole = f"{part.key}[{'+' if number == NEW else number}]"
    return (
        dataclasses.replace(fault, field=f"{whole}.{part.first[0]}") if part.listed and fault.field == whole else fault
    )


def _part(key: str, *, listed: bool) -> Part:
    part = PARTS.get(key)
    if part is None or part.listed != listed:
        raise HTTPException(404)
    return part


def _refuse_missing(part: Part, number: str, stored: StoredShop) -> None:
    there = number.isascii() and number.isdigit() and 1 <= int(number[:9]) <= Tree(stored.data).count(part.key)
    if number != NEW and not there:
        raise HTTPException(404)


def _base(desk: Desk, form: Posted) -> StoredShop:
    """The settings the form was made of."""
    base = form.whole("base", -1)
    return desk.cupboard.shop.now(base if base >= 0 else None)


def _system(request: Request) -> System:
    system: System = request.state.likes.system
    return system
