"""A map on disk: one compressed NumPy archive with a version and the hash of what it was drawn from.

Source: own format, versioned.
"""

from __future__ import annotations

import json
import zipfile
from pathlib import Path

import numpy as np

from hubwright.engineering.envelope.meridian import Layer, MeridianMap, View
from hubwright.errors import BadDataFile
from hubwright.language import say

FORMAT = "hubwright meridian map"
VERSION = 1
COLUMNS = ("rho_mm", "y_mm", "chain", "state", "triangle", "place_mm")


def save_map(drawn: MeridianMap, path: Path) -> None:
    """Write a map (a few kB to a few hundred kB)."""
    head = {
        "format": FORMAT,
        "version": VERSION,
        "view": [drawn.view.rho_mm, drawn.view.y_mm, drawn.view.reach_mm],
        "states": drawn.states,
        "inputs": drawn.inputs,
        "layers": [
            {"name": x.name, "kind": x.kind, "carried": x.carried, "error_mm": x.error_mm, "covered": x.covered}
            for x in drawn.layers
        ],
    }
    arrays = {f"{i}.{name}": getattr(layer, name) for i, layer in enumerate(drawn.layers) for name in COLUMNS}
    with path.open("wb") as file:
        np.savez_compressed(file, head=np.array(json.dumps(head)), **arrays)


def load_map(path: Path, inputs: str | None = None) -> MeridianMap:
    """Read a map; with ``inputs`` refuse one drawn from anything else.

    Raises:
        BadDataFile: Not a map, another version, or another hash.
    """
    try:
        with path.open("rb") as raw, np.load(raw, allow_pickle=False) as file:
            stored = {name: file[name] for name in file.files}
        head = json.loads(str(stored["head"]))
        found = (head["format"], head["version"])
    except (OSError, ValueError, KeyError, TypeError, EOFError, zipfile.BadZipFile) as error:
        raise BadDataFile(str(path), "head", say("a saved meridian map"), str(error)) from error
    if found != (FORMAT, VERSION):
        raise BadDataFile(str(path), "version", _version(FORMAT, VERSION), _version(*found))
    if inputs is not None and head["inputs"] != inputs:
        raise BadDataFile(str(path), "inputs", say("hash {hash}", hash=inputs), say("hash {hash}", hash=head["inputs"]))
    layers = tuple(
        Layer(**about, **{name: stored[f"{i}.{name}"] for name in COLUMNS}) for i, about in enumerate(head["layers"])
    )
    return MeridianMap(View(*head["view"]), layers, head["states"], head["inputs"])


def _version(form: object, number: object) -> str:
    return say("{form}, version {number}", form=form, number=number)
