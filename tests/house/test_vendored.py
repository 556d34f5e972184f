"""Files of others lie here unchanged, each with its papers."""

from __future__ import annotations

import tomllib
from hashlib import sha256
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FOLDERS = [ROOT / "src" / "hubwright" / "web" / "static" / "vendor", ROOT / "tests" / "vendor"]


@pytest.mark.parametrize("folder", FOLDERS, ids=["page", "tests"])
def test_every_vendored_file_has_version_licence_and_the_hash_it_came_with(folder: Path) -> None:
    papers = tomllib.loads((folder / "vendored.toml").read_text())["file"]
    for paper in papers:
        assert sha256((folder / paper["name"]).read_bytes()).hexdigest() == paper["sha256"], paper["name"]
        assert (folder / paper["licence_file"]).is_file(), paper["name"]
        assert paper["version"] in paper["name"], paper["name"]
        assert paper["package"] and paper["licence"] and paper["registry"] and paper["changed"]
    named = {paper["name"] for paper in papers} | {paper["licence_file"] for paper in papers} | {"vendored.toml"}
    assert {path.name for path in folder.iterdir()} == named
