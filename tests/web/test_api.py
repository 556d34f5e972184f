"""The API: what goes in comes out, clashes are told by status, faults come all at once, foreign pages stay out."""

from __future__ import annotations

import io
import zipfile
from threading import Event
from time import sleep
from typing import Any

import httpx2 as httpx
import jsonschema
import pytest
from fastapi.routing import APIRoute
from tests.web.conftest import ROOT, Page, example

from hubwright.store.cupboard import Cupboard
from hubwright.web import working
from hubwright.web.api import PARTS
from hubwright.web.api.door import asked_by
from hubwright.web.app import create_app
from hubwright.web.desk import Desk
from hubwright.web.options import Options
from hubwright.web.space import corners

OURS = {"x-hubwright": "1"}
TOML = {**OURS, "content-type": "application/toml"}
BYTES = {**OURS, "content-type": "application/octet-stream"}
JOBS = "/api/v1/jobs"


def enter(page: Page, job_id: str, base: int, *readings: dict[str, Any], **more: Any) -> Any:
    """Enter readings; the answer."""
    return page.post(f"{JOBS}/{job_id}/entries", json={"base": base, "readings": list(readings), **more}, headers=OURS)


def test_a_job_file_comes_in_and_goes_out_byte_for_byte_with_its_revision_as_tag(page: Page) -> None:
    data = example("saloon-studs")
    added = page.post(f"{JOBS}?customer=A. Sample", content=data, headers=TOML)
    assert added.status_code == 201
    address = added.headers["location"]
    read = page.get(f"{address}/job.toml")
    assert (read.content, read.headers["etag"]) == (data, '"1"')
    assert page.get(f"{address}/job.toml", headers={"if-none-match": '"1"'}).status_code == 304
    assert page.get(address).json()["card"]["customer"] == "A. Sample"


def test_a_file_sent_twice_with_one_key_makes_one_job(page: Page, cupboard: Cupboard) -> None:
    for _ in range(2):
        page.post(f"{JOBS}?key=once", content=example("saloon-studs"), headers=TOML)
    assert len(cupboard.find()) == 1


def test_an_edited_file_from_an_old_revision_is_refused_and_merged_only_when_asked(page: Page, job_id: str) -> None:
    address, data = f"{JOBS}/{job_id}/job.toml", example("hatchback-rear-flush")
    assert page.put(address, content=data, headers=TOML).status_code == 428
    assert page.put(address, content=data, headers={**TOML, "if-match": "*"}).status_code == 412
    enter(page, job_id, 1, {"field": "car.plate", "value": "NEW 1"})
    edited = data.replace(b'title = "', b'title = "Again: ')
    stale = page.put(address, content=edited, headers={**TOML, "if-match": '"1"'})
    assert stale.status_code == 412
    assert "revision 2" in stale.json()["detail"]
    merged = page.put(f"{address}?merge=true", content=edited, headers={**TOML, "if-match": '"1"'})
    assert (merged.status_code, merged.headers["etag"]) == (200, '"3"')
    assert b"NEW 1" in page.get(address).content


def test_readings_are_entered_and_what_clashes_comes_back_in_the_receipt(page: Page, job_id: str) -> None:
    first = enter(page, job_id, 1, {"field": "rear.track_mm", "value": 1500}, {"field": "car.plate", "toml": '"A 1"'})
    assert first.json()["revision"] == 2
    assert first.headers["etag"] == '"2"'
    second = enter(page, job_id, 1, {"field": "car.plate", "value": "B 1"}, {"field": "@note", "value": "wet"})
    told = second.json()
    assert [change["field"] for change in told["changes"]] == ["@note"]
    assert [(c["asked"], c["stands"]) for c in told["aside"]["clashes"]] == [('"B 1"', '"A 1"')]
    waiting = page.get("/api/v1/asides").json()
    assert [item["id"] for item in waiting] == [told["aside"]["id"]]
    settled = page.post(
        f"{JOBS}/{job_id}/asides/{told['aside']['id']}", json={"decision": "take", "base": 3}, headers=OURS
    )
    assert settled.json()["revision"] == 4
    assert page.get(f"{JOBS}/{job_id}").json()["job"]["car"]["plate"] == "B 1"


def test_a_reading_of_any_shape_stands_in_the_file_as_toml(page: Page, job_id: str) -> None:
    tree = {"travel_mm": 60, "gap_mm": 16.25, "car_turned": True}
    enter(
        page,
        job_id,
        1,
        {"field": "rear.left.point[1].reading[+]", "value": tree},
        {"field": "car.plate", "value": 'say "ä"'},
    )
    found = page.get(f"{JOBS}/{job_id}/history").json()[-1]["changes"]
    assert [(change["field"], change["value"]) for change in found] == [
        ("rear.left.point[1].reading[4]", "{ travel_mm = 60, gap_mm = 16.25, car_turned = true }"), ("car.plate", '"say \\"ä\\""'),
    ]  # fmt: skip


def test_null_takes_a_field_out_and_a_value_must_be_stated(page: Page, job_id: str) -> None:
    missing = enter(
        page, job_id, 1, {"field": "car.plate"}, {"field": "@due", "value": 3}, {"field": "a", "value": [None]}
    )
    assert missing.status_code == 422
    assert [fault["field"] for fault in missing.json()["faults"]] == [
        "readings[1]",
        "readings[2].value",
        "readings[3].value",
    ]
    enter(page, job_id, 1, {"field": "car.plate", "value": None})
    assert "plate" not in page.get(f"{JOBS}/{job_id}").json()["job"]["car"]


def test_a_revision_is_taken_back(page: Page, job_id: str) -> None:
    enter(page, job_id, 1, {"field": "car.plate", "value": "X"})
    assert page.post(f"{JOBS}/{job_id}/undo", json={}, headers=OURS).json()["revision"] == 3
    assert page.get(f"{JOBS}/{job_id}/job.toml").content == example("hatchback-rear-flush")
    assert page.post(f"{JOBS}/{job_id}/undo", json={"revision": 1}, headers=OURS).status_code == 409


def test_every_fault_of_a_file_comes_at_once_with_its_line(page: Page) -> None:
    bad = example("saloon-studs").replace(b"hubwright_job = 1", b"hubwright_job = 1\nsize = 3\ncolour = 4")
    answer = page.post(JOBS, content=bad, headers=TOML)
    assert (answer.status_code, answer.headers["content-type"]) == (422, "application/problem+json")
    faults = answer.json()["faults"]
    assert [fault["field"] for fault in faults] == ["size", "colour"]
    assert all(fault["line"] for fault in faults)


def test_attachments_go_up_and_come_down(page: Page, job_id: str) -> None:
    address = f"{JOBS}/{job_id}/attachments"
    sent = page.post(f"{address}?name=../lip%20ä.png&note=left", content=b"\x89PNG\r\n\x1a\nx", headers=BYTES)
    assert sent.status_code == 201
    item = sent.json()
    assert (item["name"], item["kind"], item["note"]) == ("lip ä.png", "image/png", "left")
    read = page.get(f"{address}/{item['id']}")
    assert read.content == b"\x89PNG\r\n\x1a\nx"
    assert read.headers["content-disposition"].startswith("attachment")
    assert page.get(f"{JOBS}/nothere/attachments/{item['id']}").status_code == 404
    assert page.delete(f"{address}/{item['id']}", headers=OURS).status_code == 204
    assert page.get(address).json() == []
    assert len(page.get(f"{address}?also_removed=true").json()) == 1


@pytest.mark.slow
def test_the_answer_holds_its_published_schema_and_speaks_as_asked(page: Page, job_id: str) -> None:
    answer = page.get(f"{JOBS}/{job_id}/answer").json()
    jsonschema.validate(answer, page.get("/api/v1/schemas/answer").json())
    rear = next(axle for axle in answer["axles"] if axle["axle"] == "rear")
    assert rear["plans"][0]["windows"]
    inch = page.get(f"{JOBS}/{job_id}/answer?units=inch").json()
    assert " in" in inch["axles"][0]["decision"] and " mm" in answer["axles"][0]["decision"]
    for part in ("plans", "torque", "effects", "load", "law", "order", "wanted", "windows"):
        assert page.get(f"{JOBS}/{job_id}/axles/rear/{part}").status_code == 200, part
    assert page.get(f"{JOBS}/{job_id}/axles/rear/torque").json() == rear["torque"]


@pytest.mark.slow
def test_drawings_come_as_svg_and_as_tables(page: Page, job_id: str) -> None:
    corner = f"{JOBS}/{job_id}/axles/rear/left"
    for name in ("section", "gap"):
        drawn = page.get(f"{corner}/{name}.svg?thickness_mm=15")
        assert drawn.headers["content-type"] == "image/svg+xml"
        assert drawn.text.startswith("<svg")
        assert page.get(f"{corner}/{name}?thickness_mm=15").json()["rows"]
    assert page.get(f"{corner}/section.svg?thickness_mm=151").status_code == 422
    assert page.get(f"{corner}/room").status_code == 404


def test_a_job_goes_from_one_shop_to_another(page: Page, cupboard: Cupboard, job_id: str) -> None:
    zipped = page.get(f"{JOBS}/{job_id}/export").content
    assert zipfile.ZipFile(io.BytesIO(zipped)).testzip() is None
    assert page.post("/api/v1/import", content=zipped, headers=BYTES).json()["same"] == [job_id]
    assert page.post("/api/v1/import", content=zipped[:-9], headers=BYTES).status_code == 409
    assert zipfile.ZipFile(io.BytesIO(page.get("/api/v1/backup").content)).testzip() is None
    assert page.get("/api/v1/check").json()["problems"] == []


def test_what_a_foreign_page_can_send_changes_nothing(page: Page, cupboard: Cupboard) -> None:
    data = example("saloon-studs")
    for headers in ({"content-type": "text/plain"}, {"content-type": "application/toml"}, {"x-hubwright": "0"}):
        refused = page.post(JOBS, content=data, headers=headers)
        assert refused.status_code == 403, headers
    page.get("/")
    token = page.cookies["hw_form"]
    assert (
        page.post(JOBS, content=data, headers={"content-type": "application/toml", "x-form-token": token}).status_code
        == 201
    )
    assert len(cupboard.find()) == 1


def test_every_address_that_changes_something_asks_who_it_is() -> None:
    routes = [route for part in PARTS for route in part.router.routes if isinstance(route, APIRoute)]
    changing = [route for route in routes if route.methods - {"GET", "HEAD"}]
    assert len(changing) >= 8
    for route in changing:
        if route.name in ("sign_in", "sign_out"):
            continue
        calls = [dependency.call for dependency in route.dependant.dependencies]
        assert any(getattr(call, "__qualname__", "") == asked_by("measure").__qualname__ for call in calls), route.path


def test_the_right_status_for_what_cannot_be_read(page: Page, job_id: str) -> None:
    address = f"{JOBS}/{job_id}/entries"
    json_kind = {**OURS, "content-type": "application/json"}
    assert page.post(address, content=b"{", headers=json_kind).status_code == 400
    assert page.post(address, content=b"[" * 100_000, headers=json_kind).status_code == 400
    assert page.post(address, content=b"{}", headers=BYTES).status_code == 415
    assert page.post(JOBS, content=b"{}", headers=json_kind).status_code == 415
    assert page.post(JOBS, content=b"x" * (6 * 1024 * 1024), headers=TOML).status_code == 413
    assert page.get(f"{JOBS}/nothere").status_code == 404
    assert page.get(f"{JOBS}/{job_id}?revision=9").status_code == 404
    assert page.get(f"{JOBS}/%00").status_code == 400
    assert page.get(f"{JOBS}?words=%00").status_code == 400
    wrong = page.delete(JOBS, headers=OURS)
    assert (wrong.status_code, bool(wrong.headers["allow"])) == (405, True)
    assert page.get("/api/v1/about", headers={"host": "elsewhere.example"}).json()["status"] == 421


@pytest.mark.parametrize(
    "value",
    [
        '"\\ud800"',
        '"a\\u0000b"',
        "1e999",
        "9" * 400,
        "9" * 5000,
        "[" * 60 + "]" * 60,
        "NaN",
        '{"\\ud800":1}',
        '"\\u001b"',
    ],
)
def test_hostile_values_are_refused_with_words(page: Page, job_id: str, value: str) -> None:
    body = f'{{"base": 1, "readings": [{{"field": "car.description", "value": {value}}}]}}'.encode()
    answer = page.post(f"{JOBS}/{job_id}/entries", content=body, headers={**OURS, "content-type": "application/json"})
    assert answer.status_code in (200, 400, 422)
    if answer.status_code == 200:  # a text with a control character can be written; a number is put aside as a fault
        assert page.get(f"{JOBS}/{job_id}").status_code == 200


def test_the_page_about_the_api_lists_every_operation(page: Page) -> None:
    shown = page.get("/api").text
    described = page.get("/api/openapi.json").json()
    for path in described["paths"]:
        assert path in shown
    names = [operation["operationId"] for found in described["paths"].values() for operation in found.values()]
    assert len(names) == len(set(names))


@pytest.mark.slow
def test_every_sheet_comes_in_each_of_its_formats(page: Page, job_id: str) -> None:
    found = page.get(f"{JOBS}/{job_id}/papers").json()
    assert {"job-card", "torque"} <= {sheet["name"] for sheet in found}
    for sheet in found:
        for ending in sheet["formats"]:
            answer = page.get(f"{JOBS}/{job_id}/papers/{sheet['name']}?format={ending}&units=inch")
            assert answer.status_code == 200, (sheet["name"], ending, answer.text)
            assert answer.content.startswith(b"%PDF") or ending != "pdf"
    assert page.get(f"{JOBS}/{job_id}/papers.pdf?paper=letter").content.startswith(b"%PDF")
    assert page.get(f"{JOBS}/{job_id}/papers/nothing").status_code == 404
    assert page.get(f"{JOBS}/{job_id}/papers/job-card?format=dxf").status_code == 404


def test_settings_of_the_shop_go_out_and_in_as_a_file(page: Page) -> None:
    address = "/api/v1/shop/shop.toml"
    first = page.get(address)
    assert first.headers["etag"] == '"0"'
    put = page.put(address, content=first.content, headers={**TOML, "if-match": '"0"'})
    assert (put.status_code, put.json()["revision"]) == (200, 1)
    assert page.get(address).content == first.content
    entry = {"base": 1, "readings": [{"field": "policy.equal_sides", "value": True}]}
    told = page.post("/api/v1/shop/entries", json=entry, headers=OURS)
    assert told.json()["changes"][0]["value"] == "true"
    assert page.get("/api/v1/shop").json()["shop"]["policy"]["equal_sides"] is True
    assert page.put(address, content=first.content, headers={**TOML, "if-match": '"1"'}).status_code == 412
    assert len(page.get("/api/v1/shop/history").json()) == 2


def test_people_are_added_and_changed_and_faults_of_a_password_do_not_show_it(page: Page) -> None:
    bad = page.post("/api/v1/people", json={"name": "", "password": "secret-1", "role": "manage"}, headers=OURS)
    assert (bad.status_code, len(bad.json()["faults"])) == (422, 2)
    assert "secret-1" not in bad.text
    for name in ("Ann", "Bo"):
        person = {"name": name, "password": "four words in a row", "role": "manage"}
        assert page.post("/api/v1/people", json=person, headers=OURS).status_code == 201
    assert page.patch("/api/v1/people/Bo", json={"role": "measure"}, headers=OURS).json()["role"] == "measure"
    assert page.patch("/api/v1/people/Ann", json={"active": False}, headers=OURS).status_code == 409
    assert [person["role"] for person in page.get("/api/v1/people").json()] == ["manage", "measure"]


def test_a_program_signs_in_where_the_server_is_open_to_a_network(desk: Desk, cupboard: Cupboard) -> None:
    cupboard.people.add("Ann", "four words in a row", "manage", "Ann")
    cupboard.people.add("Bo", "four words in a row", "measure", "Ann")
    job_id = cupboard.add(example("saloon-studs"), "Ann").job_id
    app = create_app(desk, Options(network=True, hosts=("shop.example",)))
    with Page(app, base_url="http://shop.example") as page:
        assert page.get(f"{JOBS}/{job_id}").status_code == 401
        asked = {"name": "Bo", "password": "four words in a row"}
        assert page.post("/api/v1/sign-in", json=asked).status_code == 403
        assert page.post("/api/v1/sign-in", json={**asked, "password": "x"}, headers=OURS).status_code == 401
        token = page.post("/api/v1/sign-in", json=asked, headers=OURS).json()["token"]
        bo = {**OURS, "authorization": f"Bearer {token}"}
        entry = {"base": 1, "readings": [{"field": "rear.track_mm", "value": 1500}]}
        assert page.post(f"{JOBS}/{job_id}/entries", json=entry, headers=bo).status_code == 200
        assert cupboard.history(job_id)[-1].author == "Bo"
        decided = {"base": 2, "readings": [{"field": "@stage", "value": "closed"}]}
        assert page.post(f"{JOBS}/{job_id}/entries", json=decided, headers=bo).status_code == 403
        for address in ("/api/v1/people", "/api/v1/shop", "/api/v1/backup", f"{JOBS}/{job_id}/papers"):
            assert page.get(address, headers=bo).status_code == 403, address
        assert page.post(f"{JOBS}/{job_id}/undo", json={}, headers=bo).status_code == 403
        assert page.post("/api/v1/sign-out", headers=bo).status_code == 204
        assert page.get(f"{JOBS}/{job_id}", headers=bo).status_code == 401


def test_any_thickness_is_judged_as_if_it_lay_on_the_shelf(page: Page, job_id: str) -> None:
    address = f"{JOBS}/{job_id}/axles/rear/bench"
    wished = page.get(f"{address}?thickness_mm=20").json()
    assert (wished["disc"]["status"], wished["kept"], wished["waiting"]) == ("refused", True, False)
    assert any("right" in reason for reason in wished["disc"]["reasons"])
    between = page.get(f"{address}?thickness_mm=6.5&with_work=true").json()
    assert (between["kept"], bool(between["assumed"])) == (False, True)
    assert page.get(f"{address}?thickness_mm=0").json()["disc"]["thickness_mm"] == 0
    assert page.get(f"{address}").status_code == 422
    assert page.get(f"{JOBS}/{job_id}/axles/front/bench?thickness_mm=5").status_code == 404


def test_a_link_for_a_customer_is_made_told_once_and_revoked(page: Page, job_id: str) -> None:
    address = f"{JOBS}/{job_id}/links"
    made = page.post(address, json={"areas": ["rear"], "customer": "A. Sample", "days": 3}, headers=OURS)
    assert made.status_code == 201
    link = made.json()
    path = link["address"].removeprefix("http://127.0.0.1:8040")
    assert page.get(path).status_code == 200
    assert [found["address"] for found in page.get(address).json()] == [None]
    gone = page.delete(f"{address}/{link['id']}", headers=OURS)
    assert gone.json()["revoked_by"] == "Ann"
    assert page.get(path).status_code in (404, 410)
    assert page.post(address, json={"areas": ["shop"], "days": 0}, headers=OURS).status_code == 422


def test_law_is_told_by_country_and_day_with_its_sources(page: Page) -> None:
    assert "DE" in page.get("/api/v1/law").json()
    found = page.get("/api/v1/law/DE?on=2026-05-04").json()
    assert found["on"] == "2026-05-04" and found["rules"]
    assert all(rule["source"] and rule["how_seen"] for rule in found["rules"])
    assert page.get("/api/v1/law/XX").status_code == 404
    assert page.get("/api/v1/law/DE?on=soon").status_code == 422


def test_a_job_takes_over_what_the_shop_settled_since(page: Page, job_id: str) -> None:
    address = f"{JOBS}/{job_id}/shop"
    assert page.get(address).json() == []
    entry = {"base": 0, "readings": [{"field": "policy.least_pilot_mm", "value": 6.5}]}
    page.post("/api/v1/shop/entries", json=entry, headers=OURS)
    assert page.get(address).json() != []
    taken = page.post(address, json={"base": 1}, headers=OURS)
    assert (taken.status_code, taken.json()["revision"]) == (200, 2)
    assert page.get(f"{JOBS}/{job_id}").json()["job"]["shop"]["policy"]["least_pilot_mm"] == 6.5
    assert page.get(address).json() == []


def test_settings_of_the_shop_are_taken_back_by_a_new_revision(page: Page) -> None:
    entry = {"base": 0, "readings": [{"field": "policy.least_pilot_mm", "value": 5.0}]}
    assert page.post("/api/v1/shop/entries", json=entry, headers=OURS).json()["revision"] == 1
    undone = page.post("/api/v1/shop/undo", json={"note": "not meant"}, headers=OURS).json()
    assert (undone["revision"], undone["changes"][0]["field"]) == (2, "policy")
    assert page.post("/api/v1/shop/undo", json={"revision": 9}, headers=OURS).status_code == 404


def waited_for(page: Page, address: str) -> httpx.Response:
    """An answer that may have to wait for a map, asked for again as it says."""
    for _ in range(600):
        answer = page.get(address)
        if answer.status_code != 202:
            return answer
        sleep(0.1)
    raise AssertionError(f"{address} never came")


def test_whoever_asks_before_the_map_is_drawn_is_told_to_ask_again(
    page: Page, cupboard: Cupboard, monkeypatch: pytest.MonkeyPatch
) -> None:
    job_id = cupboard.add(example("compact-front-lock"), "Ann").job_id
    line = '{ name = "lip", clock_deg = [-30.0, 0.0, 30.0], radius_mm = [352.0, 350.0, 352.0], outboard_mm = [60, 60, 60] }'
    cupboard.enter(job_id, [("front.left.line[+]", line)], "Ann", base=1)
    go = Event()
    drawn, worked = working.work_out_with_maps, corners._worked

    def slow(make: Any) -> Any:
        def made(*asked: Any) -> Any:
            go.wait(20)
            return make(*asked)

        return made

    monkeypatch.setattr(working, "work_out_with_maps", slow(drawn))
    monkeypatch.setattr(corners, "_worked", slow(worked))
    axle = f"{JOBS}/{job_id}/axles/front"
    addresses = (
        f"{axle}/left/room?thickness_mm=5", f"{axle}/left/map.svg", f"{JOBS}/{job_id}/answer?units=inch", f"{axle}/torque",
        f"{axle}/windows.svg", f"{JOBS}/{job_id}/papers",
    )  # fmt: skip
    for address in addresses:
        answer = page.get(address)
        assert (answer.status_code, answer.headers["location"]) == (202, address), "no map is drawn inside a request"
        assert answer.headers["retry-after"] == "3"
        assert answer.json()["again"] == address and answer.json()["detail"]
    assert page.get(f"{axle}/bench?thickness_mm=5").json()["waiting"] is True, "readings alone are answered at once"
    go.set()
    for address in addresses:
        assert waited_for(page, address).status_code == 200, address


def test_every_address_that_may_wait_for_a_map_says_so(page: Page) -> None:
    paths = page.get("/api/openapi.json").json()["paths"]
    waits = {
        path.removeprefix(JOBS + "/{job_id}")
        for path, of in paths.items()
        if "202" in of.get("get", {}).get("responses", {})
    }
    corner = "/axles/{axle}/{side}"
    assert waits >= {
        "/answer",
        f"{corner}/room",
        f"{corner}/scene.glb",
        f"{corner}/map.svg",
        f"{corner}/above.svg",
        "/papers",
    }
    assert "/axles/{axle}/bench" not in waits


@pytest.mark.slow
def test_the_room_around_a_scanned_wheel_comes_as_figures_drawings_and_scene(page: Page, cupboard: Cupboard) -> None:
    job_id = cupboard.add(example("roadster-front-scan"), "Ann").job_id
    for side in ("left", "right"):
        data = (ROOT / "examples" / f"roadster-arch-{side}.ply").read_bytes()
        assert page.post(f"{JOBS}/{job_id}/attachments?name=roadster-arch-{side}.ply", content=data, headers=BYTES)
    corner = f"{JOBS}/{job_id}/axles/front/left"
    room = waited_for(page, f"{corner}/room?thickness_mm=5").json()
    assert room["axle"] == "front" and room["bare"]
    for name in ("map", "above"):
        assert page.get(f"{corner}/{name}.svg?thickness_mm=5").text.startswith("<svg")
    scene = waited_for(page, f"{corner}/scene.glb?thickness_mm=5")
    assert (scene.headers["content-type"], scene.content[:4]) == ("model/gltf-binary", b"glTF")
