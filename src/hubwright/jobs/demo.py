"""The demo jobs: invented cars, packed with the program."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import as_file, files
from pathlib import Path

FIRST = "hatchback-rear-flush"
"""The one that is shown whole."""


@contextmanager
def demo_jobs() -> Iterator[list[Path]]:
    """The job files, the one that is shown whole first; their scans lie beside them."""
    with as_file(files("hubwright").joinpath("demo_jobs")) as packaged:
        folder = packaged if packaged.is_dir() else Path(__file__).resolve().parents[3] / "examples"
        yield sorted(folder.glob("*.toml"), key=lambda path: (path.stem != FIRST, path.stem))
