"""The shop's own tools on the measuring sheet."""

from __future__ import annotations

import pytest
from tests.web.conftest import Page

from hubwright.store.cupboard import Cupboard

SETTINGS = """\
hubwright_shop = 1
[[tool]]
name = "Depth gauge"
u_mm = 0.05
mark = "D 2"
[[tool]]
name = "camber gauge"
u_deg = 0.1
[[tool]]
name = "torque wrench"
off_percent = 4
"""


@pytest.fixture
def sheet(page: Page, cupboard: Cupboard, job_id: str) -> str:
    cupboard.shop.put(SETTINGS, "Ann", base=0)
    return f"/jobs/{job_id}/measure/rear"


def written(page: Page, cupboard: Cupboard, sheet: str, slot: str, **fields: str) -> str:
    asked = {"slot": slot, "value": "12.2", "system": "metric", **fields}
    assert page.form(sheet, asked).status_code == 303
    return str(cupboard.history(sheet.split("/")[2])[-1].changes[0].value)


def test_tools_with_a_doubt_stand_among_the_methods(page: Page, sheet: str) -> None:
    shown = page.get(sheet).text
    assert "Depth gauge (D 2), doubt 0.05 mm" in shown and "camber gauge, doubt 0.1°" in shown
    assert "torque wrench" not in shown


def test_a_reading_with_a_tool_gets_its_doubt_unless_somebody_states_another(
    page: Page, cupboard: Cupboard, sheet: str
) -> None:
    spigot, camber = "field|||hub.spigot_length_mm", "field|left||camber_deg"
    assert "u = 0.05" in written(page, cupboard, sheet, spigot, method="depth gauge")
    assert "u = 0.3" in written(page, cupboard, sheet, spigot, method="Depth gauge", u="0.3")
    assert "u = 0.1" in written(page, cupboard, sheet, camber, method="camber gauge", value="-1.6")
    assert "u =" not in written(page, cupboard, sheet, camber, method="Depth gauge", value="-1.7", u="")
    assert "u =" not in written(page, cupboard, sheet, spigot, method="calliper", value="12.3", u="")
