"""What stands on each sheet, against the record it was printed from."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from tests.reports.press import content, demo, identity, pages, pdf, plain, sentences, squeezed, stands

from hubwright.jobs.answer import Answer
from hubwright.quantities.text import thickness
from hubwright.reports import Identity, Options, answered, kinds_for
from hubwright.reports.content import Checklist, Sheet
from hubwright.reports.kinds import KINDS
from hubwright.reports.options import Photograph, spoken_as
from hubwright.reports.printing import sheet_of

FLUSH, DEAD_ZONE, STUDS, ADAPTER, LOCK = (
    "hatchback-rear-flush", "coupe-front-dead-zone", "saloon-studs", "off-roader-adapter", "compact-front-lock",
)  # fmt: skip
FULL = "estate-full-data"
NEWTON_METRES = re.compile(r"(\d+(?:[.,]\d+)?)N·m")


@pytest.mark.parametrize("name", [FLUSH, DEAD_ZONE, STUDS, ADAPTER, LOCK, FULL])
@pytest.mark.parametrize("kind", ["job-card", "parts"])
def test_thickness_fasteners_and_counts_of_the_answer_stand_on_card_and_list(name: str, kind: str) -> None:
    answer, data = demo(name)[1], pdf(name, kind)
    for axle in answer.axles:
        for line in axle.plan.order:
            assert stands(line.item, data), line
            assert line.count in (None, 0) or stands(f"{line.count} ×", data), line
        best = axle.plan.recommended
        if best is not None and kind == "job-card":
            assert stands(f"{thickness(best.thickness_mm)} {best.kind}", data)


@pytest.mark.parametrize(
    ("name", "texts"),
    [
        (FLUSH, ["5 mm plain disc, per side", "bolts M14x1.5, cone seat, 33 mm", "takes 9 full turns", "roll the arch lip"]),
        (DEAD_ZONE, ["3 mm plain disc, per side", "bolts M12x1.5, ball R12 seat, 25 mm"]),
        (STUDS, ["5 mm plain disc, per side", "No nut bottoms on its stud"]),
        (ADAPTER, ["25 mm bolted adapter, per side", "record of the inner joint", "Axle crossed up under load"]),
        (LOCK, ["5 mm plain disc, per side", "Full lock to the left and to the right", "Lock to lock"]),
    ],
)  # fmt: skip
def test_the_card_says_what_the_scenario_decides(name: str, texts: list[str]) -> None:
    data = pdf(name, "job-card")
    assert [text for text in texts if not stands(text, data)] == []


@pytest.mark.parametrize("kind", tuple(KINDS))
@pytest.mark.parametrize("name", [FLUSH, FULL])
def test_no_torque_is_printed_that_is_not_on_record(name: str, kind: str) -> None:
    job, answer = demo(name)
    if kind not in kinds_for(answer):
        pytest.skip("the answer has nothing for this sheet")
    recorded = {
        f"{value:g}" for _, axle in job.axles for line in axle.torque for value in (line.torque_nm, *line.stages)
    }
    printed = {figure for page in pages(pdf(name, kind)) for figure in NEWTON_METRES.findall(page)}
    assert printed <= recorded
    if kind == "torque":
        assert printed == recorded
        assert stands("not on record, look it up", pdf(name, kind)) == (not recorded)


def test_a_record_is_printed_with_its_source_state_stages_and_day() -> None:
    data = pdf(FULL, "torque")
    for text in (
        "60 N·m – 120 N·m", "clean and dry", "owner's handbook (invented), 2025-03-01", "after 50 km",
        "estate, this model year, alloy 7Jx17, M14x1.5 cone bolt", "Two records disagree", "Mark one.",
    ):  # fmt: skip
        assert stands(text, data), text


@pytest.mark.parametrize("kind", ["job-card", "torque"])
def test_fasteners_in_another_state_than_the_record_wants_are_warned_of_on_the_sheet(kind: str) -> None:
    job, _ = demo(FULL)
    assert job.front is not None
    assert job.front.fastener is not None
    oiled = replace(job.front, torque=job.front.torque[:1], fastener=replace(job.front.fastener, lubrication="oiled"))
    other = replace(job, front=oiled)
    data = plain(kind, other, answered(other, Options()), identity(FULL))
    assert stands("the fasteners are “oiled”", data)
    assert stands("Bring the threads and seats into the state of the record", data)


def test_inches_show_the_figure_of_the_record_beside_pound_feet() -> None:
    options = Options(units="inch")
    job, answer = demo(FULL, options)
    assert job.front is not None
    one = replace(job, front=replace(job.front, torque=job.front.torque[:1]))
    data = plain("job-card", one, answered(one, options), identity(FULL), options)
    assert answer.axles
    assert stands("89 lb-ft (120 N·m on record)", data)


@pytest.mark.parametrize("holes", [4, 5, 6])
def test_the_torque_sheet_has_a_box_for_every_fastener(holes: int) -> None:
    job, _ = demo(FLUSH)
    assert job.rear is not None
    other = replace(job, rear=replace(job.rear, hub=replace(job.rear.hub, bolt_circle=f"{holes}x112", chord_mm=None)))
    answer = answered(other, Options())
    rows = table_rows(sheet_of("torque", other, answer, identity(FLUSH), Options()), "Fastener")
    assert [row[0] for row in rows] == [str(number) for number in range(1, holes + 1)]
    assert all(cell == "" for row in rows for cell in row[1:])


def test_an_adapter_has_two_joints_to_initial() -> None:
    data = pdf(ADAPTER, "torque")
    assert stands("Inner joint, adapter on hub", data)
    assert stands("Outer joint, wheel on adapter", data)


def table_rows(sheet: Sheet, first: str) -> tuple[tuple[str, ...], ...]:
    from hubwright.reports.content import Table

    return next(
        block.rows for block in sheet.blocks if isinstance(block, Table) and block.columns[0].title == first
    )  # fmt: skip


def test_every_step_of_the_card_has_a_box_for_each_wheel_that_is_touched() -> None:
    lists = [block for block in content(LOCK, "job-card").blocks if isinstance(block, Checklist)]
    assert lists
    assert all(block.columns == ("FL", "FR", "RL", "RR") for block in lists)
    assert all(
        block.columns == ("RL", "RR") for block in content(FLUSH, "job-card").blocks if isinstance(block, Checklist)
    )


def test_the_refusal_names_every_window_and_what_is_missing_in_mm() -> None:
    data = pdf(FLUSH, "refusal")
    for text in (
        "20 mm per side",
        "At most 5 mm plain disc, per side",
        "14.5 mm short",
        "3.3 mm short",
        "approval needed",
    ):
        assert stands(text, data), text


def test_the_refusal_says_of_each_window_by_how_much_and_leaves_out_what_refuses_nothing() -> None:
    rows = [row for row in all_rows(content(LOCK, "refusal")) if len(row) == 3]
    assert [(row[0], row[2]) for row in rows] == [("Clearance", "6.5 mm short")]
    rows = [row for row in all_rows(content(FLUSH, "refusal")) if len(row) == 3]
    assert [row[2] for row in rows] == ["21.5 mm short", "3.3 mm short", "–", "14.5 mm short", "3.3 mm short", "–"]


def test_the_hand_over_tells_the_customer_of_a_spare_that_cannot_be_mounted() -> None:
    assert stands("the steel spare is flat: it cannot be mounted", pdf(ADAPTER, "hand-over"))


def test_nothing_is_recorded_as_refused_when_every_wish_is_met() -> None:
    assert "refusal" in kinds_for(demo(FLUSH)[1])
    assert "refusal" not in kinds_for(demo(ADAPTER)[1])


def test_the_measuring_sheet_shows_every_gap_on_its_side_with_doubt_and_method() -> None:
    rows = [row for row in all_rows(content(FLUSH, "measuring")) if row[0] == "arch lip, inner edge"]
    assert rows == [
        ("arch lip, inner edge", "parked", "29.0 mm ± 1.0 mm (blocks between)", "24.0 mm ± 1.0 mm (blocks between)"),
        ("arch lip, inner edge", "bump 46 mm", "14.5 mm ± 1.0 mm (blocks between)", "9.5 mm ± 1.0 mm (blocks between)"),
        (
            "arch lip, inner edge",
            "bump 71 mm",
            "19.0 mm ± 1.0 mm (blocks between)",
            "14.0 mm ± 1.0 mm (blocks between)",
        ),
    ]


def test_a_blank_measuring_sheet_holds_no_reading() -> None:
    for row in all_rows(content(FLUSH, "measuring-blank")):
        assert row[-2:] == ("", "")


def all_rows(sheet: Sheet) -> list[tuple[str, ...]]:
    from hubwright.reports.content import Table

    return [row for block in sheet.blocks if isinstance(block, Table) for row in block.rows]


def test_the_hand_over_says_which_fasteners_belong_to_which_wheels() -> None:
    rows = all_rows(content("estate-other-wheels", "hand-over"))
    job, answer = demo("estate-other-wheels")
    sets = {wheel_set.title for _, axle in job.axles for wheel_set in axle.wheel_set}
    assert sets
    for name in sets:
        assert any(name in row[0] for row in rows), name
    for axle in answer.axles:
        for choice in axle.plan.recommended.fasteners if axle.plan.recommended else ():
            assert any(choice.wheel_set in row[0] and choice.title in row for row in rows)


def test_the_inspection_file_holds_every_law_row_with_its_limit_and_source() -> None:
    data = pdf(FLUSH, "inspection")
    best = demo(FLUSH)[1].axle("rear").plan.recommended
    assert best is not None
    steps = [step for finding in best.every if finding.question == "law" for step in finding.working]
    assert steps
    for step in steps:
        assert stands(step.text, data)
        assert stands(step.source, data)
    assert stands(identity(FLUSH).sha256, data)


def test_proof_readings_stand_beside_what_was_predicted() -> None:
    rows = [row for row in all_rows(content(FLUSH, "inspection")) if "bump 46 mm" in row[1] and len(row) == 6]
    assert [row[2:4] for row in rows] == [("16.5 mm", "10.0 mm"), ("11.5 mm", "10.0 mm")]


def test_customer_appointment_and_photographs_come_from_the_store() -> None:
    import datetime

    job, answer = demo(FLUSH)
    photographs = (
        Photograph("lip.jpg", "ab" * 32, "left arch", b"\xff\xd8\xffno picture"),
        Photograph("x.txt", "cd" * 32),
    )
    own = Identity("0" * 64, "k7m2", 3, customer="M. Example", due=datetime.date(2026, 6, 1), photographs=photographs)
    card = plain("job-card", job, answer, own)
    assert stands("M. Example", card)
    assert stands("2026-06-01", card)
    file = plain("inspection", job, answer, own)
    assert stands("lip.jpg", file)
    assert stands("cd" * 32, file)


@pytest.mark.parametrize("kind", tuple(KINDS))
def test_a_job_with_almost_nothing_in_it_has_every_sheet_it_is_said_to_have(kind: str) -> None:
    if kind not in kinds_for(demo("bare")[1]):
        assert kind in ("torque", "parts", "hand-over", "disc-drawing", "refusal")
        return
    assert "NOTRELEASED" in pages(pdf("bare", kind))[0]


def test_a_released_car_says_so_and_one_measured_on_one_axle_does_not() -> None:
    job, answer = demo(LOCK)
    every = replace(answer, axles=tuple(replace(axle, released=True) for axle in answer.axles))
    half = replace(answer, axles=(replace(answer.axles[0], released=True), *answer.axles[1:]))
    assert state(every).startswith("Released")
    assert state(half).startswith("NOT RELEASED. Only")
    assert job.axles


def state(answer: Answer) -> str:
    job, _ = demo(LOCK)
    return sheet_of("job-card", job, answer, identity(LOCK), Options()).state


@pytest.mark.parametrize("kind", ["job-card", "torque", "hand-over"])
def test_german_paper_is_set_in_german_where_the_catalogue_has_the_words(kind: str) -> None:
    options = Options(language="de", units="metric")
    job, answer = demo(FLUSH, options)
    with spoken_as(options):
        made = sheet_of(kind, job, answer, identity(FLUSH), options)
    data = pdf(FLUSH, kind, options)
    assert [text for text in sentences(made) if not stands(text, data)] == []
    assert squeezed("04.05.2026") in pages(data)[0]
