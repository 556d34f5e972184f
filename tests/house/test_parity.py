"""What a page can do, the command line, the library and the API can do as well, or the table says why not."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator
from functools import cache, reduce
from pathlib import Path
from pydoc import locate
from typing import Any

import pytest
from fastapi.routing import APIRoute
from typer.main import get_command

from hubwright.cli.commands import app
from hubwright.store.cupboard import Cupboard
from hubwright.web.api import PARTS
from hubwright.web.app import FEATURES

TABLE = Path(__file__).resolve().parents[2] / "docs" / "parity.toml"
BESIDE = {
    "GET /sheet-worker.js", "GET /jobs/{job_id}/space/{axle}/{side}/scan.glb",
    "GET /jobs/{job_id}/space/{axle}/{side}/scan-wheel.glb",
}  # fmt: skip
"""What scripts fetch to draw a page."""


def things() -> list[dict[str, Any]]:
    return list(tomllib.loads(TABLE.read_text(encoding="utf-8"))["thing"])


def routes(found: Iterable[Any], prefix: str = "") -> Iterator[APIRoute]:
    for route in found:
        if isinstance(route, APIRoute):
            yield route
        elif hasattr(route, "original_router"):
            yield from routes(route.original_router.routes)


@cache
def addresses() -> frozenset[str]:
    found = [route for router in FEATURES for route in routes(router.routes)]
    return frozenset(f"{method} {route.path}" for route in found for method in route.methods - {"HEAD"})


@cache
def operations() -> frozenset[str]:
    return frozenset(route.name for part in PARTS for route in routes(part.router.routes))


def test_every_page_stands_in_the_table() -> None:
    listed = {address for thing in things() for address in thing["pages"]}
    assert addresses() - BESIDE - listed == set(), "docs/parity.toml lacks it"
    assert listed - addresses() == set(), "no page has this address"


@pytest.mark.parametrize("thing", things(), ids=lambda thing: str(thing["does"]))
def test_commands_functions_and_operations_of_the_table_exist(thing: dict[str, Any]) -> None:
    for words in thing["command"]:
        reduce(lambda group, word: group.commands[word], words.split(), get_command(app))  # type: ignore[attr-defined, return-value, arg-type]
    for name in thing["library"]:
        if name.startswith("Cupboard."):
            assert hasattr(Cupboard, name.partition(".")[2]) or name.partition(".")[2] in _made_in_cupboard(), name
        else:
            assert locate(name) is not None, name
    assert set(thing["api"]) <= operations()
    gap = not (thing["command"] and thing["library"] and thing["api"])
    assert not gap or thing.get("why"), "a gap without a reason"


def test_every_operation_of_the_api_that_changes_something_has_a_page() -> None:
    listed = {name for thing in things() for name in thing["api"]}
    changing = {route.name for part in PARTS for route in routes(part.router.routes) if route.methods - {"GET", "HEAD"}}
    assert changing - listed == set()


def _made_in_cupboard() -> frozenset[str]:
    return frozenset(Cupboard.__init__.__code__.co_names)
