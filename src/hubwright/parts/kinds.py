"""Quantities of the job file with their sane limits, in the units used inside."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import AfterValidator, Field

from hubwright.parts.base import Between, Number, two_or_more
from hubwright.quantities.reading import Reading

MANY = 500
"""Longest list of a job file, so that a slip of a program that writes one is noticed."""

Gap: TypeAlias = Annotated[Reading, Between(-200, 1500)]
"""Free air in mm; negative where parts were found to overlap."""
Length: TypeAlias = Annotated[Reading, Between(0, 3000)]
SmallLength: TypeAlias = Annotated[Reading, Between(0, 400)]
Diameter: TypeAlias = Annotated[Reading, Between(5, 400)]
"""Of something that is there: without a spigot or bore leave the key out."""
SignedLength: TypeAlias = Annotated[Reading, Between(-500, 500)]
Angle: TypeAlias = Annotated[Reading, Between(-20, 20)]
Turns: TypeAlias = Annotated[Reading, Between(0, 60)]

Coordinate = Annotated[Number, Field(ge=-1000, le=1000)]
ProfilePoints = Annotated[
    tuple[tuple[Annotated[Number, Field(ge=0, le=1000)], Coordinate], ...],
    AfterValidator(two_or_more),
    Field(max_length=5000, json_schema_extra={"minItems": 2}),
]
"""Points of a line about the spin axis: distance from it, position along it."""
Travel = Annotated[Number, Field(ge=-500, le=500)]
Steer = Annotated[Number, Field(ge=-60, le=60)]
DiscThickness = Annotated[Number, Field(gt=0, le=150)]
FittedDisc = Annotated[Number, Field(ge=0, le=150)]
PlainLength = Annotated[Number, Field(ge=0, le=3000)]
Radius = Annotated[Number, Field(ge=10, le=3000)]
Positive = Annotated[Number, Field(gt=0, le=10000)]
Track = Annotated[Number, Field(gt=500, le=3500)]
