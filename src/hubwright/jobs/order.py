"""What has to be on the bench before the work begins: discs, fasteners, studs."""

from __future__ import annotations

from hubwright.jobs.answer import OrderLine
from hubwright.parts.hole_circle import hole_circle_or_none
from hubwright.parts.job import Axle, Job
from hubwright.quantities.text import thickness
from hubwright.selection.candidates import Candidate

WHEELS = 2


def order_of(job: Job, axle: Axle, chosen: Candidate) -> tuple[OrderLine, ...]:
    """Parts for one axle with the chosen disc: one disc per hub, and fasteners where today's do not serve."""
    disc = chosen.disc
    name = f"{disc.kind} disc {thickness(disc.thickness_mm)}" + (f" ({disc.name})" if disc.name else "")
    where = "stock" if job.shop.disc else "usual series: choose a maker"
    lines = [OrderLine(WHEELS, name, where)]
    circle = hole_circle_or_none(axle.hub.bolt_circle)
    holes = None if circle is None else circle.holes
    count = None if holes is None else WHEELS * holes
    for choice in chosen.choices:
        note = f"for the {choice.wheel_set}"
        if choice.change and choice.kind == "nut":
            lines.append(
                OrderLine(count, f"studs {choice.thread}, {choice.length_mm:g} mm", f"{note}; pressed in, not cut")
            )
        elif choice.change:
            lines.append(OrderLine(count, choice.title, f"{note}; today's stay with the wheels without discs"))
        else:
            lines.append(OrderLine(0, choice.title, f"{note}: as fitted"))
    return tuple(lines)
