"""The locked requirements are complete, exact and carry the fingerprint of every file that may be installed."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
GROUPS = PROJECT["dependency-groups"]
RUN = [*PROJECT["project"]["dependencies"], *GROUPS["build"]]


def locked(name: str) -> dict[str, set[str]]:
    """Package -> the versions a lock pins (more than one where they differ between Python versions)."""
    pins: dict[str, set[str]] = {}
    for line in (ROOT / "requirements" / name).read_text(encoding="utf-8").splitlines():
        if found := re.match(r"([\w.-]+)==(\S+)", line):
            pins.setdefault(canonicalize_name(found[1]), set()).add(found[2])
    return pins


@pytest.mark.parametrize(("name", "wanted"), [("run.txt", RUN), ("dev.txt", [*RUN, *GROUPS["dev"]])])
def test_every_direct_requirement_is_locked_at_a_version_it_allows(name: str, wanted: list[str]) -> None:
    pins = locked(name)
    for requirement in map(Requirement, wanted):
        versions = pins.get(canonicalize_name(requirement.name), set())
        assert versions, f"{requirement.name} is not in {name}: run make lock"
        assert all(requirement.specifier.contains(version) for version in versions), f"{requirement}: run make lock"


def test_the_development_set_holds_the_run_set_unchanged() -> None:
    development = locked("dev.txt")
    assert {name: development.get(name) for name in locked("run.txt")} == locked("run.txt")


@pytest.mark.parametrize("name", ["run.txt", "dev.txt"])
def test_every_locked_version_carries_its_hashes(name: str) -> None:
    text = (ROOT / "requirements" / name).read_text(encoding="utf-8")
    entries = re.split(r"^(?=[\w.-]+==)", text, flags=re.MULTILINE)[1:]
    assert len(entries) >= len(locked(name)) > 0
    assert [entry.split()[0] for entry in entries if "--hash=sha256:" not in entry] == []
