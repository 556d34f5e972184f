"""The bench of an axle shows what the answer says, for any thickness, with scripts and without."""

from __future__ import annotations

import html
import re
from dataclasses import replace
from threading import Event
from typing import Any

import pytest
from tests.web.conftest import ROOT, Page, check_html, example, words_of

from hubwright.errors import Fault
from hubwright.jobs.answer import AxleAnswer, DiscAnswer
from hubwright.jobs.maps import NO_MAPS, Maps
from hubwright.language.words import fits_word, kind_word, law_word, status_word
from hubwright.parts.job import Job
from hubwright.quantities.text import thickness
from hubwright.store.cupboard import Cupboard
from hubwright.web import working
from hubwright.web.desk import Desk, Seen

DEMO = sorted(path.stem for path in (ROOT / "examples").glob("*.toml"))
PLAIN = [name for name in DEMO if "scan" not in name]
LIVE = {"hw-part": "live"}


def flat(text: str) -> str:
    return re.sub(r"\s+", " ", text)


def unescaped(text: str) -> str:
    return flat(html.unescape(text))


def shown(page: Page, address: str) -> str:
    answer = page.get(address)
    assert answer.status_code == 200, address
    return unescaped(words_of(answer))


def check_row(text: str, disc: DiscAnswer) -> None:
    """One row of the shelf: status, every question's word, every reason."""
    title = f"{thickness(disc.thickness_mm)} {kind_word(disc.kind)}"
    row = text[text.index("Every disc of the shelf") :]
    row = row[row.index(title) :]
    assert status_word(disc.status) in row[: row.index("Working and source")]
    for finding in disc.findings:
        if finding.question in ("clearance", "brake", "centring", "fastener", "law"):
            word = (law_word if finding.question == "law" else fits_word)(finding.verdict)
            assert word in row, (title, finding.question)
    for reason in disc.reasons:
        assert flat(reason) in row, (title, reason)


def check_axle(page: Page, job_id: str, axle: AxleAnswer) -> None:
    for number, plan in enumerate(axle.plans):
        text = shown(page, f"/jobs/{job_id}/bench/{axle.axle}?work={number}")
        assert flat(axle.decision) in text
        for said in (*axle.provisional, *(line.item for line in axle.plan.order), *(one.what for one in axle.wanted)):
            assert flat(said) in text
        for disc in plan.discs:
            check_row(text, disc)
        for package in axle.packages:
            assert flat(package.decision) in text


@pytest.mark.parametrize("name", PLAIN)
def test_the_bench_of_every_demo_car_says_what_the_answer_says(
    page: Page, desk: Desk, cupboard: Cupboard, name: str
) -> None:
    job_id = cupboard.add(example(name), "Ann").job_id
    for axle in desk.answer(desk.seen(job_id)).axles:
        check_axle(page, job_id, axle)


@pytest.mark.parametrize("name", PLAIN)
def test_every_disc_of_the_shelf_on_the_bench_is_the_disc_of_the_answer(
    page: Page, desk: Desk, cupboard: Cupboard, name: str
) -> None:
    job_id = cupboard.add(example(name), "Ann").job_id
    for axle in desk.answer(desk.seen(job_id)).axles:
        for number, plan in enumerate(axle.plans):
            for disc in plan.discs:
                query = f"?t={disc.thickness_mm}&kind={disc.kind}&work={number}&name={disc.name or ''}"
                part = page.get(f"/jobs/{job_id}/bench/{axle.axle}{query}", headers=LIVE)
                check_html(part.text.replace('hx-swap-oob="innerHTML"', ""))
                text = unescaped(words_of(part))
                assert status_word(disc.status) in text
                for finding in disc.findings:
                    assert flat(finding.sentence) in text, (query, finding.sentence)


def test_without_scripts_a_form_with_a_button_shows_any_thickness(page: Page, job_id: str) -> None:
    whole = page.get(f"/jobs/{job_id}/bench/rear")
    form = re.search(r'<form id="setting".*?</form>', whole.text, re.S)
    assert form is not None and "Look</button>" in form[0] and 'method="get"' in form[0]
    assert 'name="t" type="text" inputmode="decimal" value="5"' in form[0]
    text = shown(page, f"/jobs/{job_id}/bench/rear?t=7%2C3&kind=plain&work=1")
    assert "7.3 mm plain disc, per side: refused" in text
    assert "No plain disc of 7.3 mm is kept" in text
    assert "7.8 mm plain disc, per side" in shown(page, f"/jobs/{job_id}/bench/rear?t=7.3&step=0.5&kind=plain")


def test_what_changes_at_once_is_sent_alone_and_is_small(page: Page, job_id: str) -> None:
    address = f"/jobs/{job_id}/bench/rear?t=12.5&kind=lipped&work=1"
    part, whole = page.get(address, headers=LIVE), page.get(address)
    assert len(part.content) < len(whole.content) / 6
    for name in ("says", "section-left", "section-right", "gap-left", "gap-right"):
        assert re.search(rf'id="{name}"[^>]* hx-swap-oob="innerHTML"', part.text), name
        assert f'id="{name}"' in whole.text
    assert "hx-swap-oob" not in whole.text and "<html" not in part.text
    for text in (part.text, whole.text):
        assert "disc 12.5 mm" in text and "pinch 4.0 mm" in text


def test_what_is_told_at_rest_holds_every_working_and_every_figure(page: Page, desk: Desk, job_id: str) -> None:
    told = page.get(f"/jobs/{job_id}/bench/rear?t=5&work=1", headers={"hw-part": "beside"})
    text = unescaped(words_of(told))
    disc = desk.answer(desk.seen(job_id)).axle("rear").plans[1].recommended
    assert disc is not None
    for finding in disc.every:
        for step in finding.working:
            assert flat(step.text) in text and flat(step.source) in text, step
    assert "Rear left: gap against travel" in text and "pilot left in the wheel 4.5 mm" in text


def test_every_verdict_leads_to_its_working(page: Page, job_id: str) -> None:
    text = page.get(f"/jobs/{job_id}/bench/rear?t=8&work=1").text
    leading = re.findall(r'class="question" href="#([^"]+)"', text)
    assert len(leading) > 6
    for place in leading:
        assert re.search(rf'<details class="working"><summary>[^<]+</summary>\s*<div id="{place}">', text), place


def test_the_wheel_of_the_whole_page_stands_where_the_moved_one_will(page: Page, job_id: str) -> None:
    """Sliding the lower layer by its stated vector gives the wheel that the server draws for that disc."""
    drawn = {}
    for t in (0.0, 20.0):
        text = page.get(f"/jobs/{job_id}/bench/rear?t={t}&kind=plain&work=1").text
        figure = text[text.index('class="picture layers"') :]
        wheel = re.search(r'data-part="tyre"/>', figure)
        assert wheel is not None
        path = re.search(r'<path class="hw-f-rubber" d="M([-0-9.]+) ([-0-9.]+)', figure)
        moved = re.search(r'data-x="([-0-9.]+)" data-y="([-0-9.]+)"', figure)
        assert path is not None and moved is not None
        drawn[t] = [float(part) for part in (*path.groups(), *moved.groups())]
    (x0, y0, dx, dy), (x1, y1, *_) = drawn[0.0], drawn[20.0]
    assert x0 + 20 * dx == pytest.approx(x1, abs=0.11) and y0 + 20 * dy == pytest.approx(y1, abs=0.11)
    assert dx < -0.99 and dy < -0.01  # a left wheel moves left, and up, since it leans in


@pytest.mark.parametrize(
    ("query", "told"),
    [
        ("t=abc", "a thickness per side from 0 to 150 mm; given abc"),
        ("t=-1", "given -1"),
        ("t=1e9", "given 1e9"),
        ("t=nan", "given nan"),
        ("t=5&kind=square", "plain, lipped or bolted; given square"),
        ("t=5&work=maybe", "given maybe"),
        ("t=x&kind=y&work=z", "3 things to put right"),
    ],
)
def test_an_odd_address_is_answered_with_what_was_wanted(page: Page, job_id: str, query: str, told: str) -> None:
    for headers in ({}, LIVE):
        answer = page.get(f"/jobs/{job_id}/bench/rear?{query}", headers=headers)
        assert answer.status_code == 422
        assert told in words_of(answer)


def test_an_axle_nobody_measured_says_so_and_an_unknown_one_is_not_there(page: Page, job_id: str) -> None:
    assert "The job says nothing about this axle yet" in shown(page, f"/jobs/{job_id}/bench/front")
    assert page.get(f"/jobs/{job_id}/bench/middle").status_code == 404
    assert page.get("/jobs/nothere/bench/rear").status_code == 404
    assert page.get(f"/jobs/{job_id}/bench", follow_redirects=False).headers["location"].endswith("/bench/rear")


def test_no_disc_at_all_is_the_car_as_it_stands(page: Page, job_id: str) -> None:
    text = shown(page, f"/jobs/{job_id}/bench/rear?t=0&work=0")
    assert "No disc: refused" in text
    assert "right, arch lip, inner edge, bump 46 mm: 9.5 mm of air as it stands" in text


def test_a_job_with_faults_shows_them_on_the_bench_too(page: Page, desk: Desk, job_id: str, monkeypatch: Any) -> None:
    whole = desk.seen(job_id)
    stored = replace(whole.stored, faults=(Fault("rear.track_mm", "a number", "wide"),))
    monkeypatch.setattr(Desk, "seen", lambda *_: Seen(stored, None, whole.mark))
    text = shown(page, f"/jobs/{job_id}/bench/rear")
    assert "rear.track_mm" in text and "wanted a number; given wide" in text


def test_a_job_with_shapes_answers_from_the_readings_while_its_map_is_drawn(
    page: Page, desk: Desk, cupboard: Cupboard, monkeypatch: Any
) -> None:
    drawn, asked = Event(), []

    def draw_slowly(job: Job, house: object) -> Maps:
        asked.append(job.title)
        assert drawn.wait(20)
        return NO_MAPS

    monkeypatch.setattr(working, "draw_maps", draw_slowly)
    desk.shortly_s = 0.0
    address = f"/jobs/{cupboard.add(example('roadster-front-scan'), 'Ann').job_id}/bench/front"
    first = page.get(address)
    assert "A clearance map is being drawn" in first.text and 'hx-trigger="every 2s"' in first.text
    assert "Not settled without" in first.text
    waiting = page.get(address, headers={"hw-part": "waiting"})
    assert "HX-Refresh" not in waiting.headers and "is being drawn" in waiting.text
    drawn.set()
    desk.shortly_s = 20.0
    assert page.get(address, headers={"hw-part": "waiting"}).headers["HX-Refresh"] == "true"
    assert "is being drawn" not in page.get(address).text
    assert len(asked) == 1
