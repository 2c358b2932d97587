"""The checks told live are those that make tells."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.check_job import check_job
from wrapwright.jobs.live.checking import CheckLive, check_live
from wrapwright.jobs.requests import CheckRequest

Design = Callable[..., dict[str, Any]]


def test_the_examples_findings_are_those_of_its_file(live_bench: Bench) -> None:
    with as_file(files("wrapwright.data").joinpath("demo")) as folder:
        document = tomllib.loads((folder / "job.toml").read_text(encoding="utf-8"))
        live = check_live(CheckLive(document, folder, 3), live_bench, Watch())
        told = check_job(CheckRequest(folder / "job.toml", None), live_bench, Watch())
    assert live.revision == 3
    assert [(one.rule, one.severity, one.message, one.name) for one in live.findings] == [
        (one.rule, one.severity.value, one.message, one.element or "") for one in told.findings
    ]
    assert live.notes == told.notes
    names = [element.get("name") for element in document["element"]]
    named = [one for one in live.findings if one.name in names]
    assert named
    assert all(one.element == names.index(one.name) for one in named)


def test_what_is_reused_changes_no_finding(live_bench: Bench, job_folder: Path, design: Design) -> None:
    fill = {"kind": "fill", "colour": "#f0f0f0"}
    text = {"kind": "text", "text": "Ada", "size": "9 mm", "colour": "#e0e0e0", "name": "ada"}
    code = {"kind": "code", "text": "regatta", "width": "24 mm", "at": "back", "colour": "#303030"}
    photo = {"kind": "picture", "file": "photo.png", "width": "80 mm", "name": "photo"}
    session = [
        design(fill, photo, text, code),
        design(fill, photo, {**text, "at": "right"}, code),
        design(fill, photo, {**text, "at": "left"}, code),
        design({**fill, "colour": "#101010"}, photo, {**text, "at": "left"}, code),
        design(photo, {**text, "at": "270 deg"}, {**code, "at": "10 deg"}),
    ]
    rules = []
    for document in session:
        found = check_live(CheckLive(document, job_folder), live_bench, Watch())
        fresh = Bench(live_bench.folders, live_bench.pool, live_bench.clock)
        assert found == check_live(CheckLive(document, job_folder), fresh, Watch())
        rules.append({(one.rule, one.element) for one in found.findings})
    assert ("text-contrast", 2) in rules[1]
    assert ("text-contrast", 2) not in rules[3]
    assert ("crosses-seam", 2) in rules[2]
    assert ("crosses-seam", 2) not in rules[1]


def test_errors_the_page_makes_are_told_and_those_accepted_are_marked(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    photo = {"kind": "picture", "file": "photo.png", "width": "120 mm"}
    document = design(photo, sheet={"paper": [100, 100]}, accept=["picture-ppi"])
    found = {one.rule: one for one in check_live(CheckLive(document, job_folder), live_bench, Watch()).findings}
    assert found["does-not-fit"].severity == "error"
    assert found["does-not-fit"].element is None
    assert not found["does-not-fit"].accepted
    assert found["picture-ppi"].accepted


def test_another_paper_is_asked_anew(live_bench: Bench, job_folder: Path, design: Design) -> None:
    fill = {"kind": "fill", "colour": "#304050"}
    rules = []
    for paper in ("Letter", [100, 100], "Letter"):
        document = design(fill, sheet={"paper": paper})
        found = check_live(CheckLive(document, job_folder), live_bench, Watch()).findings
        rules.append("does-not-fit" in {one.rule for one in found})
    assert rules == [False, True, False]


def test_findings_count_elements_as_the_document_does(live_bench: Bench, job_folder: Path, design: Design) -> None:
    photo = {"kind": "picture", "file": "photo.png", "width": "120 mm"}
    document = design({**photo, "file": "gone.png"}, photo)
    found = check_live(CheckLive(document, job_folder), live_bench, Watch()).findings
    assert {one.element for one in found if one.rule == "picture-ppi"} == {1}


def test_a_document_without_a_wrap_has_no_findings(live_bench: Bench, job_folder: Path) -> None:
    found = check_live(CheckLive({"format": 1}, job_folder, 4), live_bench, Watch())
    assert (found.revision, found.findings, found.notes) == (4, (), ())
