"""Jobs in and out, entries, two people on one job, undo, search: on both databases."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path

import pytest

from hubwright.errors import BadInput, StoreRefusal
from hubwright.store.cupboard import Cupboard
from hubwright.store.things import Query, Stage

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.toml"))
SPIGOT = "rear.hub.spigot_length_mm"
READINGS = "rear.left.point[1].reading"


def spigot(cupboard: Cupboard, job_id: str) -> object:
    return tomllib.loads(cupboard.job(job_id).text)["rear"]["hub"]["spigot_length_mm"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_job_file_comes_out_as_it_went_in(cupboard: Cupboard, path: Path) -> None:
    data = path.read_bytes()
    assert cupboard.job(cupboard.add(data, "Ann").job_id).data == data


@pytest.mark.parametrize(
    "data",
    [b'\xef\xbb\xbfhubwright_job = 1\r\ntitle = "\xf0\x9f\x9a\x97 \\u0000"\r\n[request]\r\nuse = "street"\r\n# end'],
)
def test_byte_order_mark_line_ends_and_odd_letters_stay_even_after_an_entry(cupboard: Cupboard, data: bytes) -> None:
    job_id = cupboard.add(data, "Ann").job_id
    cupboard.enter(job_id, [("front.track_mm", "1540")], "Bo", base=1)
    now = cupboard.job(job_id).data
    assert now.startswith(data.removesuffix(b"# end")) and b"track_mm = 1540" in now
    assert now.count(b"\n") == now.count(b"\r\n")
    assert cupboard.job(job_id, 1).data == data


def test_a_faulty_file_is_refused_with_every_fault_and_nothing_is_stored(cupboard: Cupboard) -> None:
    with pytest.raises(BadInput) as caught:
        cupboard.add(b'hubwright_job = 1\n[request]\nuse = "street"\n[car]\nseats = 0', "Ann")
    assert {fault.field for fault in caught.value.faults} == {"title", "car.seats"}
    assert cupboard.find() == ()


def test_an_entry_is_in_the_history_with_who_when_and_what(cupboard: Cupboard, job_id: str) -> None:
    receipt = cupboard.enter(job_id, [(SPIGOT, "12.4")], "Bo 🔧", base=1, note="read again")
    first, second = cupboard.history(job_id)
    assert (first.author, second.author, second.note, second.base) == ("Ann", "Bo 🔧", "read again", 1)
    assert receipt.changes == second.changes
    assert [(change.field, change.before, change.value) for change in second.changes] == [(SPIGOT, "12.5", "12.4")]
    assert first.at < second.at
    assert spigot(cupboard, job_id) == 12.4


def test_an_entry_sent_again_with_its_key_is_there_once(cupboard: Cupboard, job_id: str) -> None:
    asked = [(f"{READINGS}[+]", "{ travel_mm = 20, gap_mm = 20.0 }")]
    receipts = {cupboard.enter(job_id, asked, "Bo", base=1, key="form-7").revision for _ in range(3)}
    assert receipts == {2}
    assert len(cupboard.history(job_id)) == 2
    assert {cupboard.add(cupboard.job(job_id).data, "Ann", key="form-8").job_id for _ in range(2)} != {job_id}
    assert len(cupboard.find()) == 2


def test_two_people_in_different_fields_or_adding_to_one_list_are_merged(cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(job_id, [(SPIGOT, "12.4")], "Bo", base=1)
    cupboard.enter(job_id, [(f"{READINGS}[+]", "{ travel_mm = 20, gap_mm = 22.0 }")], "Cy", base=1)
    receipt = cupboard.enter(job_id, [(f"{READINGS}[+]", "{ travel_mm = 30, gap_mm = 18.0 }")], "Di", base=1)
    assert receipt.merged and receipt.aside is None
    tree = tomllib.loads(cupboard.job(job_id).text)["rear"]
    assert tree["hub"]["spigot_length_mm"] == 12.4
    assert [reading["travel_mm"] for reading in tree["left"]["point"][0]["reading"]] == [0, 46, 71, 20, 30]


def test_two_values_for_one_field_are_both_kept_and_the_second_person_is_told(cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(job_id, [(SPIGOT, "12.4")], "Bo", base=1)
    receipt = cupboard.enter(job_id, [(SPIGOT, "12.1"), ("rear.track_mm", "1541")], "Cy", base=1)
    assert receipt.aside is not None
    (clash,) = receipt.aside.clashes
    assert (clash.field, clash.asked, clash.stands, clash.author, clash.revision) == (SPIGOT, "12.1", "12.4", "Bo", 2)
    assert [change.field for change in receipt.changes] == ["rear.track_mm"]
    assert spigot(cupboard, job_id) == 12.4
    assert cupboard.asides(job_id) == (receipt.aside,)
    assert cupboard.find(Query(only_open_asides=True))[0].asides == 1
    cupboard.settle(receipt.aside.id, "Ann", take=True, base=3)
    assert spigot(cupboard, job_id) == 12.1
    assert cupboard.asides(job_id) == ()
    with pytest.raises(StoreRefusal, match="settled"):
        cupboard.settle(receipt.aside.id, "Cy", take=False, base=4)


def test_the_same_value_from_two_people_is_no_clash(cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(job_id, [(SPIGOT, "12.4")], "Bo", base=1)
    receipt = cupboard.enter(job_id, [(SPIGOT, "12.40")], "Cy", base=1)
    assert receipt.aside is None and receipt.revision == 2


def test_a_reading_that_contradicts_another_is_kept_aside_with_its_fault(cupboard: Cupboard, job_id: str) -> None:
    receipt = cupboard.enter(job_id, [(f"{READINGS}[+]", "{ travel_mm = 46, gap_mm = 60.0 }")], "Bo", base=1)
    assert receipt.revision == 1 and receipt.aside is not None
    assert receipt.aside.changes[0].value == "{ travel_mm = 46, gap_mm = 60.0 }"
    assert "14.5" in str(receipt.aside.faults[0])
    with pytest.raises(StoreRefusal, match="stays open"):
        cupboard.settle(receipt.aside.id, "Bo", take=True, base=1)
    cupboard.enter(job_id, [(f"{READINGS}[2].gap_mm", "58")], "Bo", base=1)
    assert cupboard.settle(receipt.aside.id, "Bo", take=True, base=2).changes[0].field == f"{READINGS}[4]"


def test_a_field_no_job_file_has_is_kept_aside_and_one_not_written_as_a_field_is_refused(
    cupboard: Cupboard, job_id: str
) -> None:
    assert cupboard.enter(job_id, [("rear.hub.spigott_mm", "3")], "Bo", base=1).aside is not None
    for field in ("rear..hub", "rear.left.point[0].name", "@colour", ""):
        with pytest.raises(BadInput):
            cupboard.enter(job_id, [(field, "3")], "Bo", base=1)


def test_an_edit_that_would_touch_anything_else_in_the_text_is_kept_aside(cupboard: Cupboard) -> None:
    data = b'hubwright_job = 1\ntitle = "x"\n[request]\nuse = "street"\n[front.right]\nride_height_mm = 352\n'
    job_id = cupboard.add(data, "Ann").job_id
    receipt = cupboard.enter(job_id, [("front.right", None)], "Bo", base=1)  # the table front is written nowhere else
    assert receipt.aside is not None and "something else in the file" in receipt.aside.faults[0].given
    assert cupboard.job(job_id).data == data


def test_undo_brings_back_the_very_bytes_and_undo_of_undo_the_entry(cupboard: Cupboard, job_id: str) -> None:
    before = cupboard.job(job_id).data
    cupboard.enter(job_id, [(SPIGOT, "12.4"), ("front.left.camber_deg", "-1"), ("@customer", "Zoë")], "Bo", base=1)
    after = cupboard.job(job_id)
    cupboard.undo(job_id, "Ann")
    assert cupboard.job(job_id).data == before and cupboard.job(job_id).card == {}
    cupboard.undo(job_id, "Ann")
    assert cupboard.job(job_id).data == after.data and cupboard.job(job_id).card == after.card
    assert [revision.undoes for revision in cupboard.history(job_id)] == [None, None, 2, 3]


def test_undo_of_an_older_revision_leaves_what_came_later(cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(
        job_id, [("front.left.camber_deg", "-1"), (f"{READINGS}[+]", "{ travel_mm = 20, gap_mm = 22 }")], "Bo", base=1
    )
    cupboard.enter(job_id, [(SPIGOT, "12.4")], "Cy", base=2)
    cupboard.undo(job_id, "Ann", revision=2)
    tree, old = (tomllib.loads(cupboard.job(job_id, number).text) for number in (4, 1))
    assert tree.pop("rear")["hub"]["spigot_length_mm"] == 12.4
    old.pop("rear")
    assert tree == old
    assert len(tomllib.loads(cupboard.job(job_id).text)["rear"]["left"]["point"][0]["reading"]) == 3


def test_undo_is_refused_where_somebody_has_changed_the_place_since(cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(job_id, [(SPIGOT, "12.4")], "Bo", base=1)
    cupboard.enter(job_id, [(SPIGOT, "12.3")], "Cy", base=2)
    with pytest.raises(StoreRefusal, match="revision 3 by Cy"):
        cupboard.undo(job_id, "Ann", revision=2)
    with pytest.raises(StoreRefusal, match="first"):
        cupboard.undo(job_id, "Ann", revision=1)


def test_an_item_taken_out_of_a_list_does_not_move_somebody_elses_reading(cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(job_id, [(f"{READINGS}[1]", None)], "Bo", base=1)
    receipt = cupboard.enter(job_id, [(f"{READINGS}[2].gap_mm", "14.0")], "Cy", base=1)
    assert receipt.aside is not None and receipt.aside.changes[0].value == "14.0"
    receipt = cupboard.enter(job_id, [(f"{READINGS}[1]", "{ travel_mm = 46, gap_mm = 14.5 }")], "Cy", base=1)
    assert receipt.aside is not None, "the same reading stands there, but it is another one"
    gaps = [item["gap_mm"] for item in tomllib.loads(cupboard.job(job_id).text)["rear"]["left"]["point"][0]["reading"]]
    assert gaps == [14.5, 19.0]


@pytest.mark.parametrize("where", [READINGS, "shop.disc"])
def test_an_item_taken_out_of_a_list_comes_back_between_the_others(cupboard: Cupboard, job_id: str, where: str) -> None:
    before = tomllib.loads(cupboard.job(job_id).text)
    cupboard.enter(job_id, [(f"{where}[2]", None)], "Bo", base=1)
    cupboard.enter(job_id, [("@note", "something else")], "Cy", base=2)
    cupboard.undo(job_id, "Ann", revision=2)
    assert tomllib.loads(cupboard.job(job_id).text) == before
    late = cupboard.enter(job_id, [(f"{where}[2]", "{ travel_mm = 1 }")], "Di", base=2)
    assert late.aside is not None and late.aside.clashes[0].author == "Ann"
    cupboard.undo(job_id, "Ann")
    with pytest.raises(StoreRefusal):
        cupboard.undo(job_id, "Ann", revision=2)


def test_a_whole_item_of_a_list_of_tables_can_be_replaced(cupboard: Cupboard, job_id: str) -> None:
    receipt = cupboard.enter(job_id, [("shop.disc[2]", '{ thickness_mm = 4, kind = "plain" }')], "Bo", base=1)
    assert receipt.aside is None
    assert [disc["thickness_mm"] for disc in tomllib.loads(cupboard.job(job_id).text)["shop"]["disc"]][:3] == [3, 4, 8]


def test_an_entry_that_takes_an_item_out_goes_in_whole_or_not_at_all(cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(job_id, [(f"{READINGS}[1].gap_mm", "29.5")], "Bo", base=1)
    asked = [(f"{READINGS}[1]", None), (f"{READINGS}[2].gap_mm", "18.5")]
    receipt = cupboard.enter(job_id, asked, "Cy", base=1)
    assert receipt.revision == 2 and receipt.aside is not None
    assert [(change.field, change.value) for change in receipt.aside.changes] == asked


def test_a_whole_file_handed_back_goes_in_byte_for_byte(cupboard: Cupboard, job_id: str) -> None:
    edited = cupboard.job(job_id).data.replace(b"spigot_length_mm = 12.5", b"spigot_length_mm   =   12.4 # again")
    receipt = cupboard.take(job_id, edited, "Bo", base=1)
    assert cupboard.job(job_id).data == edited
    assert [(change.field, change.value) for change in receipt.changes] == [(SPIGOT, "12.4")]


def test_a_whole_file_handed_back_late_is_merged_with_its_comments(cupboard: Cupboard, job_id: str) -> None:
    old = cupboard.job(job_id).data
    cupboard.enter(job_id, [("rear.track_mm", "1541")], "Cy", base=1)
    edited = old.replace(b"spigot_length_mm = 12.5", b"spigot_length_mm = 12.4 # again") + b"# end\n"
    receipt = cupboard.take(job_id, edited, "Bo", base=1)
    assert receipt.merged and receipt.aside is None
    assert cupboard.job(job_id).data == edited.replace(b"track_mm = 1540", b"track_mm = 1541", 1)


def test_a_whole_file_that_clashes_or_is_faulty_is_kept_aside_as_it_is(cupboard: Cupboard, job_id: str) -> None:
    old = cupboard.job(job_id).data
    cupboard.enter(job_id, [(SPIGOT, "12.4")], "Cy", base=1)
    clashing = old.replace(b"spigot_length_mm = 12.5", b"spigot_length_mm = 11 # mine")
    receipt = cupboard.take(job_id, clashing, "Bo", base=1)
    assert receipt.aside is not None and receipt.aside.clashes[0].stands == "12.4"
    assert cupboard.asides(job_id)[0].given == clashing
    faulty = cupboard.job(job_id).data.replace(b'use = "street"', b'use = "moon"')
    receipt = cupboard.take(job_id, faulty, "Bo", base=2)
    assert receipt.aside is not None and receipt.aside.given == faulty and receipt.aside.faults
    assert spigot(cupboard, job_id) == 12.4


def test_released_is_held_back_until_the_readings_say_so(cupboard: Cupboard, job_id: str) -> None:
    with pytest.raises(StoreRefusal, match="not measured with"):
        cupboard.enter(job_id, [("@stage", Stage.RELEASED.value)], "Bo", base=1)
    cupboard.enter(job_id, [("@stage", "assessed"), ("@due", "2026-06-01")], "Bo", base=1)
    assert not cupboard.find(Query(stage=Stage.ASSESSED))[0].outdated
    cupboard.enter(job_id, [(SPIGOT, "12.4")], "Bo", base=2)
    assert cupboard.find(Query(stage=Stage.ASSESSED))[0].outdated


def fitted(side: str, gaps_mm: tuple[float, float, float]) -> list[tuple[str, str | None]]:
    """The arch lip rolled and the gaps read again with the 5 mm disc on."""
    states = zip((0, 46, 71), gaps_mm, strict=True)
    readings = ", ".join(f"{{ travel_mm = {at}, gap_mm = {gap}, disc_mm = 5 }}" for at, gap in states)
    return [(f"rear.{side}.point[1].work", None), (f"rear.{side}.point[1].reading", f"[{readings}]")]


def test_a_job_measured_with_its_disc_fitted_may_be_called_released_until_another_axle_is_asked_for(
    cupboard: Cupboard, job_id: str
) -> None:
    asked = [*fitted("left", (31.0, 16.5, 21.0)), *fitted("right", (26.0, 11.5, 16.0))]
    assert cupboard.enter(job_id, asked, "Bo", base=1).aside is None
    cupboard.enter(job_id, [("@stage", "released")], "Bo", base=2)
    assert [line.outdated for line in cupboard.find(Query(stage=Stage.RELEASED))] == [False]
    cupboard.enter(job_id, [("front.wish", '{ aim = "widest" }')], "Bo", base=3)
    assert [line.outdated for line in cupboard.find(Query(stage=Stage.RELEASED))] == [True]
    with pytest.raises(StoreRefusal, match="front"):
        cupboard.enter(job_id, [("@stage", Stage.WAITING.value)], "Bo", base=4)


def test_search_finds_by_everything_it_promises(cupboard: Cupboard, job_id: str) -> None:
    cupboard.enter(
        job_id,
        [("@customer", "Zoë Müller 🚗"), ("@due", "2026-06-01"), ("@complaint", "rubs at 100% load")],
        "Bo",
        base=1,
    )
    other = cupboard.add(EXAMPLES[-1].read_bytes(), "Ann").job_id
    for query in (
        Query(words="zoe FLUSH"), Query(words="muller"), Query(words="Müller 🚗"), Query(title="lowered HATCH"),
        Query(plate="demo-101"), Query(words="demo101"), Query(customer="zoë"), Query(words="235/40R18"),
        Query(words="alignment lift"), Query(words="100%"), Query(due_by=date(2026, 6, 1)),
        Query(words="roll arch"),
    ):  # fmt: skip
        assert [line.id for line in cupboard.find(query)] == [job_id], query
    for query in (
        Query(words="%"), Query(words="flush_"), Query(title="\\"), Query(due_by=date(2026, 5, 31)),
    ):  # fmt: skip
        assert other not in [line.id for line in cupboard.find(query)], query
    assert cupboard.find(Query(words="z%e")) == ()
    assert [line.id for line in cupboard.find(Query(axle="rear", words="lowered"))] == [job_id]
    assert job_id not in [line.id for line in cupboard.find(Query(axle="front"))]
    assert len(cupboard.find(Query(since=date(2026, 5, 4), until=date(2026, 5, 4), words="lowered"))) == 1
    assert cupboard.find(Query(since=date(2027, 1, 1))) == ()
    assert [line.id for line in cupboard.find(Query(limit=1))] == [other]
    assert [line.id for line in cupboard.find(Query(limit=1, skip=1))] == [job_id]


def test_a_job_is_known_by_the_first_letters_of_its_name(cupboard: Cupboard, job_id: str) -> None:
    assert cupboard.name(job_id[:5].upper()) == job_id
    for wrong in ("", "%", "nothing"):
        with pytest.raises(StoreRefusal):
            cupboard.name(wrong)


def test_a_job_or_revision_that_is_not_there_is_refused(cupboard: Cupboard, job_id: str) -> None:
    for base in (0, 2, -1):
        with pytest.raises(StoreRefusal):
            cupboard.enter(job_id, [(SPIGOT, "12")], "Bo", base=base)
    with pytest.raises(StoreRefusal):
        cupboard.enter("nothing", [(SPIGOT, "12")], "Bo", base=1)
    for author in ("", " ", "a\0b", "x" * 300, "\udc80"):
        with pytest.raises(BadInput):
            cupboard.enter(job_id, [(SPIGOT, "12")], author, base=1)


def test_what_was_confirmed_is_there_after_opening_again(place) -> None:  # type: ignore[no-untyped-def]  # Place of conftest
    with place.open() as first:
        job_id = first.add(EXAMPLES[0].read_bytes(), "Ann").job_id
        first.enter(job_id, [("@customer", "Zoë")], "Ann", base=1)
    with place.open() as second:
        assert second.job(job_id).card == {"@customer": "Zoë"}
        assert second.check().problems == ()


def test_names_typed_as_signatures_are_kept_on_the_card(cupboard: Cupboard, job_id: str) -> None:
    signed = [("@measured_by", "Mo"), ("@released_by", "Dee"), ("@handed_over", "A. Sample, 2026-05-04")]
    cupboard.enter(job_id, signed, "Dee", base=1)
    assert cupboard.job(job_id).card == dict(signed)


def test_a_reading_with_the_disc_that_keeps_its_margin_only_without_its_doubt_releases_nothing(
    cupboard: Cupboard, job_id: str
) -> None:
    """The lip was rolled, its gain still stands in the job: neither may make up for 10.4 mm read, 10 wanted, doubt 1."""
    cupboard.enter(job_id, [*fitted("left", (31.0, 16.5, 21.0)), *fitted("right", (25.0, 10.4, 15.0))], "Bo", base=1)
    with pytest.raises(StoreRefusal, match="not measured with the recommended disc"):
        cupboard.enter(job_id, [("@stage", "released")], "Bo", base=2)
