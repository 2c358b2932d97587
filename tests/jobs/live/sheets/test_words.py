"""Every mark that can stand on a sheet has a name and a sentence."""

from __future__ import annotations

import pytest

from wrapwright.jobs.live.sheets.words import mark_told


@pytest.mark.parametrize(
    ("mark", "name"),
    [
        ("check bars 50 mm", "Check bars 50 mm"),
        ("some corner marks", "Some corner marks"),
        ("guide arcs 3 mm", "Guide arcs 3 mm"),
        ("rim", "Rim"),
        ("lay on top", "Lay on top"),
        ("piece number", "Piece number"),
    ],
)
def test_marks_are_named_as_on_the_sheet(mark: str, name: str) -> None:
    said, words = mark_told(mark)
    assert said == name
    assert words.endswith(".")


def test_a_mark_of_tomorrow_keeps_its_name() -> None:
    assert mark_told("register pins") == ("Register pins", "")
