"""A document that is partly wrong is understood as far as it goes."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.composing.understood import canonical, understood

Design = Callable[..., dict[str, Any]]

FILL = {"kind": "fill", "colour": "#123456"}
PHOTO = {"kind": "picture", "file": "photo.png", "width": "40 mm"}


def test_a_right_document_is_the_job_it_describes(live_bench: Bench, job_folder: Path, design: Design) -> None:
    read = understood(design(FILL, PHOTO, title="Weir Street"), job_folder, live_bench)
    assert read.opened is not None
    assert (read.opened.job.title, read.indices, read.troubles) == ("Weir Street", (0, 1), ())
    assert [element.name for element in read.opened.job.elements] == ["fill 1", "picture 1"]


def test_wrong_elements_are_left_out_and_the_others_keep_name_and_number(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    document = design(
        {"kind": "text", "text": "", "size": "9 mm"},
        {"kind": "text", "text": "Ada", "size": "9 mm"},
        {"kind": "picture", "file": "gone.png", "width": "40 mm"},
        {"kind": "picture", "file": "gone.png", "width": "20 mm"},
        {"kind": "wobble"},
        "no table",
        PHOTO,
    )
    read = understood(document, job_folder, live_bench)
    assert read.opened is not None
    assert read.indices == (1, 6)
    assert [element.name for element in read.opened.job.elements] == ["text 2", "picture 3"]
    assert sorted(index for index, _ in read.troubles if index is not None) == [0, 2, 3, 4, 5]
    said = dict(read.troubles)
    assert "gone.png" in said[2].message
    assert said[3].where.startswith("element 4 (picture 2)")


def test_a_wrong_table_is_taken_as_not_written(live_bench: Bench, job_folder: Path, design: Design) -> None:
    document = design(
        FILL, sheet={"paper": "papyrus"}, colour={"route": "convert", "profile": "gone.icc"}, press={"recipe": 7}
    )
    read = understood(document, job_folder, live_bench)
    assert read.opened is not None
    assert read.opened.job.sheet.paper == "Letter"
    assert read.opened.job.colour.route == "driver"
    assert {problem.where.partition(":")[0] for _, problem in read.troubles} == {"sheet", "colour", "press"}
    assert read.indices == (0,)


def test_what_only_shows_when_something_else_is_gone_has_the_right_number_too(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    # While a list of names is written its rows may hold the field; lists are not made, so the text lacks it.
    document = design(
        {"kind": "text", "text": "", "size": "9 mm"},
        FILL,
        {"kind": "text", "text": "for {whom}", "size": "9 mm"},
        names={"file": "crew.csv"},
    )
    read = understood(document, job_folder, live_bench)
    assert read.indices == (1,)
    said = dict(read.troubles)
    assert set(said) == {0, 2, None}
    assert "whom" in said[2].message
    assert said[2].where.startswith("element 3 (text 2)")


def test_without_a_blank_there_is_no_job(live_bench: Bench, job_folder: Path, design: Design) -> None:
    for document in ({}, {"format": 2, "blank": {}}, design(FILL, blank={"kind": "straight"})):
        read = understood(document, job_folder, live_bench)
        assert read.opened is None
        assert read.troubles


def test_equal_documents_are_equal_texts() -> None:
    assert canonical({"b": 1, "a": [1.5, "x"]}) == canonical({"a": [1.5, "x"], "b": 1})
    assert canonical({"a": 1}) != canonical({"a": "1"})
