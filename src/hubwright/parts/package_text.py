"""A package in one line: `235/40R18 95W on 8Jx18 ET45`."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.parts.rim_size import RimSize, read_rim_size
from hubwright.parts.tyre_size import TyreSize, read_tyre_size

_ON = re.compile(r"\s+on\s+", re.IGNORECASE)


@dataclass(frozen=True)
class PackageSize:
    """A tyre on a rim with its inset, as written."""

    text: str
    tyre: TyreSize
    rim: RimSize
    inset_mm: float


def read_package(text: str) -> PackageSize:
    """The package written in `text`: tyre, the word "on", rim with its inset.

    Raises:
        BadInput: with every piece of tyre and rim that was not understood, or the inset where it is missing.
    """
    tidy = " ".join(text.split())
    pieces = _ON.split(tidy)
    if len(pieces) != 2:
        wanted = say("a tyre, the word on, and a rim with its inset, such as 235/40R18 95W on 8Jx18 ET45")
        raise BadInput(say("package {text}", text=repr(tidy)), (Fault("package", wanted, repr(tidy)),))
    faults: list[Fault] = []
    tyre: TyreSize | None = None
    rim: RimSize | None = None
    try:
        tyre = read_tyre_size(pieces[0])
    except BadInput as error:
        faults += error.faults
    try:
        rim = read_rim_size(pieces[1])
    except BadInput as error:
        faults += error.faults
    if rim is not None and rim.inset_mm is None:
        faults.append(Fault("rim.inset", say("an inset such as ET45 behind the rim"), repr(pieces[1])))
    if faults or tyre is None or rim is None or rim.inset_mm is None:
        raise BadInput(say("package {text}", text=repr(tidy)), tuple(faults))
    return PackageSize(tidy, tyre, rim, rim.inset_mm)
