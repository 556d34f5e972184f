"""The command line as a person uses it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from typer.testing import CliRunner

import hubwright
from hubwright.cli.commands import app
from hubwright.jobs.jobfile import load
from hubwright.jobs.schema import answer_schema, job_schema

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SOURCE = Path(hubwright.__file__).resolve().parents[1]
HATCHBACK = EXAMPLES / "hatchback-rear-flush.toml"


def run(*words: str | Path) -> Any:
    """One command, in this process; ``returncode`` is its exit code."""
    return CliRunner(env={"COLUMNS": "100"}).invoke(app, [str(word) for word in words])


def test_the_module_runs_as_a_program_of_its_own() -> None:
    environment = {**os.environ, "PYTHONPATH": str(SOURCE)}
    done = subprocess.run(
        [sys.executable, "-m", "hubwright", "--version"], capture_output=True, text=True, check=False, env=environment
    )
    assert (done.returncode, done.stdout) == (0, f"hubwright {hubwright.__version__}\n")


def test_a_terminal_without_the_signs_still_shows_every_minus() -> None:
    environment = {**os.environ, "PYTHONPATH": str(SOURCE), "PYTHONIOENCODING": "ascii", "COLUMNS": "120"}
    done = subprocess.run(
        [sys.executable, "-m", "hubwright", "assess", str(HATCHBACK)],
        capture_output=True, text=True, check=False, env=environment,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "no -14.5" in done.stdout and "-> 5 mm plain" in done.stdout


def test_help_names_every_command_and_imports_nothing_heavy() -> None:
    code = (
        "import sys; sys.argv = ['hubwright', '--help']\n"
        "from hubwright.cli import run\n"
        "try: run()\n"
        "except SystemExit: pass\n"
        "heavy = [name for name in ('numpy', 'scipy', 'numba', 'pydantic', 'tomlkit') if name in sys.modules]\n"
        "assert not heavy, heavy\n"
    )
    environment = {**os.environ, "PYTHONPATH": str(SOURCE)}
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False, env=environment)
    assert done.returncode == 0, done.stderr
    for command in ("assess", "check", "new", "enter", "rules", "schema", "demo"):
        assert command in done.stdout


def test_assess_prints_the_decision_the_table_and_the_cautions() -> None:
    done = run("assess", HATCHBACK)
    assert done.exit_code == 0, done.stderr
    assert "5 mm plain disc per side" in " ".join(done.stdout.split())
    assert "A wheel that comes off can kill" in done.stdout
    assert "not released" in done.stdout
    assert "Not legal advice" in done.stdout


def test_discs_nobody_keeps_are_tried_side_by_side_with_what_was_assumed() -> None:
    done = run("try", HATCHBACK, "rear=7,5", "rear=15:lipped", "rear=0")
    flat = " ".join(done.stdout.split())
    assert done.exit_code == 0, done.stderr
    assert "Rear axle, 7.5 mm plain disc, per side: refused No plain disc of 7.5 mm is kept" in flat
    assert "the other side, fail: left, arch lip, inner edge, bump 46 mm: 7.0 mm of air" in flat
    assert "Rear axle, no disc: refused" in flat and "A wheel that comes off can kill" in flat


def test_discs_tried_come_as_json_by_their_schema() -> None:
    done = run("try", HATCHBACK, "rear=7.5", "--with-work", "--json")
    found = json.loads(done.stdout)
    jsonschema.validate(found, json.loads(run("schema", "trial").stdout))
    assert [(one["axle"], one["disc"]["thickness_mm"], one["kept"]) for one in found] == [("rear", 7.5, False)]
    assert found[0]["work"] == ["roll the arch lip"]


def test_every_disc_that_cannot_be_tried_is_told_at_once() -> None:
    done = run("try", HATCHBACK, "front=x", "7", "rear=7:round", "rear=151")
    assert done.exit_code == 2
    for words in ("wanted rear; given front", "given 7.", "wanted plain, lipped or bolted; given round", "given 151"):
        assert words in done.stderr


def test_explain_shows_working_and_source() -> None:
    done = run("assess", HATCHBACK, "--explain")
    flat = " ".join(done.stdout.split())
    assert "gap with disc = 9.5 + 7.0 (roll the arch lip) − 0.999 × 5.0" in flat
    assert "JCGM 106:2012" in flat and "VdTUEV Merkblatt 751" in flat


def test_inches_are_printed_when_asked_for_and_the_decision_stays() -> None:
    flat = " ".join(run("assess", HATCHBACK, "--units", "inch").stdout.split())
    assert "0.20 in (5 mm) plain disc per side" in flat
    assert "0.37 in of air as it stands" in flat


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_every_demo_job_and_its_answer_keep_the_published_schemas(path: Path) -> None:
    import tomllib

    tree = json.loads(json.dumps(tomllib.loads(path.read_text(encoding="utf-8")), default=str))
    jsonschema.validate(tree, job_schema())
    done = run("assess", path, "--json")
    assert done.exit_code == 0, done.stderr
    jsonschema.validate(json.loads(done.stdout), answer_schema())


def test_the_published_schema_takes_inches_and_refuses_both_spellings_and_unknown_keys() -> None:
    schema = job_schema()
    good = {"hubwright_job": 1, "title": "x", "request": {"use": "street"}, "rear": {"track_in": 60}}
    jsonschema.validate(good, schema)
    for rear in ({"track_in": 60, "track_mm": 1524}, {"track_foo": 1}, {"track_in": 1540}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate({**good, "rear": rear}, schema)


def test_a_faulty_job_leaves_with_2_and_names_every_fault_on_the_error_stream(tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(
        'hubwright_job = 1\ntitle = "x"\n[request]\nuse = "streed"\n[rear]\ntrack_mm = "wide"\n', encoding="utf-8"
    )
    done = run("assess", path)
    assert done.exit_code == 2 and done.stdout == ""
    assert "line 4, request.use: wanted one of" in done.stderr
    assert "line 6, rear.track_mm: wanted a number; given 'wide'" in done.stderr
    assert "Traceback" not in done.stderr


def test_an_axle_the_job_says_nothing_about_is_refused_by_name() -> None:
    done = run("assess", HATCHBACK, "--axle", "front")
    assert done.exit_code == 2
    assert "--axle: wanted rear; given front" in done.stderr


def test_check_leaves_with_0_for_a_clean_job_and_1_with_questions() -> None:
    assert run("check", HATCHBACK).exit_code == 0
    done = run("check", EXAMPLES / "mail-order-plumb-line.toml")
    assert done.exit_code == 1
    assert "floor slope" in done.stdout


def test_new_writes_a_sound_job_and_never_over_an_old_one(tmp_path: Path) -> None:
    path = tmp_path / "my job.toml"
    assert run("new", path, "--title", 'Coupe "blue"').exit_code == 0
    assert load(path).title == 'Coupe "blue"'
    before = path.read_bytes()
    again = run("new", path)
    assert again.exit_code == 2 and "--force" in again.stderr
    assert path.read_bytes() == before
    assert run("assess", path).exit_code == 0


def test_enter_sets_one_reading_and_keeps_every_comment(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    run("new", path, "--studs")
    comments = [line for line in path.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    assert run("enter", path, "rear.hub.spigot_length_mm", "{ value = 12.5, u = 0.1 }").exit_code == 0
    assert run("enter", path, "rear.track_in", "60.5").exit_code == 0
    text = path.read_text(encoding="utf-8")
    assert [line for line in text.splitlines() if line.startswith("#")] == comments
    job = load(path)
    assert job.rear is not None and job.rear.hub.spigot_length_mm is not None
    assert job.rear.hub.spigot_length_mm.value == 12.5
    assert job.rear.track_mm == pytest.approx(60.5 * 25.4)


def test_enter_writes_nothing_when_the_file_would_become_faulty(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    run("new", path)
    before = path.read_bytes()
    for field, value in (
        ("rear.track_mm", "wide"),
        ("rear.tracc_mm", "1500"),
        ("rear.left.point[3].name", "x"),
        ("..", "1"),
    ):
        done = run("enter", path, field, value)
        assert done.exit_code == 2, field
        assert "wanted" in done.stderr
        assert path.read_bytes() == before
    assert [item.name for item in tmp_path.iterdir()] == ["job.toml"]


def test_rules_lists_limits_with_their_papers_and_refuses_an_unknown_country() -> None:
    done = run("rules", "DE", "--on", "2026-05-04")
    assert done.exit_code == 0
    assert "VdTUEV Merkblatt 751" in done.stdout and "Not legal advice" in done.stdout
    assert json.loads(run("rules", "DE", "--json").stdout)[0]["asked"] == ["DE"]
    unknown = run("rules", "ATLANTIS")
    assert unknown.exit_code == 2 and "never a pass" in unknown.stderr


def test_demo_writes_answers_and_drawings_where_it_says(tmp_path: Path) -> None:
    done = run("demo", "--out", tmp_path / "out")
    assert done.exit_code == 0, done.stderr
    for path in EXAMPLES.glob("*.toml"):
        folder = tmp_path / "out" / path.stem
        assert (folder / "answer.json").exists()
        assert list(folder.glob("*.svg")), path.stem


def test_three_lines_of_python_lead_from_a_job_file_to_an_answer() -> None:
    job = hubwright.load(HATCHBACK)
    answer = hubwright.assess(job)
    assert answer.axle("rear").plan.recommended_mm == 5


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no device that is always full")
@pytest.mark.parametrize(
    "words", [("--version",), ("assess", str(HATCHBACK)), ("schema", "job"), ("rules", "DE", "--json")]
)
def test_an_answer_that_cannot_be_written_is_told_in_one_line(words: tuple[str, ...]) -> None:
    environment = {**os.environ, "PYTHONPATH": str(SOURCE)}
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "hubwright", *words],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
            env=environment,
        )
    assert (done.returncode, done.stderr) == (2, "It could not be written: No space left on device.\n")


def test_a_reader_who_has_seen_enough_is_no_trouble() -> None:
    environment = {**os.environ, "PYTHONPATH": str(SOURCE)}
    words = [sys.executable, "-m", "hubwright", "assess", str(HATCHBACK), "--explain"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=environment) as running:
        assert running.stdout is not None and running.stderr is not None
        assert running.stdout.readline()
        running.stdout.close()
        assert running.stderr.read() == ""
