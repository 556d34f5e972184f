"""Load index and speed symbol of a tyre (UN R30)."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.tables.cells import not_known, number_of, row_where, text_of
from hubwright.tables.loader import Row, read_table

_INDEX = re.compile(r"\s*(\d{1,3})\s*(?:/\s*(\d{1,3})\s*)?")


@dataclass(frozen=True)
class LoadIndex:
    """Load one tyre carries: alone on its side of the axle, and as one of a twin pair where that is marked."""

    text: str
    single_kg: float
    dual_kg: float | None
    how_seen: str
    source: str


@dataclass(frozen=True)
class SpeedSymbol:
    """Greatest speed of a tyre."""

    symbol: str
    speed_kmh: float
    how_seen: str
    source: str


def load_index(text: str | int) -> LoadIndex:
    """Loads behind a load index such as ``91`` or ``121/119`` (the second figure is for twin tyres).

    Raises:
        BadInput: naming the index the table does not have, or a pair that carries more twinned than alone.
    """
    match = _INDEX.fullmatch(str(text))
    if match is None:
        raise BadInput(
            say("load index"), (Fault(say("load index"), say("a whole number, or two with a / between"), repr(text)),)
        )
    rows = [_index_row(part) for part in match.groups() if part is not None]
    loads_kg = [number_of(row, "load_kg") for row in rows]
    if len(loads_kg) == 2 and loads_kg[1] > loads_kg[0]:
        fault = Fault(
            say("load index"),
            say("the index for single tyres first, then that for twins"),
            repr(text),
            say("Swap the two."),
        )
        raise BadInput(say("load index"), (fault,))
    how_seen = "; ".join(dict.fromkeys(text_of(row, "how_seen") for row in rows))
    dual_kg = loads_kg[1] if len(loads_kg) == 2 else None
    return LoadIndex(str(text).strip(), loads_kg[0], dual_kg, how_seen, read_table("load_index").source)


def speed_symbol(symbol: str) -> SpeedSymbol:
    """Greatest speed behind a speed symbol such as ``V``.

    Raises:
        BadInput: for a symbol the table does not have.
    """
    table = read_table("speed_symbols")
    row = row_where(table, "symbol", symbol.strip().upper())
    if row is None:
        known = [text_of(each, "symbol") for each in table.rows]
        raise not_known("speed symbol", "a speed symbol", symbol, known, "For ZR or (Y) ask the tyre maker.")
    return SpeedSymbol(text_of(row, "symbol"), number_of(row, "speed_kmh"), text_of(row, "how_seen"), table.source)


def _index_row(part: str) -> Row:
    row = row_where(read_table("load_index"), "load_index", int(part))
    if row is None:
        raise BadInput(
            say("load index"),
            (Fault(say("load index"), say("an index of 0 to 126"), part, say("Read the sidewall again.")),),
        )
    return row
