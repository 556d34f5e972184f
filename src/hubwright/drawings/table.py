"""The figures of a drawing as a table, for whoever cannot see it."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from hubwright.drawings.svg import clean


@dataclass(frozen=True)
class Table:
    """Rows of text under headings."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def table_html(table: Table) -> str:
    """The table as HTML with caption and scoped headings; the first column heads its row."""
    head = "".join(f'<th scope="col">{_safe(text)}</th>' for text in table.columns)
    rows = "".join(
        f'<tr><th scope="row">{_safe(row[0])}</th>{"".join(f"<td>{_safe(cell)}</td>" for cell in row[1:])}</tr>'
        for row in table.rows
    )
    return (
        f"<table><caption>{_safe(table.caption)}</caption><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>\n"
    )


def _safe(text: str) -> str:
    return escape(clean(text), quote=True)
