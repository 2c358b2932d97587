"""The demo replaces nothing unasked, and hands the job over together with its sheets."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs import make_sheets as module
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.requests import DemoRequest, Made, MakeRequest
from wrapwright.jobs.show_demo import show_demo
from wrapwright.outside.system.delivery import delivery


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return open_bench(cache=tmp_path / "cache", data=tmp_path, fonts=tmp_path, threads=1)


def making(request: MakeRequest, _bench: Bench, _watch: Watch) -> Made:
    """Hand over a sheet and a report, as making the real sheets does."""
    report = {"files": [{"path": "sheets.pdf"}]}
    with delivery(request.folder, force=request.force) as work:
        (work / "sheets.pdf").write_bytes(b"sheet")
        (work / "report.json").write_text(json.dumps(report), encoding="utf-8")
    return Made(report)


def failing(_request: MakeRequest, _bench: Bench, _watch: Watch) -> Made:
    raise WrapwrightError(Kind.CHECKS, "The checks say no.")


def names(folder: Path) -> list[str]:
    return sorted(one.relative_to(folder).as_posix() for one in folder.rglob("*") if one.is_file())


def test_the_job_stands_beside_its_sheets_and_force_replaces_both(
    tmp_path: Path, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "make_sheets", making)
    place = tmp_path / "demo"
    show_demo(DemoRequest(place), bench, Watch())
    assert {"sheets.pdf", "report.json", "job/job.toml", "job/coffee.jpg"} <= set(names(place))
    with pytest.raises(WrapwrightError) as caught:
        show_demo(DemoRequest(place), bench, Watch())
    assert caught.value.kind is Kind.REFUSED
    (place / "job" / "job.toml").write_bytes(b"changed")
    show_demo(DemoRequest(place, force=True), bench, Watch())
    assert (place / "job" / "job.toml").read_bytes() != b"changed"


def test_a_job_of_the_users_own_is_never_replaced_unasked(
    tmp_path: Path, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "make_sheets", making)
    mine = tmp_path / "demo" / "job" / "job.toml"
    mine.parent.mkdir(parents=True)
    mine.write_bytes(b"mine")
    with pytest.raises(WrapwrightError) as caught:
        show_demo(DemoRequest(tmp_path / "demo"), bench, Watch())
    assert caught.value.kind is Kind.REFUSED
    assert names(tmp_path / "demo") == ["job/job.toml"]
    assert mine.read_bytes() == b"mine"


def test_a_file_where_the_folder_should_be_is_named_with_what_to_do(
    tmp_path: Path, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "make_sheets", making)
    (tmp_path / "b.png").write_bytes(b"mine")
    for place in (tmp_path / "b.png", tmp_path / "b.png" / "deep"):
        for force in (False, True):
            with pytest.raises(WrapwrightError, match=r"a folder is needed\. Name a folder\.") as caught:
                show_demo(DemoRequest(place, force=force), bench, Watch())
            assert (caught.value.kind, caught.value.where) == (Kind.UNUSABLE, str((tmp_path / "b.png").resolve()))
    assert names(tmp_path) == ["b.png"]
    assert (tmp_path / "b.png").read_bytes() == b"mine"


def test_nothing_is_left_when_the_sheets_cannot_be_made(
    tmp_path: Path, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "make_sheets", failing)
    with pytest.raises(WrapwrightError):
        show_demo(DemoRequest(tmp_path / "new" / "demo"), bench, Watch())
    assert not (tmp_path / "new").exists()
