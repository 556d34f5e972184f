"""Help and refusals of the command line come in the language asked for, wherever on the line it is asked for."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from typer.main import get_command

from hubwright.cli.commands import app
from hubwright.cli.spoken_faults import in_words
from hubwright.cli.spoken_help import language_asked
from hubwright.language import speaking_in

ENGLISH = re.compile(r"\b(the|of|with|and|this|message|Usage|Options|missing)\b")


def said(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    where = {**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2] / "src"), "COLUMNS": "100"}
    where.pop("HUBWRIGHT_LANGUAGE", None)
    return subprocess.run(
        [sys.executable, "-m", "hubwright", *arguments], capture_output=True, text=True, env={**where, **environment},
        timeout=60, check=False,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("arguments", "variable", "language"),
    [
        (["--language", "de", "--help"], "", "de"),
        (["assess", "--help", "--language=de"], "", "de"),
        (["assess", "car.toml"], "de", "de"),
        (["assess", "--language", "en"], "de", "en"),
        (["enter", "car.toml", "--", "--language", "de"], "", "en"),
        (["--language", "fr"], "", "en"),
        (["--language"], "", "en"),
    ],
)
def test_the_language_is_found_anywhere_on_the_line(arguments: list[str], variable: str, language: str) -> None:
    assert (
        language_asked(arguments, {"HUBWRIGHT_LANGUAGE": variable} if variable else {}, "HUBWRIGHT_LANGUAGE")
        == language
    )


@pytest.mark.slow
def test_help_is_german_where_german_is_asked_for() -> None:
    for answer in (
        said("--language", "de", "--help"),
        said("assess", "--help", "--language=de"),
        said("store", "put", "--help", HUBWRIGHT_LANGUAGE="de"),
    ):
        assert answer.returncode == 0
        assert answer.stdout.startswith("Aufruf: ")
        assert "Optionen:" in answer.stdout
        assert ENGLISH.findall(answer.stdout) == []


@pytest.mark.slow
def test_a_language_before_the_command_holds_for_the_command() -> None:
    german = said("--language", "de", "check", "nowhere.toml")
    assert german.returncode == 2
    assert (
        german.stderr.startswith("nowhere.toml: 1 Fehler\n  die Datei: verlangt: ")
        or "keine solche Datei" in german.stderr
    )
    english = said("--language", "de", "check", "nowhere.toml", "--language", "en")
    assert "no such file" in english.stderr
    refused = said("--language", "de", "assess")
    assert refused.returncode == 2
    assert refused.stderr.endswith("Das Argument JOB fehlt.\n")


@pytest.mark.slow
def test_english_help_stays_as_it_was() -> None:
    answer = said("--help", LANGUAGE="de", LANG="de_DE.UTF-8")
    assert answer.stdout.startswith("Usage: ")


def test_every_command_says_in_which_language_it_answers() -> None:
    waiting, without = [("hubwright", get_command(app))], []
    while waiting:
        name, command = waiting.pop()
        inner = getattr(command, "commands", {})
        waiting += [(f"{name} {key}", one) for key, one in inner.items()]
        if not inner and "language" not in [one.name for one in command.params]:
            without.append(name)
    assert without == []


@pytest.mark.parametrize(
    ("theirs", "ours"),
    [
        ("Missing argument 'JOB'.", "Das Argument JOB fehlt."),
        ("No such option: --nix", "Die Option --nix gibt es nicht."),
        (
            "No such option: --explian (Possible options: --explain)",
            "Die Option --explian gibt es nicht; es gibt --explain.",
        ),
        (
            "Invalid value for '--units': Value error, 'foo' is not one of 'metric', 'inch'.",
            "--units: verlangt: eines von 'metric', 'inch'; angegeben: foo.",
        ),
        ("Something nobody foresaw.", "Something nobody foresaw."),
    ],
)
def test_refusals_of_the_library_are_worded(theirs: str, ours: str) -> None:
    with speaking_in("de"):
        assert in_words(theirs) == ours
