"""``hubwright store shop`` as a person uses it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from hubwright.cli.commands import app
from hubwright.jobs.shopfile import new_shop


@pytest.fixture(autouse=True)
def surroundings(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HUBWRIGHT_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("HUBWRIGHT_AUTHOR", "Ann")
    monkeypatch.delenv("HUBWRIGHT_DATABASE", raising=False)


def run(*words: str | Path) -> Any:
    return CliRunner().invoke(app, ["store", "shop", *map(str, words)])


def test_settings_are_shown_edited_put_back_and_taken_back(tmp_path: Path) -> None:
    file = tmp_path / "shop.toml"
    assert "Nothing was settled yet" in run("history").stdout
    assert run("show").stdout == new_shop()
    assert "put shop.toml --base 0" in run("show", file).stdout
    assert "a file that exists" in run("show", file).stderr
    file.write_text(file.read_text("utf-8") + '\n[[disc]]\nthickness_mm = 5\nkind = "plain"\n', "utf-8")
    assert "revision 1" in run("put", file, "--base", "0", "--note", "five").stdout
    file.write_text(file.read_text("utf-8").replace("= 5\nkind", "= 8\nkind"), "utf-8")
    assert "disc[1].thickness_mm: 8 (was 5)" in run("put", file, "--by", "Bo").stdout
    assert "Bo  file" in run("history").stdout and "Ann  new: five" in run("history").stdout
    assert "(was 8)" in run("undo").stdout
    assert run("show", "--revision", "2").stdout == file.read_text("utf-8")


def test_faults_are_told_with_their_lines_and_2(tmp_path: Path) -> None:
    file = tmp_path / "shop.toml"
    file.write_text("hubwright_shop = 1\nuse = 'sea'\ncolour = 1\n", "utf-8")
    done = run("put", file)
    assert done.exit_code == 2
    assert "line 2, use: wanted one of" in done.stderr and "line 3, colour" in done.stderr


def test_the_settings_have_a_published_schema() -> None:
    schema = json.loads(CliRunner().invoke(app, ["schema", "shop"]).stdout)
    assert {"hubwright_shop", "tool", "address", "law_packs"} <= set(schema["properties"])


def test_a_job_takes_over_what_the_shop_settled_since(tmp_path: Path) -> None:
    example = Path(__file__).resolve().parents[2] / "examples" / "saloon-studs.toml"
    runner = CliRunner(env={"COLUMNS": "100"})
    job = runner.invoke(app, ["store", "add", str(example)]).stdout.strip()

    def into(*words: str) -> str:
        done = runner.invoke(app, ["store", "shop", "into", job, *words])
        assert done.exit_code == 0, done.stderr
        return done.stdout

    assert "nothing differs" in into()
    settings = tmp_path / "shop.toml"
    settings.write_text("hubwright_shop = 1\n[policy]\nleast_pilot_mm = 6.5\n")
    assert runner.invoke(app, ["store", "shop", "put", str(settings)]).exit_code == 0
    assert "6.5" in into("--look") and "revision" not in into("--look")
    assert "revision 2" in into()
    assert "nothing differs" in into()
