"""Where finished maps are kept between runs. Never needed for an answer: without it the map is drawn again."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from hubwright.errors import BadDataFile

if TYPE_CHECKING:
    from hubwright.engineering.envelope.meridian import MeridianMap

VARIABLE = "HUBWRIGHT_CACHE"
"""Names the folder; empty = keep nothing."""


def cache_folder() -> Path | None:
    """The folder of `VARIABLE`, else the platform's usual place for such things; None where nothing is to be kept."""
    stated = os.environ.get(VARIABLE)
    if stated is not None:
        return Path(stated) if stated else None
    try:
        home = Path.home()
    except RuntimeError:
        return None
    if sys.platform == "win32":
        base = Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local")
    elif sys.platform == "darwin":
        base = home / "Library" / "Caches"
    else:
        base = Path(os.environ.get("XDG_CACHE_HOME") or home / ".cache")
    return base / "hubwright"


def kept_map(inputs: str) -> MeridianMap | None:
    """The map drawn from these very inputs earlier; None where there is none that can be read."""
    from hubwright.engineering.envelope.meridian.store import load_map  # noqa: PLC0415

    folder = cache_folder()
    if folder is None:
        return None
    try:
        return load_map(folder / f"{inputs}.npz", inputs)
    except BadDataFile:
        return None


def keep_map(drawn: MeridianMap) -> None:
    """Keep a map; a folder that cannot be written is no fault."""
    from hubwright.engineering.envelope.meridian.store import save_map  # noqa: PLC0415

    folder = cache_folder()
    if folder is None:
        return
    target = folder / f"{drawn.inputs}.npz"
    part = target.with_suffix(f".{os.getpid()}.part")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        save_map(drawn, part)
        part.replace(target)
    except OSError:
        part.unlink(missing_ok=True) if folder.is_dir() else None
