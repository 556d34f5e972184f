"""One reading arrives: read from its form, entered into the job, and answered with what became of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from hubwright.checks.plausibility import Question, questions
from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.parts.job import AxleName
from hubwright.quantities.text import System
from hubwright.store.things import Aside, StoredJob
from hubwright.web.desk import Desk
from hubwright.web.fields.form import read_doubt
from hubwright.web.fields.spec import Spec, spec_at
from hubwright.web.fields.tree import Tree
from hubwright.web.fields.typed import NotThat, read
from hubwright.web.forms import Posted
from hubwright.web.sheet.catalogue import OF_AXLE, OF_CORNER, OF_FITTED, OF_HUB
from hubwright.web.sheet.names import Name, name_of
from hubwright.web.sheet.places import Place
from hubwright.web.sheet.resolve import Taken, values_of
from hubwright.web.sheet.tools import tools_of, with_tool

MOST_REPEATS = 20
Permitted = Callable[[str, str | None], bool]
"""Whether a field may be written with a TOML value; None = taken out."""
GAP = "rear.left.point[+].reading[+]"


@dataclass(frozen=True)
class Outcome:
    """What became of a reading.

    Attributes:
        revision: Of the job now.
        aside: Where it could not go in, the entry that keeps it.
        raised: Questions it raises that the job did not raise before.
    """

    revision: int
    aside: Aside | None
    raised: tuple[Question, ...] = ()


def anything(field: str, value: str | None) -> bool:
    """Of the workshop: everything may be written."""
    return True


def take(
    desk: Desk,
    job_id: str,
    axle: AxleName,
    form: Posted,
    author: str,
    usual: System,
    *,
    permitted: Permitted = anything,
    by: str | None = None,
    note: str = "",
) -> Outcome:
    """Enter one posted reading.

    Args:
        desk: The desk.
        job_id: The job.
        axle: Whose sheet.
        form: slot, value (once per repeat), method, u, travel, steer, radius, half_track, disc, turned, room, kind, toward, system, base, key.
        author: Written beside it.
        usual: Units where the form states none.
        permitted: Which fields may be written.
        by: ``customer`` where it is not the workshop that read.
        note: For the history.

    Raises:
        BadInput: with everything wrong with it, in the person's words; nothing is stored.
        StoreRefusal: when nothing could be stored.
    """
    taken = taken_of(form, form.system(usual), by)
    if by is None:
        taken = with_tool(taken, _spec(taken.name), tools_of(desk))
    stored = desk.cupboard.job(job_id)
    base = form.whole("base", stored.revision)
    tree = Tree(stored.data)
    values = values_of(taken, tree, axle)
    if not values:
        return Outcome(stored.revision, None)
    entries = [tree.entry(field, value) for field, value in values]
    held = [field for field, value in entries if not permitted(field, value)]
    if held:
        raise BadInput(
            "reading", tuple(Fault(field, say("a reading you were asked for"), say("another")) for field in held)
        )
    base = _base(desk, stored, taken, axle, base, values)
    receipt = desk.cupboard.enter(job_id, entries, author, base=base, note=note, key=form.text("key") or None)
    return Outcome(receipt.revision, receipt.aside, _raised(desk, job_id, stored))


def _base(desk: Desk, stored: StoredJob, taken: Taken, axle: AxleName, base: int, values: list[tuple[str, Any]]) -> int:
    """The revision the store holds the entry against.

    An addition to a list cannot clash. A value put over another clashes where somebody else has changed it since the sheet was
    shown; where the item has only moved in its list meanwhile it has not.
    """
    if base >= stored.revision or all(field.endswith("[+]") for field, _ in values):
        return max(base, stored.revision)
    before = Tree(desk.cupboard.job(stored.id, base).data)
    then, now = values_of(taken, before, axle), Tree(stored.data)
    if [field for field, _ in then] == [field for field, _ in values]:
        return base
    same = [before.at(field) for field, _ in then] == [now.at(field) for field, _ in values]
    return stored.revision if same else base


def _raised(desk: Desk, job_id: str, before: StoredJob) -> tuple[Question, ...]:
    now = desk.seen(job_id)
    if now.job is None:
        return ()
    had = desk.seen(job_id, before.revision)
    known = {(q.about, q.place) for q in questions(had.job)} if had.job is not None else set()
    return tuple(question for question in questions(now.job) if (question.about, question.place) not in known)


def taken_of(form: Posted, system: System, by: str | None = None) -> Taken:
    """The reading of a form.

    Raises:
        BadInput: with everything wrong with it.
    """
    name = name_of(form.text("slot"))
    spec = _spec(name) if name is not None else None
    if name is None or spec is None:
        raise BadInput(
            "reading", (Fault("slot", say("a reading of the sheet"), form.text("slot")[:60] or say("nothing")),)
        )
    faults: list[Fault] = []

    def told(field: str, found: Any) -> Any:
        if isinstance(found, NotThat):
            faults.append(Fault(field, found.wanted, found.given))
            return None
        return found

    texts = [text for text in form.texts("value") if text]
    value = told("value", _value(spec, texts, system))
    needs_travel = name.kind in ("gap", "motion") and name.what not in ("parked", "left", "right")
    numbers = {
        key: told(key, read(spec_at(path), form.text(key), system))
        for key, path in (
            ("travel", f"{GAP}.travel_mm"), ("steer", f"{GAP}.steer_deg"),
            ("radius", "rear.wheel_set[+].tyre.half_width[+].radius_mm"),
        )
    }  # fmt: skip
    numbers["disc"] = told(
        "disc", read(spec_at(f"{GAP}.disc_mm"), form.text("disc"), "metric")
    )  # in addresses always mm
    moved = told(
        "half_track", _one(read(spec_at("rear.left.motion[+].half_track_mm"), form.text("half_track"), system))
    )
    if needs_travel and numbers["travel"] is None and not any(f.field == "travel" for f in faults):
        faults.append(Fault("travel", say("how far the wheel stood from parked height"), say("nothing")))
    if name.kind == "half" and numbers["radius"] is None and not any(f.field == "radius" for f in faults):
        faults.append(Fault("radius", say("the radius it was read at"), say("nothing")))
    turned = name.kind == "gap" and (name.what.startswith(("left", "right")) or _steered(name.what))
    if turned and not numbers["steer"] and not any(f.field == "steer" for f in faults):
        faults.append(Fault("steer", say("how far the wheel was turned, in degrees"), say("nothing")))
    u = told("u", read_doubt(spec, form.text("u"), system)) if spec.kind == "reading" else None
    if value is None and not texts and form.text("take_out") != "yes" and not faults:
        faults.append(Fault("value", say("a figure"), say("nothing")))
    if faults:
        raise BadInput("reading", tuple(faults))
    down, right = _down(name.what), _right(name.what)
    place = Place(
        name.where, form.text("room", "outside"), form.text("kind", "body"), form.text("toward")
    ) if name.where and name.kind != "field" else None  # fmt: skip
    return Taken(
        name, value, form.text("method")[:100], u, (-1 if down else 1) * abs(numbers["travel"] or 0.0),
        (-1 if right else 1) * abs(numbers["steer"] or 0.0), numbers["disc"] or 0.0, numbers["radius"], moved, place, by,
        form.text("turned") == "yes" and name.kind == "gap",
    )  # fmt: skip


def _value(spec: Spec, texts: list[str], system: System) -> Any:
    if not texts:
        return None
    if spec.kind not in ("reading", "number", "whole"):
        return read(spec, texts[0], system)
    if len(texts) > MOST_REPEATS:
        return NotThat(say("at most {count} repeats", count=MOST_REPEATS), str(len(texts)))
    found: list[float] = []
    for text in texts if spec.kind == "reading" else texts[-1:]:
        one = read(spec, text, system)
        if isinstance(one, NotThat):
            return one
        found += one if isinstance(one, list) else [float(one or 0.0)]
    return found if spec.kind == "reading" else found[0]


def _one(found: Any) -> Any:
    return found[0] if isinstance(found, list) else found


def _numbers_at(what: str) -> tuple[float, float] | None:
    """Travel and steer of a state that is named by them."""
    parts = what.split(" ")
    try:
        return (float(parts[1]), float(parts[2]) if len(parts) > 2 else 0.0) if parts[0] == "at" else None
    except (ValueError, IndexError):
        return None


def _steered(what: str) -> bool:
    at = _numbers_at(what)
    return at is not None and abs(at[1]) >= 1


def _down(what: str) -> bool:
    at = _numbers_at(what)
    return what == "droop" or (at is not None and at[0] < 0)


def _right(what: str) -> bool:
    at = _numbers_at(what)
    return what.startswith("right") or (at is not None and at[1] < 0)


def _spec(name: Name) -> Spec | None:
    """The field a name stands for; None when the sheet has no such reading."""
    keys = {entry.key for entry in (OF_FITTED if name.where else (*OF_CORNER, *OF_HUB) if name.side else OF_AXLE)}
    if name.kind == "field":
        base = "rear.wheel_set[+]" if name.where else f"rear.{name.side}" if name.side else "rear"
        return spec_at(f"{base}.{name.what}") if name.what in keys and name.where in ("", "fitted") else None
    if name.kind == "half":
        return spec_at("rear.wheel_set[+].tyre.half_width[+].half_width_mm")
    if name.side is None:
        return None
    if name.kind == "motion":
        return spec_at("rear.left.motion[+].camber_deg")
    if not name.where:
        return None
    if name.kind == "gap":
        return spec_at(f"{GAP}.gap_mm")
    if name.kind == "work":
        return spec_at("rear.left.point[+].work[+].gain_mm")
    return spec_at(f"rear.left.point[+].{name.what}") if name.what in ("height_mm", "return_mm", "drop_mm") else None
