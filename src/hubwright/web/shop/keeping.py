"""Everything out and in again: the settings as a text, all jobs in one file, a backup of the whole store."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.language import say, say_n
from hubwright.store.things import Brought
from hubwright.web.api.moving import archive_answer
from hubwright.web.desk import Desk, desk_of
from hubwright.web.forms import Posted, posted
from hubwright.web.render import page
from hubwright.web.shop.views import Keeping
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]
LARGEST_TEXT_BYTES = 4 * 1024 * 1024
PIECE_BYTES = 1024 * 1024


@router.get("/shop/keeping")
def keeping(request: Request, desk: AtDesk) -> Response:
    """What goes out and comes in."""
    return page(request, "shop/keeping.html", Keeping(desk.cupboard.shop.now().revision))


@router.get("/shop/shop.toml")
def text(desk: AtDesk) -> Response:
    """The settings, byte for byte."""
    stored = desk.cupboard.shop.now()
    name = f'attachment; filename="shop-{stored.revision}.toml"'
    return Response(stored.data, media_type="application/toml", headers={"content-disposition": name})


@router.post("/shop/shop.toml")
def put(request: Request, desk: AtDesk, form: Form) -> Response:
    """Edited settings back in, made from the revision named."""
    file, base = form.file("file"), form.whole("base", -1)
    faults = [] if file else [Fault("settings", say("a file"), say("nothing"))]
    faults += [Fault("base", say("the revision it was made from"), form.text("base"))] if base < 0 else []
    try:
        if file is None or faults:
            raise BadInput("shop", tuple(faults))
        data = file.file.read(LARGEST_TEXT_BYTES + 1)
        receipt = desk.cupboard.shop.put(data, who_of(request).name, base=base, key=form.text("key") or None)
    except BadInput as error:
        return page(request, "shop/keeping.html", Keeping(desk.cupboard.shop.now().revision, error.faults), 422)
    return RedirectResponse(f"/shop?kept={receipt.revision}", 303)


@router.get("/shop/export.zip")
def export(request: Request, desk: AtDesk) -> Response:
    """All jobs with history and attachments, and the settings."""
    name = who_of(request).name
    return archive_answer(lambda target: desk.cupboard.export(target, name), f"shop-{desk.today().isoformat()}.zip")


@router.get("/shop/backup.zip")
def backup(desk: AtDesk) -> Response:
    """The whole store, people and history of the settings included."""
    return archive_answer(desk.cupboard.backup, f"backup-{desk.today().isoformat()}.zip")


@router.post("/shop/import")
def bring(request: Request, desk: AtDesk, form: Form) -> Response:
    """The jobs of such a file in; nothing here is overwritten."""
    file = form.file("archive")
    revision = desk.cupboard.shop.now().revision
    if file is None:
        fault = Fault("archive", say("a file that an export has written"), say("nothing"))
        return page(request, "shop/keeping.html", Keeping(revision, (fault,)), 422)
    with tempfile.TemporaryDirectory(prefix="hubwright-") as folder:
        path = Path(folder) / "import.zip"
        with path.open("wb") as target:
            while piece := file.file.read(PIECE_BYTES):
                target.write(piece)
        try:
            brought = desk.cupboard.bring(path, who_of(request).name)
        except StoreRefusal as error:
            fault = Fault("archive", say("a file that an export has written"), error.why, error.todo)
            return page(request, "shop/keeping.html", Keeping(revision, (fault,)), 422)
    return page(request, "shop/keeping.html", Keeping(desk.cupboard.shop.now().revision, told=tuple(_told(brought))))


def _told(brought: Brought) -> list[str]:
    told = [
        say_n("{count} job is new.", "{count} jobs are new.", len(brought.new)),
        say_n("{count} job has a longer history now.", "{count} jobs have a longer history now.", len(brought.longer)),
        say_n("{count} job was here already.", "{count} jobs were here already.", len(brought.same)),
    ]
    if brought.copies:
        told.append(
            say_n(
                "{count} job had gone another way there: it is kept beside the one here.",
                "{count} jobs had gone another way there: they are kept beside those here.",
                len(brought.copies),
            )
        )
    if brought.settled:
        told.append(say("The settings of the shop were taken in."))
    return told
