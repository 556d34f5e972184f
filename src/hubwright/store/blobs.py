"""Files named by their hash: written whole or not at all, checked whenever they are read."""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import tempfile
import threading
import unicodedata
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from hubwright.errors import StoreRefusal
from hubwright.language import say

PIECE_BYTES = 1024 * 1024
LARGEST_BYTES = 256 * 1024 * 1024
"""A photograph has a few MiB, a scan of a wheel arch some tens."""
NAME = re.compile(r"[0-9a-f]{64}")
LONGEST_NAME = 120
UNKNOWN = "application/octet-stream"
HEAD_BYTES = 512
SHOWN = ("image/jpeg", "image/png", "image/webp", "image/gif")
"""Kinds a page may show by itself; everything else is only handed out for saving."""
BEGINNINGS = (
    (b"\xff\xd8\xff", "image/jpeg"),
    (b"\x89PNG\r\n\x1a\n", "image/png"),
    (b"GIF87a", "image/gif"),
    (b"GIF89a", "image/gif"),
    (b"%PDF-", "application/pdf"),
    (b"glTF", "model/gltf-binary"),
    (b"ply\n", "model/ply"),
    (b"ply\r\n", "model/ply"),
    (b"solid ", "model/stl"),
    (b"PK\x03\x04", "application/zip"),
    (b"II*\0", "image/tiff"),
    (b"MM\0*", "image/tiff"),
)
"""First bytes of file kinds; from memory of the formats' own papers."""


@dataclass(frozen=True)
class Blob:
    """A file that is in place."""

    sha256: str
    size_bytes: int
    kind: str


def pieces_of(source: BinaryIO) -> Iterator[bytes]:
    """The bytes of an open file, a piece at a time."""
    while piece := source.read(PIECE_BYTES):
        yield piece


def keep(folder: Path, pieces: Iterable[bytes], largest_bytes: int = LARGEST_BYTES) -> Blob:
    """Put bytes in place under their hash.

    Raises:
        StoreRefusal: when it is empty, too large, or the disk does not take it; nothing is left behind.
    """
    try:
        return _keep(folder, pieces, largest_bytes)
    except OSError as error:
        raise StoreRefusal(
            say("The file was not stored"),
            error.strerror or str(error),
            say("Make room or mend the disk, then send it again."),
        ) from error


def _keep(folder: Path, pieces: Iterable[bytes], largest_bytes: int) -> Blob:
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    handle, name = tempfile.mkstemp(dir=folder, prefix=".", suffix=".new")
    new = Path(name)
    try:
        digest, size, head = hashlib.sha256(), 0, b""
        with os.fdopen(handle, "wb") as file:
            for piece in pieces:
                head = head or piece[:HEAD_BYTES]
                size += len(piece)
                if size > largest_bytes:
                    most = say("at most {largest_bytes} MiB", largest_bytes=largest_bytes // 1024**2)
                    raise StoreRefusal(
                        say("The file was not stored"), say("wanted {most}", most=most), say("Make it smaller.")
                    )
                digest.update(piece)
                file.write(piece)
            file.flush()
            os.fsync(file.fileno())
        if not size:
            raise StoreRefusal(
                say("The file was not stored"), say("it is empty"), say("Look at it, then send it again.")
            )
        target = path_of(folder, digest.hexdigest())
        target.parent.mkdir(exist_ok=True, mode=0o700)
        new.replace(target)
    except BaseException:
        new.unlink(missing_ok=True)
        raise
    _settle(target.parent)
    _settle(folder)
    return Blob(digest.hexdigest(), size, kind_of(head))


def _settle(folder: Path) -> None:
    """Force new names to the disk as well, where the system can."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def path_of(folder: Path, sha256: str) -> Path:
    """Where the file with a hash lies.

    Raises:
        StoreRefusal: when it is no hash.
    """
    if not NAME.fullmatch(sha256):
        raise StoreRefusal(
            say("File {sha256}", sha256=repr(sha256[:12])),
            say("that is no hash"),
            say("Check the store: hubwright store check."),
        )
    return folder / sha256[:2] / sha256


def fetch(folder: Path, sha256: str) -> bytes:
    """The bytes of a file, their hash checked.

    Raises:
        StoreRefusal: when the file is gone or is not what was put there.
    """
    try:
        data = path_of(folder, sha256).read_bytes()
    except OSError as error:
        raise StoreRefusal(
            say("File {sha256}", sha256=sha256[:12]), error.strerror or str(error), say("Bring it back from a backup.")
        ) from None
    if hashlib.sha256(data).hexdigest() != sha256:
        raise StoreRefusal(
            say("File {sha256}", sha256=sha256[:12]),
            say("its bytes have changed on the disk"),
            say("Bring it back from a backup."),
        )
    return data


def lay_out(folder: Path, sha256: str, target: Path) -> None:
    """Give a file a second name, or a copy where the disk cannot; there at once or not at all.

    Raises:
        StoreRefusal: when the disk does not take it.
    """
    part = target.with_name(f".{sha256[:12]}.{os.getpid()}.{threading.get_ident()}.part")
    try:
        target.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        try:
            part.hardlink_to(path_of(folder, sha256))
        except OSError:
            shutil.copyfile(path_of(folder, sha256), part)
        part.replace(target)
        part.unlink(missing_ok=True)  # stays where both are names of one file already
    except OSError as error:
        with suppress(OSError):
            part.unlink()
        raise StoreRefusal(
            say("The file was not laid out"), error.strerror or str(error), say("Make room or mend the disk.")
        ) from error


def problem_with(folder: Path, sha256: str) -> str | None:
    """What is wrong with a file that should be there; None when it is whole."""
    try:
        with path_of(folder, sha256).open("rb") as file:
            whole = hashlib.file_digest(file, "sha256").hexdigest() == sha256
    except OSError as error:
        return error.strerror or str(error)
    except StoreRefusal as error:
        return error.why
    return None if whole else say("its bytes have changed")


def all_names(folder: Path) -> Iterator[Path]:
    """Every file in place, and what a crash left half written."""
    if folder.is_dir():
        yield from (path for path in sorted(folder.rglob("*")) if path.is_file())


def sweep(folder: Path, known: set[str], older_than_s: float) -> tuple[str, ...]:
    """Remove files nobody speaks of, if they have lain there long enough that nobody is just about to.

    Args:
        folder: Where the files lie.
        known: Hashes that are spoken of.
        older_than_s: Moment, in seconds since 1970; younger files stay.

    Returns:
        The names removed.
    """
    gone = []
    for path in all_names(folder):
        ours = NAME.fullmatch(path.name) or (path.name.startswith(".") and path.name.endswith(".new"))
        if ours and path.name not in known and path.stat().st_mtime < older_than_s:
            path.unlink()
            gone.append(path.name)
    return tuple(gone)


def kind_of(head: bytes) -> str:
    """The kind of a file by its first bytes; its name is not asked."""
    for beginning, kind in BEGINNINGS:
        if head.startswith(beginning):
            return kind
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "image/webp"
    if head[4:8] == b"ftyp":
        return "image/heic" if head[8:12] in (b"heic", b"heix", b"mif1", b"msf1") else "video/mp4"
    return "text/plain" if _is_text(head) else UNKNOWN


def _is_text(head: bytes) -> bool:
    try:
        text = head.decode("utf-8")
    except UnicodeDecodeError as error:
        if error.start < len(head) - 4:
            return False
        text = head[: error.start].decode("utf-8")
    return all(letter.isprintable() or letter in "\t\r\n" for letter in text)


def clean_name(name: str) -> str:
    """A file name that is only a name: no folders, no control characters, no leading dot, of sane length."""
    bare = unicodedata.normalize("NFC", name.encode("utf-8", "replace").decode()).replace("\\", "/").rpartition("/")[2]
    bare = "".join(letter if letter.isprintable() and letter not in '<>:"|?*' else "_" for letter in bare)
    bare = bare.strip(" .") or "file"
    stem, dot, ending = bare.rpartition(".")
    if len(bare) > LONGEST_NAME:
        bare = f"{(stem or ending)[: LONGEST_NAME - 12]}{dot}{ending[:10]}" if stem else bare[:LONGEST_NAME]
    return bare
