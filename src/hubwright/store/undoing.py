"""Taking one earlier revision back, where nothing later stands on it. Pure: contents in, contents out."""

from __future__ import annotations

from collections.abc import Sequence

from hubwright.errors import BadInput, StoreRefusal
from hubwright.language import say
from hubwright.store.fields import overlaps, place_of
from hubwright.store.merge import Content, Judge, Outcome, Past, faults_added, reverted
from hubwright.store.things import Change
from hubwright.store.tomltext import faults_in


def taken_back(
    number: int,
    done: Sequence[Change],
    around: tuple[Content, Content],
    now: Content,
    since: Sequence[Past],
    judge: Judge = faults_in,
) -> Outcome:
    """What stands now, without what one revision did.

    Args:
        number: The revision.
        done: Its changes.
        around: What stood before it and after it.
        now: What stands.
        since: Every change after it.
        judge: Says the faults of a file.

    Raises:
        StoreRefusal: when later revisions changed the same places, or the file would become faulty.
    """
    what = say("Revision {number}", number=number)
    for change in done:
        for past in since:
            if overlaps(place_of(change.field), past.change):
                why = say(
                    "revision {revision} by {author} has changed {field} since",
                    revision=past.revision,
                    author=past.author,
                    field=past.change.field,
                )
                raise StoreRefusal(what, why, say("Take that one back first."))
    try:
        new, back = reverted(*around, now, done)
    except BadInput as error:
        raise StoreRefusal(
            what, say("it cannot be taken back ({error})", error=error), say("Enter it by hand.")
        ) from None
    if faults := faults_added(now.data, new.data, judge):
        why = say("it would be faulty without it ({faults})", faults=faults[0])
        raise StoreRefusal(what, why, say("Put that right first."))
    return Outcome(new, back)
