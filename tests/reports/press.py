"""Sheets of the demo jobs, printed and read back."""

from __future__ import annotations

import hashlib
import io
import re
from dataclasses import replace
from functools import cache

import pypdf
from tests.jobs.trees import EXAMPLES

import hubwright
from hubwright.jobs.answer import Answer
from hubwright.parts.job import Job
from hubwright.reports import Identity, Options, answered, print_sheet
from hubwright.reports.compile import pdf_of
from hubwright.reports.content import Beside, Block, Picture, Sheet, Together, texts_of
from hubwright.reports.options import spoken_as
from hubwright.reports.printing import sheet_of

METRIC = Options()
BARE = 'hubwright_job = 1\ntitle = "x"\nrequest = { use = "street" }\n'


def identity(name: str) -> Identity:
    data = BARE.encode() if name == "bare" else (EXAMPLES / f"{name}.toml").read_bytes()
    return Identity(hashlib.sha256(data).hexdigest(), "k7m2p9x4q1ab", 3)


@cache
def demo(name: str, options: Options = METRIC) -> tuple[Job, Answer]:
    job = hubwright.parse(BARE) if name == "bare" else hubwright.load(EXAMPLES / f"{name}.toml")
    return job, answered(job, options)


@cache
def whole_pdf(name: str, kind: str, options: Options = METRIC) -> bytes:
    """A sheet as it is printed."""
    job, answer = demo(name, options)
    return print_sheet(kind, job, answer, identity(name), options).data


@cache
def pdf(name: str, kind: str, options: Options = METRIC) -> bytes:
    """A sheet with its pictures left empty: reading the text of large drawings back takes long."""
    job, answer = demo(name, options)
    return plain(kind, job, answer, identity(name), options)


def plain(kind: str, job: Job, answer: Answer, own: Identity, options: Options = METRIC) -> bytes:
    """The same for any job."""
    with spoken_as(options):
        sheet = sheet_of(kind, job, answer, own, options)
        bare = replace(sheet, blocks=tuple(_emptied(block) for block in sheet.blocks), code_svg="")
        return pdf_of([("", bare)], options.paper, answer.date)


def _emptied(block: Block) -> Block:
    if isinstance(block, Picture):
        return replace(block, svg='<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>')
    if isinstance(block, Beside):
        left, right = (tuple(_emptied(part) for part in side) for side in (block.left, block.right))
        return replace(block, left=left, right=right)
    if isinstance(block, Together):
        return replace(block, blocks=tuple(_emptied(part) for part in block.blocks))
    return block


def content(name: str, kind: str, options: Options = METRIC) -> Sheet:
    job, answer = demo(name, options)
    with spoken_as(options):
        return sheet_of(kind, job, answer, identity(name), options)


@cache
def pages(data: bytes) -> list[str]:
    """The text of every page, all blanks taken out: where lines break is no matter."""
    return [squeezed(page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(data)).pages]


def squeezed(text: str) -> str:
    return re.sub(r"[\s\u200b\u00ad\u200e\u200f]+", "", text)


def stands(text: str, data: bytes) -> bool:
    """Whether a text stands on any page of a PDF."""
    return any(squeezed(text) in page for page in pages(data))


def sentences(sheet: Sheet) -> list[str]:
    return list(texts_of(sheet.blocks))
