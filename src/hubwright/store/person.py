"""A person with an account: what they may do, and what a name or password must be like. No database in here."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.store.card import readable

LONGEST_NAME = 80
LEAST_PASSWORD, LONGEST_PASSWORD = 10, 200
CUSTOMER = "customer"
"""Authors that begin so came through a customer's link; nobody with an account may be called so."""


class Role(StrEnum):
    """What somebody may do. Each may also do everything the ones before may."""

    MEASURE = "measure"
    DECIDE = "decide"
    MANAGE = "manage"

    def covers(self, needed: Role) -> bool:
        """Whether this role may do what `needed` may."""
        order = tuple(Role)
        return order.index(self) >= order.index(needed)


@dataclass(frozen=True)
class Person:
    """Somebody with an account; the password's hash stays in the database.

    Attributes:
        name: As written beside everything they enter.
        active: Whether they can sign in.
        changed_by: Who changed role, password or access last.
    """

    id: str
    name: str
    role: Role
    active: bool
    made_at: datetime
    made_by: str
    changed_at: datetime
    changed_by: str


def tidied(name: str) -> str:
    """A name without needless blanks, composed."""
    return " ".join(unicodedata.normalize("NFC", name).split())


def key_of(name: str) -> str:
    """What two spellings of one name have in common: capitals, widths and blanks do not matter, accents do."""
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", tidied(name)).casefold())


def faults_of_name(name: str) -> Iterator[Fault]:
    """What is wrong with a name."""
    plain = tidied(name) if readable(name) else ""
    if not 1 <= len(plain) <= LONGEST_NAME or any(unicodedata.category(letter).startswith("C") for letter in plain):
        wanted = say("1 to {count} letters that can be printed", count=LONGEST_NAME)
        yield Fault("name", wanted, repr(name[:40]))
    elif key_of(plain).startswith(CUSTOMER):
        wanted = say("a name that does not begin with {word}", word=CUSTOMER)
        todo = say("Names that begin so are kept for customers who measure by mail.")
        yield Fault("name", wanted, repr(plain[:40]), todo)


def faults_of_password(password: str, name: str) -> Iterator[Fault]:
    """Everything wrong with a password; the password itself is never shown."""
    if len(password) < LEAST_PASSWORD:
        todo = say("A few words in a row are easy to keep in mind.")
        yield Fault("password", say("at least {count} characters", count=LEAST_PASSWORD), str(len(password)), todo)
    if len(password) > LONGEST_PASSWORD:
        yield Fault("password", say("at most {count} characters", count=LONGEST_PASSWORD), str(len(password)))
    if not readable(password):
        yield Fault("password", say("text"), say("characters that are none"))
    elif key_of(password) == key_of(name):
        yield Fault("password", say("something else than the name"), say("the name"))


def faults_of_role(role: str) -> Iterator[Fault]:
    """Whether a role is one."""
    if role not in tuple(Role):
        yield Fault("role", say("one of {names}", names=", ".join(Role)), repr(role[:40]))
