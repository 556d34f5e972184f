"""How a sheet is asked for in an address: paper, units, language, and for a disc's drawing which disc."""

from __future__ import annotations

from collections.abc import Mapping

from hubwright.errors import BadInput, Fault
from hubwright.language import say, spoken
from hubwright.quantities.text import unit
from hubwright.reports import Options

NAMES = ("paper", "units", "language", "axle", "t", "kind")
_ALL = (*NAMES, "format")


def options_asked(asked: Mapping[str, str]) -> Options:
    """The options of an address; what it does not state is as the person likes it.

    Raises:
        BadInput: with every fault.
    """
    typed = {name: asked.get(name, "").strip() for name in _ALL}
    faults = []
    thickness_mm = None
    if typed["t"]:
        try:
            thickness_mm = float(typed["t"].replace(",", "."))
        except ValueError:
            thickness_mm = -1.0
        if not 0 < thickness_mm <= 150:
            faults.append(Fault("t", say("a thickness per side in mm, above 0 and up to 150"), typed["t"][:40]))
    if typed["axle"] not in ("", "front", "rear"):
        faults.append(Fault("axle", "front, rear", typed["axle"][:40]))
    if typed["kind"] not in ("", "plain", "lipped"):
        faults.append(Fault("kind", "plain, lipped", typed["kind"][:40]))
    if faults:
        raise BadInput("paper", tuple(faults))
    return Options(
        paper=typed["paper"] or "a4",  # type: ignore[arg-type]  # Options refuses what is none
        units=typed["units"] or ("inch" if unit() == "in" else "metric"),  # type: ignore[arg-type]  # the same
        language=typed["language"] or spoken(),
        axle="front" if typed["axle"] == "front" else "rear" if typed["axle"] == "rear" else None,
        thickness_mm=thickness_mm,
        format=typed["format"] or "pdf",  # type: ignore[arg-type]  # the same
        disc_kind="plain" if typed["kind"] == "plain" else "lipped" if typed["kind"] == "lipped" else None,
    )
