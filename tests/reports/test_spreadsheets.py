"""The pick list for whoever orders: no formula gets in, every count is a number."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import openpyxl
import pytest
from tests.reports.press import demo, identity

from hubwright.errors import BadInput
from hubwright.reports import Options, formats_of, print_sheet

NAME = "hatchback-rear-flush"
EVIL = ('=HYPERLINK("http://x")', "+1+1", "-2", "@SUM(A1)", "\t=1", "=cmd|' /C calc'!A0", '"quoted", and; more')
CSV, XLSX = Options(format="csv"), Options(format="xlsx")


def rows(title: str | None = None) -> tuple[list[list[str]], list[list[object]]]:
    job, answer = demo(NAME)
    answer = answer if title is None else replace(answer, title=title)
    text = print_sheet("parts", job, answer, identity(NAME), CSV).data.decode("utf-8-sig")
    book = openpyxl.load_workbook(io.BytesIO(print_sheet("parts", job, answer, identity(NAME), XLSX).data))
    return list(csv.reader(io.StringIO(text))), [[cell.value for cell in row] for row in book.active.iter_rows()]


def test_both_hold_every_line_of_the_order_with_its_count_as_a_number() -> None:
    plain, book = rows()
    order = demo(NAME)[1].axle("rear").plan.order
    assert [row[1:3] for row in plain[-len(order) :]] == [[str(line.count), line.item] for line in order]
    assert [row[1:3] for row in book[-len(order) :]] == [[line.count, line.item] for line in order]


def test_both_say_from_which_record_they_are_and_that_nothing_is_released() -> None:
    plain, book = rows()
    flat = [" ".join(row) for row in plain], [" ".join(str(cell) for cell in row if cell) for row in book]
    for lines in flat:
        assert any("Revision 3" in line and identity(NAME).short_hash in line for line in lines)
        assert any("NOT RELEASED" in line for line in lines)


@pytest.mark.parametrize("title", EVIL)
def test_no_text_becomes_a_formula(title: str) -> None:
    plain, book = rows(title)
    assert not plain[0][1].startswith(("=", "+", "-", "@", "\t"))
    assert book[0][1] == title.strip("\t") or book[0][1] == title
    job, answer = demo(NAME)
    data = print_sheet("parts", job, replace(answer, title=title), identity(NAME), XLSX).data
    sheet = openpyxl.load_workbook(io.BytesIO(data)).active
    assert sheet is not None
    assert all(cell.data_type != "f" and cell.hyperlink is None for row in sheet.iter_rows() for cell in row)


@pytest.mark.parametrize("options", [CSV, XLSX])
def test_the_same_answer_gives_the_same_bytes(options: Options) -> None:
    job, answer = demo(NAME)
    first, second = (print_sheet("parts", job, answer, identity(NAME), options).data for _ in range(2))
    assert first == second


def test_a_format_a_sheet_has_not_is_refused_with_those_it_has() -> None:
    job, answer = demo(NAME)
    assert formats_of("parts") == ("pdf", "xlsx", "csv")
    with pytest.raises(BadInput, match="one of pdf, xlsx, csv for the sheet parts"):
        print_sheet("parts", job, answer, identity(NAME), Options(format="dxf"))
