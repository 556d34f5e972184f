"""``hubwright store`` as a person uses it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

import hubwright
from hubwright.cli.commands import app
from hubwright.store.cupboard import Cupboard
from hubwright.store.link import Link

HATCHBACK = Path(__file__).resolve().parents[2] / "examples" / "hatchback-rear-flush.toml"
SPIGOT = "rear.hub.spigot_length_mm"


@pytest.fixture(autouse=True)
def surroundings(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HUBWRIGHT_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("HUBWRIGHT_AUTHOR", "Ann")
    monkeypatch.delenv("HUBWRIGHT_DATABASE", raising=False)


def run(*words: str | Path) -> Any:
    return CliRunner(env={"COLUMNS": "100"}).invoke(app, ["store", *map(str, words)])


@pytest.fixture
def job() -> str:
    done = run("add", HATCHBACK, "--customer", "Zoë")
    assert done.exit_code == 0, done.stderr
    return str(done.stdout.strip())


def test_asking_for_help_does_not_open_the_database_library() -> None:
    code = (
        "import sys; sys.argv = ['hubwright', 'store', '--help']\n"
        "from hubwright.cli import run\n"
        "try: run()\n"
        "except SystemExit: pass\n"
        "heavy = [name for name in ('numpy', 'tomlkit', 'sqlalchemy', 'alembic') if name in sys.modules]\n"
        "assert not heavy, heavy\n"
    )
    environment = {**os.environ, "PYTHONPATH": str(Path(hubwright.__file__).resolve().parents[1])}
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False, env=environment)
    assert done.returncode == 0, done.stderr
    assert "history" in done.stdout


def test_a_job_is_added_found_edited_and_taken_out_unchanged(job: str, tmp_path: Path) -> None:
    assert job in run("find", "zoe", "flush").stdout
    assert job not in run("find", "nothing like it").stdout
    out = tmp_path / "out.toml"
    assert run("take", job[:6], out).exit_code == 0
    assert out.read_bytes() == HATCHBACK.read_bytes()
    assert "a file that exists" in run("take", job, out).stderr
    out.write_text(
        out.read_text(encoding="utf-8").replace("spigot_length_mm = 12.5", "spigot_length_mm = 12.4"), "utf-8"
    )
    assert f"{SPIGOT}: 12.4 (was 12.5)" in run("put", job, out, "--base", "1").stdout
    assert "stands there already" in run("enter", job, SPIGOT, "12.4").stdout
    history = run("history", job).stdout
    assert "Ann  new" in history and "Ann  file" in history
    assert run("undo", job).exit_code == 0
    assert run("take", job).stdout_bytes == HATCHBACK.read_bytes()


def test_the_second_of_two_people_is_told_and_leaves_with_1(job: str) -> None:
    assert run("enter", job, SPIGOT, "12.4", "--by", "Bo").exit_code == 0
    done = run("enter", job, SPIGOT, "12.2", "--by", "Cy", "--base", "1")
    assert done.exit_code == 1
    assert "Bo has changed it" in done.stdout and "now 12.4" in done.stdout
    entry = json.loads(run("find", "--open", "--json").stdout)
    assert [(line["id"], line["asides"]) for line in entry] == [(job, 1)]
    name = done.stdout.split("put aside ")[1].split(",")[0]
    assert name in run("show", job).stdout
    assert "12.2 (was 12.4)" in run("settle", name, "--take").stdout
    assert run("settle", name, "--drop").exit_code == 2
    assert run("find", "--open").stdout == ""


def test_everything_goes_out_and_in_again(job: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    photo = tmp_path / "lip.png"
    photo.write_bytes(b"\x89PNG\r\n\x1a\n photo")
    attachment = run("attach", job, photo, "--note", "left").stdout.split()[0]
    assert run("export", tmp_path / "shop.zip").exit_code == run("backup", tmp_path / "backup.zip").exit_code == 0
    assert run("restore", tmp_path / "backup.zip").exit_code == 2
    for number, (command, file) in enumerate((("import", "shop.zip"), ("restore", "backup.zip"))):
        monkeypatch.setenv("HUBWRIGHT_DATA", str(tmp_path / f"new{number}"))
        assert run(command, tmp_path / file).exit_code == 0
        assert "1 jobs, 1 revisions, 1 attachments" in run("check").stdout
        assert run("fetch", attachment, tmp_path / f"back{number}.png").exit_code == 0
        assert (tmp_path / f"back{number}.png").read_bytes() == photo.read_bytes()
    assert run("sweep").stdout == "0 files removed.\n"
    next((tmp_path / "new1" / "files").rglob("*/*")).unlink()
    assert run("check").exit_code == 1


def test_a_customers_link_is_made_told_once_listed_and_revoked(job: str, tmp_path: Path) -> None:
    made = run("link", "make", job, "--area", "rear", "--customer", "Zoë", "--address", "http://shop.lan/")
    address, line = made.stdout.splitlines()
    with Cupboard.open(tmp_path / "data", None) as cupboard:
        found = cupboard.links.look_up(address.removeprefix("http://shop.lan/m/"))
    assert isinstance(found, Link) and (found.areas, found.customer, found.made_by) == (("rear",), "Zoë", "Ann")
    assert run("link", "list", job).stdout.splitlines() == [line], "the address is told once"
    assert "revoked by Ann" in run("link", "revoke", job, found.id).stdout
    refused = run("link", "make", job, "--area", "shop", "--days", "0")
    assert refused.exit_code == 2 and "areas: wanted" in refused.stderr and "days: wanted" in refused.stderr
    assert run("link", "revoke", job, "none").exit_code == 2


def test_what_is_attached_can_be_taken_out_again_and_stays_in_the_records(job: str, tmp_path: Path) -> None:
    photo = tmp_path / "lip.png"
    photo.write_bytes(b"\x89PNG\r\n\x1a\n photo")
    name = run("attach", job, photo).stdout.split()[0]
    assert run("detach", job, "none").exit_code == 2
    assert run("detach", job, name).exit_code == 0
    assert name not in run("show", job).stdout
    assert run("fetch", name, tmp_path / "back.png").exit_code == 0


def test_what_is_taken_out_never_takes_the_place_of_a_file(job: str, tmp_path: Path) -> None:
    there = tmp_path / "there.toml"
    there.write_text("mine")
    for words in (("take", job, there), ("shop", "show", there), ("fetch", "x", there)):
        done = run(*words)
        assert (done.exit_code, there.read_text()) == (2, "mine")
        assert "there.toml: wanted a new name; given a file that exists." in done.stderr
    assert "could not be written" in run("take", job, tmp_path / "no-folder" / "car.toml").stderr


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("add", "absent.toml"), "a file that can be read"), (("show", "nothing"), "none of that name"),
        (("find", "--stage", "gone"), "--stage: wanted"), (("find", "--since", "today"), "--since: wanted"),
        (("attach", "x", "absent.png"), "absent.png"), (("import", "absent.zip"), "wanted an archive"),
        (("fetch", "x", "y"), "none of that name"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_said_in_words_with_2(words: tuple[str, ...], said: str) -> None:
    done = run(*words)
    assert (done.exit_code, done.exception.__class__) == (2, SystemExit)
    assert said in done.stderr
