"""What has to be on the bench before the work begins: discs, fasteners, studs."""

from __future__ import annotations

from hubwright.jobs.answer import OrderLine
from hubwright.language import say
from hubwright.language.words import kind_word
from hubwright.parts.hole_circle import hole_circle_or_none
from hubwright.parts.job import Axle, Job
from hubwright.quantities.text import plain, thickness
from hubwright.selection.candidates import Candidate

WHEELS = 2


def order_of(job: Job, axle: Axle, chosen: Candidate) -> tuple[OrderLine, ...]:
    """Parts for one axle with the chosen disc: one disc per hub, and fasteners where today's do not serve."""
    disc = chosen.disc
    name = say("{kind} disc {thickness}", kind=kind_word(disc.kind), thickness=thickness(disc.thickness_mm))
    if disc.name:
        name = f"{name} ({disc.name})"
    where = say("stock") if job.shop.disc else say("usual series: choose a maker")
    lines = [OrderLine(WHEELS, name, where)]
    circle = hole_circle_or_none(axle.hub.bolt_circle)
    holes = None if circle is None else circle.holes
    count = None if holes is None else WHEELS * holes
    for choice in chosen.choices:
        wheels = choice.wheel_set

        if choice.change and choice.kind == "nut":
            lines.append(
                OrderLine(
                    count,
                    say("studs {thread}, {length} mm", thread=choice.thread, length=plain(choice.length_mm or 0.0)),
                    say("for the {set}; pressed in, not cut", set=wheels),
                )
            )
        elif choice.change:
            lines.append(
                OrderLine(
                    count, choice.title, say("for the {set}; today's stay with the wheels without discs", set=wheels)
                )
            )
        else:
            lines.append(OrderLine(0, choice.title, say("for the {set}: as fitted", set=wheels)))
    return tuple(lines)
