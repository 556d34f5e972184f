"""Passwords and tokens. What is stored tells nobody what was typed or handed out."""

from __future__ import annotations

import hashlib
import secrets
import threading
import unicodedata

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from hubwright.store.person import LONGEST_PASSWORD

TOKEN_BYTES = 32
HASHES_AT_ONCE = 4
"""Each takes 64 MiB for a moment; a crowd at the door must not use up the memory."""


def new_token() -> str:
    """A token nobody can guess: 256 random bits, safe in an address and in a cookie."""
    return secrets.token_urlsafe(TOKEN_BYTES)


def digest(token: str) -> str:
    """What is stored of a token. Without salt or stretching: nobody can try 256 random bits one by one."""
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()


class Passwords:
    """Hashing and checking with Argon2id; the library's parameters are those of RFC 9106, second recommendation.

    A hash made with other parameters is made again at the next sign-in.
    """

    def __init__(self, hasher: PasswordHasher | None = None) -> None:
        self._hasher = hasher or PasswordHasher()
        self._turn = threading.Semaphore(HASHES_AT_ONCE)
        self._of_nobody: str | None = None

    def hashed(self, password: str) -> str:
        """The hash of a password, with its parameters and a salt of its own."""
        with self._turn:
            return self._hasher.hash(_composed(password))

    def fits(self, password: str, stored: str | None) -> bool:
        """Whether a password is the one stored; without one it takes the same time and never fits."""
        if self._of_nobody is None:  # whoever comes first pays for it, known or unknown
            self._of_nobody = self.hashed(secrets.token_hex(16))
        typed = _composed(password[:LONGEST_PASSWORD])
        try:
            with self._turn:
                self._hasher.verify(stored or self._of_nobody, typed)
        except (VerificationError, InvalidHashError):
            return False
        return stored is not None and len(password) <= LONGEST_PASSWORD

    def is_old(self, stored: str) -> bool:
        """Whether a hash was made with other parameters than today's."""
        return self._hasher.check_needs_rehash(stored)


def _composed(password: str) -> str:
    """One form for what different keyboards send (NFC, as RFC 8265 section 4.2 has it for passwords; from memory)."""
    return unicodedata.normalize("NFC", password.encode("utf-8", "replace").decode())
