"""A broken job file gives every fault at once: its line, the field as typed, what was wanted and what was given."""

from __future__ import annotations

from pathlib import Path

import pytest

from hubwright.errors import BadInput, Fault
from hubwright.jobs.jobfile import LARGEST_FILE_BYTES, load, parse

HEAD = 'hubwright_job = 1\ntitle = "t"\n[request]\nuse = "street"\n'
POINT = '[rear]\n[[rear.left.point]]\nname = "lip"\nroom = "outside"\n'
BOLT = '[rear]\n[rear.fastener]\nkind = "bolt"\n'

# Each line that holds a fault ends in #! (once for each fault); the faults are listed as field, wanted, given.
CASES: dict[str, tuple[str, list[tuple[str, str, str]]]] = {
    "wrong types, one in each line": (
        HEAD + "[car]\nseats = true #!\nsprings_age_days = 'old' #!\nlevel_floor = 1 #!\nplate = 7 #!\n",
        [
            ("car.seats", "a whole number", "true"),
            ("car.springs_age_days", "a number", "'old'"),
            ("car.level_floor", "true or false", "1"),
            ("car.plate", "a text", "7"),
        ],
    ),
    "a text where a table belongs, and a table where a list belongs": (
        HEAD + 'shop = "ours" #!\n[rear]\nhub = "5x112" #!\n[rear.motion] #!\ntravel_mm = 3\n',
        [
            ("request.shop", "a key of this table", "unknown key shop"),
            ("rear.hub", "a table", "'5x112'"),
            ("rear.motion", "a list", "a table"),
        ],
    ),
    "impossible numbers": (
        HEAD + "[rear]\ntrack_mm = 15400 #!\nbump_travel_mm = -71 #!\nscrub_radius_mm = 1e9 #!\n"
        "[[shop.disc]]\nthickness_mm = 0 #!\nkind = 'plain'\n",
        [
            ("rear.track_mm", "at most 3500", "15400"),
            ("rear.bump_travel_mm", "0 to 3000", "-71"),
            ("rear.scrub_radius_mm", "at most 300", "1000000000.0"),
            ("shop.disc[1].thickness_mm", "more than 0", "0"),
        ],
    ),
    "limits speak the unit that was typed": (
        HEAD + "[rear]\ntrack_in = 1540 #!\nbump_travel_in = { value = 200 } #!\n",
        [("rear.track_in", "at most 137.795", "1540"), ("rear.bump_travel_in", "0 to 118.11", "200")],
    ),
    "not a number and infinite": (
        HEAD + "[rear]\ntrack_mm = inf #!\nbump_travel_mm = nan #!\nscrub_radius_in = -inf #!\n"
        "droop_travel_mm = { value = 80, u = nan } #!\n",
        [
            ("rear.track_mm", "a finite number", "inf"),
            ("rear.bump_travel_mm", "0 to 3000", "nan"),
            ("rear.scrub_radius_in", "a finite number", "-inf"),
            ("rear.droop_travel_mm", "a doubt u", "nan"),
        ],
    ),
    "unknown keys, with the one that was meant": (
        HEAD + 'reazon = "flush" #!\n[rear]\ntrak_mm = 1540 #!\n[rear.hub]\nspigot_lenght_in = 0.5 #!\n',
        [
            ("request.reazon", "a key of this table", "unknown key reazon"),
            ("rear.trak_mm", "a key of this table", "unknown key trak_mm"),
            ("rear.hub.spigot_lenght_in", "a key of this table", "unknown key spigot_lenght_in"),
        ],
    ),
    "both spellings of one key": (
        HEAD + POINT + "[[rear.left.point.reading]]\ntravel_mm = 0\ngap_mm = 25\ngap_in = 1 #!\n",
        [("rear.left.point[1].reading[1].gap_in", "one spelling of this key", "gap_in too")],
    ),
    "fields that are missing": (
        HEAD + "[[rear.wheel_set]] #!\nname = 'summer'\n[rear.fastener] #!\nthread = 'M14x1.5'\n",
        [("rear.wheel_set[1].role", "this field", "nothing"), ("rear.fastener.kind", "this field", "nothing")],
    ),
    "words that are none of the choices": (
        HEAD.replace('"street"', '"rally" #!') + "[rear]\n[rear.hub]\nmaterial = 'wood' #!\n",
        [("request.use", "'street'", "'rally'"), ("rear.hub.material", "'steel' or 'aluminium'", "'wood'")],
    ),
    "dates that are none": (
        "date = 2026-05-04T10:00:00 #!\n" + HEAD,
        [("date", "a date such as 2026-05-04", "2026-05-04 10:00:00")],
    ),
    "a count of seconds is no date": ("date = 1777852800 #!\n" + HEAD, [("date", "a date", "1777852800")]),
    "a text like a date that is in no calendar": ('date = "2026-02-30" #!\n' + HEAD, [("date", "a date", "2026-02-30")]),
    "readings that are none": (
        HEAD + "[rear]\nbump_travel_mm = [] #!\ndroop_travel_mm = { u = 1 } #!\n[rear.left]\n"
        "ride_height_mm = { value = 350, by = 'nobody' } #!\ncover_mm = { value = 3, doubt = 1 } #!\n"
        "camber_deg = [-1.5, 'two'] #!\n",
        [
            ("rear.bump_travel_mm", "at least one repeat", "a list of 0"),
            ("rear.droop_travel_mm", "a reading with a value", "nothing"),
            ("rear.left.ride_height_mm", "workshop or customer", "'nobody'"),
            ("rear.left.cover_mm", "keys value, u, method, by", "the key doubt"),
            ("rear.left.camber_deg", "-20 to 20", "'two'"),
        ],
    ),
    "lists without end": (
        HEAD + f"[rear]\nbump_travel_mm = [{'71, ' * 101}] #!\nmotion = [{'{ travel_mm = 0, camber_deg = 0 }, ' * 501}] #!\n",
        [
            ("rear.bump_travel_mm", "at most 100 repeats", "a list of 101"),
            ("rear.motion", "at most 500", "a list of 501"),
        ],
    ),
    "a whole number beyond any float": (
        HEAD + f"[rear]\ntrack_mm = {'9' * 400} #!\nbump_travel_in = {'9' * 400} #!\n",
        [("rear.track_mm", "a number", "9999"), ("rear.bump_travel_in", "0 to 118.11", "beyond all measure")],
    ),
    "threads that cannot be read": (
        HEAD + BOLT + "thread = 'M14' #!\n[[shop.fastener]]\nkind = 'nut'\nthread = 'W1/2' #!\n",
        [
            ("shop.fastener[1].thread", "M and a diameter", "'W1/2'"),
            ("rear.fastener.thread", "a pitch", "'only M14'"),
        ],
    ),
    "two fitted sets": (
        HEAD + "[rear]\n[[rear.wheel_set]]\nrole = 'fitted'\n[[rear.wheel_set]]\nrole = 'fitted' #!\n",
        [("rear.wheel_set[2].role", "one fitted set", "a second one")],
    ),
    "two gaps in one state": (
        HEAD + POINT + "u_mm = 0.5\nreading = [\n  { travel_mm = 0, gap_mm = 20 },\n  { travel_mm = 0, gap_mm = 40 }, #!\n]\n",
        [("rear.left.point[1].reading[2].gap_mm", "of the other reading of this state, 20", "40")],
    ),
    "readings beyond the travel and the lock": (
        HEAD + "[front]\nsteer_max_deg = 36\nbump_travel_mm = 60\n[[front.left.point]]\nname = 'lip'\nroom = 'outside'\n"
        "reading = [\n  { travel_mm = 90, gap_mm = 20 }, #!\n  { travel_mm = 0, steer_deg = 45, gap_mm = 20 }, #!\n]\n",
        [
            ("front.left.point[1].reading[1].travel_mm", "full bump, 60", "90"),
            ("front.left.point[1].reading[2].steer_deg", "full lock, 36", "45"),
        ],
    ),
    "a bolt on a hub with studs": (
        HEAD + BOLT.replace("kind = ", "kind = ").replace('"bolt"\n', '"bolt" #!\n') + "[rear.hub]\nstud_length_mm = 38\n",
        [("rear.fastener.kind", "nut, since the hub has studs", "bolt")],
    ),
    "turns and millimetres that disagree": (
        HEAD + BOLT + "thread = 'M14x1.5'\nengagement_mm = 13.5\nengagement_turns = 5 #!\n",
        [("rear.fastener.engagement_turns", "about 9.0 for 13.5 mm", "5")],
    ),
    "a nose thicker than the spigot and a lip inside out": (
        HEAD + "[[shop.disc]]\nthickness_mm = 15\nkind = 'lipped'\nlip_outer_mm = 57\nlip_inner_mm = 66 #!\n"
        "[rear]\n[rear.hub]\nspigot_diameter_mm = 57.1\nnose_diameter_mm = 60 #!\n",
        [
            ("shop.disc[1].lip_inner_mm", "less than the lip's outside 57", "66"),
            ("rear.hub.nose_diameter_mm", "at most the spigot's 57.1", "60"),
        ],
    ),
    "a lipped disc without a lip, and a lip on a plain one": (
        HEAD + "[[shop.disc]]\nthickness_mm = 15\nkind = 'lipped'\nlip_length_mm = 0 #!\n"
        "[[shop.disc]]\nthickness_mm = 5\nkind = 'plain'\nlip_length_mm = 8 #!\n",
        [
            ("shop.disc[1].lip_length_mm", "a lip on a lipped disc", "0"),
            ("shop.disc[2].lip_length_mm", "no lip on a plain disc", "8"),
        ],
    ),
    "one radius, one travel and one point twice": (
        HEAD + "[rear]\nmotion = [\n  { travel_mm = 10, camber_deg = -1 },\n  { travel_mm = 10.2, camber_deg = -2 }, #!\n]\n"
        "[[rear.wheel_set]]\nrole = 'fitted'\n[rear.wheel_set.tyre]\nhalf_width = [\n"
        "  { radius_mm = 300, half_width_mm = 110 },\n  { radius_mm = 300, half_width_mm = 111 }, #!\n]\n"
        "[[rear.left.point]]\nname = 'lip'\nroom = 'outside'\n[[rear.left.point]]\nname = 'lip' #!\nroom = 'outside'\n",
        [
            ("rear.wheel_set[1].tyre.half_width[2].radius_mm", "each radius once", "300 again"),
            ("rear.motion[2].travel_mm", "each travel once", "10.2 after 10"),
            ("rear.left.point[2].name", "each point once", "'lip'"),
        ],
    ),
    "a wish without its figure": (
        HEAD + "[rear]\n[rear.wish] #!\naim = 'thickness'\n",
        [("rear.wish", "thickness_mm for the aim thickness", "none")],
    ),
    "no version": (HEAD.removeprefix("hubwright_job = 1\n"), [("hubwright_job", "version 1", "nothing")]),
    "a version of tomorrow": (HEAD.replace("job = 1", "job = 2 #!"), [("hubwright_job", "version 1", "2")]),
    "a version that is a truth value": (HEAD.replace("job = 1", "job = true #!"), [("hubwright_job", "version 1", "true")]),
    "several lines that are not TOML": (
        'hubwright_job = 1\ntitle = "t #!\n[request]\nuse = street #!\n[rear #!\ntrack_mm = = 3 #!\n[[rear.left.point] #!\n',
        [("the text", "TOML", given) for given in ('title = "t', "use = street", "[rear", "track_mm", "[[rear.left.point]")],
    ),
    "decimal commas": (
        HEAD + "[rear]\ntrack_mm = 1540,5 #!\nbump_travel_mm = 71,5 #!\n",
        [("the text", "TOML", "track_mm = 1540,5"), ("the text", "TOML", "bump_travel_mm = 71,5")],
    ),
    "keys and tables twice": (
        HEAD + '[rear]\ntrack_mm = 1540\ntrack_mm = 1550 #!\n[rear.left]\ncover_mm = 3\n[rear] #!\n[rear.left] #!\ncover_mm = 4\n',
        [("the text", "each key and each table once", given) for given in ("track_mm = 1550", "[rear]", "[rear.left]")],
    ),
    "a day in no calendar": (HEAD + "[rear]\nday = 2026-13-45 #!\n", [("the text", "TOML", "day = 2026-13-45")]),
    "thousands of digits": (HEAD + f"[rear]\ntrack_mm = {'1' * 5000} #!\n", [("the text", "usual size", "more digits")]),
    "half a character": ("title = '\ud800'\n", [("the text", "UTF-8", "half a character")]),
    "brackets without end": (HEAD + "x = " + "[" * 100_000, [("the text", "TOML", "too many")]),
    "tables without end": (HEAD + ".".join("a" * 50_000) + " = 1\n", [("the text", "TOML", "too many")]),
}  # fmt: skip


def faults_of(text: str) -> tuple[Fault, ...]:
    with pytest.raises(BadInput) as caught:
        parse(text)
    return caught.value.faults


@pytest.mark.parametrize("name", CASES)
def test_every_fault_of_a_broken_job_is_named_with_its_line(name: str) -> None:
    text, expected = CASES[name]
    found = sorted(faults_of(text), key=lambda fault: (fault.line or 0, fault.field))
    marked = [number for number, line in enumerate(text.split("\n"), 1) if "#!" in line]
    if marked:
        assert [fault.line for fault in found] == marked
    wanted = sorted(expected) if not marked else expected
    by_line = {fault.field + fault.given: fault for fault in found}
    assert len(by_line) == len(wanted)
    for field, want, given in wanted:
        assert any(fault.field == field and want in fault.wanted and given in fault.given for fault in found), (
            f"{field}: {want}; {given} not among {[str(fault) for fault in found]}"
        )


def test_a_key_that_is_nearly_right_comes_with_the_right_one() -> None:
    (fault,) = faults_of(HEAD + "[rear]\ntrak_mm = 1540\n")
    assert fault.todo == "Did you mean track_mm?"


def test_the_second_spelling_of_a_key_names_the_first() -> None:
    (fault,) = faults_of(HEAD + "[rear]\ntrack_in = 60\ntrack_mm = 1540\n")
    assert "track_mm stands here as well" in fault.todo


def test_faults_come_in_the_order_of_the_file_whatever_the_order_of_the_nouns() -> None:
    found = faults_of(HEAD + "[shop.policy]\ndoubt_k = 9\n[rear]\ntrack_mm = 1\n[car]\nseats = 0\n")
    assert [fault.line for fault in found] == [6, 8, 10]


def test_a_message_says_line_field_wanted_and_given_in_one_line() -> None:
    with pytest.raises(BadInput) as caught:
        parse(HEAD + "[rear]\ntrack_mm = 15400\n", "car.toml")
    assert str(caught.value) == "car.toml: 1 fault\n  line 6, rear.track_mm: wanted at most 3500; given 15400."


def test_a_text_that_begins_with_a_byte_order_mark_is_read() -> None:
    assert parse("\ufeff" + HEAD).title == "t"


FILES = {
    "empty": (b"", "an empty file"),
    "blank": (b" \n\t\n", "an empty file"),
    "binary": (bytes(range(256)), "other bytes at position 128"),
    "with zero bytes": (b"hubwright_job = 1\0", "binary data"),
    "UTF-16": ("hubwright_job = 1".encode("utf-16"), "other bytes at position 0"),
    "Latin-1": ('title = "Räder"'.encode("latin-1"), "other bytes at position 10"),
    "huge": (b"#" * (LARGEST_FILE_BYTES + 1), "more than that"),
}


@pytest.mark.parametrize("name", FILES)
def test_a_file_that_is_no_text_is_refused_by_what_it_is(name: str, tmp_path: Path) -> None:
    data, given = FILES[name]
    path = tmp_path / "job.toml"
    path.write_bytes(data)
    with pytest.raises(BadInput) as caught:
        load(path)
    assert [fault.given for fault in caught.value.faults] == [given]
    assert caught.value.source == "job.toml"


def test_a_folder_a_missing_file_and_an_impossible_name_are_refused(tmp_path: Path) -> None:
    for path, given in ((tmp_path, "a folder"), (tmp_path / "none.toml", "no such file"), ("a\0b", "zero byte")):
        with pytest.raises(BadInput) as caught:
            load(path)
        assert given in caught.value.faults[0].given


def test_a_file_without_end_is_refused_and_not_read_to_its_end() -> None:
    endless = Path("/dev/zero")
    if not endless.exists():
        pytest.skip("this system has no endless file")
    with pytest.raises(BadInput, match="at most 4 MiB"):
        load(endless)


def test_a_file_with_windows_line_ends_counts_its_lines_the_same(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes((HEAD + "[rear]\ntrack_mm = 1\n").replace("\n", "\r\n").encode())
    with pytest.raises(BadInput) as caught:
        load(path)
    assert [fault.line for fault in caught.value.faults] == [6]
