"""The environment is read once and refused with a reason."""

from __future__ import annotations

from pathlib import Path

import pytest

from hubwright.errors import BadInput
from hubwright.settings import read_settings


def test_folder_database_and_author_come_from_the_environment(tmp_path: Path) -> None:
    database = "postgresql://shop@server/hubwright"
    found = read_settings(
        {"HUBWRIGHT_DATA": str(tmp_path), "HUBWRIGHT_DATABASE": database, "HUBWRIGHT_AUTHOR": " Zoë "}
    )
    assert (found.data, found.database, found.author) == (tmp_path, database, "Zoë")


def test_without_a_word_the_data_lie_in_a_folder_of_the_user() -> None:
    found = read_settings({})
    assert found.data.is_absolute() and found.data.name == "hubwright"
    assert found.database is None and found.author


def test_a_folder_that_depends_on_the_working_folder_is_refused() -> None:
    with pytest.raises(BadInput, match="from the root on"):
        read_settings({"HUBWRIGHT_DATA": "data"})
