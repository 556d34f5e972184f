"""What the commands of ``hubwright store people`` do."""

from __future__ import annotations

import sys

import typer

from hubwright.cli.store_work import opened, say_line
from hubwright.language import say
from hubwright.quantities.text import day
from hubwright.store.person import Person


def add(name: str, role: str, by: str | None) -> None:
    """A new account."""
    with opened() as (cupboard, settings):
        person = cupboard.people.add(name, _password(), role, by or settings.author)
    say_line(_line(person))


def show() -> None:
    """Everybody."""
    with opened() as (cupboard, _):
        everybody = cupboard.people.everybody()
    for person in everybody:
        say_line(_line(person))
    if not everybody:
        say_line(say("Nobody yet. Begin with somebody who manages: hubwright store people add NAME manage"))


def role(name: str, new: str, by: str | None) -> None:
    """Another role."""
    with opened() as (cupboard, settings):
        person = cupboard.people.set_role(name, new, by or settings.author)
    say_line(_line(person))


def password(name: str, by: str | None) -> None:
    """A new password."""
    with opened() as (cupboard, settings):
        cupboard.people.named(name)
        person = cupboard.people.set_password(name, _password(), by or settings.author)
    say_line(say("{name} has a new password and is signed out everywhere.", name=person.name))


def deactivate(name: str, by: str | None) -> None:
    """No more access."""
    with opened() as (cupboard, settings):
        person = cupboard.people.deactivate(name, by or settings.author)
    say_line(_line(person))


def activate(name: str, by: str | None) -> None:
    """Access again."""
    with opened() as (cupboard, settings):
        person = cupboard.people.activate(name, by or settings.author)
    say_line(_line(person))


def _password() -> str:
    """Asked for twice without showing it; from a script the first line of the input."""
    if not sys.stdin.isatty():
        return sys.stdin.readline().rstrip("\r\n")
    return str(typer.prompt(say("Password"), hide_input=True, confirmation_prompt=say("The same again")))


def _line(person: Person) -> str:
    facts = {
        "name": person.name,
        "role": person.role,
        "since": day(person.made_at.date()),
        "by": person.changed_by,
    }
    if person.active:
        return say("{name}  {role}  since {since}, changed by {by}", **facts)
    return say("{name}  {role}  no access  since {since}, changed by {by}", **facts)
