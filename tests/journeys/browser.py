"""A real browser that watches what it is shown: scripts' errors, broken policies, failed requests, overflow, barriers."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal
from urllib.parse import quote

import pytest
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, Playwright, Response
from playwright.sync_api import TimeoutError as TooLong
from tests.journeys.server import Site

FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip
AXE = (Path(__file__).resolve().parents[1] / "vendor" / "axe-4.14.1.min.js").read_text(encoding="utf-8")
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
BESIDES = ("target-size", "heading-order", "page-has-heading-one", "landmark-one-main", "region", "empty-heading")
"""Rules that carry none of the tags or are off unless asked for."""
SHOTS = "HUBWRIGHT_SHOTS"
"""Names a folder for pictures of every page looked at."""
Scheme = Literal["light", "dark"]
SIZES = {"narrow": (320, 640), "phone": (390, 844), "tablet": (820, 1100), "desktop": (1280, 900)}

RUN_AXE = """async ([tags, besides, only]) => {
  const rules = Object.fromEntries(besides.map(name => [name, {enabled: true}]));
  const what = only ? {type: 'rule', values: only} : {type: 'tag', values: tags};
  const found = await axe.run(document, {runOnly: what, rules: only ? {} : rules, resultTypes: ['violations']});
  return found.violations.map(v => `${v.id}: ` + v.nodes.slice(0, 4).map(n =>
    `${n.target.join(' ')} (${(n.any[0] || n.all[0] || n.none[0] || {message: ''}).message})`).join('; '));
}"""
WATCH_POLICY = """document.addEventListener('securitypolicyviolation', event =>
  console.error(`policy: ${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`))"""


def launched(playwright: Playwright) -> Browser:
    """Chromium as the system has it; the test skips, saying so, where it has none."""
    path = shutil.which("chromium")
    if path is None:
        pytest.skip("chromium is not installed (Debian package chromium)")
    return playwright.chromium.launch(executable_path=path, args=list(FLAGS))


@dataclass
class Visitor:
    """One person with a browser of their own (cookies and all).

    Attributes:
        site: The server visited.
        page: What is open.
        wrong: Everything the browser complained about, in order.
        allowed: Statuses of trouble that are part of the story.
        scripts: Whether scripts run.
    """

    site: Site
    context: BrowserContext
    page: Page
    wrong: list[str] = field(default_factory=list)
    allowed: set[int] = field(default_factory=set)
    scripts: bool = True

    def open(self, path: str) -> None:
        """Go to a page and look at it."""
        self.page.goto(self.site.address + path, wait_until="load")
        self.look()

    def look(self) -> None:
        """Fail on whatever is wrong with the page as it stands, in light and in dark.

        Raises:
            AssertionError: with all of it.
        """
        self.settled()
        where = self.page.url.removeprefix(self.site.address)
        wrong: list[str] = []
        over = self.page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        if over > 0:
            wrong.append(f"{over} px wider than the window")
        wrong += [f"in light: {text}" for text in self.barriers("light")]
        self._shoot(where, "light")
        wrong += [f"in dark: {text}" for text in self.barriers("dark", ["color-contrast"])]
        self._shoot(where, "dark")
        self.page.emulate_media(color_scheme="light")
        self.page.wait_for_timeout(50)  # what the browser has said meanwhile arrives only while something is waited for
        wrong, self.wrong = [*self.wrong, *wrong], []
        assert not wrong, f"{where}: " + "\n".join(wrong)

    def settled(self) -> None:
        """Wait until the page has fetched what it wants, as far as the browser can tell: a worker's requests it may never end."""
        self.page.wait_for_load_state("load")
        with suppress(TooLong):
            self.page.wait_for_load_state("networkidle", timeout=3_000)

    def barriers(self, scheme: Scheme, only: list[str] | None = None) -> list[str]:
        """What the accessibility checker finds (WCAG 2.2 AA, and headings and landmarks); it is a script itself."""
        if not self.scripts:
            return []
        self.page.emulate_media(color_scheme=scheme)
        if not self.page.evaluate("typeof axe === 'object'"):
            self.page.evaluate(AXE)
        found: list[str] = self.page.evaluate(RUN_AXE, [TAGS, list(BESIDES), only])
        return found

    def _shoot(self, where: str, scheme: Scheme) -> None:
        """A picture of the whole page, for looking at, where the environment names a folder for them."""
        folder = os.environ.get(SHOTS)
        if folder:
            size = self.page.viewport_size or {"width": 0}
            name = f"{re.sub('[^0-9A-Za-z]+', '-', where).strip('-') or 'shelf'}-{size['width']}-{scheme}.png"
            self.page.screenshot(path=Path(folder) / name, full_page=True)

    @contextmanager
    def expecting(self, *statuses: int) -> Iterator[None]:
        """Within this block these statuses are part of the story."""
        self.allowed |= set(statuses)
        try:
            yield
        finally:
            self.settled()
            self.allowed -= set(statuses)

    def close(self) -> None:
        """Leave; whatever was complained about since the last look fails.

        Raises:
            AssertionError: with all of it.
        """
        self.context.close()
        assert not self.wrong, "\n".join(self.wrong)

    def _said(self, message: ConsoleMessage) -> None:
        if message.type == "error" and "Failed to load resource" not in message.text:
            self.wrong.append(f"console: {message.text} ({message.location.get('url', '')})")

    def _answered(self, response: Response) -> None:
        if response.status >= 400 and response.status not in self.allowed:
            self.wrong.append(f"{response.request.method} {response.url}: {response.status}")


def visitor(
    browser: Browser, site: Site, name: str = "", *, size: str = "tablet", likes: str = "en.metric.auto", scripts: bool = True,
    **more: Any,
) -> Visitor:  # fmt: skip
    """A new person with a fresh browser.

    Args:
        browser: The browser program.
        site: The server.
        name: Written beside entries; empty = nobody chose one.
        size: phone, tablet or desktop.
        likes: Language, units and appearance.
        scripts: Whether scripts run.
        more: Further options of the browser's context.
    """
    width, height = SIZES[size]
    context = browser.new_context(
        viewport={"width": width, "height": height}, java_script_enabled=scripts, color_scheme="light",
        reduced_motion="reduce", **more,
    )  # fmt: skip
    cookies: list[Any] = [{"name": "hw_likes", "value": likes, "url": site.address}]
    if name:
        cookies.append({"name": "hw_name", "value": quote(name), "url": site.address})
    context.add_cookies(cookies)
    context.add_init_script(WATCH_POLICY)
    context.set_default_timeout(20_000)
    context.set_default_navigation_timeout(120_000)  # a clearance map that nobody asked for yet
    made = Visitor(site, context, context.new_page(), scripts=scripts)
    made.page.on("console", made._said)
    made.page.on("pageerror", lambda error: made.wrong.append(f"script: {error}"))
    made.page.on("requestfailed", lambda request: _failed(made, request))
    made.page.on("response", made._answered)
    return made


def _failed(made: Visitor, request: Any) -> None:
    if request.failure != "net::ERR_ABORTED":  # a newer request took its place, or the page was left
        made.wrong.append(f"{request.method} {request.url}: {request.failure}")
