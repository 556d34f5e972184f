"""One figure that a disc changes, in a sentence a customer understands, with its working behind it."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.engineering.handling.change import Change
from hubwright.findings import Step
from hubwright.language import say
from hubwright.quantities.text import joined, titled


@dataclass(frozen=True)
class Effect:
    """One side effect of one disc.

    Attributes:
        name: Such as ``track``.
        topic: handling, steering, bearing, load or centring.
        unit: Of the figures.
        standard: Without disc; None where unknown, or where only the change can be told.
        with_disc: With it.
        low: Low end where the figure is a range.
        high: High end.
        sentence: For the customer.
        known: False where readings are missing; then the sentence names them.
        needs: The missing readings.
        guesses: What was assumed and not measured.
        alarm: Whether it deserves a word before the car leaves.
        working: How it was found, with sources.
    """

    name: str
    topic: str
    unit: str
    sentence: str
    standard: float | None = None
    with_disc: float | None = None
    low: float | None = None
    high: float | None = None
    known: bool = True
    needs: tuple[str, ...] = ()
    guesses: tuple[str, ...] = ()
    alarm: bool = False
    working: tuple[Step, ...] = ()

    @property
    def change(self) -> float | None:
        """With disc less standard, signed; None where either is unknown."""
        return None if self.standard is None or self.with_disc is None else self.with_disc - self.standard


@dataclass(frozen=True)
class DiscEffects:
    """Everything one disc changes on one axle, the other axle as it stands."""

    thickness_mm: float
    effects: tuple[Effect, ...]


def unknown(name: str, topic: str, unit: str, *needs: str) -> Effect:
    """A figure that cannot be told, and why."""
    return Effect(
        name,
        topic,
        unit,
        say("{name}: unknown: needs {needs}.", name=titled(name), needs=joined(needs)),
        known=False,
        needs=needs,
    )


def changed(
    name: str,
    topic: str,
    unit: str,
    change: Change,
    sentence: str,
    *steps: Step,
    guesses: tuple[str, ...] = (),
    alarm: bool = False,
) -> Effect:
    """A figure before and after."""
    return Effect(
        name, topic, unit, sentence, change.standard, change.with_disc, guesses=guesses, alarm=alarm, working=steps
    )


def missing(*pairs: tuple[object, str]) -> tuple[str, ...]:
    """The words of every value that is None."""
    return tuple(words for value, words in pairs if value is None)
