"""Every sum names where it comes from.

The rule: in ``src/hubwright/engineering`` the docstring of each public function, or else the docstring of its module,
says ``Source:`` (or ``Sources:``) and goes on with title and clause or equation. A sum worked out in the project says
``Source: derived here``, a habit of the trade ``Source: common practice, no source``. ``validity.py`` only refuses; it
holds no sum.
"""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
ENGINEERING = ROOT / "src" / "hubwright" / "engineering"
SOURCE = re.compile(r"\bSources?:\s*\S")


def unsourced(text: str) -> list[str]:
    """Public functions of a module that nobody can look up."""
    tree = ast.parse(text)
    if SOURCE.search(ast.get_docstring(tree) or ""):
        return []
    functions = [node for node in tree.body if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")]
    return [node.name for node in functions if not SOURCE.search(ast.get_docstring(node) or "")]


def test_every_public_sum_names_its_source() -> None:
    found = {}
    for path in sorted(set(ENGINEERING.rglob("*.py")) - {ENGINEERING / "validity.py"}):
        if names := unsourced(path.read_text(encoding="utf-8")):
            found[path.relative_to(ROOT).as_posix()] = names
    assert not found, "add a line 'Source: ...' to these docstrings or to that of their module"


@pytest.mark.parametrize(
    ("module", "expected"),
    [
        ("def area(d_mm):\n    '''Area of a disc.'''", ["area"]),
        ("def area(d_mm):\n    '''Area of a disc.\n\n    Source:\n    '''", ["area"]),
        ("def area(d_mm): ...", ["area"]),
        ("def area(d_mm):\n    '''Area of a disc.\n\n    Source: ISO 724, table 1.\n    '''", []),
        ("def area(d_mm):\n    '''Area of a disc.\n\n    Sources:\n        ISO 724, table 1.\n    '''", []),
        ("'''Areas.\n\nSource: derived here.\n'''\ndef area(d_mm): ...", []),
        ("def _half(d_mm): ...", []),
    ],
)
def test_only_a_docstring_that_names_a_source_satisfies_the_rule(module: str, expected: list[str]) -> None:
    assert unsourced(module) == expected
