"""The drawing of a custom disc: views, sizes, tolerances and inspection list as PDF, and its views as DXF and SVG."""

from __future__ import annotations

from hubwright.drawings.disc_scene import disc_scene, figure
from hubwright.drawings.dxf import dxf_of
from hubwright.drawings.machine_disc import Origin, Size
from hubwright.drawings.scene import Scene
from hubwright.drawings.svg import svg_of
from hubwright.findings import Verdict as Unsettled
from hubwright.jobs.answer import Answer
from hubwright.language import say
from hubwright.language.words import axle_title
from hubwright.parts.job import Job
from hubwright.quantities.text import day, pointed
from hubwright.quantities.units import MM_PER_INCH
from hubwright.reports.content import (
    Blank,
    Blanks,
    Block,
    Column,
    Facts,
    Heading,
    Notice,
    Paragraph,
    Picture,
    Table,
    Together,
    Verdict,
)
from hubwright.reports.disc_order import DiscOrder, disc_order, disc_orders
from hubwright.reports.options import Identity, Options, identity_words
from hubwright.reports.words import disc_words, job_facts

FACES_MM, FLAT_MM, PLACE_MM, RUN_OUT_MM = 0.03, 0.02, 0.2, 0.05
"""Parallelism, flatness, true position of the holes, run-out of the lip: proposals, common practice, no source."""
THICKNESS_MM = 0.05


def blocks_of(job: Job, answer: Answer, identity: Identity, options: Options) -> tuple[Block, ...]:
    """The drawing with everything a machine shop needs to make and to check the disc.

    Raises:
        BadInput: when any window refuses the disc or a reading is missing (see `disc_order`).
    """
    blocks: list[Block] = [Facts(job_facts(job, answer, identity.customer))]
    for number, order in enumerate(disc_orders(job, answer, options)):
        blocks += _disc(job, order, identity, options, new_page=number > 0)
        blocks.append(_closing(order, identity, answer))
    return tuple(blocks)


def _disc(job: Job, order: DiscOrder, identity: Identity, options: Options, *, new_page: bool) -> tuple[Block, ...]:
    scene, size = _scene(order), figure(order.disc.thickness_mm)
    make = say("{size} mm {kind}: make two", size=size, kind=disc_words(order.disc.kind))
    shares = zip((say("What"), say("At most"), say("Piece 1"), say("Piece 2")), (1.6, 0.5, 0.6, 0.6), strict=True)
    forms = tuple(Column(title, share) for title, share in shares)
    return (
        Heading(axle_title(order.name), "", new_page=new_page),
        Verdict("", make),
        Notice(say("Have it checked by a qualified engineer before it is made"), _cautions(order)),
        Picture(svg_of(scene), scene.description, scene.paper_mm),
        Heading(say("Sizes and inspection list"), say("Millimetres. Every piece is measured; write in what was read.")),
        _sizes(order, options),
        Heading(say("Form and position")),
        Table(forms, tuple((what, f"{figure(value)} mm", "", "") for what, value in _forms(order)), tall=True),
        Paragraph(say("These are proposals without a source; the engineer confirms or changes them."), "small"),
    )


def _closing(order: DiscOrder, identity: Identity, answer: Answer) -> Together:
    """What holds for the whole piece, who answers for it, and the cautions."""
    signed = (say("Checked by, qualified engineer"), say("Made by, day"), say("Inspected by, day"))
    return Together(
        (
            Heading(say("Notes for the machine shop")),
            Facts(_notes(order, identity)),
            Blanks(tuple(Blank(label) for label in signed), across=3),
            Notice("", answer.cautions),
        )
    )


def _cautions(order: DiscOrder) -> tuple[str, ...]:
    """What the engineer must know about this disc."""
    unknown = [finding for finding in order.answer.findings if finding.verdict is Unsettled.UNKNOWN]
    reasons = order.answer.reasons if order.answer.status == "caution" else ()
    return (
        say(
            "Strength, material and tolerances are not worked out here. Sizes marked “proposal” are a habit of the trade."
        ),
        *_joined_by(order),
        *(say("Caution: {reason}", reason=reason) for reason in reasons),
        *(say("The thickness holds only with this work done: {work}.", work=work) for work in order.plan.work),
        *(say("Not known: {reason}", reason=finding.sentence) for finding in unknown),
    )


def _joined_by(order: DiscOrder) -> tuple[str, ...]:
    join_mm = order.made.join_mm
    return (
        () if join_mm is None else (say("Only {join} mm of metal join lip and disc.", join=figure(round(join_mm, 2))),)
    )


def _scene(order: DiscOrder, *, on_paper: bool = True, title_block: tuple[tuple[str, str], ...] = ()) -> Scene:
    size = figure(order.disc.thickness_mm)
    title = say("{axle}: {size} mm {kind}", axle=axle_title(order.name), size=size, kind=disc_words(order.disc.kind))
    return disc_scene(order.made, title, on_paper=on_paper, title_block=title_block)


def dxf_bytes(job: Job, answer: Answer, identity: Identity, options: Options) -> bytes:
    """The views as DXF; errors as `blocks_of`."""
    order = disc_order(job, answer, options)
    return dxf_of(_scene(order, on_paper=False, title_block=_title_block(order, answer, identity, options)))


def svg_bytes(job: Job, answer: Answer, identity: Identity, options: Options) -> bytes:
    """The views as SVG; errors as `blocks_of`."""
    order = disc_order(job, answer, options)
    return svg_of(_scene(order, title_block=_title_block(order, answer, identity, options))).encode("utf-8")


def _title_block(order: DiscOrder, answer: Answer, identity: Identity, options: Options) -> tuple[tuple[str, str], ...]:
    """What a drawing that leaves the house without its sheet must say by itself."""
    sizes = tuple(f"{row[0]}: {row[1]} ({row[2]}; {row[3]})" for row in _sizes(order, options).rows)
    forms = tuple(f"{what}: {figure(value)} mm" for what, value in _forms(order))
    return (
        (say("Mind"), say("Have it checked by a qualified engineer before it is made")),
        *((say("Mind"), text) for text in _cautions(order)),
        (say("Pieces"), say("make two")),
        *((say("Size"), text) for text in sizes),
        *((say("Form and position"), text) for text in forms),
        *_notes(order, identity),
        (say("Job"), answer.title),
        (say("Record"), ", ".join(identity_words(identity, answer.program))),
        (say("Day"), day(answer.date)),
    )


def origin_words(origin: Origin) -> str:
    """Where a size comes from."""
    return {
        Origin.READ: say("read on the car"),
        Origin.STATED: say("stated for the disc"),
        Origin.PROPOSED: say("proposal, no source"),
    }[origin]


def _sizes(order: DiscOrder, options: Options) -> Table:
    made = order.made
    rows: list[tuple[str, Size | None, str]] = [
        (say("Thickness between the faces"), made.thickness, f"± {figure(THICKNESS_MM)}"),
        (say("Bore on the hub's spigot"), made.bore, ""),
        (say("Chamfer of the bore, hub's side, 45°"), made.chamfer, pointed("+ 0.2 / 0")),
        (say("Depth of the bore from the hub's face (recess)"), made.recess, pointed("+ 0.2 / 0")),
        (say("Lip, outside"), made.lip_outer, ""),
        (say("Lip, inside"), made.lip_inner, ""),
        (say("Lip, length"), made.lip_length, pointed("0 / − 0.2")),
        (say("Chamfer of the lip's end, 45°"), made.lip_chamfer, ""),
        (say("Outside"), made.outer, ""),
        (say("Holes, {count} of them", count=made.holes), made.hole, pointed("+ 0.2 / 0")),
        (say("Hole circle"), made.circle, ""),
        (say("Pocket for the retaining screw, depth"), made.screw_pocket, pointed("+ 0.5 / 0")),
    ]
    nominal = 0.58 if options.units == "metric" else 0.9
    columns = [
        Column(say("Size"), 1.5), Column(say("Nominal"), nominal, right=True), Column(say("Limits"), 0.9),
        Column(say("Taken from"), 1.1), Column(say("Piece 1"), 0.5), Column(say("Piece 2"), 0.5),
    ]  # fmt: skip
    cells = tuple(
        (what, _nominal(size, options), _limits(size, given), origin_words(size.origin), "", "")
        for what, size, given in rows
        if size is not None
    )
    return Table(tuple(columns), cells, tall=True)


def _nominal(size: Size, options: Options) -> str:
    if options.units == "metric":
        return figure(size.mm)
    return say("{mm} ({inch} in)", mm=figure(size.mm), inch=figure(round(size.mm / MM_PER_INCH, 3)))


def _limits(size: Size, given: str) -> str:
    """By its class and the figures of ISO 286, else as given, else by the general tolerance."""
    found = size.limits_mm
    if found is not None:
        return f"{size.fit}: {figure(found[0])} – {figure(found[1])}"
    return size.fit or given or "ISO 2768-m"


def _forms(order: DiscOrder) -> tuple[tuple[str, float], ...]:
    concentric = order.disc.concentricity_mm
    rows = [
        (say("Parallelism of the two faces"), FACES_MM),
        (say("Flatness of each face"), FLAT_MM),
        (say("True position of the holes to the bore, Ø"), PLACE_MM),
        (say("Difference of thickness, left piece to right piece"), THICKNESS_MM),
    ]
    if order.made.lip_outer is not None:
        value = RUN_OUT_MM if concentric is None else concentric
        rows.append((say("Run-out of the lip to the bore, full dial reading"), value))
    return tuple(rows)


def _notes(order: DiscOrder, identity: Identity) -> tuple[tuple[str, str], ...]:
    material = {"steel": say("steel"), "aluminium": say("aluminium")}.get(order.disc.material or "")
    marking = say(
        "{size} mm, {circle}, Ø{bore}, {hash}",
        size=figure(order.disc.thickness_mm),
        circle=order.axle.hub.bolt_circle or "",
        bore=figure(order.made.bore.mm),
        hash=identity.short_hash,
    )
    return (
        (say("Material"), material or say("to be stated by the engineer")),
        (say("Finish"), say("faces turned, Ra 1.6; no paint and no coating on faces, bore and lip")),
        (say("General tolerances"), "ISO 2768-mK"),
        (say("Edges"), say("broken 0.2 to 0.5 mm, no burr at the holes")),
        (say("Marking"), say("on the outside, engraved: {marking}", marking=marking)),
        (say("Made from"), say("one piece; not stacked, not welded, not glued")),
    )
