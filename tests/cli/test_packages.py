"""``hubwright tyre`` and ``hubwright compare`` as a person uses them."""

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

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
OLD, NEW = "225/45R17 91W on 7.5Jx17 ET47", "235/40R18 95W on 8Jx18 ET45"


def run(*words: str | Path) -> Any:
    return CliRunner(env={"COLUMNS": "120"}).invoke(app, [str(word) for word in words])


def test_the_sheet_names_design_envelope_capacities_and_what_was_not_measured() -> None:
    done = run("tyre", "235/40R18 95W", "--rim", "8.5Jx18", "--new-depth", "8")
    flat = " ".join(done.stdout.split())
    assert done.exit_code == 0, done.stderr
    assert "overall diameter 645.2 645.0 639.4 652.5" in flat
    assert "carries 690 kg, up to 270 km/h" in flat
    assert "diameter 632.4 mm" in flat  # 645.2 - 2 (8 - 1.6)
    assert "not measured: section width" in flat


def test_readings_go_before_the_estimates_and_leave_the_list_of_what_is_missing() -> None:
    words = ("--read-width", "239", "--read-diameter", "645", "--half-width", "300:112", "--half-width", "272:119.5")
    sheet = json.loads(run("tyre", "235/40R18 95W", "--rim", "8Jx18", *words, "--json").stdout)
    assert sheet["section_width_mm"] == pytest.approx(239, abs=0.6)
    halves = {row["radius_mm"]: row["half_width_mm"] for row in sheet["half_widths"]}
    assert halves[300] == pytest.approx(112) and halves[272] == pytest.approx(119.5)
    assert not {"section_width_mm", "overall_diameter_mm"} & set(sheet["estimated"])


def test_the_smallest_and_the_largest_lie_on_both_sides_of_the_tyre() -> None:
    sheet = json.loads(run("tyre", "205/55R16 91V", "--rim", "6.5Jx16", "--json").stdout)
    rows = [row for row in sheet["half_widths"] if row["smallest_mm"] is not None and row["radius_mm"] > 230]
    assert len(rows) > 5
    assert all(row["smallest_mm"] < row["half_width_mm"] < row["largest_mm"] for row in rows[:-1])


def test_under_load_the_tyre_sinks_by_load_over_stiffness() -> None:
    words = ("--load", "500", "--stiffness", "245.16625")
    loaded = json.loads(run("tyre", "205/55R16 91V", "--rim", "6.5Jx16", *words, "--json").stdout)["loaded"]
    assert loaded["deflection_mm"] == pytest.approx(20.0) and loaded["bulge_mm"] > 0


def test_the_comparison_prints_what_changes() -> None:
    flat = " ".join(run("compare", OLD, NEW, "--lead", "3").stdout.split())
    assert "diameter 634.3 645.2 +10.9" in flat and "+1.72 %" in flat
    assert "rim centre plane −47.0 −45.0 +2.0" in flat
    assert "it will show 101.3 (100 to 114 allowed)" in flat
    assert "load capacity per tyre 615 to 690 kg" in flat


def test_the_other_way_round_every_change_has_the_other_sign() -> None:
    there, back = (json.loads(run("compare", *pair, "--json").stdout)["change"] for pair in ((OLD, NEW), (NEW, OLD)))
    for name in ("outward_mm", "inward_mm", "centre_plane_mm", "diameter_mm", "load_capacity_kg"):
        assert there[name] == pytest.approx(-back[name]) and there[name] != 0


def test_the_disc_named_for_the_same_position_gives_it() -> None:
    asked = ("compare", OLD, "235/40R18 95W on 8Jx18 ET60", "--json")
    disc = json.loads(run(*asked).stdout)["same_outer_disc_mm"]
    assert disc == pytest.approx(7.3, abs=0.5)
    assert json.loads(run(*asked, "--disc", str(disc)).stdout)["change"]["outward_mm"] == pytest.approx(0.0)


def test_a_body_line_at_the_outer_edge_is_flush() -> None:
    edge = json.loads(run("compare", OLD, NEW, "--json").stdout)["new"]["edges"]["outer_mm"]
    found = json.loads(run("compare", OLD, NEW, "--body-line", f"{edge:.2f}", "--json").stdout)
    assert found["new"]["standing"] == "flush" and found["old"]["standing"] == "tuck"
    poking = json.loads(run("compare", OLD, NEW, "--body-line", f"{edge - 5:.2f}", "--json").stdout)
    assert poking["new"]["standing"] == "poke" and poking["new"]["poke_mm"] == pytest.approx(5.0, abs=0.05)


def test_a_drawing_is_written_where_asked_for(tmp_path: Path) -> None:
    done = run("compare", OLD, NEW, "--svg", tmp_path / "both.svg")
    assert done.exit_code == 0 and (tmp_path / "both.svg").read_text(encoding="utf-8").startswith("<svg")
    assert run("compare", OLD, NEW, "--svg", tmp_path / "none" / "both.svg").exit_code == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("tyre", "235/40Q18", "--rim", "8Jx18"), "tyre.construction"),
        (("tyre", "235/40R18 95W", "--rim", "8Jx17"), "bead seat"),
        (("tyre", "235/40R18 95W", "--rim", "8Jx18", "--half-width", "300"), "radius:half width"),
        (("tyre", "235/40R18 95W", "--rim", "8Jx18", "--new-depth", "1"), "Worn diameter"),
        (("compare", OLD, "235/40R18 95W on 8Jx18"), "rim.inset"),
        (("compare", OLD, NEW, "--disc", "-3"), "0 to 150 mm"),
    ],
)
def test_bad_text_is_named_and_leaves_with_2(words: tuple[str, ...], said: str) -> None:
    done = run(*words)
    assert done.exit_code == 2 and said in done.stderr and "Traceback" not in done.stderr
    assert done.stdout == ""


def test_a_job_without_packages_does_without_the_compiled_sums(tmp_path: Path) -> None:
    code = (
        "import sys; sys.argv = ['hubwright', 'assess', sys.argv[1], '--drawings', sys.argv[2]]\n"
        "from hubwright.cli import run\n"
        "try: run()\n"
        "except SystemExit as end: assert not end.code, end.code\n"
        "assert 'numba' not in sys.modules\n"
    )
    environment = {**os.environ, "PYTHONPATH": str(Path(hubwright.__file__).resolve().parents[1])}
    words = [sys.executable, "-c", code, str(EXAMPLES / "hatchback-rear-flush.toml"), str(tmp_path)]
    done = subprocess.run(words, capture_output=True, text=True, check=False, env=environment)
    assert done.returncode == 0, done.stderr


def test_the_drawings_of_a_job_show_every_offered_package_on_both_sides(tmp_path: Path) -> None:
    assert run("assess", EXAMPLES / "estate-other-wheels.toml", "--drawings", tmp_path).exit_code == 0
    names = {path.name for path in tmp_path.glob("*package*")}
    assert names == {f"rear-{side}-package-{number}.svg" for side in ("left", "right") for number in (1, 2)}


def test_inches_are_printed_when_asked_for() -> None:
    assert "25.40" in run("compare", OLD, NEW, "--units", "inch").stdout  # 645.2 mm
