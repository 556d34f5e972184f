"""Imports only go down, and nothing can be added without saying on which floor it lives."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LINT = "from importlinter.cli import lint_imports_command; lint_imports_command()"


def check_floors(folder: Path) -> subprocess.CompletedProcess[str]:
    """import-linter in its own process: the copy must be found before the package already imported here."""
    command = [sys.executable, "-c", LINT, "--no-cache", "--no-logo"]
    surroundings = {**os.environ, "PYTHONPATH": str(folder / "src"), "NO_COLOR": "1", "COLUMNS": "200"}
    return subprocess.run(command, cwd=folder, env=surroundings, capture_output=True, text=True, check=False)


@pytest.fixture
def building(tmp_path: Path) -> Path:
    """A copy of the package and its contracts that a test may spoil."""
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    shutil.copytree(ROOT / "src", tmp_path / "src", ignore=shutil.ignore_patterns("__pycache__"))
    return tmp_path


def test_imports_only_go_down() -> None:
    outcome = check_floors(ROOT)
    assert outcome.returncode == 0, outcome.stdout + outcome.stderr


@pytest.mark.parametrize("place", ["", "engineering"])
def test_a_package_without_a_floor_is_refused(building: Path, place: str) -> None:
    newcomer = building / "src" / "hubwright" / place / "newcomer"
    newcomer.mkdir()
    (newcomer / "__init__.py").write_text('"""Nobody said where this belongs."""\n', encoding="utf-8")
    outcome = check_floors(building)
    assert outcome.returncode == 1
    assert ".".join(["hubwright", *place.split(), "newcomer"]) in outcome.stdout


def test_an_import_that_goes_up_is_refused(building: Path) -> None:
    errors = building / "src" / "hubwright" / "errors.py"
    errors.write_text(f"{errors.read_text(encoding='utf-8')}\nimport hubwright.tables.loader\n", encoding="utf-8")
    outcome = check_floors(building)
    assert outcome.returncode == 1
    assert "hubwright.errors is not allowed to import hubwright.tables" in outcome.stdout


def test_every_folder_with_code_is_a_package_so_that_the_floor_check_sees_it() -> None:
    folders = {path.parent for path in (ROOT / "src" / "hubwright").rglob("*.py")}
    bare = sorted(folder.relative_to(ROOT).as_posix() for folder in folders if not (folder / "__init__.py").exists())
    assert not bare, f"add an __init__.py to {', '.join(bare)}"
