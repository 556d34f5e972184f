"""What is written on a tyre: `205/55R16 91V`, `LT245/75R16 120/116S`, `T125/70R17 98M`, `31x10.50R15LT`."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from hubwright.language import say
from hubwright.parts.reader import Reader, number
from hubwright.quantities.text import plain
from hubwright.quantities.units import MM_PER_INCH

SPEED_SYMBOLS = ("A1", "A2", "A3", "A4", "A5", "A6", "A7", "A8", *"BCDEFGJKLMNPQRSTUHVWY")
_Section = tuple[float, float | None, float | None]
_ServiceDescription = tuple[int | None, int | None, str | None]
_NUMBER = r"\d{1,3}(?:[.,]\d{1,2})?"
_MARKS = {
    "XL": "extra load",
    "EXTRA LOAD": "extra load",
    "REINFORCED": "extra load",
    "REINF": "extra load",
    "RF": "extra load",
    "SL": "standard load",
    "LL": "light load",
    "TL": "tubeless",
    "TT": "tube type",
    "M+S": "mud and snow",
    "M&S": "mud and snow",
    "3PMSF": "snow flake",
}


@dataclass(frozen=True)
class TyreSize:
    """A tyre designation as figures.

    Attributes:
        text: As it was written, blanks tidied.
        service: `passenger`, `P-metric`, `light truck`, `commercial` or `temporary`.
        section_width_mm: Nominal section width S1 (metric), or the inch width of a flotation size.
        aspect_percent: Nominal aspect ratio Ra; None for a flotation size, whose diameter is written instead.
        overall_diameter_mm: Written overall diameter of a flotation size, else None.
        rim_code: Nominal rim diameter code (inches by habit).
        construction: `R` radial, `D` diagonal, `B` bias-belted.
        zr: True where the size says `ZR`.
        extra_load: True where the text says XL, RF or reinforced.
        load_index: Single load index, or None.
        load_index_dual: The second of `112/110`, or None.
        speed_symbol: Such as `V`; None when it is not written.
        marks: Other marks understood, in plain words.
    """

    text: str
    service: str
    section_width_mm: float
    aspect_percent: float | None
    overall_diameter_mm: float | None
    rim_code: float
    construction: str = "R"
    zr: bool = False
    extra_load: bool = False
    load_index: int | None = None
    load_index_dual: int | None = None
    speed_symbol: str | None = None
    marks: tuple[str, ...] = ()

    @property
    def section_height_mm(self) -> float | None:
        """Nominal section height S1 Ra / 100, not rounded; None for a flotation size."""
        return None if self.aspect_percent is None else self.section_width_mm * self.aspect_percent / 100.0


def read_tyre_size(text: str) -> TyreSize:
    """The tyre size written in `text`.

    Metric (`205/55R16 91V`, with P, LT or T before or C, LT after), and inch flotation (`31x10.50R15LT`). The order of
    the pieces is that of UN R30 annex 3 and R54 annex 3; the marks after the rim code may stand in any order.

    Raises:
        BadInput: naming the one piece that was not understood, with what was wanted there.
    """
    reader = Reader(text, "tyre")
    prefix = reader.take(r"(LT|P|T)(?=\s*\d)")
    service = {"": "passenger", "P": "P-metric", "LT": "light truck", "T": "temporary"}[
        prefix[1].upper() if prefix else ""
    ]
    flotation = reader.take(rf"({_NUMBER})\s*[x×]\s*({_NUMBER})")
    if flotation:
        diameter, width = number(flotation[1]), number(flotation[2])
        _within(reader, "overall_diameter", diameter, (20.0, 50.0), " in")
        _within(reader, "section_width", width, (4.0, 20.0), " in")
        size: _Section = (width * MM_PER_INCH, None, diameter * MM_PER_INCH)
    else:
        size = (*_metric_section(reader), None)
    construction, zr = _construction(reader)
    rim_code = number(reader.need(r"(\d{2}(?:[.,]5)?)(?!\d)", "rim_code", say("a rim diameter code such as 16"))[1])
    _within(reader, "rim_code", rim_code, (10.0, 30.0))
    if size[2] is not None and size[2] <= rim_code * MM_PER_INCH:
        reader.refuse(
            "overall_diameter",
            say("more than the rim, {rim} in", rim=plain(rim_code)),
            f"{plain(size[2] / MM_PER_INCH)} in",
        )
    return _with_tail(reader, TyreSize(reader.text, service, *size, rim_code, construction, zr))


def _metric_section(reader: Reader) -> tuple[float, float]:
    width = float(
        reader.need(r"(\d{2,3})(?=\s*(?:/|R|ZR|D|B|-|$))", "section_width", say("a width in mm such as 205, then /"))[1]
    )
    if not 95 <= width <= 455 or width % 5:
        reader.refuse("section_width", say("95 to 455 mm in steps of 5"), plain(width))
    aspect = float(reader.need(r"/\s*(\d{2,3})(?!\d)", "aspect_ratio", say("an aspect ratio such as /55"))[1])
    _within(reader, "aspect_ratio", aspect, (20.0, 100.0))
    return width, aspect


def _construction(reader: Reader) -> tuple[str, bool]:
    letters = reader.need(r"(ZR|R|D|B|-)(?=\s*\d)", "construction", say("R, ZR, D, B or - before the rim code"))[
        1
    ].upper()
    return {"ZR": "R", "-": "D"}.get(letters, letters), letters == "ZR"


def _with_tail(reader: Reader, size: TyreSize) -> TyreSize:
    service, extra, marks = size.service, False, list[str]()
    index: _ServiceDescription = (None, None, None)
    while reader.rest:
        found = reader.take(r"\(?(\d{1,3})(?:\s*/\s*(\d{1,3}))?\s*(?:([A-Z]\d?)(?![A-Z0-9]))?\)?(?![\d/])")
        if found and index == (None, None, None):
            index = _service_description(reader, found[1], found[2], found[3])
        elif (truck := reader.take(r"(LT|C)(?![A-Z])")) is not None:
            service = "light truck" if truck[1].upper() == "LT" else "commercial"
        elif (mark := reader.take("(" + "|".join(re.escape(key) for key in _MARKS) + ")(?![A-Z0-9])")) is not None:
            word = _MARKS[mark[1].upper()]
            extra = extra or word == "extra load"
            marks.append(word)
        else:
            wanted = say("load index and speed symbol such as 91V, or one of C, LT, {marks}", marks=", ".join(_MARKS))
            reader.refuse("marks", wanted, found[0].strip() if found else reader.rest)
    single, dual, symbol = index
    return replace(
        size,
        service=service,
        extra_load=extra,
        load_index=single,
        load_index_dual=dual,
        speed_symbol=symbol,
        marks=tuple(marks),
    )


def _service_description(reader: Reader, single: str, dual: str | None, symbol: str | None) -> _ServiceDescription:
    for piece in (single, dual):
        if piece is not None and not 0 <= int(piece) <= 150:
            reader.refuse("load_index", say("0 to 150"), piece)
    if dual is not None and int(dual) > int(single):
        reader.refuse("load_index", say("single then dual fitment, the dual not above the single"), f"{single}/{dual}")
    if symbol is not None and symbol.upper() not in SPEED_SYMBOLS:
        reader.refuse("speed_symbol", say("one of {known}", known=", ".join(SPEED_SYMBOLS)), symbol)
    return int(single), None if dual is None else int(dual), None if symbol is None else symbol.upper()


def _within(reader: Reader, piece: str, value: float, limits: tuple[float, float], unit: str = "") -> None:
    if not limits[0] <= value <= limits[1]:
        reader.refuse(
            piece,
            say("{low} to {high}{unit}", low=plain(limits[0]), high=plain(limits[1]), unit=unit),
            f"{plain(value)}{unit}",
        )
