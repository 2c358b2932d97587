"""Lists of names made: every row ends in one way, and what was stopped is taken up again to the same bytes."""

from __future__ import annotations

import csv
import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import jsonschema
import psutil
import pytest
from tests.jobs.names.making.conftest import HEAD, READINGS, SQUARE, TEXT

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.names.making.places import Order
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.make_names import MakeNames, make_names
from wrapwright.jobs.names.making.parts import Files, Joining, write_manifest
from wrapwright.jobs.names.making.planning import Planned, Wanted, pieces_of, plan, put_rows
from wrapwright.jobs.names.making.running import made_shards
from wrapwright.jobs.names.making.shard import make_shard
from wrapwright.jobs.names.opening import open_list
from wrapwright.jobs.names.values import NamesWaitError
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.show_schema import show_schema
from wrapwright.jobs.verdict import ChecksSayNoError
from wrapwright.outside.system.pool import HerePool

ALL = frozenset({"all"})
ASKED = ("--accept", "all", "--seconds", "0.1")
FIRST = ("Zoë", "Ada", "Ólafur", "Siân", "Łukasz", "Inés", "Jean-Luc")
NAME = TEXT.replace("30 mm", "24 mm")
FILES = {"sheets.pdf", "manifest.csv", "cut-list.pdf", "proof.pdf", "ticket.pdf", "contact.pdf", "handling.pdf"}


def job_in(folder: Path, rows: str, names: str = "", elements: str = NAME) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "red.svg").write_text(SQUARE.format("red"), encoding="utf-8")
    head = HEAD.format(kind="straight", readings=READINGS["straight"])
    (folder / "regatta.toml").write_text(f'{head}{elements}[names]\nfile = "crew.csv"\n{names}', encoding="utf-8")
    (folder / "crew.csv").write_text(rows, encoding="utf-8")
    return folder / "regatta.toml"


def names_of(count: int) -> str:
    said = [f"{FIRST[number % 7]} {chr(65 + number // 7 % 26)}{'abcdefghij'[number // 182]}" for number in range(count)]
    return "\n".join(["name", *said, ""])


def bench_in(folder: Path) -> Bench:
    return open_bench(cache=folder / "cache", data=folder / "data", fonts=folder / "data" / "fonts", threads=1)


def made(job: Path, out: Path, bench: Bench, **asked: object) -> Mapping[str, object]:
    request = MakeNames(job, out, accept=ALL, seconds=0.1, **asked)  # type: ignore[arg-type]
    return make_names(request, bench, Watch()).report


def sheets_made(
    job: Path, out: Path, bench: Bench, *, order: Order = "rows", a_file: int = 500
) -> tuple[Planned, list[dict[str, str]]]:
    """Make the sheets and the manifest alone; return the plan and the manifest."""
    names = open_list(job, None, bench)
    count = sum(1 for _ in pieces_of(names))
    planned = plan(names, Wanted(count, count, order, 0.1), bench, Watch())
    list(put_rows(names, planned, None, Watch()))
    files = Files(planned.run.places.sheets, a_file)
    out.mkdir()
    joining = Joining(planned, files, out)
    shards = made_shards(planned, planned.shards, partial(bench.pool.map, make_shard), Watch(), joining.take)
    write_manifest(planned.run, shards, files, out / "manifest.csv")
    return planned, manifest(out)


def manifest(folder: Path) -> list[dict[str, str]]:
    with (folder / "manifest.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def bytes_of(folder: Path) -> dict[str, bytes]:
    return {one.name: one.read_bytes() for one in folder.iterdir()}


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with a list of 160 rows and what an unbroken run with one worker made of it."""
    folder = tmp_path_factory.mktemp("whole")
    made(job_in(folder / "job", names_of(160)), folder / "out", bench_in(folder))
    return folder


@pytest.fixture
def lettered(whole: Path, tmp_path: Path) -> None:
    """Put the papers' lettering into the test's cache: cutting it takes longer than a list."""
    shutil.copytree(whole / "cache" / "lettering", tmp_path / "cache" / "lettering")


def test_every_row_stands_in_the_manifest_once(whole: Path) -> None:
    rows = manifest(whole / "out")
    assert [int(one["row"]) for one in rows] == list(range(2, 162))
    assert {one["state"] for one in rows} == {"made"}
    assert [int(one["piece"]) for one in rows] == list(range(1, 161))
    assert len({one["code"] for one in rows}) == len({one["sha256"] for one in rows}) == 160
    assert {one.name for one in (whole / "out").iterdir()} == FILES | {"report.json"}
    report = json.loads((whole / "out" / "report.json").read_text(encoding="utf-8"))
    assert {one["path"] for one in report["files"]} == FILES
    assert (report["names"]["made"], report["names"]["pieces"], report["names"]["of"]) == (160, 160, 160)
    jsonschema.Draft202012Validator(show_schema("names-report")).validate(report)


@pytest.mark.usefixtures("lettered")
def test_what_was_killed_is_taken_up_again_to_the_same_bytes(whole: Path, tmp_path: Path) -> None:
    """A worker is killed, and then all of it; another run with one worker goes on."""
    job = job_in(tmp_path / "job", names_of(160))
    process = started(job, tmp_path / "out", tmp_path, 2)
    lists = tmp_path / "cache" / "lists"

    def standing() -> dict[Path, int]:
        return {one: one.stat().st_mtime_ns for one in sorted(lists.glob("*/shard-*.json"))}

    wait_until(lambda: bool(standing()), process)
    workers = [one for one in process.children(recursive=True) if "spawn_main" in " ".join(one.cmdline())]
    assert len(workers) == 2
    workers[0].kill()
    before = len(standing())
    wait_until(lambda: len(standing()) > before + 1, process)
    later = process.children(recursive=True)
    process.kill()
    process.communicate()
    psutil.wait_procs(later, timeout=10)
    assert not [one for one in later if one.is_running() and one.status() != psutil.STATUS_ZOMBIE]
    assert not (tmp_path / "out").exists()

    stood = standing()
    assert 0 < len(stood) < 8
    made(job, tmp_path / "out", bench_in(tmp_path))
    after = standing()
    assert len(after) == 8
    assert {one: after[one] for one in stood} == stood  # nothing was made twice
    assert bytes_of(tmp_path / "out") == bytes_of(whole / "out")


def settings_in(folder: Path, workers: int) -> dict[str, str]:
    places = {"WRAPWRIGHT_CACHE": str(folder / "cache"), "WRAPWRIGHT_DATA": str(folder / "data")}
    return {**places, "WRAPWRIGHT_THREADS": str(workers)}


def started(job: Path, out: Path, folder: Path, workers: int) -> psutil.Popen:
    """Return a process that makes a list, in another time zone and with other hashes than this one's."""
    line = [sys.executable, "-m", "wrapwright", "names", "make", str(job), "-o", str(out), *ASKED, "-q"]
    environment = {**os.environ, **settings_in(folder, workers), "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"}
    return psutil.Popen(line, env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE)


def wait_until(true: Callable[[], bool], process: psutil.Popen) -> None:
    end = time.monotonic() + 90.0
    while not true():
        assert process.poll() is None, process.communicate()
        assert time.monotonic() < end
        time.sleep(0.005)


def test_a_subset_has_the_numbers_and_codes_of_the_whole(whole: Path, tmp_path: Path) -> None:
    report = made(whole / "job" / "regatta.toml", tmp_path / "again", bench_in(whole), rows=(7, 150))
    assert report["names"]["pieces"] == 2  # type: ignore[index]
    assert report["names"]["asked_rows"] == "7, 150"  # type: ignore[index]
    assert json.loads((whole / "out" / "report.json").read_text(encoding="utf-8"))["names"]["asked_rows"] is None
    wanted = {one["row"]: (one["piece"], one["code"], one["name"]) for one in manifest(whole / "out")}
    found = {one["row"]: (one["piece"], one["code"], one["name"]) for one in manifest(tmp_path / "again")}
    assert found == {row: wanted[row] for row in ("7", "150")}
    with pytest.raises(WrapwrightError, match=r"no row 1, 162"):
        made(whole / "job" / "regatta.toml", tmp_path / "none", bench_in(whole), rows=(1, 162))


def test_parts_hold_the_sheets_in_order(whole: Path, tmp_path: Path) -> None:
    import pikepdf

    _, rows = sheets_made(whole / "job" / "regatta.toml", tmp_path / "parts", bench_in(whole), a_file=31)
    parts = sorted((tmp_path / "parts").glob("sheets-*.pdf"))
    assert [one.name for one in parts][:2] == ["sheets-001.pdf", "sheets-002.pdf"]
    with pikepdf.open(whole / "out" / "sheets.pdf") as one:
        pages = [page.Contents[0].read_bytes() for page in one.pages]
    found = []
    for part in parts:
        with pikepdf.open(part) as pdf:
            assert len(pdf.pages) <= 31
            found += [page.Contents[0].read_bytes() for page in pdf.pages]
    assert found == pages
    for one in rows:
        assert one["file"] == parts[(int(one["sheet"]) - 1) // 31].name
        assert int(one["page"]) == (int(one["sheet"]) - 1) % 31 + 1


@pytest.mark.usefixtures("lettered")
def test_rows_end_as_made_skipped_or_refused(tmp_path: Path) -> None:
    elements = NAME + '[[element]]\nkind = "picture"\nname = "crest"\nfile = "red.svg"\nwidth = "9 mm"\nat = "back"\n'
    more = 'quantity = "pieces"\n[names.pictures]\ncrest = "picture"\n'
    rows = "name,pieces,picture\nAda,2,\nBea,1,broken.png\nCid,1,\nDot,3,red.svg\n"
    job = job_in(tmp_path / "job", rows, more, elements)
    (job.parent / "broken.png").write_bytes(b"\x89PNG\r\n\x1a\n" + b"\x00" * 40)
    from wrapwright.jobs.names.deciding import decide_names
    from wrapwright.jobs.names.signing import SignNames, sign_names
    from wrapwright.jobs.names.values import DecideNames

    bench = bench_in(tmp_path)
    decide_names(DecideNames(job, "skip", (4,)), bench, Watch())
    sign_names(SignNames(job, "M. Weir", date(2026, 5, 2)), bench, Watch())
    report = made(job, tmp_path / "out", bench)
    assert "Signed off by M. Weir on 2026-05-02, 4 rows." in report["notes"]  # type: ignore[operator]
    states = [(one["row"], one["piece"], one["state"]) for one in manifest(tmp_path / "out")]
    assert states == [
        ("2", "1", "made"),
        ("2", "2", "made"),
        ("3", "3", "refused"),
        ("4", "", "skipped"),
        ("5", "4", "made"),
        ("5", "5", "made"),
        ("5", "6", "made"),
    ]
    reason = next(one["reason"] for one in manifest(tmp_path / "out") if one["row"] == "3")
    assert "broken.png" in reason or "picture" in reason
    names = report["names"]
    assert (names["made"], names["skipped"], names["refused"], names["pieces"]) == (2, 1, 1, 5)  # type: ignore[index]
    assert [one["row"] for one in names["refused_rows"]] == [3]  # type: ignore[index]
    jsonschema.Draft202012Validator(show_schema("names-report")).validate(report)


def test_piles_are_cut_in_the_lists_order(whole: Path, tmp_path: Path) -> None:
    planned, rows = sheets_made(whole / "job" / "regatta.toml", tmp_path / "piles", bench_in(whole), order="piles")
    assert [int(one["piece"]) for one in rows] == list(range(1, 161))
    by_place: dict[tuple[int, str, str], list[int]] = {}
    stack = planned.run.places.stack
    for one in rows:
        place = ((int(one["sheet"]) - 1) // stack, one["x_mm"], one["y_mm"])
        by_place.setdefault(place, []).append(int(one["piece"]))
    assert all(pile == list(range(pile[0], pile[0] + len(pile))) for pile in by_place.values())
    assert max(map(len, by_place.values())) == stack


def test_nothing_is_made_while_a_row_waits(tmp_path: Path) -> None:
    job = job_in(tmp_path / "job", "name\nAda\nAda\n")
    with pytest.raises(NamesWaitError):
        made(job, tmp_path / "out", bench_in(tmp_path))
    assert not (tmp_path / "out").exists()
    assert not (tmp_path / "cache" / "lists").exists()


def test_the_checks_of_the_typical_piece_are_heard(tmp_path: Path) -> None:
    small = '[[element]]\nkind = "picture"\nname = "crest"\nfile = "dot.png"\nwidth = "20 mm"\nat = "back"\n'
    job = job_in(tmp_path / "job", "name\nAda\n", "", NAME + small)
    from PIL import Image

    Image.new("RGB", (20, 20), "green").save(job.parent / "dot.png")
    with pytest.raises(ChecksSayNoError) as caught:
        make_names(MakeNames(job, tmp_path / "out", seconds=0.1), bench_in(tmp_path), Watch())
    assert caught.value.kind is Kind.CHECKS
    assert not (tmp_path / "out").exists()


def test_an_older_picture_is_not_taken_for_the_new_one(tmp_path: Path) -> None:
    elements = '[[element]]\nkind = "picture"\nname = "crest"\nfile = "red.svg"\nwidth = "9 mm"\n'
    job = job_in(
        tmp_path / "job", "name,picture\nAda,own.svg\nBea,\n", '[names.pictures]\ncrest = "picture"\n', elements
    )
    bench = bench_in(tmp_path)
    found = []
    for number, colour in enumerate(("green", "blue", "green")):
        (job.parent / "own.svg").write_text(SQUARE.format(colour), encoding="utf-8")
        sheets_made(job, tmp_path / str(number), bench)
        found.append((tmp_path / str(number) / "sheets.pdf").read_bytes())
    assert found[0] == found[2] != found[1]


@pytest.mark.skipif(sys.platform != "linux", reason="a file's size can be limited by the system on Linux")
def test_a_full_disk_is_told_and_what_stood_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    import resource

    from wrapwright.faces.cli.entry import run

    job = job_in(tmp_path / "job", names_of(60))
    for name, value in settings_in(tmp_path, 1).items():
        monkeypatch.setenv(name, value)
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (40_000, usual[1]))
    try:
        code = run(["names", "make", str(job), "-o", str(tmp_path / "out"), *ASKED])
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)
    said = capsys.readouterr().err
    assert code == 3, said
    assert "cannot be written" in said
    assert "Traceback" not in said
    assert not (tmp_path / "out").exists()
    _, rows = sheets_made(job, tmp_path / "out", bench_in(tmp_path))
    assert {one["state"] for one in rows} == {"made"}


@dataclass(frozen=True)
class Late(HerePool):
    """A pool that begins once another process has made a shard, so that both make the others at once."""

    begun: Callable[[], None]

    def map(self, function: Callable[[Any], Any], requests: Iterable[Any]) -> Iterator[tuple[int, Any]]:
        self.begun()
        yield from super().map(function, requests)


@pytest.mark.usefixtures("lettered")
def test_two_that_make_the_same_list_at_once_leave_the_same_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another process and this one, with one cache: both end well, and neither spoils what the other reads."""
    monkeypatch.setattr("wrapwright.jobs.names.make_names._FEW", 0)
    job = job_in(tmp_path / "job", names_of(48))
    lists = tmp_path / "cache" / "lists"
    process = started(job, tmp_path / "other", tmp_path, 1)
    pool = Late(lambda: wait_until(lambda: bool(list(lists.glob("*/shard-*.json"))), process))
    made(job, tmp_path / "this", replace(bench_in(tmp_path), pool=pool))
    _, said = process.communicate(timeout=90)
    assert process.returncode == 0, said
    assert len(list(lists.iterdir())) == 1
    ours = bytes_of(tmp_path / "this")
    assert set(ours) == FILES | {"report.json"}
    assert bytes_of(tmp_path / "other") == ours
