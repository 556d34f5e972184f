from __future__ import annotations

import pytest

from hubwright.errors import BadDataFile
from hubwright.tables.loader import build_table, read_table

PAPERS = {"title": "T", "edition": "", "clause": "", "licence": "facts", "transcribed": "by hand"}
COLUMN = {"kind": "number", "meaning": "something"}
SIDECAR = {**PAPERS, "column": {"a_mm": COLUMN, "b": {"kind": "text", "meaning": "else"}}}


def test_an_empty_cell_is_none_and_never_zero():
    assert build_table("t", SIDECAR, "a_mm,b\n,x\n1.5,\n").rows == ({"a_mm": None, "b": "x"}, {"a_mm": 1.5, "b": None})


@pytest.mark.parametrize(
    ("sidecar", "text", "key"),
    [
        ({**SIDECAR, "colour": "red"}, "a_mm,b\n", "colour"),
        ({**PAPERS}, "a_mm,b\n", "column"),
        ({**PAPERS, "column": {"a_mm": {"kind": "money", "meaning": "m"}}}, "a_mm\n", "column.a_mm"),
        (SIDECAR, "a_mm,c\n", "header"),
        (SIDECAR, "a_mm,b\n1,x\nmuch,x\n", "line 3, a_mm"),
        (SIDECAR, "a_mm,b\nnan,x\n", "line 2, a_mm"),
        (SIDECAR, "a_mm,b\n1\n", "line 2"),
        (SIDECAR, "a_mm,b\n1,x,y\n", "line 2"),
    ],
)
def test_whatever_the_sidecar_does_not_announce_is_refused_by_file_and_place(sidecar, text, key):
    with pytest.raises(BadDataFile) as caught:
        build_table("t", sidecar, text)
    assert caught.value.key == key
    assert caught.value.file.startswith("t.")


def test_a_table_that_does_not_exist_is_refused_with_those_that_do():
    with pytest.raises(BadDataFile, match="threads_metric"):
        read_table("treads")
