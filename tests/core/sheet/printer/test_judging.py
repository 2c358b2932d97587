"""What speaks against printing a sheet on a printer, each told with its figure, and nothing where all is well."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as some

from wrapwright.core.base.findings import Severity
from wrapwright.core.sheet.printer.judging import SAME_PAPER_MM, judged, loaded, same_size, size_words
from wrapwright.core.sheet.printer.values import Media, Page, PrinterFacts, Readiness, Sizes

LETTER = Media("na_letter_8.5x11in", 215.9, 279.4, (3.0, 3.2, 5.0, 3.3))
A4 = Media("iso_a4_210x297mm", 210.0, 297.0, (3.0, 3.0, 5.0, 3.0))
SHEET = Page(215.9, 279.4, margins_mm=(6.0, 6.0, 6.0, 6.0))
GOOD = PrinterFacts(
    address="ipp://desk.example/ipp/print",
    formats=("application/pdf",),
    scalings=("auto", "none"),
    media=(LETTER, A4),
    ready=(LETTER,),
    copies=20,
    readiness=Readiness.IDLE,
)


def told(page: Page = SHEET, *, copies: int = 1, **changed: object) -> list[tuple[str, Severity]]:
    found = judged(page, replace(GOOD, **changed), copies=copies)  # type: ignore[arg-type]
    return [(one.rule, one.severity) for one in found]


def test_nothing_speaks_against_a_printer_as_it_should_be() -> None:
    assert told() == []
    assert told(replace(SHEET, margins_mm=None)) == []
    assert told(Page(279.4, 215.9)) == []  # lying


@pytest.mark.parametrize(
    ("changed", "rule", "severity"),
    [
        ({"formats": ("image/pwg-raster",)}, "printer-format", Severity.ERROR),
        ({"formats": ("application/octet-stream",)}, "printer-format", Severity.WARNING),
        ({"ready": (A4,)}, "printer-paper", Severity.ERROR),
        ({"ready": None, "media": (A4,)}, "printer-paper", Severity.ERROR),
        ({"ready": None}, "printer-paper", Severity.NOTE),
        ({"scalings": ("auto", "fit")}, "printer-scaling", Severity.ERROR),
        ({"scalings": ()}, "printer-scaling", Severity.ERROR),
        ({"scalings": None}, "printer-scaling", Severity.WARNING),
        ({"ready": (replace(LETTER, margins_mm=(3.0, 3.0, 12.7, 3.0)),)}, "printer-margins", Severity.ERROR),
        ({"accepting": False}, "printer-state", Severity.ERROR),
        ({"readiness": Readiness.STOPPED, "words": "a cover is open"}, "printer-state", Severity.WARNING),
        ({"words": "little ink is left"}, "printer-state", Severity.NOTE),
    ],
)
def test_each_thing_that_speaks_against_it(changed: dict[str, object], rule: str, severity: Severity) -> None:
    assert told(**changed) == [(rule, severity)]


def test_copies() -> None:
    assert told(copies=20) == []
    assert told(copies=21) == [("printer-copies", Severity.ERROR)]


def test_both_papers_are_named_with_their_sizes() -> None:
    (found,) = judged(SHEET, replace(GOOD, ready=(A4,)))
    assert found.message == (
        "The sheet is Letter (215.9 x 279.4 mm), but in the printer is A4 (210.0 x 297.0 mm): load the sheet's paper."
    )
    (found,) = judged(Page(330.2, 482.6), GOOD)
    assert "330.2 x 482.6 mm" in found.message
    assert "does not name that paper" in found.message


def test_the_margins_are_told_side_by_side() -> None:
    page = replace(SHEET, margins_mm=(6.0, 6.0, 4.0, 3.26))
    (found,) = judged(page, GOOD)
    assert (found.figure, found.limit, found.unit) == (4.0, 5.0, "mm")
    assert "bottom 5.00 mm (the sheet 4.00 mm)" in found.message
    assert "left" not in found.message  # 3.30 of the printer is 3.26 of the sheet, within what is written
    assert "top" not in found.message


def test_margins_of_a_page_turned_to_the_paper() -> None:
    """It may lie either way round on the paper, so the larger of each pair counts."""
    lying = Page(279.4, 215.9, margins_mm=(4.0, 6.0, 4.0, 4.9))
    (found,) = judged(lying, GOOD)
    assert "left 5.00 mm (the sheet 4.90 mm)" in found.message
    assert judged(replace(lying, margins_mm=(3.3, 5.0, 3.3, 5.0)), GOOD) == ()


BARE = replace(LETTER, margins_mm=(0.0, 0.0, 0.0, 0.0))
WIDE = replace(LETTER, margins_mm=(3.0, 3.2, 12.7, 3.3))


def test_of_one_paper_with_several_margins_the_widest_that_the_sheet_leaves_free() -> None:
    every = replace(GOOD, ready=(BARE, LETTER, WIDE))
    far, near = replace(SHEET, margins_mm=(20.0, 20.0, 20.0, 20.0)), replace(SHEET, margins_mm=(2.0, 2.0, 2.0, 2.0))
    assert loaded(far, every) is WIDE
    assert loaded(SHEET, every) is LETTER
    assert loaded(near, every) is BARE
    assert loaded(replace(SHEET, margins_mm=None), every) is LETTER  # over the edge only when it is needed
    assert loaded(near, replace(GOOD, ready=(WIDE, LETTER))) is LETTER  # none will do: the one that reaches farthest


def test_what_lies_in_the_printer_comes_first() -> None:
    assert loaded(SHEET, replace(GOOD, ready=(LETTER,), media=(BARE,))) is LETTER
    assert loaded(SHEET, replace(GOOD, ready=(), media=(BARE,))) is BARE
    assert loaded(SHEET, replace(GOOD, ready=None, media=(A4,))) is None


def test_printing_over_the_edge_is_warned_of() -> None:
    near = replace(SHEET, margins_mm=(2.0, 2.0, 2.0, 2.0))
    assert told(near, ready=(LETTER, BARE)) == [("printer-margins", Severity.WARNING)]
    assert told(near, ready=(LETTER,)) == [("printer-margins", Severity.ERROR)]
    assert told(SHEET, ready=(LETTER, BARE)) == []


def test_papers_of_any_size() -> None:
    roll = Sizes(89.0, 215.9, 127.0, 15_000.0)
    assert told(Page(200.0, 900.0), ready=None, sizes=(roll,)) == [("printer-paper", Severity.NOTE)]
    assert told(Page(230.0, 900.0), ready=None, sizes=(roll,)) == [("printer-paper", Severity.ERROR)]


@given(some.floats(50, 3000), some.floats(50, 3000), some.floats(-2, 2), some.floats(-2, 2))
def test_a_paper_is_the_same_within_half_a_millimetre(width: float, height: float, more: float, longer: float) -> None:
    page, media = Page(width, height), Media("", width + more, height + longer)
    expected = abs(more) <= SAME_PAPER_MM and abs(longer) <= SAME_PAPER_MM
    if abs(width - height) > 5 and all(abs(abs(one) - SAME_PAPER_MM) > 1e-6 for one in (more, longer)):
        assert same_size(page, media) is expected
        assert same_size(page, Media("", height + longer, width + more)) is expected


def test_sizes_are_called_by_name() -> None:
    assert size_words(210.0, 297.0) == "A4 (210.0 x 297.0 mm)"
    assert size_words(279.4, 215.9) == "Letter (279.4 x 215.9 mm)"
    assert size_words(100.0, 150.0) == "100.0 x 150.0 mm"
