"""What is written in a wheel: `8Jx18 H2 ET45`, `8.5x19 ET 35`, `6 1/2 J x 15`, `7.5J x 17 ET-5`."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.language import say
from hubwright.parts.reader import Reader, number
from hubwright.quantities.text import plain
from hubwright.quantities.units import MM_PER_INCH

FLANGES = ("JJ", "JK", "JB", "J", "K", "B")
_WIDTH = r"(\d{1,2}(?:[ -]+1/2|[.,]\d{1,2})?)"


@dataclass(frozen=True)
class RimSize:
    """A rim designation as figures.

    Attributes:
        text: As it was written, blanks tidied.
        width_code: Nominal width between the flanges, inches.
        diameter_code: Nominal rim diameter code.
        flange: Flange letters (`J`), or None when not written.
        contour: Hump marks such as `H2`, or None.
        one_piece: True for `x` (drop centre, one piece), False for `-` (several pieces), ISO 3911.
        inset_mm: `ET` figure, positive inboard of the mounting face; None when not written.
    """

    text: str
    width_code: float
    diameter_code: float
    flange: str | None = None
    contour: str | None = None
    one_piece: bool = True
    inset_mm: float | None = None

    @property
    def width_mm(self) -> float:
        """Nominal width between the inner faces of the flanges."""
        return self.width_code * MM_PER_INCH


def read_rim_size(text: str) -> RimSize:
    """The rim size written in `text`; the diameter may also stand first (`18x8J`), as the larger figure.

    Raises:
        BadInput: naming the piece that was not understood.
    """
    reader = Reader(text.replace("½", " 1/2"), "rim")
    letters = "(" + "|".join(FLANGES) + ")(?![A-Z])"
    first = number(reader.need(_WIDTH, "width", say("a rim width in inches such as 7.5"))[1].replace("-", " "))
    flange = reader.take(letters.replace("(?![A-Z])", "(?![A-WYZ])"))
    joint = reader.need(r"([x×-])", "separator", say("x (or -) between width and diameter"))[1]
    second = number(reader.need(_WIDTH, "diameter", say("a rim diameter code such as 18"))[1].replace("-", " "))
    flange = flange or reader.take(letters)
    width, diameter = (second, first) if first > second else (first, second)
    if not 3.0 <= width <= 16.0 or (width * 4) % 1:
        reader.refuse("width", say("3 to 16 in, in halves or quarters"), plain(width))
    if not 10.0 <= diameter <= 30.0:
        reader.refuse("diameter", say("a code from 10 to 30"), plain(diameter))
    contour, inset = _tail(reader)
    return RimSize(reader.text, width, diameter, flange[1].upper() if flange else None, contour, joint != "-", inset)


def _tail(reader: Reader) -> tuple[str | None, float | None]:
    contour: str | None = None
    inset: float | None = None
    while reader.rest:
        hump = reader.take(r"(EH2\+|EH2|EH|CH|FHA|FH2|FH|AH2|AH|H2|H1|H|SL|CP)(?![A-Z0-9+])")
        if hump and contour is None:
            contour = hump[1].upper()
            continue
        depth = reader.take(r"(?:ET|IS)\s*([+−-]?)\s*(\d{1,3}(?:[.,]\d)?)(?:\s*mm)?(?![\w.,])")
        if depth and inset is None:
            inset = number(depth[2]) * (-1.0 if depth[1] in ("-", "−") else 1.0)
            continue
        reader.refuse(
            "marks", say("a contour such as H2, or an inset such as ET45"), (hump or depth or [reader.rest])[0]
        )
    if inset is not None and abs(inset) > 150.0:
        reader.refuse("inset", say("-150 to 150 mm"), plain(inset))
    return contour, inset
