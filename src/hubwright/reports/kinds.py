"""Every kind of sheet: its name, its title, who makes it, and for which answers it is there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from hubwright.jobs.answer import Answer
from hubwright.language import marked
from hubwright.parts.job import Job
from hubwright.reports import (
    disc_drawing,
    hand_over,
    inspection,
    job_card,
    mail_order,
    measuring,
    parts_list,
    refusal,
    torque_sheet,
)
from hubwright.reports.content import Block
from hubwright.reports.disc_order import something_to_draw
from hubwright.reports.options import Identity, Options

Make = Callable[[Job, Answer, Identity, Options], tuple[Block, ...]]
Write = Callable[[Job, Answer, Identity, Options], bytes]


@dataclass(frozen=True)
class Kind:
    """One kind of sheet.

    Attributes:
        name: As it is asked for, such as ``job-card``.
        title: As it is headed; spoken later.
        make: The blocks of the sheet.
        fits: Whether an answer has something for it.
        others: Makers of the other formats, by format.
    """

    name: str
    title: str
    make: Make
    fits: Callable[[Answer], bool]
    others: Mapping[str, Write] = field(default_factory=dict)

    @property
    def formats(self) -> tuple[str, ...]:
        """The formats it can be had in."""
        return ("pdf", *self.others)


def always(answer: Answer) -> bool:
    """There is something for every answer."""
    return True


def something_fits(answer: Answer) -> bool:
    """Whether a disc is recommended on any axle."""
    return any(axle.plan.recommended_mm is not None for axle in answer.axles)


KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("job-card", marked("Job card"), job_card.blocks_of, always),
        Kind("torque", marked("Torque sheet"), torque_sheet.blocks_of, something_fits),
        Kind(
            "parts",
            marked("Parts pick list"),
            parts_list.blocks_of,
            something_fits,
            {"xlsx": parts_list.xlsx_of, "csv": parts_list.csv_of},
        ),
        Kind("hand-over", marked("Hand-over"), hand_over.blocks_of, something_fits),
        Kind("refusal", marked("Refusal record"), refusal.blocks_of, refusal.anything_refused),
        Kind("inspection", marked("Inspection file"), inspection.blocks_of, always),
        Kind(
            "disc-drawing",
            marked("Disc for the machine shop"),
            disc_drawing.blocks_of,
            something_to_draw,
            {"dxf": disc_drawing.dxf_bytes, "svg": disc_drawing.svg_bytes},
        ),
        Kind("measuring", marked("Measuring sheet"), measuring.filled_of, always),
        Kind("measuring-blank", marked("Measuring sheet, blank"), measuring.blank_of, always),
        Kind("mail-order", marked("How to measure at home"), mail_order.blocks_of, always),
    )
}
