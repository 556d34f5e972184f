"""What is no reading but somebody's decision: whoever only measures leaves it alone."""

from __future__ import annotations

from collections.abc import Iterable

from starlette.exceptions import HTTPException

from hubwright.language import say
from hubwright.store.asking import Asked
from hubwright.store.leaves import leaves
from hubwright.web.who import Who

DECIDED = frozenset({"@stage", "@due", "request", "shop", "wish", "package", "work", "torque", "original", "discs"})
"""Keys of the job file and of the card under which decisions stand."""
WHOLE = (("front",), ("rear",))
"""Tables with decisions in them, where they are taken out as a whole."""


def is_decision(field: str, value: str | None) -> bool:
    """Whether an entry touches a decision: wish, use, house rules, shelf, offered packages, work, torque record, stage.

    Raises:
        BadInput: when the field is not written as one.
    """
    return any(not DECIDED.isdisjoint(keys) or keys in WHOLE for keys, _ in leaves(field, value))


def refuse_undecided(who: Who, asked: Iterable[Asked]) -> None:
    """Hold back decisions of whoever only measures.

    Raises:
        BadInput: when a field is not written as one.
        HTTPException: 403.
    """
    if who.may("decide") or not any(is_decision(field, value) for field, value in asked):
        return
    words = say("{name} may not do this: it needs the role “{role}”.", name=who.name, role="decide")
    raise HTTPException(403, words)
