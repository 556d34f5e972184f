"""Addresses of signing in and of the people."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated
from urllib.parse import urlsplit

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response

from hubwright.errors import BadInput, Fault, StoreRefusal
from hubwright.language import say
from hubwright.store.person import Person, key_of
from hubwright.web.accounts.knock import knock
from hubwright.web.accounts.views import OwnPassword, PeopleView, SignIn
from hubwright.web.desk import Desk, desk_of
from hubwright.web.forms import Posted, posted
from hubwright.web.gate import SESSION_COOKIE, address_of, let_in, pace_of, token_in
from hubwright.web.options import Options
from hubwright.web.pace import SIGN_IN_HERE, too_many
from hubwright.web.render import page
from hubwright.web.who import who_of

router = APIRouter(include_in_schema=False)
Form = Annotated[Posted, Depends(posted)]
AtDesk = Annotated[Desk, Depends(desk_of)]


def inside(address: str) -> str:
    """The path of an address of ours; the shelf for any other."""
    parts = urlsplit(address)
    ours = not parts.netloc and parts.path.startswith("/") and not parts.path.startswith(("//", "/\\"))
    return parts.path if ours and parts.path not in ("/sign-in", "/sign-out") else "/"


@router.get("/sign-in")
def sign_in(request: Request, to: str = "/") -> Response:
    """The form; straight on for whoever is signed in, and on a server that asks nobody."""
    options: Options = request.app.state.options
    if not options.network or who_of(request).known:
        return RedirectResponse(inside(to), 303)
    return page(request, "accounts/sign_in.html", SignIn(inside(to)))


@router.post("/sign-in")
def enter(request: Request, desk: AtDesk, form: Form) -> Response:
    """A session, when name and password belong together."""
    options: Options = request.app.state.options
    to, name = inside(form.text("to", "/")), form.text("name")[:200]
    if not options.network:
        return RedirectResponse(to, 303)
    password = form.fields.get("password")
    person = knock(request, desk, name, password if isinstance(password, str) else "")
    if person is None:
        return page(request, "accounts/sign_in.html", SignIn(to, name, wrong=True), 422)
    if held := token_in(request):
        desk.cupboard.sessions.end(held)
    answer = RedirectResponse(to, 303)
    let_in(answer, desk.cupboard.sessions.begin(person.id), options)
    return answer


@router.post("/sign-out")
def leave(request: Request, desk: AtDesk, form: Form) -> Response:
    """The session of this browser ends, or with ``everywhere`` all of the person's."""
    if held := token_in(request):
        if form.text("everywhere") and (person := desk.cupboard.sessions.who(held)) is not None:
            desk.cupboard.sessions.end_all(person.id)
        desk.cupboard.sessions.end(held)
    answer = RedirectResponse("/sign-in", 303)
    answer.delete_cookie(SESSION_COOKIE, path="/")
    return answer


@router.get("/password")
def own_password(request: Request, desk: AtDesk) -> Response:
    """The form for one's own password."""
    _only_with_accounts(request)
    person = desk.cupboard.people.named(who_of(request).name)
    return page(request, "accounts/password.html", OwnPassword(sessions=len(desk.cupboard.sessions.of(person.id))))


@router.post("/password")
def change_password(request: Request, desk: AtDesk, form: Form) -> Response:
    """One's own password changed; every other device is signed out."""
    _only_with_accounts(request)
    options: Options = request.app.state.options
    name = who_of(request).name
    old, new, again = (str(form.fields.get(field) or "") for field in ("old", "password", "again"))
    pace, at = pace_of(request), ("sign in", key_of(name), address_of(request))
    if wait_s := pace.wait_s(SIGN_IN_HERE, *at):
        raise too_many(wait_s)
    faults = []
    if desk.cupboard.people.sign_in(name, old) is None:
        pace.spend(SIGN_IN_HERE, *at)
        faults.append(Fault("old", say("your password until now"), say("another")))
    if new != again:
        faults.append(Fault("again", say("the same password again"), say("another")))
    try:
        if faults:
            desk.cupboard.people.refuse_password(new, name)
        else:
            person = desk.cupboard.people.set_password(name, new, name)
    except BadInput as error:
        faults += error.faults
    if faults:
        return page(request, "accounts/password.html", OwnPassword(tuple(faults)), 422)
    answer = page(request, "accounts/password.html", OwnPassword(done=True))
    let_in(answer, desk.cupboard.sessions.begin(person.id), options)
    return answer


@router.get("/people")
def people(request: Request, desk: AtDesk) -> Response:
    """Everybody with an account."""
    return page(request, "accounts/people.html", PeopleView(desk.cupboard.people.everybody()))


@router.post("/people")
def add(request: Request, desk: AtDesk, form: Form) -> Response:
    """A new account."""
    typed = {"name": form.text("name"), "role": form.text("role")}
    password = str(form.fields.get("password") or "")
    try:
        desk.cupboard.people.add(typed["name"], password, typed["role"], who_of(request).name)
    except BadInput as error:
        view = PeopleView(desk.cupboard.people.everybody(), error.faults, typed=typed)
        return page(request, "accounts/people.html", view, 422)
    return RedirectResponse("/people", 303)


@router.post("/people/{person_id}/role")
def role(request: Request, person_id: str, desk: AtDesk, form: Form) -> Response:
    """Another role."""
    by = who_of(request).name
    return _changed(
        request, desk, person_id, lambda one: desk.cupboard.people.set_role(one.name, form.text("role"), by)
    )


@router.post("/people/{person_id}/password")
def password(request: Request, person_id: str, desk: AtDesk, form: Form) -> Response:
    """A new password, told to the person by whoever set it."""
    new, by = str(form.fields.get("password") or ""), who_of(request).name
    return _changed(request, desk, person_id, lambda one: desk.cupboard.people.set_password(one.name, new, by))


@router.post("/people/{person_id}/access")
def access(request: Request, person_id: str, desk: AtDesk, form: Form) -> Response:
    """Access taken away or given back."""
    by, give = who_of(request).name, form.text("access") == "give"
    change = desk.cupboard.people.activate if give else desk.cupboard.people.deactivate
    return _changed(request, desk, person_id, lambda one: change(one.name, by))


def _changed(request: Request, desk: Desk, person_id: str, change: Callable[[Person], object]) -> Response:
    everybody = desk.cupboard.people.everybody()
    person = next((one for one in everybody if one.id == person_id), None)
    if person is None:
        raise StoreRefusal(person_id[:40], say("there is no such person"), say("Look at the list again."), missing=True)
    try:
        change(person)
    except BadInput as error:
        return page(request, "accounts/people.html", PeopleView(everybody, error.faults, about=person_id), 422)
    return RedirectResponse("/people", 303)


def _only_with_accounts(request: Request) -> None:
    """Hold back where nobody signs in.

    Raises:
        StoreRefusal: on loopback.
    """
    if not who_of(request).signed_in:
        why = say("nobody signs in while only this machine can open the pages")
        todo = say("Give somebody a password on the page of the people.")
        raise StoreRefusal(say("Your password"), why, todo, missing=True)
