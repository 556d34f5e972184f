"""The watch over pages notices what it is there for; without this, a silent watch would pass everything."""

from __future__ import annotations

import pytest
from tests.journeys.conftest import People
from tests.journeys.server import Site

pytestmark = pytest.mark.slow


@pytest.mark.parametrize(
    ("spoil", "noticed"),
    [
        ("document.querySelector('main').insertAdjacentHTML('beforeend', '<img src=\"/static/mark.svg\">')", "image-alt"),
        ("document.querySelector('main').innerHTML += '<p id=w>x</p>'; w.style.width = '3000px'", "wider than the window"),
        ("document.querySelector('h1').style.color = '#eee'", "color-contrast"),
        ("document.querySelector('main').insertAdjacentHTML('beforeend', '<b style=\"color: red\">x</b>')", "policy"),
        ("console.error('spoilt')", "spoilt"),
        ("setTimeout(() => { throw new Error('thrown') })", "thrown"),
        ("await (await fetch('/nothere')).text()", "/nothere: 404"),
    ],
)  # fmt: skip
def test_a_spoilt_page_is_noticed(plain_site: Site, people: People, spoil: str, noticed: str) -> None:
    ann = people(plain_site, "Ann")
    ann.open("/settings")
    ann.page.evaluate(f"async () => {{ {spoil} }}")
    with pytest.raises(AssertionError, match=noticed):
        ann.look()
