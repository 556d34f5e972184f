"""How the server is run: where it listens, who may come in."""

from __future__ import annotations

from dataclasses import dataclass
from ipaddress import ip_address

LOOPBACK_NAMES = ("localhost", "127.0.0.1", "[::1]")


@dataclass(frozen=True)
class Options:
    """What was settled when the server was started.

    Attributes:
        author: Name written beside entries where nobody signs in.
        network: Whether others can reach it; then it demands accounts.
        hosts: Names under which it answers; empty = any (only behind a door that checks them itself).
        secure: Whether it is spoken to by https, so that cookies are marked so.
        base_address: Address written into links and QR codes, such as ``http://tablet.local:8040``; empty = as asked.
    """

    author: str = "nobody named"
    network: bool = False
    hosts: tuple[str, ...] = LOOPBACK_NAMES
    secure: bool = False
    base_address: str = ""


def is_loopback(host: str) -> bool:
    """Whether an address or name is only reached from this machine."""
    if host == "localhost":
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False
