"""One entry meets a job that others may have changed meanwhile. Pure: contents in, contents out."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.store.difference import differences
from hubwright.store.fields import Place, overlaps, place_of, value_at, written
from hubwright.store.things import Change, Clash
from hubwright.store.together import brought_together
from hubwright.store.tomltext import faults_in, put, same, toml_of, tree_of, value_of

Judge = Callable[[bytes], tuple[Fault, ...]]
"""Says every fault of a file."""


@dataclass(frozen=True)
class Content:
    """What a revision holds: the job file and the card beside it."""

    data: bytes
    card: Mapping[str, str]


@dataclass(frozen=True)
class Past:
    """One change made since the revision an author saw."""

    change: Change
    revision: int
    author: str
    at: datetime


@dataclass(frozen=True)
class Outcome:
    """What becomes of an entry.

    Attributes:
        content: The job with all that could go in.
        changes: What went in, with what stood there before.
        left: What could not go in, as it was asked.
        clashes: Why, where somebody else had changed the same place to something else.
        faults: Why, where the job would have become faulty.
    """

    content: Content
    changes: tuple[Change, ...] = ()
    left: tuple[Change, ...] = ()
    clashes: tuple[Clash, ...] = ()
    faults: tuple[Fault, ...] = ()

    @property
    def is_open(self) -> bool:
        """Whether something could not go in."""
        return bool(self.left or self.faults)


def settle(content: Content, since: Sequence[Past], asked: Sequence[Change], judge: Judge = faults_in) -> Outcome:
    """Put an entry into a job: what nobody else touched goes in, what clashes or makes the job faulty is left.

    A fault the job had already is no reason to refuse anything. An entry that takes items out of lists goes in whole or not at
    all, since its other places may count on that.

    Args:
        content: The job as it stands.
        since: Every change since the revision the author of the entry saw, oldest first.
        asked: The entry: fields (``[+]`` adds to a list) and values; None takes out.
        judge: Says the faults of a file.
    """
    clear: list[Change] = []
    left: list[Change] = []
    clashes: list[Clash] = []
    for change in asked:
        place = place_of(change.field)
        met = [past for past in since if overlaps(place, past.change)]
        moved = any(_moves_others(past.change) for past in met)
        if not place.adds and not moved and _stands(content, place, change.value):
            continue
        if not met:
            clear.append(change)
        else:
            left.append(change)
            now = _now(content, place)
            clashes.append(Clash(change.field, change.value, now, met[-1].author, met[-1].at, met[-1].revision))
    if left and any(_moves_others(change) for change in asked):
        clear, left = [], list(asked)
    try:
        new, done = _applied(content, clear)
    except BadInput as error:
        return Outcome(content, (), (*clear, *left), tuple(clashes), error.faults)
    if new.data != content.data and (faults := faults_added(content.data, new.data, judge)):
        return Outcome(content, (), (*clear, *left), tuple(clashes), faults)
    return Outcome(new, done, tuple(left), tuple(clashes))


def _moves_others(change: Change) -> bool:
    """Whether an item is taken out of a list, so that those behind it have other numbers now."""
    return change.value is None and isinstance(place_of(change.field).path[-1], int)


def faults_added(before: bytes, after: bytes, judge: Judge = faults_in) -> tuple[Fault, ...]:
    """Faults the new file has and the old one had not; the line may have moved."""
    faults = judge(after)
    if not faults:
        return ()
    old = {(fault.field, fault.wanted, fault.given) for fault in judge(before)}
    return tuple(fault for fault in faults if (fault.field, fault.wanted, fault.given) not in old)


def _applied(content: Content, asked: Sequence[Change]) -> tuple[Content, tuple[Change, ...]]:
    data, card = content.data, dict(content.card)
    done: list[Change] = []
    for change in asked:
        place = place_of(change.field)
        if place.on_card:
            before = card.pop(change.field, None)
            if change.value:
                card[change.field] = change.value
            done.append(Change(change.field, change.value or None, before))
            continue
        before = None if place.adds else _now(Content(data, card), place)
        data = put(data, place, change.value)
        value = None if change.value is None else toml_of(value_of(change.value))
        done.append(Change(_landed(data, place), value, before))
    return Content(data, card), tuple(done)


def _landed(data: bytes, place: Place) -> str:
    """Where the value stands now: an added item has got its number."""
    if not place.adds:
        return written(place.path)
    return written((*place.path, len(value_at(tree_of(data), place.path)) - 1))


def _now(content: Content, place: Place) -> str | None:
    if place.on_card:
        return content.card.get(str(place.path[0]))
    found = value_at(tree_of(content.data), place.path)
    return None if found is None else toml_of(found)


def _stands(content: Content, place: Place, value: str | None) -> bool:
    """Whether the value asked for stands there already."""
    if place.on_card:
        return (value or None) == _now(content, place)
    found = value_at(tree_of(content.data), place.path)
    return found is None if value is None else found is not None and same(found, value_of(value))


def reverted(
    before: Content, after: Content, now: Content, done: Sequence[Change]
) -> tuple[Content, tuple[Change, ...]]:
    """The job as it stands without one earlier revision, and the changes that lead there.

    An item that was taken out of a list goes back between the others, which moves them: that is a change of the whole list.

    Args:
        before: The job before that revision.
        after: The job after it.
        now: The job as it stands.
        done: The changes of that revision.

    Raises:
        BadInput: when a place cannot be reached any more.
    """
    if now == after:
        return before, between(after, before)
    data, card = now.data, dict(now.card)
    back: list[Change] = []
    for change in reversed(done):
        place = place_of(change.field)
        if place.on_card:
            card.pop(change.field, None)
            if change.before is not None:
                card[change.field] = change.before
        elif change.value is None and isinstance(place.path[-1], int):
            whole = Place(place.path[:-1])
            old, data = _now(Content(data, card), whole), put(data, place, change.before, between=True)
            back.append(Change(written(whole.path), _now(Content(data, card), whole), old))
            continue
        else:
            data = put(data, place, change.before)
        back.append(Change(change.field, change.before, change.value))
    return Content(_pruned(data, tree_of(before.data), done), card), tuple(back)


def _pruned(data: bytes, before: Any, done: Sequence[Change]) -> bytes:
    """Without tables and lists that the taken-back changes had made and that are empty now."""
    for change in reversed(done):
        path = place_of(change.field).path
        made = [path[:end] for end in range(1, len(path)) if value_at(before, path[:end]) is None]
        now = tree_of(data)
        hollow = next((upper for upper in made if _hollow(value_at(now, upper))), None)
        if hollow is not None:
            data = put(data, Place(hollow), None)
    return data


def _hollow(value: Any) -> bool:
    return value == [] or (isinstance(value, dict) and all(map(_hollow, value.values())))


def between(before: Content, after: Content) -> tuple[Change, ...]:
    """Changes that lead from one content to another, card included."""
    found = list(differences(tree_of(before.data), tree_of(after.data)))
    for name in sorted({*before.card, *after.card}):
        old, new = before.card.get(name), after.card.get(name)
        if old != new:
            found.append(Change(name, new, old))
    return tuple(found)


def settle_file(base: Content, now: Content, since: Sequence[Past], given: bytes, judge: Judge = faults_in) -> Outcome:
    """Put a whole file, made from revision `base`, back into a job others may have changed meanwhile.

    When nobody did, the file goes in byte for byte. Otherwise its changed fields are an entry; comments come along where the
    lines can be brought together.

    Raises:
        BadInput: when it is not TOML.
    """
    asked = between(base, Content(given, base.card))
    if now.data == base.data:
        if faults := faults_added(now.data, given, judge):
            return Outcome(now, (), asked, (), faults)
        return Outcome(Content(given, now.card), asked)
    outcome = settle(now, since, asked, judge)
    lines = brought_together(base.data, given, now.data)
    if not outcome.left and lines is not None and same(tree_of(lines), tree_of(outcome.content.data)):
        return Outcome(Content(lines, now.card), outcome.changes)
    if not asked and given != base.data:
        wanted, todo = (
            say("lines nobody else has changed"),
            say("Take the newest file out and write the comments into it."),
        )
        return Outcome(
            now, faults=(Fault(say("comments and layout"), wanted, say("lines changed on both sides"), todo),)
        )
    return outcome
