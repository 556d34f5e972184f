"""What the pages of a scan show."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from pathlib import Path
from urllib.parse import quote

import numpy as np

from hubwright.errors import BadInput, Fault
from hubwright.jobs.pick_sense import with_sense
from hubwright.jobs.placing import Placing, middle_of, placing_of, scan_turn
from hubwright.jobs.placing_words import Question, facts_of, questions_of, unit_word
from hubwright.jobs.scan_units import Size, size_of
from hubwright.jobs.scans import Shape
from hubwright.language import say
from hubwright.language.words import corner_title
from hubwright.parts.job import AxleName, Job
from hubwright.parts.scan import UNIT_MM, Scan
from hubwright.quantities.axes import Side
from hubwright.quantities.text import length, number
from hubwright.store.things import Attachment
from hubwright.web.desk import Desk, Seen
from hubwright.web.drawn import Drawn, drawn
from hubwright.web.frame import Frame
from hubwright.web.scan.attached import path_of, shape_of
from hubwright.web.scan.typed import Filled, scan_of


@dataclass(frozen=True)
class Standing:
    """A scan that stands in the job."""

    number: int
    name: str
    file: str
    at_hand: bool
    placed: str


@dataclass(frozen=True)
class Corner:
    """Which wheel, in addresses and words."""

    job_id: str
    axle: AxleName
    side: Side

    @property
    def title(self) -> str:
        """In words."""
        return corner_title(self.axle, self.side)

    @property
    def address(self) -> str:
        """Of its scans."""
        return f"/jobs/{self.job_id}/space/{self.axle}/{self.side}/scan"

    @property
    def other(self) -> Corner:
        """The wheel across the car."""
        return replace(self, side="right" if self.side == "left" else "left")


@dataclass(frozen=True)
class BringView:
    """Bring a scan in, or go on with one that is there."""

    frame: Frame
    corner: Corner
    standing: tuple[Standing, ...]
    attached: tuple[Attachment, ...]
    faults: tuple[Fault, ...] = ()
    kept: int = 0
    aside: bool = False

    def place_address(self, item: Attachment) -> str:
        """Where an attached file is placed."""
        return f"{self.corner.address}/new?file={quote(item.name, safe='')}"


@dataclass(frozen=True)
class UnitChoice:
    """One unit, and how long the scan would be."""

    code: str
    unit: str
    length: str
    guessed: bool

    @property
    def words(self) -> str:
        """Both."""
        return say("{unit}: {length} long", unit=self.unit, length=self.length)


@dataclass(frozen=True)
class Outcome:
    """How the scan lies by what was picked so far.

    Attributes:
        missing: What is still to be picked or typed; then nothing else is known.
        facts: Sentences.
        questions: To be asked.
        views: Pictures.
        matrix: JSON of the turn and shift from the drawn scan (metres about its middle) to the scene; empty = none.
    """

    missing: tuple[Fault, ...] = ()
    facts: tuple[str, ...] = ()
    questions: tuple[Question, ...] = ()
    views: tuple[Drawn, ...] = ()
    matrix: str = ""

    @property
    def there(self) -> bool:
        """Whether the scan is placed."""
        return bool(self.facts)

    @property
    def grave(self) -> bool:
        """Whether anything speaks against keeping it as it is."""
        return any(question.grave for question in self.questions)


@dataclass(frozen=True)
class PlaceView:
    """One scan being placed.

    Attributes:
        number: Its place in the job's list; 0 = not in the job yet.
        filled: The form.
        units: Choices of unit with the length each would give.
        size: In the file's own unit; None where the file cannot be read.
        middle: About which place the viewer draws it, as JSON, in the file's own unit.
        version: Changes with the bytes of the file.
        outcome: How it lies.
        kept: The revision that was just made.
        aside: Whether an entry was put aside.
        base, key: The revision the form was made of, and its key.
    """

    frame: Frame
    corner: Corner
    number: int
    filled: Filled
    units: tuple[UnitChoice, ...]
    size: Size | None
    middle: str
    version: str
    outcome: Outcome
    faults: tuple[Fault, ...] = ()
    kept: int = 0
    aside: bool = False
    base: int = 0
    key: str = ""

    @property
    def address(self) -> str:
        """Where the form goes."""
        if self.number:
            return f"{self.corner.address}/{self.number}"
        return f"{self.corner.address}/new?file={quote(self.filled.file, safe='')}"

    @property
    def other_address(self) -> str:
        """The same file at the wheel across the car."""
        return f"{self.corner.other.address}/new?file={quote(self.filled.file, safe='')}"

    @property
    def scene_address(self) -> str:
        """The scan for the viewer."""
        return f"{self.corner.address}.glb?file={quote(self.filled.file, safe='')}&v={self.version}"

    @property
    def wheel_address(self) -> str:
        """The wheel for the viewer."""
        return f"{self.corner.address}-wheel.glb?v={self.frame.revision}"

    @property
    def guess(self) -> UnitChoice | None:
        """The unit the size speaks for."""
        return next((unit for unit in self.units if unit.guessed), None)

    @property
    def size_words(self) -> str:
        """How long it is, in its own unit."""
        return "" if self.size is None else number(self.size.length, 2 if self.size.length < 100 else 0)

    def fault(self, field: str) -> Fault | None:
        """What is wrong with one field."""
        return next((fault for fault in self.faults if fault.field == field), None)


def standing_of(job: Job | None, desk: Desk, corner: Corner) -> tuple[Standing, ...]:
    """The scans a corner has."""
    axle = dict(job.axles).get(corner.axle) if job is not None else None
    if axle is None:
        return ()
    names = {item.name for item in desk.cupboard.attachments(corner.job_id)}
    found = []
    for place, scan in enumerate(axle.corner(corner.side).scan, 1):
        name = Path(scan.file).name
        how = say("laid on the hub by picks") if scan.forward is not None else say("in the car's axes")
        found.append(Standing(place, scan.name, name, name in names, how))
    return tuple(found)


def units_of(size: Size) -> tuple[UnitChoice, ...]:
    """Every unit, with the length the scan would have."""
    return tuple(UnitChoice(code, unit_word(code), length(size.mm(code), 0), code == size.guess) for code in UNIT_MM)


def sized(desk: Desk, job_id: str, file: str) -> tuple[Shape, Size]:
    """The file read in its own unit, and its size.

    Raises:
        BadInput: it cannot be used.
    """
    shape = shape_of(desk, job_id, file)
    return shape, size_of(shape.triangles_mm)


def middle_words(shape: Shape) -> str:
    """About which place, in the file's own unit, the viewer draws the scan."""
    return json.dumps([float(value) for value in middle_of(shape)])


def outcome_of(desk: Desk, seen: Seen, corner: Corner, given: Filled, stands: Scan | None = None) -> Outcome:
    """How the scan of a form lies, or one that stands as it does; what is missing or wrong where it cannot be told yet."""
    scan, faults = (stands, ()) if stands is not None else scan_of(given)
    if scan is None:
        return Outcome(faults)
    assert seen.job is not None  # the pages are only there for a job without faults
    try:
        if stands is None:
            placing, scan = placed(desk, seen.job, corner, scan)
        else:
            placing = as_it_lies(desk, seen.job, corner, scan)
    except BadInput as error:
        return Outcome(tuple(replace(fault, field=_form_field(fault.field)) for fault in error.faults))
    from hubwright.drawings.placed_views import placed_svg  # noqa: PLC0415 - drawings import slowly

    views = tuple(drawn(placed_svg(placing, seen_from)) for seen_from in ("outside", "behind"))
    middle = UNIT_MM[scan.unit] * middle_of(shape_of(desk, corner.job_id, given.file))
    return Outcome((), facts_of(placing), questions_of(placing), views, _matrix(placing, middle))


def placed(desk: Desk, job: Job, corner: Corner, scan: Scan) -> tuple[Placing, Scan]:
    """How a scan lies, and the scan with the side of its plane that is outboard.

    Raises:
        BadInput: it cannot be placed.
    """
    scan = with_sense(scan, corner.side, shape_of(desk, corner.job_id, scan.file, UNIT_MM[scan.unit]))
    return as_it_lies(desk, job, corner, scan), scan


def as_it_lies(desk: Desk, job: Job, corner: Corner, scan: Scan) -> Placing:
    """How a scan lies just as it is written.

    Raises:
        BadInput: it cannot be placed.
    """
    return placing_of(job, corner.axle, corner.side, scan, path_of(desk, corner.job_id, scan.file))


FORM_FIELDS = {"hub_plane": "plane", "hub_circle": "circle", "hub_centre": "centre", "plane_points_mm": "plane",
               "forward_mm": "front", "points_mm": "outliers", "left_out": "axis_free"}  # fmt: skip
"""Fields of the sums and of the job file, by the field of the form."""


def _form_field(field: str) -> str:
    return FORM_FIELDS.get(field, field)


def _matrix(placing: Placing, middle_mm: np.ndarray) -> str:
    """Column by column, as three.js takes it: metres about the middle of the scan -> axes of glTF, front to -Z."""
    from hubwright.drawings.scene3d import MM, TO_GLTF  # noqa: PLC0415 - drawings import slowly

    turn, shift = scan_turn(placing)
    matrix = np.eye(4)
    matrix[:3, :3] = TO_GLTF @ turn
    matrix[:3, 3] = TO_GLTF @ (turn @ middle_mm + shift) * MM
    return json.dumps([round(float(value), 9) for value in matrix.T.ravel()])
