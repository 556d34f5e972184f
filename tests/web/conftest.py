"""The server without a network: a client that checks every page it fetches."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import httpx2 as httpx
import pytest
from fastapi.testclient import TestClient

from hubwright.store.cupboard import Cupboard
from hubwright.web.app import create_app
from hubwright.web.desk import Desk
from hubwright.web.options import Options

ROOT = Path(__file__).resolve().parents[2]
TODAY = date(2026, 5, 4)
VOID = {"meta", "link", "input", "img", "br", "hr", "source", "path", "circle", "rect", "line"}


class _Checked(HTMLParser):
    """Every tag closed, every id once, every label and anchor meant for something there, nothing inline the policy forbids."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.meant: list[str] = []
        self.wrong: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        if len(named) != len(attrs):
            self.wrong.append(f"<{tag}> states an attribute twice")
        if tag not in VOID:
            self.open.append(tag)
        if named.get("id"):
            self.ids.append(str(named["id"]))
        for name in ("for", "aria-describedby", "aria-labelledby", "list", "headers"):
            self.meant += (named.get(name) or "").split()
        if "style" in named or tag == "style" or any(name.startswith("on") for name in named):
            self.wrong.append(f"<{tag}> has a style or script of its own")
        if tag == "script" and "src" not in named:
            self.wrong.append("a script stands inside the page")
        if tag == "img" and "alt" not in named:
            self.wrong.append("an image without alt")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        if tag in VOID:
            return
        if not self.open or self.open.pop() != tag:
            self.wrong.append(f"</{tag}> closes nothing")


def check_html(text: str) -> None:
    """Refuse a page that is not in order."""
    checked = _Checked()
    checked.feed(text)
    wrong = list(checked.wrong)
    wrong += [f"id {name} twice" for name in set(checked.ids) if checked.ids.count(name) > 1]
    wrong += [f"nothing has the id {name}" for name in set(checked.meant) - set(checked.ids)]
    wrong += [f"<{tag}> stays open" for tag in checked.open]
    assert not wrong, wrong


class Page(TestClient):
    """Fetches pages, checks each, and posts forms with the token of the browser."""

    def request(self, *args: Any, **more: Any) -> httpx.Response:  # type: ignore[override]
        answer: httpx.Response = super().request(*args, **more)  # type: ignore[assignment]
        assert answer.status_code < 500, answer.text[:2000]
        assert "default-src 'none'" in answer.headers.get("content-security-policy", "") or answer.status_code == 421
        if answer.headers.get("content-type", "").startswith("text/html") and "<!doctype" in answer.text[:40].lower():
            check_html(answer.text)
        return answer

    def form(self, address: str, fields: dict[str, Any] | None = None, **more: Any) -> httpx.Response:
        """Post a form as a page of ours would; redirects are not followed."""
        if "hw_form" not in self.cookies:
            self.get("/")
        more.setdefault("follow_redirects", False)
        return self.post(address, data={"form_token": self.cookies["hw_form"], **(fields or {})}, **more)


@pytest.fixture
def cupboard(tmp_path: Path) -> Iterator[Cupboard]:
    """An empty store."""
    with Cupboard.open(tmp_path / "data") as opened:
        yield opened


@pytest.fixture
def desk(cupboard: Cupboard) -> Desk:
    """A desk whose today never changes."""
    return Desk(cupboard, lambda: TODAY)


@pytest.fixture
def page(desk: Desk) -> Iterator[Page]:
    """The server on loopback, nobody signed in."""
    app = create_app(desk, Options(author="Ann"))
    with Page(app, base_url="http://127.0.0.1:8040") as client:
        yield client


def example(name: str) -> bytes:
    """The bytes of a demo job."""
    return (ROOT / "examples" / f"{name}.toml").read_bytes()


@pytest.fixture
def job_id(cupboard: Cupboard) -> str:
    """The hatchback on the shelf."""
    return cupboard.add(example("hatchback-rear-flush"), "Ann").job_id


def words_of(answer: httpx.Response) -> str:
    """The text of a page without its tags, blanks run together."""
    bare = re.sub(r"<(script|style)\b.*?</\1>|<[^>]+>", " ", answer.text, flags=re.S)
    return re.sub(r"\s+", " ", bare)
