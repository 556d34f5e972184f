"""How often somebody may try. Kept in memory: it is forgotten when the server is started again, which takes longer than to wait."""

from __future__ import annotations

import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from threading import Lock

from starlette.exceptions import HTTPException

from hubwright.language import say

MOST_KEYS = 20_000


@dataclass(frozen=True)
class Limit:
    """So many tries in so many seconds; each spent try comes back after its share of them."""

    tries: int
    seconds: float


SIGN_IN_HERE = Limit(8, 15 * 60)
"""One name from one address."""
SIGN_IN_NAME = Limit(60, 15 * 60)
"""One name from anywhere: so many that nobody is easily locked out by somebody else."""
SIGN_IN_ADDRESS = Limit(30, 15 * 60)
"""Any name from one address."""
WRONG_LINK = Limit(20, 10 * 60)
"""Addresses of customers' links nobody made, from one address."""
LINK_READINGS = Limit(400, 60 * 60)
"""Readings through one customer's link: a whole sheet several times over."""
API = Limit(1200, 60)
"""Requests to the API from one person or address."""


class Pace:
    """One for the whole server; safe to use from many threads."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._spent: OrderedDict[tuple[str, ...], tuple[float, float]] = OrderedDict()
        self._lock = Lock()

    def wait_s(self, limit: Limit, *key: str) -> float:
        """How long to wait before the next try; 0 = now. Nothing is spent."""
        with self._lock:
            spent = self._now(limit, key)
        return 0.0 if spent + 1 <= limit.tries else (spent + 1 - limit.tries) * limit.seconds / limit.tries

    def spend(self, limit: Limit, *key: str) -> None:
        """One try."""
        with self._lock:
            self._spent[key] = (self._now(limit, key) + 1, self._clock())
            self._spent.move_to_end(key)
            while len(self._spent) > MOST_KEYS:
                self._spent.popitem(last=False)

    def forgive(self, *key: str) -> None:
        """All tries back: it was the right person."""
        with self._lock:
            self._spent.pop(key, None)

    def _now(self, limit: Limit, key: tuple[str, ...]) -> float:
        spent, at = self._spent.get(key, (0.0, 0.0))
        return max(0.0, spent - (self._clock() - at) * limit.tries / limit.seconds)


def too_many(wait_s: float) -> HTTPException:
    """What to tell somebody who has to wait."""
    seconds = max(1, round(wait_s + 0.5))
    words = say("Too many tries. Wait {minutes} min, then try again.", minutes=-(-seconds // 60))
    return HTTPException(429, words, {"retry-after": str(seconds)})
