"""The error family. Raise only where there is no answer; a bad fit is a result (see findings.py)."""

from __future__ import annotations

from dataclasses import dataclass

from hubwright.language import say, say_n


class HubwrightError(Exception):
    """Everything this package raises on purpose. The text is fit for the screen."""


@dataclass(frozen=True)
class Fault:
    """One thing wrong with what somebody typed.

    Attributes:
        field: Where, in the words of the file or form, such as ``axle.rear.left.point[1].reading[2].gap_mm``.
        wanted: What would have been right.
        given: What stood there.
        todo: What to do now.
        line: Line of the file, counted from 1, where it is known.
    """

    field: str
    wanted: str
    given: str
    todo: str = ""
    line: int | None = None

    def __str__(self) -> str:
        places = {"field": self.field, "wanted": self.wanted, "given": self.given, "line": self.line}
        if self.line is None:
            text = say("{field}: wanted {wanted}; given {given}.", **places)
        else:
            text = say("line {line}, {field}: wanted {wanted}; given {given}.", **places)
        return f"{text} {self.todo}".rstrip()


class BadInput(HubwrightError):  # noqa: N818 - it names what happened, not a class of classes
    """What came through a door cannot be used. Carries every fault found, not only the first."""

    def __init__(self, source: str, faults: tuple[Fault, ...]) -> None:
        self.source = source
        self.faults = faults
        count = say_n("{count} fault", "{count} faults", len(faults))
        super().__init__("\n".join([f"{source}: {count}", *(f"  {fault}" for fault in faults)]))


class BadDataFile(HubwrightError):  # noqa: N818
    """A table or rule file of the package or the shop is not as it should be."""

    def __init__(self, file: str, key: str, wanted: str, given: str) -> None:
        self.file, self.key, self.wanted, self.given = file, key, wanted, given
        super().__init__(
            say("{file}: {key}: wanted {wanted}; given {given}.", file=file, key=key, wanted=wanted, given=given)
        )


class OutsideValidity(HubwrightError):  # noqa: N818
    """A formula was asked for something outside the range in which its source holds."""

    def __init__(self, formula: str, quantity: str, value: object, valid: str, source: str) -> None:
        self.formula, self.quantity, self.value, self.valid, self.source = formula, quantity, value, valid, source
        super().__init__(
            say(
                "{formula} does not hold for {quantity} = {value}: it holds for {valid} ({source}).",
                formula=say(formula),
                quantity=say(quantity),
                value=value,
                valid=say(valid),
                source=say(source),
            )
        )


class MissingReading(HubwrightError):  # noqa: N818
    """A figure nobody has measured is needed before there can be any answer."""

    def __init__(self, what: str, why: str, how: str) -> None:
        self.what, self.why, self.how = what, why, how
        super().__init__(say("{what} is missing. It is needed {why}. {how}", what=what, why=why, how=how))


class StoreRefusal(HubwrightError):  # noqa: N818
    """The store will not or cannot do what was asked; nothing that was confirmed before is touched.

    ``missing`` is true where what was named is not there at all, ``stale`` where somebody else was quicker.
    """

    def __init__(self, what: str, why: str, todo: str, *, missing: bool = False, stale: bool = False) -> None:
        self.what, self.why, self.todo, self.missing, self.stale = what, why, todo, missing, stale
        super().__init__(f"{what}: {why}. {todo}".rstrip())
