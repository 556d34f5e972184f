"""A line of the wheel out of an attached drawing or table: its points go into the job, the file stays attached."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

from hubwright.errors import BadInput, Fault
from hubwright.jobs.profiles import read_profile_file
from hubwright.language import say
from hubwright.web.desk import Desk

ENDS = (".csv", ".dxf")


def tables_of(desk: Desk, job_id: str) -> tuple[tuple[str, str], ...]:
    """Attached files a line can be read from, as choices."""
    names = (item.name for item in desk.cupboard.attachments(job_id) if item.name.lower().endswith(ENDS))
    return tuple(dict.fromkeys((name, name) for name in names))


def with_points(desk: Desk, job_id: str, field: str, item: Any) -> Any:
    """An item that names an attached file, with the points of that file instead of its name.

    Raises:
        BadInput: where no such file is attached, or it holds no line.
    """
    if not isinstance(item, dict) or not item.get("file"):
        return item
    name, layer = str(item["file"]), item.get("layer")
    found = next((one for one in reversed(desk.cupboard.attachments(job_id)) if one.name == name), None)
    if found is None:
        wanted = say("an attached file that ends with .csv or .dxf")
        raise BadInput("line", (Fault(f"{field}.file", wanted, name[:60], say("Attach it under Files first.")),))
    _, data = desk.cupboard.fetch(found.id)
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / f"line{Path(name).suffix.lower()}").write_bytes(data)
        try:
            points = read_profile_file(Path(folder), f"line{Path(name).suffix.lower()}", layer)
        except BadInput as error:
            raise BadInput(
                "line", tuple(Fault(f"{field}.file", it.wanted, it.given, it.todo) for it in error.faults)
            ) from None
    return {
        **{key: it for key, it in item.items() if key not in ("file", "layer")},
        "points_mm": [list(p) for p in points],
    }
