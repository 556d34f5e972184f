"""Guide values of how far clamped surfaces settle, by roughness."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.errors import OutsideValidity
from hubwright.language import marked_as, say
from hubwright.language.words import word
from hubwright.tables.cells import maybe_number, number_of, text_of
from hubwright.tables.loader import read_table

LOAD = {"axial": marked_as("load", "axial"), "shear": marked_as("load", "shear")}


@dataclass(frozen=True)
class EmbeddingGuide:
    """Settling in micrometres: in the threads, under one head, per inner interface; for a joint loaded in shear."""

    threads_um: float
    head_um: float
    interface_um: float
    how_seen: str
    source: str


def embedding_guide(roughness_um: float, load: str = "shear") -> EmbeddingGuide:
    """Row of a roughness Rz and a working load (VDI 2230, guide values for embedding).

    Raises:
        OutsideValidity: for a roughness the table does not reach, or a load other than axial or shear.
    """
    table = read_table("embedding")
    for row in table.rows:
        low, high = maybe_number(row, "roughness_from_um") or 0.0, number_of(row, "roughness_to_um")
        if row["load"] == load and low <= roughness_um < high:
            return EmbeddingGuide(
                number_of(row, "threads_um"),
                number_of(row, "head_or_nut_um"),
                number_of(row, "inner_interface_um"),
                text_of(row, "how_seen"),
                table.source,
            )
    raise OutsideValidity(
        "embedding",
        say("roughness in µm, {load}", load=word("load", LOAD, load)),
        roughness_um,
        "0 to below 160, axial or shear",
        table.source,
    )
