"""The door of the shop's settings: TOML text in, `ShopSettings` out, or every fault at once."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from importlib.resources import files

from pydantic import TypeAdapter, ValidationError

from hubwright.errors import BadInput, Fault
from hubwright.jobs import lines
from hubwright.jobs.contradictions import Clash, shop_clashes
from hubwright.jobs.faults import fault_at, faults_of, show
from hubwright.jobs.jobfile import known_keys, tree_in
from hubwright.language import say
from hubwright.parts.shop_settings import SHOP_VERSION, ShopSettings
from hubwright.quantities.units import to_inside
from hubwright.rules.ruleset import jurisdictions


def parse_shop(text: str, name: str = "shop") -> ShopSettings:
    """The settings in a text.

    Args:
        text: TOML.
        name: How the text is called in messages.

    Raises:
        BadInput: with every fault found.
    """
    text = text.removeprefix("\ufeff")
    tree = tree_in(text, name)
    version = tree.get("hubwright_shop")
    if type(version) is not int or version != SHOP_VERSION:
        todo = say("Write hubwright_shop = {version} at the top.", version=SHOP_VERSION)
        wanted = say("version {version}", version=SHOP_VERSION)
        line = lines.line_index(text).get(("hubwright_shop",))
        raise BadInput(name, (Fault("hubwright_shop", wanted, show(version), todo, line),))
    inside, typed = to_inside(tree)
    try:
        settings = adapter().validate_python(inside)
    except ValidationError as error:
        keys = known_keys(ShopSettings)
        raise BadInput(name, faults_of(error, tree, typed, lines.line_index(text), keys)) from None
    if clashes := tuple(_clashes(settings)):
        index = lines.line_index(text)
        found = (fault_at(one.path, typed, index, one.wanted, one.given, one.todo) for one in clashes)
        raise BadInput(name, tuple(found))
    return settings


def _clashes(settings: ShopSettings) -> Iterator[Clash]:
    for clash in shop_clashes(settings.shop):
        yield Clash(clash.path[1:], clash.wanted, clash.given, clash.todo)
    known = jurisdictions()
    for number, code in enumerate(settings.law_packs):
        if code not in known:
            yield Clash(("law_packs", number), say("one of {names}", names=", ".join(known)), repr(code), "")
    names = [tool.name.casefold() for tool in settings.tool]
    for number, name in enumerate(names):
        if name in names[:number]:
            todo = say("Tell two of a kind apart by their marks: give each a name of its own.")
            yield Clash(
                ("tool", number, "name"), say("a name no other tool has"), repr(settings.tool[number].name), todo
            )


@cache
def adapter() -> TypeAdapter[ShopSettings]:
    """The one validator of settings."""
    return TypeAdapter(ShopSettings)


def new_shop() -> str:
    """The text of settings to begin with: nothing is settled yet, and everything is explained."""
    return files("hubwright.jobs").joinpath("shop_template.toml").read_text(encoding="utf-8")
