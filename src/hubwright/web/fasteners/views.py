"""What the page of the fasteners shows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from hubwright.errors import Fault
from hubwright.findings import Finding
from hubwright.jobs.trying import tried
from hubwright.language import say
from hubwright.language.words import of_both_sides
from hubwright.parts.hole_circle import hole_circle_or_none
from hubwright.parts.job import AxleName, Job
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import plain
from hubwright.selection.plans import shelf
from hubwright.web.desk import Desk, Seen
from hubwright.web.drawn import Drawn, drawn
from hubwright.web.frame import Frame, frame_of
from hubwright.web.looked_at import SHAPES, LookedAt, Pill, pills

if TYPE_CHECKING:
    from hubwright.checks.torque import TorqueAnswer
    from hubwright.jobs.answer import AxleAnswer
    from hubwright.jobs.fastener_table import FastenerTable, JointAnswer, LengthRow
    from hubwright.parts.shop import StockDisc


@dataclass(frozen=True)
class JointPart:
    """One wheel set on one or both sides; ``row`` is the length that is drawn."""

    answer: JointAnswer
    sentence: str
    row: LengthRow | None
    section: Drawn | None
    lengths: Drawn | None


@dataclass(frozen=True)
class FastenersView:
    """The whole page.

    Attributes:
        disc: The disc looked at; None where the job says nothing about the axle.
        why: Why this one, where nobody chose it.
        assumed: What was assumed of it where the shelf has not got it.
        joints: Fitted wheels first.
        joint: Clamp range and warnings, each sentence once.
        order: The order of tightening, drawn.
        waiting: Whether a map is still being drawn, so that the recommendation rests on readings alone.
    """

    frame: Frame
    axle: AxleName
    looked: LookedAt
    drawn_length: LookedAt
    disc: StockDisc | None = None
    why: str = ""
    assumed: str = ""
    pills: tuple[Pill, ...] = ()
    joints: tuple[JointPart, ...] = ()
    joint: tuple[tuple[Finding, str], ...] = ()
    torque: TorqueAnswer | None = None
    order: Drawn | None = None
    more_faults: tuple[Fault, ...] = ()
    waiting: bool = False

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Everything wrong with the address."""
        return (*self.looked.faults, *self.drawn_length.faults, *self.more_faults)

    def fault(self, field: str) -> Fault | None:
        """What is wrong with one field."""
        return next((fault for fault in self.faults if fault.field == field), None)

    def shape(self, finding: Finding) -> str:
        """Shape of a verdict."""
        return SHAPES[finding.verdict]

    def shape_of(self, row: LengthRow) -> str:
        """Shape of a length's verdict."""
        return SHAPES[row.verdict]

    def draw(self, row: LengthRow) -> str:
        """Where that length is drawn."""
        thickness_mm = self.disc.thickness_mm if self.disc else 0.0
        return "?" + urlencode({"t": f"{thickness_mm:g}", "length": f"{row.length_mm:g}"})


def fasteners_view(desk: Desk, seen: Seen, axle: AxleName, looked: LookedAt, length: LookedAt) -> FastenersView:
    """The page for the disc and the length the address asks for."""
    frame = frame_of(desk, seen, "fasteners", axle)
    job = seen.job
    if job is None or axle not in dict(job.axles):
        return FastenersView(frame, axle, looked, length)
    from hubwright.jobs.fastener_table import fastener_table  # noqa: PLC0415 - with the sums behind it

    worked = desk.worked(seen)
    answer = worked.answer.axle(axle)
    disc, why, assumed = _disc(job, answer, looked.thickness_mm)
    table = desk.once("fasteners", seen, lambda: fastener_table(job, axle, disc), axle, disc)
    wanted = length.thickness_mm
    known = {row.length_mm for joint in table.joints for row in joint.rows}
    faults: tuple[Fault, ...] = ()
    if wanted is not None and wanted not in known:
        lengths = ", ".join(plain(size) for size in sorted(known)) or say("none")
        faults = (Fault("length", say("one of the lengths listed: {lengths}", lengths=lengths), length.typed),)
    return FastenersView(
        frame, axle, looked, length, disc, why, assumed, pills(job, f"/jobs/{frame.job_id}/fasteners/{axle}", disc.thickness_mm),
        tuple(_part(joint, disc.thickness_mm, wanted) for joint in table.joints), _joint(table), answer.torque,
        _order(job, axle), faults, worked.waiting,
    )  # fmt: skip


def _disc(job: Job, answer: AxleAnswer, chosen_mm: float | None) -> tuple[StockDisc, str, str]:
    """The chosen disc, else the recommended, else the one asked for, else the thinnest; why, and what was assumed of it."""
    if chosen_mm is not None:
        one = tried(job, chosen_mm)
        return one.disc, "", one.assumed
    best = answer.plan.recommended
    if best is not None:
        return tried(job, best.thickness_mm, best.kind, best.name).disc, say("the recommended one"), ""
    if answer.wish_mm:
        one = tried(job, answer.wish_mm)
        return one.disc, say("the one asked for; none is recommended"), one.assumed
    return shelf(job)[0], say("the thinnest of the shelf; none is recommended or asked for"), ""


def _part(answer: JointAnswer, thickness_mm: float, wanted: float | None) -> JointPart:
    from hubwright.drawings.adapterview import adapter_svg  # noqa: PLC0415 - drawings import slowly
    from hubwright.drawings.boltview import fastener_svg, lengths_table  # noqa: PLC0415
    from hubwright.drawings.lengths_chart import lengths_svg  # noqa: PLC0415

    sentence = answer.finding.sentence
    if answer.side == "both":
        sentence = of_both_sides(sentence)
    if answer.adapter is not None:
        return JointPart(answer, sentence, None, drawn(adapter_svg(answer.adapter, answer.title)), None)
    if answer.stack is None or not answer.rows:
        return JointPart(answer, sentence, None, None, None)
    row = next((one for one in answer.rows if one.length_mm == wanted), None) or answer.taken or _nearest(answer)
    section = drawn(fastener_svg(answer, row, thickness_mm))
    return JointPart(answer, sentence, row, section, drawn(lengths_svg(answer), lengths_table(answer)))


def _nearest(answer: JointAnswer) -> LengthRow:
    """With none to take: the length nearest to what is needed, else today's."""
    if answer.required_mm is None:
        return answer.now or answer.rows[0]
    needed = answer.required_mm
    return min(answer.rows, key=lambda row: abs(row.length_mm - needed))


def _joint(table: FastenerTable) -> tuple[tuple[Finding, str], ...]:
    """Findings of the joint; one that both sides share is told once."""
    sides: dict[str, set[str]] = {}
    for item in table.joint:
        sides.setdefault(of_both_sides(item.sentence), set()).add(item.case.side if item.case else "")
    told: dict[str, Finding] = {}
    for item in table.joint:
        shared = of_both_sides(item.sentence)
        told.setdefault(shared if sides[shared] >= set(SIDES) else item.sentence, item)
    return tuple((item, sentence) for sentence, item in told.items())


def _order(job: Job, axle: AxleName) -> Drawn | None:
    from hubwright.drawings.svg import svg_of  # noqa: PLC0415 - drawings import slowly
    from hubwright.drawings.tightening import tightening_scene, turns_of  # noqa: PLC0415

    own = dict(job.axles)[axle]
    circle = hole_circle_or_none(own.hub.bolt_circle)
    if circle is None:
        return None
    recorded = next((record.order for record in own.torque if record.order), None)
    turns = turns_of(circle.holes, recorded)
    return None if turns is None else drawn(svg_of(tightening_scene(circle.holes, turns)))
