"""Out and in again: one job, the whole shop, backup and restore, from either database into another."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from hubwright.errors import StoreRefusal
from hubwright.store import migrate
from hubwright.store.chain import link, sha256
from hubwright.store.cupboard import Cupboard
from hubwright.store.things import Query

PHOTO = b"\xff\xd8\xff a photograph"
SPIGOT = "rear.hub.spigot_length_mm"


@pytest.fixture
def full(cupboard: Cupboard, job_id: str) -> str:
    """A job with a history, a customer, a clash, a contradiction and a photograph."""
    cupboard.enter(job_id, [(SPIGOT, "12.4"), ("@customer", "Zoë 🚗"), ("@stage", "assessed")], "Bo", base=1)
    cupboard.enter(job_id, [(SPIGOT, "12.1")], "Cy", base=1)
    cupboard.enter(job_id, [("rear.left.point[1].reading[+]", "{ travel_mm = 46, gap_mm = 60 }")], "Cy", base=2)
    cupboard.attach(job_id, PHOTO, "lip.jpg", "Ann")
    cupboard.undo(job_id, "Ann")
    return job_id


def everything(cupboard: Cupboard, job_id: str) -> tuple[object, ...]:
    photos = cupboard.attachments(job_id, also_removed=True)
    return (
        cupboard.job(job_id), cupboard.history(job_id), cupboard.asides(job_id, also_settled=True), photos,
        [cupboard.fetch(photo.id)[1] for photo in photos], cupboard.find(Query()),
    )  # fmt: skip


def test_a_job_goes_into_another_cupboard_whole_and_twice_is_once(
    cupboard: Cupboard, elsewhere: Cupboard, full: str, tmp_path: Path
) -> None:
    cupboard.export(tmp_path / "one.zip", "Ann", [full])
    assert elsewhere.bring(tmp_path / "one.zip", "Bo").new == (full,)
    assert everything(elsewhere, full) == everything(cupboard, full)
    assert elsewhere.bring(tmp_path / "one.zip", "Bo").same == (full,)
    assert everything(elsewhere, full) == everything(cupboard, full)
    assert elsewhere.check().problems == ()
    with zipfile.ZipFile(tmp_path / "one.zip") as box:
        assert box.read(f"jobs/{full}.toml") == cupboard.job(full).data


def test_the_longer_history_stands_whichever_way_it_travels(
    cupboard: Cupboard, elsewhere: Cupboard, full: str, tmp_path: Path
) -> None:
    cupboard.export(tmp_path / "old.zip", "Ann")
    elsewhere.bring(tmp_path / "old.zip", "Bo")
    elsewhere.settle(elsewhere.asides(full)[0].id, "Di", take=True, base=3)
    elsewhere.detach(elsewhere.attachments(full)[0].id, "Di")
    elsewhere.export(tmp_path / "new.zip", "Di")
    assert elsewhere.bring(tmp_path / "old.zip", "Bo").same == (full,)
    assert cupboard.bring(tmp_path / "new.zip", "Ann").longer == (full,)
    assert everything(elsewhere, full) == everything(cupboard, full)


def test_a_job_that_went_two_ways_is_kept_twice_with_a_note(
    cupboard: Cupboard, elsewhere: Cupboard, full: str, tmp_path: Path
) -> None:
    cupboard.export(tmp_path / "old.zip", "Ann")
    elsewhere.bring(tmp_path / "old.zip", "Bo")
    elsewhere.enter(full, [(SPIGOT, "11.9")], "Di", base=3)
    cupboard.enter(full, [(SPIGOT, "11.8")], "Ann", base=3)
    mine = everything(cupboard, full)[:5]
    elsewhere.export(tmp_path / "theirs.zip", "Di")
    (copy,) = cupboard.bring(tmp_path / "theirs.zip", "Ann").copies.values()
    assert everything(cupboard, full)[:5] == mine
    assert cupboard.job(copy).data == elsewhere.job(full).data
    assert full in cupboard.job(copy).card["@note"]
    assert [old.chain for old in cupboard.history(copy)[:4]] == [old.chain for old in elsewhere.history(full)]
    assert cupboard.fetch(cupboard.attachments(copy)[0].id)[1] == PHOTO
    assert len(cupboard.asides(copy)) == 2
    again = cupboard.bring(tmp_path / "theirs.zip", "Ann")
    assert (again.new, again.copies, len(cupboard.find())) == ((), {}, 2)
    assert cupboard.check().problems == ()


def test_a_backup_from_either_database_is_restored_whole_into_an_empty_place_only(
    cupboard: Cupboard, elsewhere: Cupboard, full: str, tmp_path: Path
) -> None:
    note = cupboard.backup(tmp_path / "all.zip")
    assert (note.rows["job"], note.files, note.missing) == (1, 1, ())
    assert elsewhere.restore(tmp_path / "all.zip").problems == ()
    assert everything(elsewhere, full) == everything(cupboard, full)
    other = elsewhere.add(cupboard.job(full).data, "Di").job_id
    with pytest.raises(StoreRefusal, match="there are jobs"):
        elsewhere.restore(tmp_path / "all.zip")
    elsewhere.restore(tmp_path / "all.zip", force=True)
    assert [line.id for line in elsewhere.find()] == [full]
    (before,) = (elsewhere.data / "backups").glob("before-restore-*.zip")
    elsewhere.restore(before, force=True)
    assert {line.id for line in elsewhere.find()} == {full, other}
    with pytest.raises(StoreRefusal, match="file of that name"):
        cupboard.backup(tmp_path / "all.zip")


def test_a_backup_from_a_file_goes_into_either_database(
    cupboard: Cupboard, elsewhere: Cupboard, tmp_path: Path
) -> None:
    other = elsewhere.add(b'hubwright_job = 1\ntitle = "x"\n[request]\nuse = "street"', "Di").job_id
    elsewhere.backup(tmp_path / "file.zip")
    assert cupboard.restore(tmp_path / "file.zip").problems == ()
    assert everything(cupboard, other) == everything(elsewhere, other)


def test_a_backup_with_a_file_gone_says_so_and_keeps_the_rest(cupboard: Cupboard, full: str, tmp_path: Path) -> None:
    for path in (cupboard.data / "files").rglob("*"):
        if path.is_file():
            path.unlink()
    note = cupboard.backup(tmp_path / "all.zip")
    assert (len(note.missing), note.rows["job"]) == (1, 1)
    with pytest.raises(StoreRefusal, match=r"lip\.jpg"):
        cupboard.export(tmp_path / "one.zip", "Ann", [full])
    assert sorted(path.name for path in tmp_path.glob("*.zip")) == ["all.zip"]


def _rewritten(source: Path, target: Path, change: Callable[[dict[str, bytes]], None], *, relist: bool = True) -> Path:
    """A copy of an archive with its members changed, and (relist) a manifest that agrees with the change."""
    with zipfile.ZipFile(source) as box:
        members = {name: box.read(name) for name in box.namelist()}
    change(members)
    if relist:
        manifest = json.loads(members.pop("manifest.json"))
        manifest["members"] = {
            name: {"sha256": sha256(data), "size_bytes": len(data)} for name, data in members.items()
        }
        members["manifest.json"] = json.dumps(manifest).encode()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as box:
        for name, data in members.items():
            box.writestr(name, data)
    return target


def _in_paper(job_id: str, change: Callable[[dict], object]) -> Callable[[dict[str, bytes]], None]:
    def apply(members: dict[str, bytes]) -> None:
        paper = json.loads(members[f"jobs/{job_id}.json"])
        change(paper)
        members[f"jobs/{job_id}.json"] = json.dumps(paper).encode()

    return apply


def _hostile(job_id: str) -> dict[str, tuple[Callable[[dict[str, bytes]], object], bool]]:
    def paper(change: Callable[[dict], object]) -> tuple[Callable[[dict[str, bytes]], object], bool]:
        return _in_paper(job_id, change), True

    def broken(tree: dict, data: str) -> None:
        newest = tree["revisions"][-1]
        newest.update(data=data, data_sha256=sha256(data.encode()))
        newest["chain"] = link(tree["revisions"][-2]["chain"], newest)

    photo = f"files/{sha256(PHOTO)}"
    return {
        "a way out of the folder": (lambda m: m.update({"../../evil.toml": b"x"}), True),
        "an absolute name": (lambda m: m.update({"/tmp/evil": b"x"}), True),
        "a member the manifest does not name": (lambda m: m.update({"files/more": b"x"}), False),
        "a bomb": (lambda m: m.update({"files/bomb": b"\0" * (64 * 1024**2)}), True),
        "a changed photograph": (lambda m: m.update({photo: PHOTO[::-1]}), False),
        "a changed photograph of another size": (lambda m: m.update({photo: b"other"}), False),
        "a photograph under another name": (lambda m: m.update({photo: b"other"}), True),
        "no photograph": (lambda m: m.pop(photo), True),
        "no manifest": (lambda m: m.pop("manifest.json"), False),
        "a manifest that is no table": (lambda m: m.update({"manifest.json": b"[]"}), False),
        "a manifest without end": (lambda m: m.update({"manifest.json": b"[" * 100_000}), False),
        "a changed past": paper(lambda p: p["revisions"][0].update(author="Mallory")),
        "a changed file": paper(lambda p: p["revisions"][-1].update(data="hubwright_job = 1")),
        "a gap in the history": paper(lambda p: p["revisions"].pop(1)),
        "no history": paper(lambda p: p.update(revisions=[])),
        "another job's name": paper(lambda p: p.update(id="0" * 12)),
        "a name that is no name": paper(lambda p: p["attachments"][0].update(id="../x")),
        "another size": paper(lambda p: p["attachments"][0].update(size_bytes=3)),
        "no TOML": paper(lambda p: broken(p, "x = ")),
        "a revision that saw the future": paper(lambda p: p["revisions"][1].update(base=7)),
        "changes that are none": paper(lambda p: p["asides"][0].update(changes='[{"field": 1}]')),
        "a moment that is none": paper(lambda p: p["asides"][0].update(at="yesterday")),
        "an unknown key": paper(lambda p: p.update(extra=1)),
        "no JSON": (lambda m: m.update({f"jobs/{job_id}.json": b"\xff"}), True),
    }  # fmt: skip


def test_an_archive_made_to_harm_or_spoilt_is_refused_and_changes_nothing(
    cupboard: Cupboard, elsewhere: Cupboard, full: str, tmp_path: Path
) -> None:
    cupboard.export(tmp_path / "good.zip", "Ann", [full])
    for number, (what, (change, relist)) in enumerate(_hostile(full).items()):
        bad = _rewritten(tmp_path / "good.zip", tmp_path / f"bad{number}.zip", change, relist=relist)
        with pytest.raises(StoreRefusal):
            elsewhere.bring(bad, "Bo")
            pytest.fail(f"{what} was let in")
        assert elsewhere.find() == ()
    assert not list(tmp_path.rglob("evil*"))


def test_a_page_called_a_photograph_is_known_by_its_bytes(
    cupboard: Cupboard, elsewhere: Cupboard, job_id: str, tmp_path: Path
) -> None:
    cupboard.attach(job_id, b"<script>", "lip.png", "Ann")
    cupboard.export(tmp_path / "good.zip", "Ann", [job_id])
    change = _in_paper(job_id, lambda paper: paper["attachments"][0].update(kind="image/png"))
    elsewhere.bring(_rewritten(tmp_path / "good.zip", tmp_path / "bad.zip", change), "Bo")
    assert elsewhere.attachments(job_id)[0].kind == "text/plain"


def test_a_file_that_is_no_archive_or_the_wrong_one_is_refused(
    cupboard: Cupboard, elsewhere: Cupboard, full: str, tmp_path: Path
) -> None:
    cupboard.export(tmp_path / "good.zip", "Ann", [full])
    cupboard.backup(tmp_path / "backup.zip")
    good = (tmp_path / "good.zip").read_bytes()
    for number, data in enumerate((b"", b"PK\x03\x04", good[: len(good) // 2], io.BytesIO(good).read(len(good) - 30))):
        path = tmp_path / f"no{number}.zip"
        path.write_bytes(data)
        for way in (lambda p=path: elsewhere.bring(p, "Bo"), lambda p=path: elsewhere.restore(p)):
            with pytest.raises(StoreRefusal):
                way()
    with pytest.raises(StoreRefusal, match="wanted an archive"):
        elsewhere.bring(tmp_path / "backup.zip", "Bo")
    with pytest.raises(StoreRefusal, match="wanted an archive"):
        elsewhere.restore(tmp_path / "good.zip")
    with pytest.raises(StoreRefusal):
        elsewhere.bring(tmp_path / "absent.zip", "Bo")


def test_a_spoilt_backup_leaves_the_jobs_that_are_there(cupboard: Cupboard, full: str, tmp_path: Path) -> None:
    cupboard.backup(tmp_path / "good.zip")
    mine = everything(cupboard, full)

    def short(members: dict[str, bytes]) -> None:
        members["tables/revision.jsonl"] = members["tables/revision.jsonl"].splitlines(keepends=True)[0]

    def other(members: dict[str, bytes]) -> None:
        members["tables/job.jsonl"] = b'{"id": "x"}\n'

    newest = f'"tables": "{migrate.NEWEST}"'.encode()

    def newer(members: dict[str, bytes]) -> None:
        members["manifest.json"] = members["manifest.json"].replace(newest, b'"tables": "9999"')

    for number, change in enumerate((short, other, newer)):
        bad = _rewritten(tmp_path / "good.zip", tmp_path / f"bad{number}.zip", change)
        with pytest.raises(StoreRefusal):
            cupboard.restore(bad, force=True)
        assert everything(cupboard, full) == mine
