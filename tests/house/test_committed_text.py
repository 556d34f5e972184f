"""Nothing of one machine and no package registry is written into the project."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

# Put together here, so that this file does not hold what it looks for.
REGISTRIES = [f"{name}.{end}" for name, end in [
    ("pypi", "org"), ("pythonhosted", "org"), ("npmjs", "org"), ("npmjs", "com"), ("unpkg", "com"),
    ("jsdelivr", "net"), ("anaconda", "org"), ("crates", "io"),
]]  # fmt: skip
REGISTRY = re.compile("|".join(re.escape(host) for host in REGISTRIES), re.IGNORECASE)
HOME_PATH = re.compile(r"(?<![\w.~\-/])/(?:home|root|Users|work)/[\w.]|\b[A-Z]:\\Users\\")


def offences(text: str) -> list[str]:
    return [found.group() for pattern in (REGISTRY, HOME_PATH) for found in pattern.finditer(text)]


def committed_files() -> list[Path]:
    """What is committed or would be with the next ``git add``."""
    command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    try:
        listing = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("not a git checkout")
    return [path for name in listing.split("\0") if name and (path := ROOT / name).is_file()]


def test_no_file_names_a_package_registry_or_a_folder_of_one_machine() -> None:
    found = {}
    for path in committed_files():
        if bad := offences(path.read_bytes().decode("utf-8", errors="replace")):
            found[path.relative_to(ROOT).as_posix()] = bad
    assert not found


@pytest.mark.parametrize("text", [
    "see " + "https://" + "files." + REGISTRIES[1] + "/packages",
    "open('" + "/".join(["", "home", "somebody", "car.toml"]) + "')",
    "\\".join(["C:", "Users", "somebody"]),
])  # fmt: skip
def test_a_registry_or_a_home_folder_is_noticed(text: str) -> None:
    assert offences(text)


@pytest.mark.parametrize("text", ["docs/home/page.md", "example.org", "kN/mm", "../work/order.toml"])
def test_ordinary_text_is_left_alone(text: str) -> None:
    assert not offences(text)
