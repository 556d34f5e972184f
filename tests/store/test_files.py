"""Photographs and scans: kept under their hash, checked when read, swept when nobody speaks of them."""

from __future__ import annotations

import io
import os
from pathlib import Path

import pytest

from hubwright.errors import StoreRefusal
from hubwright.store import blobs
from hubwright.store.cupboard import Cupboard

PNG = b"\x89PNG\r\n\x1a\n" + bytes(range(256))


def test_an_attachment_comes_back_as_it_went_in(cupboard: Cupboard, job_id: str) -> None:
    item = cupboard.attach(job_id, io.BytesIO(PNG), "../../etc/Kotflügel 🚗.png", "Ann", note="left lip")
    assert (item.name, item.kind, item.size_bytes) == ("Kotflügel 🚗.png", "image/png", len(PNG))
    assert cupboard.fetch(item.id) == (item, PNG)
    assert cupboard.attachments(job_id) == (item,)
    again = [cupboard.attach(job_id, PNG, "a", "Ann", key="form-9").id for _ in range(2)]
    assert again[0] == again[1]
    cupboard.detach(again[0], "Ann")
    cupboard.detach(item.id, "Bo")
    assert cupboard.attachments(job_id) == ()
    assert [old.removed_by for old in cupboard.attachments(job_id, also_removed=True)] == ["Bo", "Ann"]
    assert cupboard.fetch(item.id)[1] == PNG


@pytest.mark.parametrize(
    ("given", "clean"),
    [
        ("C:\\photos\\a.jpg", "a.jpg"), ("/", "file"), ("..", "file"), (".profile", "profile"), ("a\0\n<b>.txt", "a___b_.txt"),
        ("x" * 300 + ".jpeg", "x" * 108 + ".jpeg"), ("\udc80.png", "?.png".replace("?", "_")),
    ],
)  # fmt: skip
def test_a_name_is_only_a_name(given: str, clean: str) -> None:
    assert blobs.clean_name(given) == clean


@pytest.mark.parametrize(
    ("head", "kind"),
    [
        (b"\xff\xd8\xff\xe0", "image/jpeg"), (b"RIFF1234WEBPVP8 ", "image/webp"), (b"%PDF-1.7", "application/pdf"),
        (b"<svg onload='x()'>", "text/plain"), (b"\0\1\2\3", blobs.UNKNOWN), ("ü".encode() * 255 + b"\xc3", "text/plain"),
        (b"\0\0\0\x18ftypheic", "image/heic"),
    ],
)  # fmt: skip
def test_the_kind_is_what_the_bytes_say_not_what_the_name_says(head: bytes, kind: str) -> None:
    assert blobs.kind_of(head) == kind


def test_an_attachment_is_laid_out_under_a_name_and_stays_what_it_was(
    cupboard: Cupboard, job_id: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    item = cupboard.attach(job_id, PNG, "a.png", "Ann")
    there = tmp_path / "deep" / "a.png"
    for _ in range(2):
        cupboard.lay_out(item.id, there)
        assert there.read_bytes() == PNG
        assert [path.name for path in there.parent.iterdir()] == ["a.png"]
    monkeypatch.setattr(Path, "hardlink_to", lambda *_: (_ for _ in ()).throw(OSError("another disk")))
    copied = tmp_path / "copied" / "a.png"
    cupboard.lay_out(item.id, copied)
    assert copied.read_bytes() == PNG
    assert copied.stat().st_ino != blobs.path_of(cupboard.data / "files", item.sha256).stat().st_ino
    with pytest.raises(StoreRefusal, match="laid out"):
        cupboard.lay_out(item.id, copied / "below a file" / "a.png")


def test_a_file_changed_or_gone_on_the_disk_is_noticed(cupboard: Cupboard, job_id: str) -> None:
    item = cupboard.attach(job_id, PNG, "a.png", "Ann")
    path = blobs.path_of(cupboard.data / "files", item.sha256)
    path.write_bytes(PNG[:-1] + b"x")
    with pytest.raises(StoreRefusal, match="changed"):
        cupboard.fetch(item.id)
    assert "changed" in cupboard.check().problems[0]
    assert cupboard.attach(job_id, PNG, "again.png", "Ann").sha256 == item.sha256
    assert cupboard.fetch(item.id)[1] == PNG
    path.unlink()
    assert len(cupboard.check().problems) == 2


def test_an_empty_or_too_large_file_and_one_for_no_job_is_refused(cupboard: Cupboard, job_id: str) -> None:
    for data, job in ((b"", job_id), (PNG, "nothing")):
        with pytest.raises(StoreRefusal):
            cupboard.attach(job, data, "a", "Ann")
    with pytest.raises(StoreRefusal, match="at most"):
        blobs.keep(cupboard.data / "files", [b"x" * 3], largest_bytes=2)
    assert list(blobs.all_names(cupboard.data / "files")) == []


def test_a_full_disk_refuses_the_file_and_leaves_nothing_half_written(
    cupboard: Cupboard, job_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(StoreRefusal, match="No space"):
            cupboard.attach(job_id, PNG, "a.png", "Ann")
    assert list(blobs.all_names(cupboard.data / "files")) == []
    assert cupboard.attachments(job_id) == ()


def test_sweeping_takes_only_old_files_nobody_speaks_of(cupboard: Cupboard, job_id: str) -> None:
    files = cupboard.data / "files"
    kept = cupboard.attach(job_id, PNG, "a.png", "Ann")
    orphan = blobs.keep(files, [b"orphan"])
    (files / ".half.new").write_bytes(b"half")
    (files / "notes of the owner.txt").write_bytes(b"not ours")
    assert cupboard.sweep() == ()
    assert set(cupboard.sweep(older_than_s=-60)) == {orphan.sha256, ".half.new"}
    assert cupboard.fetch(kept.id)[1] == PNG
    assert (files / "notes of the owner.txt").exists()
