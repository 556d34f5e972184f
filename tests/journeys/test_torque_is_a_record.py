"""No answer, sentence or function of the program proposes, scales or computes a torque."""

from __future__ import annotations

import ast
import json
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import hubwright
from hubwright.jobs.schema import answer_json
from hubwright.quantities.text import speaking
from hubwright.quantities.units import NM_PER_POUND_FOOT

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
IN_NM = re.compile(r"(\d+(?:[.,]\d+)?)\s*(N·m|Nm|N\*m|lb-ft)")
NOT_A_TORQUE_TO_USE = ("about the steering axis", "per degree of lean")
"""Moments that are no tightening torque stand in sentences that say so."""
KNOWN = {
    "torque_of", "torque_arm_mm", "print_torque", "torque", "read_torque",
    "torque_words", "torque_warnings", "torque_verdict", "torque_blocks",
}  # fmt: skip
"""Each was looked at: it hands on, words or draws what is on record (the arm is the thread's geometry)."""


def recorded(tree: Any) -> Iterator[float]:
    """Every torque and stage of the records of a job file."""
    if isinstance(tree, dict):
        for key, value in tree.items():
            if key == "torque":
                for record in value:
                    yield record["torque_nm"]
                    yield from record.get("stages", [])
            else:
                yield from recorded(value)
    elif isinstance(tree, list):
        for item in tree:
            yield from recorded(item)


def texts(tree: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every leaf of a JSON tree with the names that lead to it."""
    if isinstance(tree, dict):
        for key, value in tree.items():
            yield from texts(value, f"{path}.{key}")
    elif isinstance(tree, list):
        for item in tree:
            yield from texts(item, path)
    else:
        yield path, tree


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("units", ["metric", "inch"])
def test_every_torque_in_an_answer_stands_in_the_job_file(path: Path, units: Any) -> None:
    text = path.read_text(encoding="utf-8")
    allowed = set(recorded(tomllib.loads(text)))
    spoken = {round(value) for value in allowed} | {round(value / NM_PER_POUND_FOOT) for value in allowed}
    with speaking(units):
        tree = json.loads(answer_json(hubwright.assess(hubwright.parse(text, path.stem))))
    for name, leaf in texts(tree):
        last = name.rpartition(".")[2]
        if last in ("torque_nm", "stages_nm"):
            assert leaf in allowed, name
        if isinstance(leaf, str) and not any(words in leaf for words in NOT_A_TORQUE_TO_USE):
            assert {float(figure) for figure, _ in IN_NM.findall(leaf)} <= spoken | {10}, leaf


def test_the_full_demo_shows_its_records_so_that_the_search_above_looks_at_something() -> None:
    full = next(path for path in EXAMPLES if path.stem == "estate-full-data").read_text(encoding="utf-8")
    found = answer_json(hubwright.assess(hubwright.parse(full)))
    assert {figure for figure, _ in IN_NM.findall(found)} >= {"120", "140", "60"}


def test_no_function_gives_a_torque_and_none_leads_from_a_clamp_to_one() -> None:
    for path in (ROOT / "src" / "hubwright").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef) and "torque" in node.name:
                assert node.name in KNOWN, f"{path.name}: {node.name}"
