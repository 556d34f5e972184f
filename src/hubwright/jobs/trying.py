"""A disc of any thickness to be tried: the one on the shelf, or one like its nearest neighbour there."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import get_args

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.parts.job import Job
from hubwright.parts.shop import DiscKind, StockDisc
from hubwright.quantities.text import length, plain, thickness
from hubwright.selection.plans import shelf

KINDS: tuple[DiscKind, ...] = get_args(DiscKind)
THICKEST_MM = 150.0
"""Limit of the job file."""
LONGEST_TEXT = 20


@dataclass(frozen=True)
class Tried:
    """A disc to be judged.

    Attributes:
        disc: As it is judged.
        kept: Whether the shelf has it.
        like: The disc of the shelf from which everything but thickness and name was taken; None where none was.
    """

    disc: StockDisc
    kept: bool
    like: StockDisc | None = None

    @property
    def assumed(self) -> str:
        """What was assumed of it, in one or two sentences; empty for a disc of the shelf."""
        if self.kept:
            return ""
        disc, like = self.disc, self.like
        size = thickness(disc.thickness_mm)
        if disc.kind == "plain":
            return say("No plain disc of {size} is kept; it is judged as one that would be ordered or made.", size=size)
        if disc.kind == "bolted":
            if like is None:
                return say("No bolted disc is kept; of this one only the thickness of {size} is known.", size=size)
            other = thickness(like.thickness_mm)
            return say(
                "No bolted disc of {size} is kept. Holes, counterbore and nuts are taken to be those of the {other} disc.",
                size=size, other=other,
            )  # fmt: skip
        if like is None or like.lip_inner_mm is None or like.lip_length_mm is None:
            return say("No lipped disc of {size} is kept, and no kept one states the size of its lip.", size=size)
        return say(
            "No lipped disc of {size} is kept. Its lip is taken to be that of the {other} disc: {inner} inside, {long} long.",
            size=size, other=thickness(like.thickness_mm), inner=length(like.lip_inner_mm), long=length(like.lip_length_mm),
        )  # fmt: skip


def kinds_of(job: Job) -> tuple[DiscKind, ...]:
    """Kinds of disc worth trying: plain and lipped always, bolted where the shelf has one."""
    kept = {disc.kind for disc in shelf(job)}
    return tuple(kind for kind in KINDS if kind != "bolted" or kind in kept)


def kind_at(job: Job, thickness_mm: float) -> DiscKind:
    """The kind of the disc on the shelf with this thickness, else of the nearest one; plain with an empty shelf."""
    near = min(shelf(job), key=lambda disc: abs(disc.thickness_mm - thickness_mm), default=None)
    return near.kind if near is not None else "plain"


def tried(job: Job, thickness_mm: float, kind: DiscKind | None = None, name: str | None = None) -> Tried:
    """The disc of a thickness and kind.

    Args:
        job: Whose shelf it comes from.
        thickness_mm: Per side; above 0.
        kind: Of the disc; as `kind_at` where it is not stated.
        name: The shop's own name, where the shelf has several of one thickness and kind.
    """
    kind = kind or kind_at(job, thickness_mm)
    alike = [disc for disc in shelf(job) if disc.kind == kind]
    same = [disc for disc in alike if disc.thickness_mm == thickness_mm]
    if same:
        return Tried(next((disc for disc in same if disc.name == name), same[0]), kept=True)
    if not alike:
        return Tried(StockDisc(thickness_mm=thickness_mm, kind=kind), kept=False)
    like = min(alike, key=lambda disc: (disc.lip_inner_mm is None, abs(disc.thickness_mm - thickness_mm)))
    return Tried(replace(like, thickness_mm=thickness_mm, name=None), kept=False, like=like)


def thickness_from(text: str, field: str, *, or_none: bool = True) -> tuple[float | None, tuple[Fault, ...]]:
    """A thickness as somebody typed it, in mm as discs are sold; a decimal comma will do. Nothing typed is nothing asked.

    Args:
        text: What was typed.
        field: Where, for the fault.
        or_none: Whether 0, no disc, may be tried too.
    """
    typed = text.strip()
    if not typed:
        return None, ()
    value = number_from(typed)
    if 0.0 < value <= THICKEST_MM or (or_none and value == 0.0):  # false for what is no number
        return value, ()
    if or_none:
        wanted = say("a thickness per side from 0 to {most} mm", most=plain(THICKEST_MM))
        todo = say("Type it in mm, such as 12.5; 0 is the car without a disc.")
    else:
        wanted = say("a thickness per side above 0 and up to {most} mm", most=plain(THICKEST_MM))
        todo = say("Type it in mm, such as 12.5.")
    return None, (Fault(field, wanted, typed[:LONGEST_TEXT], todo),)


def number_from(text: str) -> float:
    """A plain decimal number with point or comma; what is none is not a number."""
    if len(text) > LONGEST_TEXT or not set(text) <= set("0123456789.,-+"):
        return math.nan
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return math.nan
