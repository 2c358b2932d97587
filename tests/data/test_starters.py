"""Shapes to start from: each can be drawn without an error, and says that it wants measuring."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.findings import Severity
from wrapwright.core.blank.wrapped import Setup, wrap_blank
from wrapwright.data.starters import Starter, starters
from wrapwright.outside.jobfile.reading import read_document


def test_there_is_one_of_each_kind() -> None:
    found = starters()
    assert {one.table["kind"] for one in found} == {"straight", "tapered", "profile", "flat"}
    assert {one.table["kind"] for one in found if "handle" in one.table} == {"straight", "tapered"}
    assert len({one.name for one in found}) == len(found)
    assert all("Measure yours" in one.words for one in found)


@pytest.mark.parametrize("shape", starters(), ids=lambda shape: shape.key)
def test_a_wrap_can_be_made_of_it(shape: Starter) -> None:
    document = {"format": 1, "blank": dict(shape.table), "wrap": dict(shape.wrap)}
    job = read_document(document, folder=Path(), stem="x")
    wrapped = wrap_blank(job.blank, job.wrap, Setup())
    assert [one for one in wrapped.findings if one.severity is Severity.ERROR] == []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("schema = 2", "schema 2"),
        (
            "schema = 1\n" + '[[starter]]\nkey = "a"\nname = "A"\nwords = "w"\nblank = {}\n' * 2,
            "a key stands in it twice",
        ),
    ],
)
def test_files_that_cannot_be_meant(text: str, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        starters(text)
