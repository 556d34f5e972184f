"""The generated pages say what their sources say."""

from __future__ import annotations

import pytest
from docs.generate import glossary, stale_pages, validation


def test_the_generated_pages_are_up_to_date() -> None:
    assert not stale_pages(), "run make docs"


def test_a_reference_test_appears_as_source_sentence_and_file() -> None:
    text = '"""ISO 724, table 1: pitch diameters.\n\nMore."""\ndef test_m14_agrees_with_the_table(): ...\n'
    row = "| ISO 724, table 1: pitch diameters | M14 agrees with the table. | `tests/reference/test_iso_724.py` |"
    assert row in validation({"tests/reference/test_iso_724.py": text}).splitlines()


@pytest.mark.parametrize("text", ["def test_it_holds(): ...", '"""ISO 724."""'])
def test_a_reference_file_without_title_or_test_is_refused_by_name(text: str) -> None:
    with pytest.raises(ValueError, match="test_untitled"):
        validation({"test_untitled.py": text})


def test_the_glossary_is_in_alphabetical_order_whatever_the_order_of_its_file() -> None:
    text = "".join(f'[[entry]]\nword = "{word}"\nmeaning = "m"\nsource = "s"\n' for word in ("seat", "Bump"))
    page = glossary(text)
    assert page.index("| Bump |") < page.index("| seat |")


def test_a_word_explained_twice_or_without_a_source_is_refused() -> None:
    entry = '[[entry]]\nword = "seat"\nmeaning = "m"\n'
    with pytest.raises(ValueError, match="source"):
        glossary(entry)
    with pytest.raises(ValueError, match="twice: seat"):
        glossary(2 * (entry + 'source = "s"\n'))
