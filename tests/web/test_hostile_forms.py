"""Whatever is typed into any form of any page, the answer is a page with words, on both databases."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest
from tests.databases import Place
from tests.web.conftest import TODAY, Page, example

from hubwright.web.app import create_app
from hubwright.web.desk import Desk
from hubwright.web.options import Options

pytestmark = pytest.mark.slow
HOSTILE = (
    "\0", "a\0b", "\ud800", "9" * 400, "1e999", "-1e-999", "nan", "٣", "\u202eevil\u200b", "<script>alert(1)</script>", "'; DROP TABLE job; --",
    "../../etc/passwd", "[" * 300, '"""\n[shop]\nx = 1', "a" * 5_000, "2026-02-31", "0/0", "1 1/0",
)  # fmt: skip
PAGES = (
    "/", "/new", "/settings", "/people", "/shop", "/shop/policy", "/shop/discs", "/shop/fasteners", "/shop/tools", "/paper", "/law",
    *(f"/jobs/{{job}}/{name}" for name in (
        "car", "measure/rear", "bench/rear", "space/rear", "fasteners/rear", "effects", "law", "verify/rear", "customer", "files", "history", "paper",
    )),
)  # fmt: skip
ASKED = (
    "t",
    "disc",
    "step",
    "on",
    "words",
    "since",
    "countries",
    "day",
    "front",
    "rear",
    "kind",
    "work",
    "kept",
    "skip",
)
"""What addresses of pages ask for."""
LEAST_FORMS = 15


class _Forms(HTMLParser):
    """Every form of a page: method, address, fields with what stands in them, and which a person types into."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, str, dict[str, str], list[str]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = {name: value or "" for name, value in attrs}
        if tag == "form":
            self.found.append((named.get("method", "get"), named.get("action", ""), {}, []))
        if not self.found or "name" not in named or tag not in ("input", "select", "textarea", "button"):
            return
        fields, typed = self.found[-1][2:]
        fields.setdefault(named["name"], named.get("value", ""))
        if named.get("type") not in ("hidden", "file"):
            typed.append(named["name"])


def test_no_form_of_any_page_is_broken_by_what_is_typed(place: Place) -> None:
    count = 0
    with place.open() as cupboard:
        job = cupboard.add(example("hatchback-rear-flush"), "Ann").job_id
        app = create_app(Desk(cupboard, lambda: TODAY), Options(author="Ann"))
        with Page(app, base_url="http://127.0.0.1:8040") as page:
            for path in PAGES:
                shown = page.get(path.format(job=job))
                if shown.status_code == 404:
                    continue
                forms = _Forms()
                forms.feed(shown.text)
                for method, action, fields, typed in forms.found:
                    count += 1
                    for text in HOSTILE if typed else ():
                        sent = {**fields, **dict.fromkeys(typed, text)}
                        _send(page, method, action or path.format(job=job), sent)
                for text in HOSTILE:
                    _send(page, "get", path.format(job=job), dict.fromkeys(ASKED, text))
        assert count >= LEAST_FORMS
        assert cupboard.check().problems == ()


def _send(page: Page, method: str, address: str, fields: dict[str, str]) -> None:
    """One form; the client fails on a trouble inside the server and on a page that is not in order."""
    whole = {name: text.encode("utf-8", "replace").decode() for name, text in fields.items()}
    if method.lower() == "post":
        page.form(address, {**whole, "form_token": page.cookies["hw_form"]})
    else:
        page.get(address, params={name: text[:2_000] for name, text in whole.items()})
