"""Names in any script: printed where the fonts hold the signs, written out where they do not, and said on the sheet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from importlib.resources import files

import pytest
from tests.reports.press import METRIC, demo, identity, plain, stands

from hubwright.reports import compile as compiling
from hubwright.reports.content import Paragraph, Sheet
from hubwright.reports.letters import held, lacks, readable

FLUSH = "hatchback-rear-flush"
NOTE = "In square brackets: signs the letters of this paper lack"


def sheet(text: str) -> Sheet:
    return Sheet("x", "x", "x", "", "", False, (Paragraph(text),), (), "", "")


@pytest.mark.parametrize("name", ["王小明", "田中さくら", "김민준", "Ђорђе", "Μαρία", "Łukasz", "שלום", "محمد"])
def test_a_name_in_letters_the_fonts_hold_is_printed_as_it_is(name: str) -> None:
    job, answer = demo(FLUSH)
    data = plain("hand-over", job, answer, replace(identity(FLUSH), customer=name), METRIC)
    assert not lacks(name)
    if name.isascii() or not any("\u0590" <= sign <= "\u06ff" for sign in name):  # read from right to left otherwise
        assert stands(name, data)
    assert not stands(NOTE, data)
    assert b"pdfuaid" in data


def test_signs_the_fonts_lack_stand_in_brackets_and_the_sheet_says_so() -> None:
    job, answer = demo(FLUSH)
    data = plain("hand-over", job, answer, replace(identity(FLUSH), customer="\U0001f6de Kai \u0e44"), METRIC)
    assert stands("[wheel] Kai [U+0E44]", data)
    assert stands(NOTE, data)
    assert not stands(NOTE, plain("hand-over", job, answer, identity(FLUSH), METRIC))


def test_what_ties_pictures_together_goes_with_them() -> None:
    assert readable("a\U0001f468\u200d\U0001f527b") == "a[man][wrench]b"
    assert readable("plain") == "plain"


def numbers() -> Iterator[int]:
    for span in files("hubwright.reports").joinpath("fonts/signs.txt").read_text(encoding="ascii").split():
        low, _, high = span.partition("-")
        yield from range(int(low, 16), int(high or low, 16) + 1)


@pytest.mark.slow
def test_the_compiler_has_a_letter_for_every_sign_of_the_list() -> None:
    # PDF/UA lets no sign pass that no font holds
    signs = [chr(number) for number in numbers()]
    assert all(held().fullmatch(sign) for sign in signs)
    for start in range(0, len(signs), 4000):
        made = compiling.pdf_of([("", sheet(" ".join(signs[start : start + 4000])))], "a4", date(2026, 1, 1))
        assert b"pdfuaid" in made, f"from {ord(signs[start]):x}"


class PanicException(BaseException):
    """As the compiler raises it where it breaks down: no Exception."""


class Fragile:
    """A compiler that breaks down on anything but plain letters."""

    def __init__(self) -> None:
        self.tries: list[list[str]] = []

    def compile(self, source: bytes, *, sys_inputs: dict[str, str], pdf_standards: list[str], **_: object) -> bytes:
        self.tries.append(pdf_standards)
        if not sys_inputs["sheets"].isascii():
            raise PanicException("end byte index 3 is out of bounds")
        return b"%PDF " + sys_inputs["sheets"].encode("ascii")


def test_a_text_the_compiler_breaks_down_on_is_printed_by_number(monkeypatch: pytest.MonkeyPatch) -> None:
    from functools import cache

    fragile = Fragile()
    monkeypatch.setattr(compiling, "_compiler", cache(lambda: fragile))
    made = compiling.pdf_of([("", sheet("A محمد"))], "a4", date(2026, 1, 1))
    assert fragile.tries == [["ua-1"], [], []]
    assert b"A [U+0645][U+062D][U+0645][U+062F]" in made


def test_what_is_no_breakdown_of_the_compiler_is_not_swallowed(monkeypatch: pytest.MonkeyPatch) -> None:
    class Stopped:
        def compile(self, *_: object, **__: object) -> bytes:
            raise KeyboardInterrupt

    monkeypatch.setattr(compiling, "_compiler", Stopped)
    with pytest.raises(KeyboardInterrupt):
        compiling.pdf_of([("", sheet("x"))], "a4", date(2026, 1, 1))
