"""Words of the store on the page; those of the answer are in `hubwright.language`."""

from __future__ import annotations

from hubwright.language import marked, say
from hubwright.store.things import Stage

_STAGES = {
    Stage.DRAFT: marked("draft"), Stage.ASSESSED: marked("assessed"), Stage.RELEASED: marked("released"),
    Stage.WAITING: marked("waiting for re-torque"), Stage.RETURNED: marked("came back"), Stage.CLOSED: marked("closed"),
}  # fmt: skip


def stage_word(stage: Stage) -> str:
    """How far a visit has come, in words."""
    return say(_STAGES[stage])
