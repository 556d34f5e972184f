"""Pages that rest on a clearance map say so while it is drawn, and load themselves anew when it is there."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.web.conftest import Page, example, words_of

from hubwright.store.cupboard import Cupboard
from hubwright.web.desk import Desk, Seen
from hubwright.web.working import Worked

PAGES = ("effects", "law", "fasteners/rear")


@pytest.mark.parametrize("name", PAGES)
def test_a_page_says_that_a_map_is_being_drawn_and_looks_again(
    page: Page, cupboard: Cupboard, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    job = cupboard.add(example("hatchback-rear-flush"), "Ann").job_id
    worked, waiting = Desk.worked, [True]

    def still(desk: Desk, seen: Seen) -> Worked:
        return replace(worked(desk, seen), waiting=waiting[0])

    monkeypatch.setattr(Desk, "worked", still)
    assert "A clearance map is being drawn" in words_of(page.get(f"/jobs/{job}/{name}"))
    part = page.get(f"/jobs/{job}/{name}", headers={"hw-part": "waiting"})
    assert part.text.lstrip().startswith('<p class="notice" role="status"')
    assert "hx-refresh" not in part.headers
    waiting[0] = False
    part = page.get(f"/jobs/{job}/{name}", headers={"hw-part": "waiting"})
    assert part.text.strip() == ""
    assert part.headers["hx-refresh"] == "true"
    assert "A clearance map is being drawn" not in words_of(page.get(f"/jobs/{job}/{name}"))
