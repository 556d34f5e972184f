from __future__ import annotations

import pytest

from hubwright.errors import BadInput
from hubwright.parts.profile_points import read_profile_points


def test_two_columns_become_points_and_blank_lines_are_skipped() -> None:
    assert read_profile_points("rho_mm,y_mm\n40,20.5\n\n210,-3\n") == ((40.0, 20.5), (210.0, -3.0))


def test_every_bad_line_is_named_with_its_number() -> None:
    with pytest.raises(BadInput) as refused:
        read_profile_points("rho_mm,y_mm\n40,x\n50,1\n-3,2\n60,nan\n70\n")
    assert [fault.line for fault in refused.value.faults] == [2, 4, 5, 6]


def test_a_file_with_other_columns_or_too_few_points_is_refused() -> None:
    for text in ("", "y_mm,rho_mm\n1,2\n3,4\n", "rho_mm,y_mm\n1,2\n"):
        with pytest.raises(BadInput):
            read_profile_points(text)
