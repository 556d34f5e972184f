"""People with an account, and signing in for programs. On loopback nobody has to."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, Literal

from fastapi import APIRouter, Depends, Path, Request
from pydantic import BaseModel, Field
from starlette.exceptions import HTTPException

from hubwright.language import say
from hubwright.store.person import Person
from hubwright.web.accounts.knock import knock
from hubwright.web.api.door import AtDesk, Manages, json_only, refuse_foreign
from hubwright.web.api.models import STRICT
from hubwright.web.gate import token_in

router = APIRouter(tags=["people"])
Json = Depends(json_only)
RoleName = Literal["measure", "decide", "manage"]
Password = Annotated[str, Field(max_length=400)]
Name = Annotated[str, Path(max_length=200, description="Name of the person.")]


@dataclass(frozen=True)
class PersonOut:
    """Somebody with an account."""

    name: str
    role: RoleName
    active: bool
    made_at: datetime
    made_by: str
    changed_at: datetime
    changed_by: str


class PersonIn(BaseModel):
    """A new account: a name unlike every other, at least ten characters of password."""

    model_config = STRICT
    name: Annotated[str, Field(max_length=400)]
    password: Password
    role: RoleName


class PersonChange(BaseModel):
    """What is to be changed; what is not stated stays. A new password, or access taken away, ends all sessions."""

    model_config = STRICT
    role: RoleName | None = None
    password: Password | None = None
    active: bool | None = None


class SignInIn(BaseModel):
    """Name and password."""

    model_config = STRICT
    name: Annotated[str, Field(max_length=200)]
    password: Password


@dataclass(frozen=True)
class TokenOut:
    """Sent with each request as ``Authorization: Bearer TOKEN``; it ends after a week, or twelve hours without use."""

    token: str
    name: str
    role: RoleName


def _told(person: Person) -> PersonOut:
    return PersonOut(
        person.name, person.role.value, person.active, person.made_at, person.made_by, person.changed_at, person.changed_by
    )  # fmt: skip


@router.post("/sign-in", dependencies=[Json, Depends(refuse_foreign)])
def sign_in(request: Request, desk: AtDesk, asked: SignInIn) -> TokenOut:
    """A token for name and password, where the server is open to a network."""
    person = knock(request, desk, asked.name, asked.password)
    if person is None:
        raise HTTPException(401, say("Name and password do not belong together, or the access was taken away."))
    return TokenOut(desk.cupboard.sessions.begin(person.id), person.name, person.role.value)


@router.post("/sign-out", status_code=204, dependencies=[Depends(refuse_foreign)])
def sign_out(request: Request, desk: AtDesk) -> None:
    """The token sent along ends."""
    if held := token_in(request):
        desk.cupboard.sessions.end(held)


@router.get("/people")
def find_people(desk: AtDesk, who: Manages) -> list[PersonOut]:
    """All people, by name, those without access too."""
    return [_told(person) for person in desk.cupboard.people.everybody()]


@router.post("/people", status_code=201, dependencies=[Json])
def add_person(desk: AtDesk, who: Manages, asked: PersonIn) -> PersonOut:
    """A new account; the first person must be able to manage."""
    return _told(desk.cupboard.people.add(asked.name, asked.password, asked.role, who.name))


@router.patch("/people/{name}", dependencies=[Json])
def change_person(desk: AtDesk, who: Manages, name: Name, asked: PersonChange) -> PersonOut:
    """Role, password or access of somebody."""
    people = desk.cupboard.people
    person = people.named(name)
    if asked.role is not None:
        person = people.set_role(name, asked.role, who.name)
    if asked.password is not None:
        person = people.set_password(name, asked.password, who.name)
    if asked.active is not None:
        person = (people.activate if asked.active else people.deactivate)(name, who.name)
    return _told(person)
