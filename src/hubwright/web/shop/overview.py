"""The shop at a glance: who it is, what lies on its shelf, what it measures with."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.parts.shop import StockDisc, StockFastener
from hubwright.parts.shop_settings import ShopSettings, Tool
from hubwright.quantities.text import day, length, plain, thickness
from hubwright.store.shop_rows import StoredShop
from hubwright.web.fields.form import choice_word
from hubwright.web.fields.tree import Tree
from hubwright.web.shop.parts import PARTS, Part


@dataclass(frozen=True)
class Line:
    """One thing of a list: what it is and where it is changed."""

    title: str
    facts: tuple[str, ...]
    address: str
    overdue: bool = False


@dataclass(frozen=True)
class Group:
    """One list on the overview."""

    part: Part
    title: str
    words: str
    new: str
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Overview:
    """The shop at a glance.

    Attributes:
        kept: Revision just stored; 0 = none.
        unread: Why the settings cannot be read by this program; empty for sound ones.
    """

    stored: StoredShop
    settings: ShopSettings | None
    groups: tuple[Group, ...]
    kept: int
    unread: tuple[Fault, ...]

    @property
    def ruled(self) -> int:
        """How many house rules differ from the usual ones, by what is written down."""
        policy = Tree(self.stored.data).at("policy")
        return 0 if not isinstance(policy, dict) else sum(1 for _ in _figures(policy))


def overview_of(
    stored: StoredShop, settings: ShopSettings | None, kept: int, today_iso: str, faults: tuple[Fault, ...]
) -> Overview:
    """The shop at a glance."""
    groups: list[Group] = []
    if settings is not None:
        for key, items in (
            ("disc", [_disc(one) for one in settings.disc]),
            ("fastener", [_fastener(one) for one in settings.fastener]),
            ("tool", [_tool(one, today_iso) for one in settings.tool]),
        ):
            part = PARTS[key]
            lines = tuple(
                Line(title, facts, f"/shop/{key}/{number}", overdue)
                for number, (title, facts, overdue) in enumerate(items, 1)
            )
            groups.append(Group(part, say(part.title), say(part.words), say(part.new), lines))
    return Overview(stored, settings, tuple(groups), kept, faults)


def _figures(table: dict[str, object]) -> Iterable[object]:
    for value in table.values():
        if isinstance(value, dict):
            yield from _figures(value)
        else:
            yield value


Item = tuple[str, tuple[str, ...], bool]


def _disc(disc: StockDisc) -> Item:
    title = say(
        "{thickness}, {kind}", thickness=length(disc.thickness_mm), kind=choice_word("StockDisc.kind", disc.kind)
    )
    facts = [disc.name, disc.bolt_circle]
    if disc.lip_outer_mm is not None:
        facts.append(say("lip {diameter} outside", diameter=length(disc.lip_outer_mm)))
    return title, tuple(fact for fact in facts if fact), False


def _fastener(one: StockFastener) -> Item:
    kind = choice_word("StockFastener.kind", one.kind)
    title = say("{kind} {thread}", kind=kind, thread=one.thread)
    facts = [choice_word("StockFastener.seat", one.seat)] if one.seat else []
    if one.lengths_mm:
        figures = "; ".join(thickness(value) for value in one.lengths_mm)
        facts.append(figures)
    return title, tuple(facts), False


def _tool(tool: Tool, today_iso: str) -> Item:
    facts = [tool.mark or ""]
    if tool.u_mm is not None:
        facts.append(say("doubt {length}", length=length(tool.u_mm, 2)))
    if tool.u_deg is not None:
        facts.append(say("doubt {angle}°", angle=plain(tool.u_deg)))
    if tool.off_percent is not None:
        facts.append(say("off by at most {percent} %", percent=plain(tool.off_percent)))
    overdue = tool.check_by is not None and tool.check_by.isoformat() < today_iso
    if tool.check_by is not None:
        facts.append(say("calibrate again by {day}", day=day(tool.check_by)))
    return tool.name, tuple(fact for fact in facts if fact), overdue
