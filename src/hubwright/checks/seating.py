"""Does the disc come to lie on the hub's face at all: the fillet at the spigot's foot and the retaining screw's head."""

from __future__ import annotations

from hubwright.engineering.centring.hub_face import fillet_standoff_mm, retaining_screw_room_mm
from hubwright.findings import Case, Evidence, Finding, Step, Verdict
from hubwright.language import marked, say
from hubwright.language.words import side_word
from hubwright.parts.hub import Hub
from hubwright.parts.shop import StockDisc
from hubwright.quantities.axes import Side
from hubwright.quantities.rounding import at_least, at_most
from hubwright.quantities.text import figure, length

QUESTION = "centring"
GEOMETRY = marked("geometry of fillet, chamfer and pocket (derived)")


def judge(hub: Hub, side: Side, disc: StockDisc) -> tuple[Finding, ...]:
    """One finding for a fillet and one for a screw head that somebody read; none where nobody did."""
    found = []
    if hub.fillet_mm is not None and hub.fillet_mm > 0:
        found.append(_fillet(hub.fillet_mm, hub, side, disc))
    if hub.screw_proud_mm is not None and hub.screw_proud_mm > 0:
        found.append(_screw(hub.screw_proud_mm, side, disc))
    return tuple(found)


def _fillet(fillet_mm: float, hub: Hub, side: Side, disc: StockDisc) -> Finding:
    case = Case(side, say("fillet of the spigot"))
    if disc.hub_chamfer_mm is None:
        text = say(
            "{side}: the chamfer of the disc's bore is not known, and the hub has a fillet of {fillet}.",
            side=side_word(side),
            fillet=length(fillet_mm),
        )
        return Finding(
            QUESTION,
            Verdict.UNKNOWN,
            text,
            None,
            case,
            Evidence.NONE,
            todo=say("Measure the chamfer on the disc's hub side."),
        )
    gap = 0.0
    if disc.bore_mm is not None and hub.spigot_diameter_mm is not None:
        gap = max(0.0, (disc.bore_mm - hub.spigot_diameter_mm.value) / 2)
    off = fillet_standoff_mm(fillet_mm, disc.hub_chamfer_mm, gap)
    step = Step(
        say(
            "fillet {fillet}, chamfer {hub_chamfer}, gap {gap}: {off} off",
            fillet=figure(fillet_mm),
            hub_chamfer=figure(disc.hub_chamfer_mm),
            gap=figure(gap, 2),
            off=length(off, 2),
        ),
        say(GEOMETRY),
    )
    if at_most(off, 0.0):
        text = say(
            "{side}: the chamfer of {hub_chamfer} clears the hub's fillet of {fillet}.",
            side=side_word(side),
            hub_chamfer=length(disc.hub_chamfer_mm),
            fillet=length(fillet_mm),
        )
        return Finding(
            QUESTION, Verdict.PASS, text, disc.hub_chamfer_mm + gap - fillet_mm, case, Evidence.MEASURED, (step,)
        )

    text = say(
        "{side}: the fillet of {fillet} holds the disc {off} off the face, its chamfer is only {hub_chamfer}.",
        side=side_word(side),
        fillet=length(fillet_mm),
        off=length(off, 2),
        hub_chamfer=length(disc.hub_chamfer_mm),
    )
    return Finding(
        QUESTION, Verdict.FAIL, text, -off, case, Evidence.MEASURED, (step,), say("A disc with a larger chamfer.")
    )


def _screw(proud_mm: float, side: Side, disc: StockDisc) -> Finding:
    case = Case(side, say("retaining screw"))
    if disc.screw_pocket_mm is None:
        text = say(
            "{side}: whether the disc has a pocket for the retaining screw, {proud} proud, is not known (0 = none).",
            side=side_word(side),
            proud=length(proud_mm),
        )
        return Finding(
            QUESTION, Verdict.UNKNOWN, text, None, case, Evidence.NONE, todo=say("Look at the disc's hub side.")
        )
    room = retaining_screw_room_mm(proud_mm, disc.screw_pocket_mm)
    step = Step(
        say(
            "{screw_pocket} − {proud} = {room} over the screw's head",
            screw_pocket=figure(disc.screw_pocket_mm),
            proud=figure(proud_mm),
            room=length(room),
        ),
        say(GEOMETRY),
    )
    if at_least(room, 0.0):
        text = say(
            "{side}: the retaining screw's head has {room} in the disc's pocket.",
            side=side_word(side),
            room=length(room),
        )
        return Finding(QUESTION, Verdict.PASS, text, room, case, Evidence.MEASURED, (step,))
    text = say(
        "{side}: the head of the retaining screw lifts the disc {room} off the hub's face.",
        side=side_word(side),
        room=length(-room),
    )
    todo = say("Seat the screw flush if the maker's screw allows it, or take a disc with a pocket.")
    return Finding(QUESTION, Verdict.FAIL, text, room, case, Evidence.MEASURED, (step,), todo)
