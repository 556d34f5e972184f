"""Fingerprints that tie each revision to all before it, so that a changed past shows."""

from __future__ import annotations

import hashlib
import json
import zlib
from collections.abc import Mapping
from typing import Any

TIED = ("number", "base", "author", "at", "kind", "note", "changes", "undoes", "card", "data_sha256")
"""Columns of a revision that its fingerprint covers. The job's id is not one: a copy keeps its history."""


def sha256(data: bytes) -> str:
    """SHA-256 in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def link(before: str, row: Mapping[Any, Any]) -> str:
    """The fingerprint of a revision: SHA-256 over the one before and every tied column."""
    record = json.dumps({name: row[name] for name in TIED}, sort_keys=True, ensure_ascii=True, separators=(",", ":"))
    return sha256(f"{before}\n{record}".encode())


def packed(data: bytes) -> bytes:
    """Bytes as they are kept: deflated."""
    return zlib.compress(data, 6)


def unpacked(data: bytes) -> bytes:
    """Bytes as they came."""
    return zlib.decompress(data)
