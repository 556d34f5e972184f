"""From sheets to PDF: one compiler, kept warm, that sees its own fonts and no others."""

from __future__ import annotations

import json
import re
import threading
from collections.abc import Sequence
from dataclasses import asdict
from datetime import UTC, date, datetime, time
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from hubwright.drawings.svg import clean
from hubwright.language import say, spoken
from hubwright.reports.content import (
    Beside,
    Blanks,
    Block,
    Checklist,
    Facts,
    Heading,
    Notice,
    Paragraph,
    Picture,
    Sheet,
    Table,
    Together,
    Verdict,
)
from hubwright.reports.letters import numbered, readable
from hubwright.reports.options import Paper

FONTS = ("Noto Sans", "DejaVu Sans Mono", "Droid Sans Fallback")
"""Shipped beside this file; one the compiler holds, for signs the first lacks; and one shipped for East Asian names."""
TAGGED = ("ua-1",)
"""PDF/UA-1 (ISO 14289-1): title, language, tagged headings and tables, a text for every picture."""
LONGEST_RUN, ZERO_WIDTH_SPACE = 24, "\u200b"
SUBJECT_LETTERS, PLATE_LETTERS, FOOT_LETTERS = 72, 14, 60
NAMES: dict[type[object], str] = {
    Heading: "heading", Paragraph: "paragraph", Verdict: "verdict", Facts: "facts", Checklist: "checklist",
    Table: "table", Blanks: "blanks", Notice: "notice", Picture: "picture", Beside: "beside", Together: "together",
}  # fmt: skip
IN_FONT = str.maketrans({"←": "‹", "→": "›", "↑": "^", "↓": "v", "✕": "×", "✓": "+"})
"""Signs the drawings use and the font lacks: a label with one would change to another font as a whole."""
_RUN = re.compile(rf"\S{{{LONGEST_RUN},}}")
_VIEW = re.compile(r'viewBox="(\S+) (\S+) (\S+) (\S+)"')
_WARM = threading.Lock()


def pdf_of(sheets: Sequence[tuple[str, Sheet]], paper: Paper, day: date) -> bytes:
    """The sheets as one PDF with bookmarks.

    The same sheets give the same bytes, on every machine: the fonts are the package's own and the date is the job's.

    Args:
        sheets: Each with the chapter it opens; empty = it belongs to the one before.
        paper: Size of the paper.
        day: Written into the file as the day it was made.
    """
    chapters = any(chapter for chapter, _ in sheets)
    papers = [_page(chapter, sheet, level=2 if chapters else 1) for chapter, sheet in sheets]
    title = sheets[0][1].title if len(sheets) == 1 else say("Papers of the workshop")
    look = {"title": title, "language": spoken(), "paper": {"a4": "a4", "letter": "us-letter"}[paper], "fonts": FONTS}
    inputs = {"sheets": json.dumps(papers, ensure_ascii=False), "look": json.dumps(look, ensure_ascii=False)}
    moment = datetime.combine(day, time(), UTC)
    with _WARM:
        made = _made(inputs, moment)
    if not isinstance(made, bytes):
        raise TypeError("the compiler gave no PDF")
    return made


def _made(inputs: dict[str, str], moment: datetime) -> Any:
    """The PDF with its tags; without where something in it cannot be tagged, for paper is wanted all the same."""
    plain = {name: numbered(text) for name, text in inputs.items()}
    tries = ((inputs, TAGGED), (inputs, ()), (plain, ()))
    for number, (given, standards) in enumerate(tries, start=1):
        try:
            return _compiler().compile(
                _source(), format="pdf", sys_inputs=given, timestamp=moment, pdf_standards=list(standards)
            )
        except BaseException as error:
            # a text the compiler breaks down on raises what is no Exception; nothing else of that sort is caught
            broke = type(error).__name__ == "PanicException"
            if number == len(tries) or not (broke or isinstance(error, RuntimeError)):
                raise
            if broke:
                _compiler.cache_clear()
    raise AssertionError("the last try returns or raises")


@cache
def _compiler() -> Any:
    import typst  # noqa: PLC0415 - only needed for paper

    here = str(Path(str(files("hubwright.reports").joinpath("fonts"))))
    return typst.Compiler(root=here, font_paths=[here], ignore_system_fonts=True)


@cache
def _source() -> bytes:
    return files("hubwright.reports").joinpath("page.typ").read_bytes()


def _page(chapter: str, sheet: Sheet, *, level: int) -> dict[str, Any]:
    foot = (shortened(sheet.subject, FOOT_LETTERS), *([sheet.plate] if sheet.plate else []), *sheet.identity)
    before, _, rest = say("Page {page} of {pages}", page="\1", pages="\2").partition("\1")
    between, _, after = rest.partition("\2")
    return {
        "chapter": bool(chapter),
        "level": level,
        "title": typeset(sheet.title),
        "subject_short": typeset(shortened(sheet.subject, SUBJECT_LETTERS)),
        "sides": say("Left and right as seen from the driver's seat."),
        "plate_short": typeset(shortened(sheet.plate, PLATE_LETTERS)),
        "state": typeset(sheet.state),
        "released": sheet.released,
        "code": sheet.code_svg,
        "code_alt": say("QR code of the job"),
        "foot": [typeset(piece) for piece in foot],
        "standing": typeset(sheet.standing),
        "page_words": [before, between, after],
        "blocks": [_block(block) for block in sheet.blocks],
    }


def _block(block: Block) -> dict[str, Any]:
    name = NAMES[type(block)]
    if isinstance(block, Beside):
        sides = {"left": [_block(part) for part in block.left], "right": [_block(part) for part in block.right]}
        return {"is": name, "share": block.share, "close": block.close, **sides}
    if isinstance(block, Together):
        return {"is": name, "blocks": [_block(part) for part in block.blocks]}
    if isinstance(block, Picture):
        words = {"alt": typeset(block.alt), "caption": typeset(block.caption), "aspect": _aspect(block.svg)}
        return {"is": name, **asdict(block), **words, "svg": readable(block.svg.translate(IN_FONT))}
    made: dict[str, Any] = _typeset_all(asdict(block))
    return {"is": name, **made}


def _typeset_all(value: Any) -> Any:
    if isinstance(value, str):
        return typeset(value)
    if isinstance(value, dict):
        return {key: _typeset_all(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_typeset_all(item) for item in value]
    return value


def typeset(text: str) -> str:
    """A text as it can be set: signs the fonts hold, places to break within long runs."""
    flat = readable(clean(text).replace("\u2028", " ").replace("\u2029", " "))
    return _RUN.sub(lambda run: ZERO_WIDTH_SPACE.join(_pieces(run[0])), flat)


def _pieces(run: str) -> list[str]:
    step = LONGEST_RUN // 2
    return [run[start : start + step] for start in range(0, len(run), step)]


def shortened(text: str, letters: int) -> str:
    """At most so many letters, with dots where it was cut."""
    flat = " ".join(text.split())
    return flat if len(flat) <= letters else f"{flat[: letters - 1].rstrip()}…"


def _aspect(svg: str) -> float:
    """Height over width of a drawing."""
    view = _VIEW.search(svg)
    return 0.75 if view is None else float(view[4]) / float(view[3])
