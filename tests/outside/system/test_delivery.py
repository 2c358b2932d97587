"""Handing over: all or nothing, and only our own files are replaced."""

from __future__ import annotations

import errno
import json
import os
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.system import delivery as module
from wrapwright.outside.system.delivery import delivery

OLD = {"sheets.pdf": b"old sheets", "ticket.pdf": b"old ticket", "mine.txt": b"my own"}


def deliver(folder: Path, names: dict[str, bytes], *, force: bool = False) -> None:
    with delivery(folder, force=force) as work:
        for name, content in names.items():
            (work / name).write_bytes(content)


def state(root: Path) -> dict[str, bytes | None]:
    """Return every path below a folder with its content (None for a folder)."""
    paths = sorted(root.rglob("*"))
    return {one.relative_to(root).as_posix(): one.read_bytes() if one.is_file() else None for one in paths}


def earlier(folder: Path) -> None:
    folder.mkdir()
    for name, content in OLD.items():
        (folder / name).write_bytes(content)
    files = [{"path": "sheets.pdf"}, {"path": "ticket.pdf"}, {"path": "../outside.txt"}, {"path": "gone.pdf"}]
    (folder / "report.json").write_text(json.dumps({"files": files}), encoding="utf-8")
    (folder.parent / "outside.txt").write_bytes(b"keep")


def test_a_new_folder_appears_whole_with_the_usual_rights(tmp_path: Path) -> None:
    deliver(tmp_path / "a" / "b", {"sheets.pdf": b"1", "report.json": b"{}"})
    assert state(tmp_path) == {"a": None, "a/b": None, "a/b/report.json": b"{}", "a/b/sheets.pdf": b"1"}
    usual = tmp_path / "usual"
    usual.mkdir()
    assert (tmp_path / "a" / "b").stat().st_mode == usual.stat().st_mode


def test_a_folder_with_other_files_is_joined(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_bytes(b"mine")
    deliver(tmp_path, {"sheets.pdf": b"1"})
    assert state(tmp_path) == {"mine.txt": b"mine", "sheets.pdf": b"1"}


@pytest.mark.parametrize("standing", ["sheets.pdf", "report.json"])
def test_without_force_nothing_is_overwritten(tmp_path: Path, standing: str) -> None:
    (tmp_path / standing).write_bytes(b"old")
    before = state(tmp_path)
    with pytest.raises(WrapwrightError, match=f"already holds {standing}") as caught:
        deliver(tmp_path, {"report.json": b"{}", "sheets.pdf": b"new"})
    assert caught.value.kind is Kind.REFUSED
    assert "--force" in caught.value.remedy
    assert state(tmp_path) == before


def test_force_replaces_our_names_and_removes_what_the_earlier_report_named(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    earlier(folder)
    deliver(folder, {"sheets.pdf": b"new", "report.json": b"{}"}, force=True)
    assert state(tmp_path) == {
        "out": None,
        "out/mine.txt": b"my own",
        "out/report.json": b"{}",
        "out/sheets.pdf": b"new",
        "outside.txt": b"keep",
    }


def test_an_earlier_report_that_cannot_be_read_names_nothing(tmp_path: Path) -> None:
    (tmp_path / "report.json").write_bytes(b"\xff not json")
    (tmp_path / "ticket.pdf").write_bytes(b"t")
    deliver(tmp_path, {"report.json": b"{}"}, force=True)
    assert state(tmp_path) == {"report.json": b"{}", "ticket.pdf": b"t"}


def test_a_folder_of_the_same_name_is_never_replaced(tmp_path: Path) -> None:
    (tmp_path / "sheets.pdf").mkdir()
    with pytest.raises(WrapwrightError) as caught:
        deliver(tmp_path, {"sheets.pdf": b"new"}, force=True)
    assert caught.value.kind is Kind.REFUSED
    assert state(tmp_path) == {"sheets.pdf": None}


@pytest.mark.parametrize("problem", [RuntimeError("midway"), KeyboardInterrupt()])
def test_a_failure_in_the_work_leaves_no_trace(tmp_path: Path, problem: BaseException) -> None:
    def work_that_fails() -> None:
        with delivery(tmp_path / "a" / "b") as work:
            (work / "sheets.pdf").write_bytes(b"half")
            raise problem

    with pytest.raises(type(problem)):
        work_that_fails()
    assert state(tmp_path) == {}


def test_a_failure_in_handing_over_rolls_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "out"
    earlier(folder)
    before = state(tmp_path)
    real = module.replace
    calls: list[str] = []

    def failing(source: Path, target: Path) -> None:
        calls.append(target.name)
        if len(calls) == 5:
            raise OSError(28, "No space left on device")
        real(source, target)

    monkeypatch.setattr(module, "replace", failing)
    with pytest.raises(WrapwrightError, match="No space left"):
        deliver(folder, {"proof.pdf": b"p", "report.json": b"{}", "sheets.pdf": b"new"}, force=True)
    # Three old files moved out, one new one brought in, the next failed; then all four went back.
    assert len(calls) == 5 + 4
    assert state(tmp_path) == before


def test_a_file_in_the_folder_s_place_is_said(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"a file")
    with pytest.raises(WrapwrightError, match="This is a file"):
        deliver(tmp_path / "out", {"sheets.pdf": b""})
    with pytest.raises(WrapwrightError, match="out: This is a file"):
        deliver(tmp_path / "out" / "deeper", {"sheets.pdf": b""})
    assert state(tmp_path) == {"out": b"a file"}


@pytest.mark.skipif(os.name == "nt", reason="links need rights on Windows")
def test_a_link_to_a_folder_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    deliver(tmp_path / "link", {"sheets.pdf": b"1"})
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real" / "sheets.pdf").read_bytes() == b"1"


def test_what_killed_runs_left_long_ago_is_tidied_and_nothing_else(tmp_path: Path) -> None:
    def left(name: str, days: float, inside: str) -> None:
        folder = tmp_path / name
        (folder / inside).parent.mkdir(parents=True)
        (folder / inside).write_bytes(b"1")
        then = folder.stat().st_mtime - days * 86_400
        os.utime(folder, (then, then))

    left(".wrapwright-00112233445566aa", 8, "sheets.pdf")
    left(".wrapwright-00112233445566bb", 6, "sheets.pdf")  # may be at work
    left(".wrapwright-00112233445566cc", 30, ".kept/mine.pdf")  # killed while it took earlier files out
    left(".wrapwright-mine", 30, "sheets.pdf")
    deliver(tmp_path / "out", {"sheets.pdf": b"1"})
    assert sorted(one.name for one in tmp_path.iterdir()) == [
        ".wrapwright-00112233445566bb",
        ".wrapwright-00112233445566cc",
        ".wrapwright-mine",
        "out",
    ]


@pytest.mark.parametrize(
    ("number", "said", "kind"),
    [
        (errno.ENOSPC, "cannot be written: No space left; nothing was changed", WrapwrightError),
        (errno.ENOENT, "No space left", FileNotFoundError),  # a fault of our own stays one
    ],
)
def test_a_full_disk_is_said(tmp_path: Path, number: int, said: str, kind: type[Exception]) -> None:
    def work_that_fails() -> None:
        with delivery(tmp_path / "out") as work:
            (work / "sheets.pdf").write_bytes(b"half")
            raise OSError(number, "No space left")

    with pytest.raises(kind, match=said) as caught:
        work_that_fails()
    assert getattr(caught.value, "kind", Kind.UNUSABLE) is Kind.UNUSABLE
    assert state(tmp_path) == {}
