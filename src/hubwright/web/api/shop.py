"""Settings of the shop: house rules, shelf, tools. They begin new jobs; their file goes out and in as job files do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Response

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.store.shop_rows import ShopReceipt
from hubwright.store.tomltext import tree_of
from hubwright.web.api.described import raw_answer, raw_body
from hubwright.web.api.door import TOML, AtDesk, Key, Manages, Note, Revision, Wanted, body_of, entity_tag, json_only
from hubwright.web.api.entries import asked_of
from hubwright.web.api.models import ChangeOut, RevisionOut, ShopEntryIn, ShopUndoIn
from hubwright.web.api.plain import plain
from hubwright.web.api.told import changes_out, revision_out

router = APIRouter(tags=["shop"])
FILE = "/shop/shop.toml"


@dataclass(frozen=True)
class ShopOut:
    """The settings as they stand: revision 0 while nobody has settled anything."""

    revision: int
    shop: dict[str, Any]


@dataclass(frozen=True)
class ShopReceiptOut:
    """Given only after the disk has it."""

    revision: int
    changes: list[ChangeOut]
    merged: bool


def _told(receipt: ShopReceipt, answer: Response) -> ShopReceiptOut:
    answer.headers["etag"] = entity_tag(receipt.revision)
    return ShopReceiptOut(receipt.revision, changes_out(receipt.changes), receipt.merged)


@router.get("/shop")
def read_shop(desk: AtDesk, who: Manages, answer: Response, revision: Revision = None) -> ShopOut:
    """The settings with their tables."""
    stored = desk.cupboard.shop.now(revision)
    answer.headers["etag"] = entity_tag(stored.revision)
    return ShopOut(stored.revision, plain(tree_of(stored.data, "shop")))


@router.get(FILE, response_class=Response, responses=raw_answer(TOML, "The file; its ETag is the revision."))
def read_shop_file(desk: AtDesk, who: Manages, revision: Revision = None) -> Response:
    """The file of the settings, byte for byte; before anybody settled anything one that explains them."""
    stored = desk.cupboard.shop.now(revision)
    return Response(stored.data, media_type=TOML, headers={"etag": entity_tag(stored.revision)})


@router.put(FILE, openapi_extra=raw_body(TOML, "The whole edited file."))
def put_shop_file(
    desk: AtDesk,
    who: Manages,
    base: Wanted,
    answer: Response,
    data: Annotated[bytes, Depends(body_of(TOML))],
    note: Note = "",
    key: Key = None,
) -> ShopReceiptOut:
    """Take the whole edited file back; when somebody has changed the settings since, nothing is stored (412)."""
    now = desk.cupboard.shop.now().revision
    if now != base:
        todo = say("Look at the settings again.")
        raise StoreRefusal(
            say("The settings of the shop"), say("they are at revision {number}", number=now), todo, stale=True
        )
    return _told(desk.cupboard.shop.put(data, who.name, base=base, note=note, key=key), answer)


@router.post("/shop/entries", dependencies=[Depends(json_only)])
def enter_shop(desk: AtDesk, who: Manages, entry: ShopEntryIn, answer: Response) -> ShopReceiptOut:
    """Change single settings, such as ``policy.least_pilot_mm`` or ``disc[+]``; what clashes is refused whole."""
    asked = asked_of(entry.readings)
    return _told(desk.cupboard.shop.enter(asked, who.name, base=entry.base, note=entry.note, key=entry.key), answer)


@router.post("/shop/undo", dependencies=[Depends(json_only)])
def undo_shop(desk: AtDesk, who: Manages, undo: ShopUndoIn, answer: Response) -> ShopReceiptOut:
    """Take one revision of the settings back by a new one; nothing leaves the history."""
    return _told(desk.cupboard.shop.undo(who.name, revision=undo.revision, note=undo.note), answer)


@router.get("/shop/history")
def read_shop_history(desk: AtDesk, who: Manages) -> list[RevisionOut]:
    """Every revision of the settings, oldest first."""
    return [revision_out(revision) for revision in desk.cupboard.shop.history()]
