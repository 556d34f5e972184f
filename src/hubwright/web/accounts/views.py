"""What the pages about people show."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from hubwright.errors import Fault
from hubwright.language import say
from hubwright.store.person import LEAST_PASSWORD, Person, Role


@dataclass(frozen=True)
class SignIn:
    """The form at the gate.

    Attributes:
        to: Where somebody wanted to go.
        name: As typed.
        wrong: Whether name and password did not belong together.
    """

    to: str
    name: str = ""
    wrong: bool = False


@dataclass(frozen=True)
class OwnPassword:
    """The form for one's own password.

    Attributes:
        done: Whether it was changed just now.
        sessions: On how many devices one is signed in.
    """

    faults: tuple[Fault, ...] = ()
    done: bool = False
    sessions: int = 1
    least: int = LEAST_PASSWORD

    def fault(self, name: str) -> Fault | None:
        """What is wrong with one field."""
        return next((fault for fault in self.faults if fault.field == name), None)


@dataclass(frozen=True)
class PeopleView:
    """Everybody with an account.

    Attributes:
        about: Id of the person the faults are about; empty = the new one.
        typed: The form for a new person as it was typed, without the password.
        told: What was done just now.
    """

    people: tuple[Person, ...]
    faults: tuple[Fault, ...] = ()
    about: str = ""
    typed: Mapping[str, str] = field(default_factory=dict)
    told: str = ""
    least: int = LEAST_PASSWORD

    @property
    def roles(self) -> tuple[tuple[str, str], ...]:
        """Roles for a form."""
        return tuple((role.value, role_word(role)) for role in Role)

    def word(self, person: Person) -> str:
        """A person's role in words."""
        return role_word(person.role)

    def fault(self, name: str) -> Fault | None:
        """What is wrong with one field of the new person."""
        return next((fault for fault in self.faults if fault.field == name), None) if not self.about else None


def role_word(role: Role) -> str:
    """What a role may do, in words."""
    return {
        Role.MEASURE: say("measure: readings and files"),
        Role.DECIDE: say("decide: also wishes, work, verdicts, papers"),
        Role.MANAGE: say("manage: everything"),
    }[role]
