"""``hubwright store people`` as a person uses it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from hubwright.cli.commands import app

WORD = "nine blue vans"


@pytest.fixture(autouse=True)
def surroundings(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HUBWRIGHT_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("HUBWRIGHT_AUTHOR", "Setup")
    monkeypatch.delenv("HUBWRIGHT_DATABASE", raising=False)


def run(*words: str, typed: str = "") -> Any:
    return CliRunner().invoke(app, ["store", "people", *words], input=typed)


def test_people_are_added_listed_changed_and_taken_off() -> None:
    assert "Begin with somebody who manages" in run("list").stdout
    assert run("add", "Ann", "manage", typed=f"{WORD}\n").exit_code == 0
    assert run("add", "Bo", typed=f"{WORD}\n").exit_code == 0
    assert run("role", "bo", "decide").exit_code == 0
    assert run("password", "bo", typed="ten red cars\n").exit_code == 0
    assert "no access" in run("deactivate", "Bo", "--by", "Ann").stdout
    lines = run("list").stdout.splitlines()
    assert [line.split("  ")[:2] for line in lines] == [["Ann", "manage"], ["Bo", "decide"]]
    assert "changed by Ann" in lines[1]
    assert "no access" not in run("activate", "Bo").stdout


@pytest.mark.parametrize(
    ("words", "typed", "said"),
    [
        (("add", "Bo", "boss"), "short\n", "role: wanted one of measure, decide, manage"),
        (("add", "Bo", "boss"), "short\n", "password: wanted at least 10 characters; given 5"),
        (("password", "Cy"), "", "nobody of that name"), (("role", "Ann", "measure"), "", "nobody with access could manage"),
        (("add", "ANN"), f"{WORD}\n", "name: wanted a name nobody else has"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_said_in_words_with_2(words: tuple[str, ...], typed: str, said: str) -> None:
    run("add", "Ann", "manage", typed=f"{WORD}\n")
    done = run(*words, typed=typed)
    assert done.exit_code == 2
    assert said in done.stderr
    assert WORD not in done.stderr and "short" not in done.stderr
