"""Papers by name and by size."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.sheet.papers import PAPERS, paper_named, roll_of, sheet_of

# ISO 216: A4 210 x 297, A3 297 x 420. ANSI/ASME Y14.1: A 8.5 x 11 in, B 11 x 17 in. Legal 8.5 x 14 in: common
# practice, no source.
SIZES = {
    "A4": (210.0, 297.0),
    "A3": (297.0, 420.0),
    "Letter": (215.9, 279.4),
    "Tabloid": (279.4, 431.8),
    "Legal": (215.9, 355.6),
}


@pytest.mark.parametrize("name", sorted(SIZES))
def test_named_papers_have_the_standards_sizes(name: str) -> None:
    for written in (name, name.lower(), f" {name.upper()} "):
        paper = paper_named(written)
        assert (paper.name, paper.width_mm, paper.height_mm) == (name, *map(pytest.approx, SIZES[name]))


def test_no_paper_is_known_beyond_the_published_table() -> None:
    assert set(PAPERS) == set(SIZES)


@pytest.mark.parametrize(
    ("written", "width", "height"),
    [
        ("13x19 in", 330.2, 482.6),
        ("13 in x 19 in", 330.2, 482.6),
        ("19 X 13 in", 330.2, 482.6),
        ("330.2 × 482.6 mm", 330.2, 482.6),
        ("330 x 483", 330.0, 483.0),
        ("8 1/2 x 14 in", 215.9, 355.6),
    ],
)
def test_written_sizes(written: str, width: float, height: float) -> None:
    paper = paper_named(written)
    assert paper.width_mm == pytest.approx(width)
    assert paper.height_mm == pytest.approx(height)


def test_a_written_size_that_has_a_name_gets_it() -> None:
    assert paper_named("210 x 297 mm").name == "A4"
    assert sheet_of(482.6, 330.2).name == "330.2 x 482.6 mm"


def test_a_roll_has_no_length() -> None:
    roll = roll_of(610.0)
    assert (roll.name, roll.width_mm, roll.height_mm) == ("roll 610 mm", 610.0, None)


@pytest.mark.parametrize(
    ("written", "said"),
    [("Leter", "Letter"), ("foolscap", "Tabloid"), ("13x19", "in"), ("4000 x 200", "3000"), ("0 x 100", "50")],
)
def test_what_no_printer_takes_is_refused_with_a_sentence(written: str, said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        paper_named(written, where="sheet: paper")
    assert said in str(caught.value)
    assert caught.value.where == "sheet: paper"
