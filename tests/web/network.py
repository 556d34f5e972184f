"""A server open to a network, with people and hashes that take no time."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from argon2 import PasswordHasher
from tests.web.conftest import Page

from hubwright.store.cupboard import Cupboard
from hubwright.store.people import People
from hubwright.store.secret import Passwords
from hubwright.web.app import create_app
from hubwright.web.desk import Desk
from hubwright.web.options import Options

WORD = "nine blue vans"
CAST = (("Ann", "manage"), ("Dee", "decide"), ("Mo", "measure"))
BASE = "http://workshop.lan:8040"
OPTIONS = Options(author="setup", network=True, hosts=("workshop.lan",), base_address=BASE)


def with_people(cupboard: Cupboard) -> None:
    """Ann manages, Dee decides, Mo measures; all with one password."""
    quick = Passwords(PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))
    cupboard.people = People(cupboard._engine, cupboard._clock, cupboard._new_key, quick)
    for name, role in CAST:
        cupboard.people.add(name, WORD, role, "setup")


@contextmanager
def browser(desk: Desk, name: str = "", options: Options = OPTIONS) -> Iterator[Page]:
    """A browser at the gate, or signed in."""
    with Page(create_app(desk, options), base_url=options.base_address) as client:
        if name:
            sign_in(client, name)
        yield client


def sign_in(page: Page, name: str, password: str = WORD, **fields: str) -> int:
    """Try to; the status."""
    if "hw_form" not in page.cookies:
        page.get("/sign-in")
    return page.form("/sign-in", {"name": name, "password": password, **fields}).status_code
