"""What a shop settles once for all its jobs: who it is, what it measures with, and what a new job file begins with."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from hubwright.parts.assumptions import Assumptions
from hubwright.parts.base import Day, Number, Text, noun
from hubwright.parts.job import Use
from hubwright.parts.kinds import MANY, PlainLength
from hubwright.parts.shop import Policy, Shop, StockDisc, StockFastener

SHOP_VERSION = 1
ADDRESS_LINES = 8


@noun
class Tool:
    """Something the shop measures or tightens with, and how far it may be wrong."""

    name: Text = Field(description="as readings name their method, such as depth gauge")
    u_mm: Annotated[PlainLength, Field(le=100)] | None = Field(
        default=None, description="doubt of a length read with it (standard uncertainty)"
    )
    u_deg: Annotated[Number, Field(ge=0, le=10)] | None = Field(
        default=None, description="doubt of an angle read with it (standard uncertainty)"
    )
    off_percent: Annotated[Number, Field(ge=0, le=30)] | None = Field(
        default=None, description="torque wrench: how far it may be off, percent"
    )
    mark: Text | None = Field(default=None, description="number or letters on it, printed on paper")
    checked: Day | None = Field(default=None, description="day of its last calibration")
    check_by: Day | None = Field(default=None, description="day its next calibration is due")
    note: Text | None = Field(default=None, description="where its doubt is from")


@noun
class ShopSettings:
    """The settings of the shop. Policy, assumptions and shelf are those of a job's ``[shop]`` table."""

    hubwright_shop: Literal[1] = Field(description="version of this file format")
    name: Text | None = Field(default=None, description="printed on paper")
    address: tuple[Text, ...] = Field(default=(), max_length=ADDRESS_LINES, description="lines printed on paper")
    use: Use | None = Field(default=None, description="how most cars are driven; a new job begins with it")
    countries: tuple[Text, ...] = Field(
        default=(), max_length=MANY, description="whose law is asked; a new job begins with them"
    )
    law_packs: tuple[Text, ...] = Field(
        default=(), max_length=MANY, description="law packs offered in forms; none named = all"
    )
    policy: Policy = Field(default_factory=Policy)
    assumptions: Assumptions = Field(default_factory=Assumptions, description="engineering assumptions of the shop")
    disc: tuple[StockDisc, ...] = Field(default=(), max_length=MANY, description="stock discs")
    fastener: tuple[StockFastener, ...] = Field(default=(), max_length=MANY, description="stock fasteners")
    tool: tuple[Tool, ...] = Field(default=(), max_length=MANY, description="what is measured and tightened with")

    @property
    def shop(self) -> Shop:
        """What of it stands in a job file."""
        return Shop(
            name=self.name,
            policy=self.policy,
            assumptions=self.assumptions,
            disc=self.disc,
            fastener=self.fastener,
        )
