"""Zip files that prove themselves on the way in: every member named, sized and hashed in a manifest, nothing believed."""

from __future__ import annotations

import hashlib
import io
import json
import os
import re
import tempfile
import zipfile
import zlib
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, BinaryIO

from hubwright.errors import StoreRefusal
from hubwright.language import say
from hubwright.quantities.text import joined

FORMAT = 1
MANIFEST = "manifest.json"
NAME = re.compile(r"(?:[a-z0-9_]+/)?[a-z0-9_]+(?:\.[a-z0-9]+)?")
EARLIEST = (1980, 1, 1, 0, 0, 0)
"""One date for every member, so that the same content gives the same bytes."""
PIECE_BYTES = 1024 * 1024
LARGEST_MANIFEST_BYTES = 128 * 1024**2
LARGEST_JSON_BYTES = 512 * 1024**2
LARGEST_TOTAL_BYTES = 256 * 1024**3
MOST_MEMBERS = 500_000
SWELLS = 300
"""No member swells to more than so many times its packed size; text of job files stays far below, a bomb far above."""
SWELLS_FREELY_BYTES = 16 * 1024**2

Member = tuple[str, bytes | Path]
BROKEN = (zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError, EOFError, OSError, ValueError, KeyError)
"""What reading a spoilt zip file may raise."""


def write(target: Path, kind: str, facts: Mapping[str, Any], members: Iterable[Member]) -> None:
    """Write an archive, whole or not at all; an existing file is never overwritten.

    Raises:
        StoreRefusal: when the file exists already or cannot be written.
    """
    if target.exists():
        raise StoreRefusal(
            say("{target} was not written", target=target.name),
            say("there is a file of that name"),
            say("Choose another name."),
        )
    try:
        handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".new")
    except OSError as error:
        raise _not_written(target, error) from error
    try:
        with os.fdopen(handle, "w+b") as file:
            _fill(file, kind, facts, members)
            file.flush()
            os.fsync(file.fileno())
        Path(name).replace(target)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise _not_written(target, error) from error
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _fill(file: BinaryIO, kind: str, facts: Mapping[str, Any], members: Iterable[Member]) -> None:
    listed: dict[str, dict[str, Any]] = {}
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members:
            if name in listed:
                continue
            digest, size = hashlib.sha256(), 0
            info = zipfile.ZipInfo(name, EARLIEST)
            info.compress_type = zipfile.ZIP_DEFLATED
            with (
                io.BytesIO(content) if isinstance(content, bytes) else content.open("rb") as source,
                archive.open(info, "w", force_zip64=True) as member,
            ):
                while piece := source.read(PIECE_BYTES):
                    digest.update(piece)
                    size += len(piece)
                    member.write(piece)
            listed[name] = {"sha256": digest.hexdigest(), "size_bytes": size}
        manifest = {"hubwright_archive": FORMAT, "kind": kind, **facts, "members": listed}
        info = zipfile.ZipInfo(MANIFEST, EARLIEST)
        info.compress_type = zipfile.ZIP_DEFLATED
        archive.writestr(info, json.dumps(manifest, indent=1, ensure_ascii=False))


def _not_written(target: Path, error: OSError) -> StoreRefusal:
    return StoreRefusal(
        say("{target} was not written", target=target.name),
        error.strerror or str(error),
        say("Make room or choose another place."),
    )


@dataclass(frozen=True)
class Archive:
    """An opened archive whose names and sizes have been checked; bytes are checked as they are read."""

    name: str
    facts: Mapping[str, Any]
    sizes: Mapping[str, int]
    hashes: Mapping[str, str]
    stream: Callable[[str], Iterator[bytes]]

    def names(self, folder: str) -> tuple[str, ...]:
        """Members of one folder."""
        return tuple(name for name in self.sizes if name.startswith(f"{folder}/"))

    def content(self, name: str) -> bytes:
        """All bytes of a member that fits into memory.

        Raises:
            StoreRefusal: when it is missing, too large or not what the manifest says.
        """
        if self.sizes.get(name, LARGEST_JSON_BYTES + 1) > LARGEST_JSON_BYTES:
            raise spoilt(self.name, say("{name} is missing or too large", name=name))
        return b"".join(self.stream(name))

    def prove(self) -> None:
        """Read every member once.

        Raises:
            StoreRefusal: when any is not what the manifest says.
        """
        for name in self.sizes:
            for _ in self.stream(name):
                pass


@contextmanager
def opened(path: Path, kinds: tuple[str, ...]) -> Iterator[Archive]:
    """An archive of one of these kinds.

    Raises:
        StoreRefusal: when it is none, is spoilt, or is made to harm.
    """
    try:
        file = zipfile.ZipFile(path)
    except BROKEN as error:
        raise StoreRefusal(
            path.name, say("wanted an archive of hubwright; {error}", error=error), say("Choose the right file.")
        ) from None
    with file:
        infos = _infos(file, path.name)
        manifest = _manifest(file, infos, path.name)
        if manifest.get("hubwright_archive") != FORMAT or manifest.get("kind") not in kinds:
            given = say("{form}, version {number}", form=manifest.get("kind"), number=manifest.get("hubwright_archive"))
            wanted = say("{form}, version {number}", form=joined(list(kinds), "or"), number=FORMAT)
            raise StoreRefusal(
                path.name,
                say("wanted an archive ({wanted}); given {given}", wanted=wanted, given=given),
                say("Choose the right file."),
            )
        sizes, hashes = _listed(manifest, infos, path.name)

        def stream(name: str) -> Iterator[bytes]:
            return _pieces(file, infos, name, sizes, hashes, path.name)

        facts = {key: value for key, value in manifest.items() if key != "members"}
        yield Archive(path.name, facts, sizes, hashes, stream)


def _infos(file: zipfile.ZipFile, name: str) -> dict[str, zipfile.ZipInfo]:
    infos = {info.filename: info for info in file.infolist()}
    if len(infos) != len(file.infolist()) or len(infos) > MOST_MEMBERS:
        raise spoilt(name, say("members twice or too many"))
    for member, info in infos.items():
        if not NAME.fullmatch(member):
            raise spoilt(name, say("the member name {member} is not one hubwright writes", member=repr(member[:60])))
        if info.file_size > SWELLS_FREELY_BYTES and info.file_size > SWELLS * max(info.compress_size, 1):
            raise spoilt(
                name, say("{member} would swell to {file_size} MiB", member=member, file_size=info.file_size // 1024**2)
            )
    return infos


def _manifest(file: zipfile.ZipFile, infos: Mapping[str, zipfile.ZipInfo], name: str) -> dict[str, Any]:
    if MANIFEST not in infos or infos[MANIFEST].file_size > LARGEST_MANIFEST_BYTES:
        raise spoilt(name, say("no manifest, or too large a one"))
    try:
        with file.open(MANIFEST) as member:
            found = json.loads(member.read(LARGEST_MANIFEST_BYTES))
    except (*BROKEN, RecursionError) as error:
        raise spoilt(name, say("the manifest cannot be read ({error})", error=error)) from None
    if not isinstance(found, dict):
        raise spoilt(name, say("the manifest is no table"))
    return found


def _listed(
    manifest: dict[str, Any], infos: Mapping[str, zipfile.ZipInfo], name: str
) -> tuple[dict[str, int], dict[str, str]]:
    members = manifest.get("members")
    if not isinstance(members, dict) or {*members, MANIFEST} != set(infos):
        raise spoilt(name, say("its members are not those of its manifest"))
    try:
        sizes = {member: int(facts["size_bytes"]) for member, facts in members.items()}
        hashes = {member: str(facts["sha256"]) for member, facts in members.items()}
    except (KeyError, TypeError, ValueError):
        raise spoilt(name, say("the manifest has no sizes and hashes")) from None
    if sum(sizes.values()) > LARGEST_TOTAL_BYTES or any(size != infos[key].file_size for key, size in sizes.items()):
        raise spoilt(name, say("sizes are not those of its manifest"))
    return sizes, hashes


def _pieces(
    file: zipfile.ZipFile,
    infos: Mapping[str, zipfile.ZipInfo],
    member: str,
    sizes: Mapping[str, int],
    hashes: Mapping[str, str],
    name: str,
) -> Iterator[bytes]:
    if member not in sizes:
        raise spoilt(name, say("{member} is missing", member=member))
    digest, left = hashlib.sha256(), sizes[member]
    try:
        with file.open(infos[member]) as source:
            while piece := source.read(PIECE_BYTES):
                left -= len(piece)
                if left < 0:
                    break
                digest.update(piece)
                yield piece
    except BROKEN as error:
        raise spoilt(name, say("{member} cannot be read ({error})", member=member, error=error)) from None
    if left or digest.hexdigest() != hashes[member]:
        raise spoilt(name, say("{member} is not what was put in", member=member))


def spoilt(name: str, why: str) -> StoreRefusal:
    """The archive is not as it was made."""
    return StoreRefusal(
        say("{name} was not read in", name=name), why, say("Nothing was changed. Fetch it again from where it came.")
    )
