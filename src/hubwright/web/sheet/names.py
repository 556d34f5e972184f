"""Names of readings: each has one that says what is read, where and in which state, whatever number it has in a list.

``field|hub.spigot_length_mm`` is a single field, ``field|right|brake.axial_gap_mm`` one of a corner, ``field|fitted|wheel.bore_mm`` one of
the fitted wheel set; ``gap|left|arch%20lip|bump`` a gap, ``place|left|arch%20lip|height_mm`` a figure of its place,
``work|left|arch%20lip`` what work there would gain, ``motion|left|parked`` camber and half-track, ``half|widest`` a half width.
"""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote, unquote

from hubwright.quantities.axes import SIDES, Side

KINDS = ("field", "gap", "place", "work", "motion", "half")
LONGEST_ID = 1500


@dataclass(frozen=True)
class Name:
    """A reading's name taken apart.

    Attributes:
        kind: One of `KINDS`.
        side: None where it belongs to the axle.
        where: ``fitted`` for the fitted wheel set, else empty; of a gap, place or work the name of the place.
        what: Key of the field, or the state.
    """

    kind: str
    side: Side | None
    where: str
    what: str

    @property
    def id(self) -> str:
        """As it is written in forms and addresses."""
        parts = [self.kind, self.side or "", quote(self.where, safe=""), quote(self.what, safe="")]
        return "|".join(parts)


def name_of(text: str) -> Name | None:
    """The name a text writes; None when it writes none."""
    parts = text.split("|")
    if len(text) > LONGEST_ID or len(parts) != 4 or parts[0] not in KINDS or parts[1] not in ("", *SIDES):
        return None
    side = next((side for side in SIDES if side == parts[1]), None)
    name = Name(parts[0], side, unquote(parts[2]), unquote(parts[3]))
    return name if name.id == text else None


def axle_field(key: str) -> str:
    """Name of a field of the axle."""
    return Name("field", None, "", key).id


def corner_field(side: Side, key: str) -> str:
    """Name of a field of one corner."""
    return Name("field", side, "", key).id


def fitted_field(key: str) -> str:
    """Name of a field of the fitted wheel set."""
    return Name("field", None, "fitted", key).id


def gap(side: Side, place: str, state: str) -> str:
    """Name of a gap."""
    return Name("gap", side, place, state).id
