"""Sheets of the demo jobs, printed and read back."""

from __future__ import annotations

import hashlib
import io
import re
from functools import cache

import pypdf
from tests.jobs.trees import EXAMPLES

import hubwright
from hubwright.jobs.answer import Answer
from hubwright.parts.job import Job
from hubwright.reports import Identity, Options, answered, print_sheet
from hubwright.reports.content import Sheet, texts_of
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
def pdf(name: str, kind: str, options: Options = METRIC) -> bytes:
    job, answer = demo(name, options)
    return print_sheet(kind, job, answer, identity(name), options).data


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
