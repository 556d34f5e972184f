"""What lists and searches need of a job, and the search itself."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, func, select
from sqlalchemy.sql import ColumnElement

from hubwright.errors import BadInput
from hubwright.store.card import stage_of
from hubwright.store.chain import sha256
from hubwright.store.merge import Content
from hubwright.store.rows import UNTITLED, line_of
from hubwright.store.tables import aside, job
from hubwright.store.things import JobLine, Query
from hubwright.store.tomltext import text_of, tree_of

QUOTED = re.compile(r'"(?:\\.|[^"\\\n])*"|\'[^\'\n]*\'')
TITLE_LETTERS = 400


def folded(text: str) -> str:
    """Text for comparing: no capitals, no accents, single blanks."""
    plain = unicodedata.normalize("NFKD", text.replace("\0", "")).casefold()
    return " ".join("".join(letter for letter in plain if not unicodedata.combining(letter)).split())


def letters(text: str) -> str:
    """Only letters and digits, for plates."""
    return "".join(letter for letter in folded(text) if letter.isalnum())


def columns_of(content: Content) -> dict[str, Any]:
    """The columns worked out from a job's content. A file that cannot be read still gets a line in the list."""
    try:
        tree = tree_of(content.data)
    except BadInput:
        tree = {}
    car = tree.get("car")
    title, plate = _text(tree.get("title")), _text(car.get("plate") if isinstance(car, dict) else None)
    title = title or UNTITLED
    card, customer = content.card, content.card.get("@customer", "")
    day = tree.get("date")
    words = (*_strings(tree), *_comments(content.data), *(card.get(f"@{name}", "") for name in ("complaint", "note")))
    return {
        "title": title,
        "title_words": folded(title),
        "plate": plate,
        "plate_letters": letters(plate),
        "customer": customer,
        "customer_words": folded(customer),
        "axles": " ".join(name for name in ("front", "rear") if isinstance(tree.get(name), dict)),
        "day": day.isoformat() if isinstance(day, date) and not isinstance(day, datetime) else None,
        "stage": stage_of(card).value,
        "due": card.get("@due"),
        "words": folded(" ".join((*words, plate, letters(plate), customer))),
        "data_sha256": sha256(content.data),
    }


def _text(value: Any) -> str:
    return value.replace("\0", "")[:TITLE_LETTERS] if isinstance(value, str) else ""


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for item in value.values() if isinstance(value, dict) else value:
            yield from _strings(item)


def _comments(data: bytes) -> Iterator[str]:
    try:
        lines = text_of(data).splitlines()
    except BadInput:
        return
    for line in lines:
        _, mark, comment = QUOTED.sub("", line).partition("#")
        if mark:
            yield comment


def found(connection: Connection, query: Query) -> tuple[JobLine, ...]:
    """Jobs for which everything in the query holds, the one changed last first."""
    asides = (
        select(func.count())
        .where(aside.c.job_id == job.c.id, aside.c.settled.is_(None))
        .correlate(job)
        .scalar_subquery()
    )
    wanted = select(job, asides.label("asides")).where(*_conditions(query))
    if query.only_open_asides:
        wanted = wanted.where(asides > 0)
    wanted = wanted.order_by(job.c.changed_at.desc(), job.c.id).limit(query.limit).offset(query.skip)
    return tuple(line_of(row) for row in connection.execute(wanted).mappings())


def _conditions(query: Query) -> Iterator[ColumnElement[bool]]:
    for word in folded(query.words).split():
        yield job.c.words.contains(word, autoescape=True)
    if query.title:
        yield job.c.title_words.contains(folded(query.title), autoescape=True)
    if query.plate:
        yield job.c.plate_letters.contains(letters(query.plate), autoescape=True)
    if query.customer:
        yield job.c.customer_words.contains(folded(query.customer), autoescape=True)
    if query.axle:
        yield job.c.axles.contains(query.axle, autoescape=True)
    if query.stage:
        yield job.c.stage == query.stage.value
    if query.since:
        yield job.c.day >= query.since.isoformat()
    if query.until:
        yield job.c.day <= query.until.isoformat()
    if query.due_by:
        yield job.c.due <= query.due_by.isoformat()
