"""The coupons on paper: true size, mirrored, labels the right way round and outside the trim."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.design.path import Path, polygon
from wrapwright.core.press.trial.sheet.card import HEIGHT_MM, LINES_MM, WIDTH_MM, card
from wrapwright.core.press.trial.sheet.pages import USUAL_MM, Labelled, PrintedPage, coupon_pages, pieces_for
from wrapwright.core.sheet.request import SheetRequest

LETTER = SheetRequest()


def flag(text: str, cap: float) -> Path:
    """Words as a flag that is wide at its left end: one can see which way they read."""
    return polygon([(0.0, 0.0), (0.6 * cap * len(text), 0.0), (0.0, cap)])


def _labelled(count: int) -> list[Labelled]:
    return [Labelled(number, "195 °C (383 °F)", "5 min") for number in range(1, count + 1)]


def _pages(count: int, sheet: SheetRequest = LETTER, **more: float) -> tuple[PrintedPage, ...]:
    pieces = pieces_for(_labelled(count), USUAL_MM, sheet, **more)
    return coupon_pages(pieces, sheet, title="Trial", words=("What to do.",), set_label=flag)


def _reads_backwards(path: Path) -> bool:
    box, points = path.box(), np.concatenate([sub.points for sub in path.subpaths])
    top = points[points[:, 1].argmax()]
    return bool(top[0] > (box[0] + box[2]) / 2.0)


def test_cards_are_mirrored_and_labels_are_not() -> None:
    page = _pages(2)[0]
    words = [one for one in page.tints if one.words]
    of_cards = [one.path for one in words if one.path.box()[3] - one.path.box()[1] == pytest.approx(5.6, abs=0.01)]
    assert len(of_cards) == 2
    assert all(_reads_backwards(one) for one in of_cards)
    labels = [one.path for one in words if one.path.box()[3] - one.path.box()[1] == pytest.approx(2.0, abs=0.05)]
    assert len(labels) >= 4
    assert not any(_reads_backwards(one) for one in labels)


def _uprights(page: PrintedPage) -> list[float]:
    """Widths of the upright lines of all cards, as drawn on the page."""
    found = []
    for one in page.tints:
        for sub in one.path.subpaths:
            low, high = sub.points.min(axis=0), sub.points.max(axis=0)
            if high[1] - low[1] == pytest.approx(4.6, abs=0.2) and high[0] - low[0] < 0.6:
                found.append(float(high[0] - low[0]))
    return found


@pytest.mark.parametrize("scale", [1.0, 1.004])
def test_lines_are_as_wide_as_they_say_divided_by_the_printers_scale(scale: float) -> None:
    page = _pages(1, replace(LETTER, scale_across=scale, scale_along=1.0, calibrated=True))[0]
    assert sorted(set(np.round(_uprights(page), 5))) == pytest.approx([one / scale for one in LINES_MM], abs=1e-4)


def test_the_card_is_as_large_as_it_says() -> None:
    boxes = [one.path.box() for one in card(7, flag)]
    assert min(box[0] for box in boxes) == pytest.approx(0.0)
    assert max(box[2] for box in boxes) == pytest.approx(WIDTH_MM)
    assert max(box[3] for box in boxes) <= HEIGHT_MM + 1e-9


def test_nothing_is_printed_where_the_printer_does_not_reach_and_marks_keep_off_the_trim() -> None:
    for page in _pages(24):
        for one in page.tints:
            left, bottom, right, top = one.path.box()
            assert left >= 4.0 - 1e-6
            assert bottom >= 4.0 - 1e-6
            assert right <= page.width_mm - 4.0 + 1e-6
            assert top <= page.height_mm - 4.0 + 1e-6


def test_many_coupons_go_on_and_a_roll_is_as_long_as_it_needs() -> None:
    assert len(_pages(24)) == 2
    rolled = _pages(24, SheetRequest("roll 610 mm", 610.0, None))
    assert len(rolled) == 1
    assert 150.0 < rolled[0].height_mm < 400.0


def test_positions_hang_together_and_run_to_the_right_as_seen() -> None:
    pieces = pieces_for(_labelled(8), USUAL_MM, LETTER, strip_mm=230.0)
    assert [len(one.coupons) for one in pieces] == [6, 2]  # 197 mm are left between the ticks of a Letter page
    assert sum(one.width_mm for one in pieces) == pytest.approx(230.0)
    page = coupon_pages(pieces, LETTER, title="Trial", words=(), set_label=flag)[0]
    rows = [one.path.box() for one in page.tints if one.words and one.path.box()[3] - one.path.box()[1] > 5.5]
    assert rows[0][0] > rows[1][0] > rows[2][0]  # on the paper, mirrored, they run to the left


def test_sizes_that_cannot_be_printed() -> None:
    with pytest.raises(WrapwrightError, match="a coupon 20 mm wide cannot be printed: 32 mm to"):
        pieces_for(_labelled(1), (20.0, 50.0), LETTER)
    with pytest.raises(WrapwrightError, match="a coupon 400 mm high cannot be printed"):
        pieces_for(_labelled(1), (40.0, 400.0), LETTER)
    with pytest.raises(WrapwrightError, match="12 positions on 200 mm have 16") as problem:
        pieces_for(_labelled(12), USUAL_MM, LETTER, strip_mm=200.0)
    assert problem.value.remedy == "Plan 7 or fewer."
