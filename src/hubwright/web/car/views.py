"""What the page of car and request shows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from hubwright.errors import Fault
from hubwright.language import marked, say
from hubwright.language.place_words import place_word, work_word
from hubwright.language.words import axle_title, corner_title, stage_word
from hubwright.parts.job import AxleName
from hubwright.quantities.axes import SIDES
from hubwright.rules.ruleset import jurisdictions
from hubwright.store.things import Stage
from hubwright.web.car import groups
from hubwright.web.fields.form import Box, Filled, choice_word
from hubwright.web.fields.spec import spec_at
from hubwright.web.frame import AXLES, Frame

CARD = {
    "@customer": marked("Customer"), "@note": marked("Note"), "@complaint": marked("Complaint"),
    "@due": marked("Re-torque appointment"), "@stage": marked("Stage"),
}  # fmt: skip
"""Fields of the card this page writes."""


@dataclass(frozen=True)
class Group:
    """Boxes that stand together; ``more`` are shown behind a fold of their own."""

    title: str
    fields: tuple[Filled, ...]
    more: tuple[Filled, ...] = ()
    more_open: bool = False


@dataclass(frozen=True)
class Item:
    """One item of a list.

    Attributes:
        path: Its field; with ``[+]`` the blank one by which an item is added.
        title: What it is called.
        groups: Its boxes.
        open: Whether it is shown unfolded.
        goes: Whether it can be taken out as a whole.
    """

    path: str
    title: str
    groups: tuple[Group, ...]
    open: bool
    goes: bool = True

    @property
    def is_new(self) -> bool:
        """Whether it is the blank one."""
        return self.path.endswith("[+]")


@dataclass(frozen=True)
class Part:
    """A list with a heading and a word about it."""

    title: str
    words: str
    items: tuple[Item, ...]
    fields: tuple[Group, ...] = ()
    open: bool = False
    link: tuple[str, str] | None = None


@dataclass(frozen=True)
class AxlePart:
    """Everything of one axle."""

    name: AxleName
    title: str
    wish: tuple[Filled, ...]
    parts: tuple[Part, ...]
    open: bool


@dataclass(frozen=True)
class CarView:
    """The page.

    Attributes:
        first: What matters first.
        countries: Codes of law and whether each is asked.
        card: Fields of the card with their texts.
        kept: The revision just stored; 0 = none.
        aside: Whether something of it was put aside.
        system: Units the boxes are filled in.
    """

    frame: Frame
    first: tuple[Filled, ...]
    standing: tuple[Filled, ...]
    car: tuple[Filled, ...]
    car_open: bool
    countries: tuple[tuple[str, bool], ...]
    card: dict[str, str]
    stages: tuple[tuple[str, str], ...]
    axles: tuple[AxlePart, ...]
    faults: tuple[Fault, ...]
    kept: int
    aside: bool
    key: str
    base: int
    system: str

    def named(self, field: str) -> str:
        """What people call a field."""
        return field_name(field)

    def fault(self, field: str) -> Fault | None:
        """What is wrong with a field of the card."""
        return next((fault for fault in self.faults if fault.field == field), None)


def field_name(field: str) -> str:
    """What people call a field, with its axle and side."""
    if field in CARD:
        return say(CARD[field])
    try:
        label = spec_at(field).label
    except KeyError:
        return field
    steps = field.split(".")
    if steps[0] in AXLES and len(steps) > 1 and steps[1] in SIDES:
        return say("{corner}: {field}", corner=corner_title(steps[0], steps[1]), field=label)
    return say("{axle}: {field}", axle=axle_title(steps[0]), field=label) if steps[0] in AXLES else label


def axle_part(box: Box, name: AxleName, meshes: tuple[tuple[str, str], ...]) -> AxlePart:
    """One axle as the page shows it."""
    parts = (
        wheels_part(box, name),
        fasteners_part(box, name),
        records_part(box, name),
        Part(
            say("The axle itself"),
            say("Travel and track can also be read on the measuring sheet."),
            (),
            (_group(box, "", (f"{name}.{key}" for key in groups.AXLE), (f"{name}.{key}" for key in groups.HUB)),),
            _faulty(box, name, groups.AXLE),
        ),
        packages_part(box, name),
        Part(
            say("For the side effects"),
            say("All of it optional. What is not known stays empty; the effect is then left out, never guessed."),
            (),
            (_group(box, "", (f"{name}.{key}" for key in groups.EFFECTS)),),
            _faulty(box, name, groups.EFFECTS),
            ("links", say("Links and springs")),
        ),
        shapes_part(box, name, meshes),
    )
    there = box.tree.at(name) is not None
    return AxlePart(
        name, axle_title(name), _wish(box, name), parts,
        there or any(part.open for part in parts),
    )  # fmt: skip


def _wish(box: Box, name: AxleName) -> tuple[Filled, ...]:
    aim, *others = groups.WISH
    spec = spec_at(f"{name}.{aim}")
    words = (("", say("nothing on this axle")), *((code, choice_word(spec.key, code)) for code in spec.choices))
    return (box(f"{name}.{aim}", words), *(box(f"{name}.{key}") for key in others))


def wheels_part(box: Box, name: AxleName) -> Part:
    """Fitted, winter, spare, other."""

    def inner(path: str) -> tuple[Group, ...]:
        own = (f"{path}.{key}" for key in groups.SET_FASTENER)
        return (
            _group(box, "", (f"{path}.{key}" for key in groups.SET_HEAD)),
            _group(
                box, say("Wheel and tyre"), (f"{path}.{key}" for key in groups.WHEEL_FIRST),
                (f"{path}.{key}" for key in groups.WHEEL_MORE),
            ),
            _group(box, say("Its own fasteners, where they differ"), (), own),
        )  # fmt: skip

    def title(path: str) -> str:
        role = choice_word("WheelSet.role", str(box.tree.at(f"{path}.role") or ""))
        said = [str(box.tree.at(f"{path}.{key}") or "") for key in ("name", "tyre.designation", "wheel.rim")]
        return ", ".join(word for word in (role, *said) if word)

    words = say("Every set counts: a disc must also do with the winter wheels and the spare.")
    return _list(box, f"{name}.wheel_set", say("Wheel sets"), words, say("Add a wheel set"), inner, title)


def packages_part(box: Box, name: AxleName) -> Part:
    """Wheels and tyres offered in place of the fitted ones."""

    def inner(path: str) -> tuple[Group, ...]:
        head = (f"{path}.{key}" for key in (*groups.PACKAGE_HEAD, *groups.WHEEL_FIRST))
        more = (f"{path}.{key}" for key in (*groups.WHEEL_MORE, *groups.SET_FASTENER))
        return (_group(box, "", head, more),)

    def title(path: str) -> str:
        said = [str(box.tree.at(f"{path}.{key}") or "") for key in ("name", "tyre.designation", "wheel.rim")]
        return ", ".join(word for word in said if word) or say("offered package")

    words = say("Wheel and tyre offered on this axle in place of the fitted ones.")
    return _list(box, f"{name}.package", say("Offered packages"), words, say("Add a package"), inner, title)


def fasteners_part(box: Box, name: AxleName) -> Part:
    """Bolts or nuts of the fitted wheels."""
    first = (f"{name}.fastener.{key}" for key in groups.FASTENER)
    more = (f"{name}.fastener.{key}" for key in groups.FASTENER_MORE)
    words = say("As fitted with the fitted wheels. Lengths and turns are read on the measuring sheet.")
    return Part(say("Bolts or nuts"), words, (), (_group(box, "", first, more),), _faulty(box, name, ("fastener",)))


def records_part(box: Box, name: AxleName) -> Part:
    """Published records."""
    words = say(
        "A torque is a record somebody published for this vehicle, wheel, fastener and state of the thread. It is copied here "
        "with its source; it is never computed or scaled."
    )

    def title(path: str) -> str:
        return str(box.tree.at(f"{path}.source") or say("Torque record"))

    def inner(path: str) -> tuple[Group, ...]:
        return (_group(box, "", (f"{path}.{key}" for key in groups.TORQUE)),)

    return _list(box, f"{name}.torque", say("Torque records"), words, say("Add a torque record"), inner, title)


def shapes_part(box: Box, name: AxleName, meshes: tuple[tuple[str, str], ...]) -> Part:
    """Places, scans and work on offer, corner by corner."""
    items: list[Item] = []
    for side in SIDES:
        items += _shapes_of(box, f"{name}.{side}", corner_title(name, side), meshes)
    words = say(
        "What each place is, and how it is read there. A scan is brought and placed under Space, by tapping on it; its figures "
        "stand here as well."
    )
    return Part(
        say("Places, scans, and work that would make room"),
        words,
        tuple(items),
        (),
        any(i.open for i in items),
        ("lines", say("Edges and outlines, row by row")),
    )


def _shapes_of(box: Box, corner: str, words: str, meshes: tuple[tuple[str, str], ...]) -> Iterator[Item]:
    def called(path: str) -> str:
        return str(box.tree.at(f"{path}.name") or "")

    def keys(wanted: tuple[str, ...]) -> Callable[[str], tuple[Group, ...]]:
        return lambda path: (_group(box, "", (f"{path}.{key}" for key in wanted)),)

    def at_place(place: str) -> Callable[[str], str]:
        return lambda path: say("{corner}, {place}: {work}", corner=words, place=place, work=work_word(called(path)))

    own = tuple(box(f"{corner}.{key}") for key in groups.OWN_HUB)
    title = say("{corner}: its own hub, where it differs", corner=words)
    yield Item(f"{corner}.hub", title, (Group("", own),), any(field.fault for field in own), False)
    yield from _items(
        box, f"{corner}.point", lambda path: (_group(
            box, "", (f"{path}.{key}" for key in groups.PLACE), (f"{path}.{key}" for key in groups.PLACE_MORE)
        ),),
        lambda path: say("{corner}: place {name}", corner=words, name=place_word(called(path))),
        say("{corner}: add a place", corner=words),
    )  # fmt: skip
    for number in range(1, box.tree.count(f"{corner}.point") + 1):
        point = f"{corner}.point[{number}]"
        place = place_word(called(point))
        add = say("{corner}, {place}: add work that could be done there", corner=words, place=place)
        yield from _items(box, f"{point}.work", keys(groups.WORK), at_place(place), add)
    yield from _items(
        box, f"{corner}.scan", lambda path: _scan_groups(box, path, meshes),
        lambda path: say("{corner}: scan {name}", corner=words, name=place_word(called(path))),
        say("{corner}: add a scan", corner=words) if meshes else "",
    )  # fmt: skip


def _scan_groups(box: Box, path: str, meshes: tuple[tuple[str, str], ...]) -> tuple[Group, ...]:
    stands = box.tree.at(f"{path}.file")
    known = meshes if stands is None or stands in dict(meshes) else (*meshes, (str(stands), str(stands)))
    fields = tuple(
        box(f"{path}.{key}", (("", "–"), *known) if key == "file" else ()) for key in groups.SCAN
    )  # fmt: skip
    picks = tuple(box(f"{path}.{key}") for key in groups.SCAN_PICKS)
    return (Group("", fields, picks, any(field.text or field.fault for field in picks)),)


def _list(
    box: Box,
    path: str,
    title: str,
    words: str,
    add: str,
    inner: Callable[[str], tuple[Group, ...]],
    name: Callable[[str], str],
) -> Part:
    items = tuple(_items(box, path, inner, name, add))
    return Part(title, words, items, (), any(item.open for item in items))


def _items(
    box: Box,
    path: str,
    inner: Callable[[str], tuple[Group, ...]],
    name: Callable[[str], str],
    add: str,
) -> list[Item]:
    places = [f"{path}[{number}]" for number in range(1, box.tree.count(path) + 1)]
    found = [Item(place, name(place), made := inner(place), any(map(_wrong, made))) for place in places]
    if add:
        blank = inner(f"{path}[+]")
        found.append(Item(f"{path}[+]", add, blank, any(map(_typed, blank))))
    return found


def _group(box: Box, title: str, paths: Iterable[str], more: Iterable[str] = ()) -> Group:
    fields, rest = tuple(box(path) for path in paths), tuple(box(path) for path in more)
    return Group(title, fields, rest, any(field.fault for field in rest))


def _wrong(group: Group) -> bool:
    return any(field.fault for field in (*group.fields, *group.more))


def _typed(group: Group) -> bool:
    return any(field.text or field.fault for field in (*group.fields, *group.more))


def _faulty(box: Box, name: str, keys: Iterable[str]) -> bool:
    return any(fault.startswith(tuple(f"{name}.{key}" for key in keys)) for fault in box.wrong)


def countries_of(asked: Iterable[str]) -> tuple[tuple[str, bool], ...]:
    """Every jurisdiction with a rule file, and those somebody wrote in, with whether each is asked."""
    chosen = tuple(asked)
    known = jurisdictions()
    return tuple((code, code in chosen) for code in (*known, *(code for code in chosen if code not in known)))


def stages() -> tuple[tuple[str, str], ...]:
    """Stages a person may set here; "released" is set where it is proven."""
    return tuple((stage.value, stage_word(stage)) for stage in Stage)
