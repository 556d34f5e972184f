"""Drawings in a page: the style sheet they share stands in a file, since the page allows no style inside."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from hubwright.drawings.style import css, page_css
from hubwright.drawings.table import Table, table_html
from hubwright.web.render import html

DRAWINGS_CSS = "drawings.css"
_OWN_STYLE = f"<style>{css()}</style>"


def drawings_css() -> str:
    """The style sheet of every drawing in a page; it follows the appearance the page is shown in."""
    return page_css()


@dataclass(frozen=True)
class Drawn:
    """A drawing and the same figures as a table, for whoever cannot see it."""

    svg: Markup
    table: Markup | None = None


def drawn(svg: str, table: Table | None = None) -> Drawn:
    """A drawing fit for a page."""
    return Drawn(html(svg.replace(_OWN_STYLE, "")), None if table is None else html(table_html(table)))
