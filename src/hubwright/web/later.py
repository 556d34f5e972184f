"""What takes many seconds is worked out beside the requests, in a thread of its own, once; nobody waits who need not."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from contextvars import copy_context
from dataclasses import dataclass, field
from threading import Event, Lock, Thread
from typing import Generic, TypeVar, cast

from hubwright.errors import HubwrightError
from hubwright.jobs.held import held, weight_of

T = TypeVar("T")
KEPT, KEPT_BYTES = 24, 768 * 1024 * 1024


class NotYet(Exception):  # noqa: N818 - no error: it will come
    """Something is being worked out beside the requests; to be asked for again."""


@dataclass(eq=False)
class Awaited(Generic[T]):
    """Something being worked out, worked out, or why it cannot be.

    Attributes:
        done: Set when there is a result.
        value: The result.
        error: What stood against it.
    """

    done: Event = field(default_factory=Event)
    value: T | None = None
    error: Exception | None = None

    @property
    def held_bytes(self) -> int:
        """What the result takes in memory."""
        return weight_of(self.value)

    def within(self, seconds: float | None) -> T | None:
        """The result; None where it takes longer than so many seconds (None = wait for it).

        Raises:
            Exception: what stood against it.
        """
        if not self.done.wait(seconds):
            return None
        if self.error is not None:
            raise self.error
        return self.value


class Later:
    """Works one thing out after another. The end of the program does not wait for it."""

    def __init__(self) -> None:
        self._awaited = held(KEPT_BYTES, KEPT)
        self._lock, self._turn = Lock(), Lock()

    def of(self, key: Hashable, make: Callable[[], T], then: Callable[[T], None]) -> Awaited[T]:
        """What is awaited under a key; begun where nobody asked for it before.

        Args:
            key: Changes with everything the thing depends on.
            make: Works it out, in the language and units spoken here.
            then: Called with it afterwards, when nobody waits any more.
        """
        with self._lock:
            found = self._awaited.get(key)
            if found is not None:
                return cast(Awaited[T], found)
            awaited = Awaited[T]()
            self._awaited[key] = awaited

        def work() -> None:
            with self._turn:
                self._work(key, awaited, make)
            if awaited.value is not None:
                then(awaited.value)

        Thread(target=copy_context().run, args=(work,), name="later", daemon=True).start()
        return awaited

    def _work(self, key: Hashable, awaited: Awaited[T], make: Callable[[], T]) -> None:
        try:
            awaited.value = make()
        except Exception as error:  # noqa: BLE001 - whatever it was, whoever waits for the result is told
            awaited.error = error
            if not isinstance(error, HubwrightError):
                with self._lock:
                    self._awaited.pop(key, None)
        else:
            with self._lock:
                if self._awaited.get(key) is awaited:
                    self._awaited[key] = awaited  # now that it is known what it weighs
        awaited.done.set()
