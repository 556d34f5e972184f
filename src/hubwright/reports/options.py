"""How a sheet is to be printed, and what matches it with the record."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from typing import Literal

from hubwright.errors import BadInput, Fault
from hubwright.language import LANGUAGES, SOURCE, say
from hubwright.parts.job import AxleName
from hubwright.parts.shop import DiscKind
from hubwright.quantities.text import System, speaking

Paper = Literal["a4", "letter"]
PAPERS: tuple[Paper, ...] = ("a4", "letter")
Format = Literal["pdf", "xlsx", "csv", "dxf", "svg"]
FORMATS: tuple[Format, ...] = ("pdf", "xlsx", "csv", "dxf", "svg")
HASH_LETTERS = 12
_ADDRESS = re.compile(r"https?://[^\s\x00-\x1f\x7f<>\"]{1,200}")


@dataclass(frozen=True)
class Photograph:
    """A picture that belongs to the job; ``data`` is JPEG or PNG, None = only named."""

    name: str
    sha256: str
    note: str = ""
    data: bytes | None = None


@dataclass(frozen=True)
class Identity:
    """What tells which record a sheet was printed from, and what belongs to the visit without being a reading.

    Attributes:
        sha256: Of the bytes of the job file.
        job_id: Name of the job in the store; empty = not from a store.
        revision: Of the job in the store; None = not from a store.
        address: Where the program is reached, such as ``https://shop.example``; empty = the QR code holds text.
        customer: Whose car it is.
        due: Day of the appointment for checking the tightening again.
        photographs: What is attached.
        workshop: Name and address of the shop, one line each; empty = not stated.
    """

    sha256: str
    job_id: str = ""
    revision: int | None = None
    address: str = ""
    customer: str = ""
    due: date | None = None
    photographs: tuple[Photograph, ...] = ()
    workshop: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.address and not _ADDRESS.fullmatch(self.address):
            wanted = say("an address that begins with http:// or https://, without blanks")
            raise BadInput("paper", (Fault("address", wanted, repr(self.address[:80])),))

    @property
    def short_hash(self) -> str:
        """The first letters of the hash, enough to match paper and file by eye."""
        return self.sha256[:HASH_LETTERS]

    @property
    def code_text(self) -> str:
        """What the QR code holds: the address of the job where there is one, else what names it."""
        if self.address and self.job_id:
            return f"{self.address.rstrip('/')}/jobs/{self.job_id}"
        words = [f"job {self.job_id}"] if self.job_id else []
        words += [f"revision {self.revision}"] if self.revision is not None else []
        return " ".join(["hubwright", *words, "sha256", self.sha256])


def identity_of(data: bytes) -> Identity:
    """The identity of a job file that is in no store."""
    return Identity(hashlib.sha256(data).hexdigest())


@dataclass(frozen=True)
class Options:
    """How to print.

    Attributes:
        paper: a4 or letter.
        units: metric or inch.
        language: A code of `hubwright.language.LANGUAGES`.
        format: pdf for every sheet; the parts list also xlsx and csv, the drawing of a disc also dxf and svg.
        axle: For the drawing of a disc: which axle; None = the only one with something to draw.
        thickness_mm: For the drawing of a disc: per side; None = the recommended disc.
        disc_kind: For the drawing of a disc: plain or lipped; None = as on the shelf.
    """

    paper: Paper = "a4"
    units: System = "metric"
    language: str = SOURCE
    format: Format = "pdf"
    axle: AxleName | None = None
    thickness_mm: float | None = None
    disc_kind: DiscKind | None = None

    def __post_init__(self) -> None:
        faults = []
        if self.paper not in PAPERS:
            faults.append(Fault("paper", say("one of {names}", names=", ".join(PAPERS)), repr(self.paper)))
        if self.format not in FORMATS:
            faults.append(Fault("format", say("one of {names}", names=", ".join(FORMATS)), repr(self.format)))
        if self.units not in ("metric", "inch"):
            faults.append(Fault("units", say("metric or inch"), repr(self.units)))
        if self.language not in LANGUAGES:
            faults.append(Fault("language", say("one of {names}", names=", ".join(LANGUAGES)), repr(self.language)))
        if faults:
            raise BadInput("paper", tuple(faults))


@contextmanager
def spoken_as(options: Options) -> Iterator[None]:
    """Within this block texts come in the language and units of the options."""
    with speaking(options.units, options.language):
        yield


def identity_words(identity: Identity, program: str) -> tuple[str, ...]:
    """What stands at the foot of every page."""
    words = [say("Job {name}", name=identity.job_id)] if identity.job_id else []
    if identity.revision is not None:
        words.append(say("Revision {number}", number=identity.revision))
    else:
        words.append(say("from a file, no revision"))
    words.append(say("File {hash}", hash=identity.short_hash))
    return (*words, program)
