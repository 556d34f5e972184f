"""The shop's own tools on the measuring sheet: a reading taken with one gets the doubt the shop stated for it."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from hubwright.errors import BadInput
from hubwright.language import say
from hubwright.parts.shop_settings import Tool
from hubwright.quantities.text import length, plain
from hubwright.web.desk import Desk
from hubwright.web.fields.spec import Spec
from hubwright.web.sheet.resolve import Taken


def tools_of(desk: Desk) -> tuple[Tool, ...]:
    """Tools whose doubt the shop stated; none while its settings have faults."""
    try:
        tools = desk.cupboard.shop.now().settings.tool
    except BadInput:
        return ()
    return tuple(tool for tool in tools if tool.u_mm is not None or tool.u_deg is not None)


def tool_words(tool: Tool) -> str:
    """A tool with its doubts, for a list to choose from."""
    doubts = [length(tool.u_mm, 2)] if tool.u_mm is not None else []
    doubts += [f"{plain(tool.u_deg)}°"] if tool.u_deg is not None else []
    name = say("{tool} ({mark})", tool=tool.name, mark=tool.mark) if tool.mark else tool.name
    return say("{method}, doubt {doubt}", method=name, doubt=" / ".join(doubts))


def with_tool(taken: Taken, spec: Spec | None, tools: Sequence[Tool]) -> Taken:
    """The reading with the doubt of the tool it names, where nobody stated a doubt."""
    if taken.u is not None or spec is None or spec.kind != "reading":
        return taken
    tool = next((one for one in tools if one.name.casefold() == taken.method.casefold()), None)
    if tool is None:
        return taken
    doubt = tool.u_deg if spec.unit == "deg" else tool.u_mm if spec.is_length else None
    return taken if doubt is None else dataclasses.replace(taken, u=doubt)
