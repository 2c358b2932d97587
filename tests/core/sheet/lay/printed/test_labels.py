"""Labels: what they say, that they stand in their place, and that they are never mirrored."""

from __future__ import annotations

import numpy as np
import pytest
from tests.sheet_on_paper.lettering import set_label

from wrapwright.core.sheet.lay.printed.labels import LINE_MM, MODULE_MM, Lettering, row_of, shortened, stamps_of
from wrapwright.core.sheet.lay.printed.values import Bars, Slip, Stamp

MODULES = np.eye(12, dtype=np.bool_)
SLIP = Slip(17, 30, "A1-17")


def reach(stamp: Stamp) -> np.ndarray:
    """The corners of a stamp's box on the page."""
    if isinstance(stamp.path, Bars):
        boxes = stamp.path.boxes
        low, high = boxes[:, :2].min(axis=0), (boxes[:, :2] + boxes[:, 2:]).max(axis=0)
        box = (*low, *high)
    else:
        box = stamp.path.box()
    corners = np.array([[box[0], box[1], 1.0], [box[2], box[3], 1.0]])
    return (corners @ stamp.to_page.T)[:, :2]


@pytest.mark.parametrize("box", [(10.0, 20.0, 70.0, 25.4), (10.0, 20.0, 15.4, 80.0)])
def test_all_of_a_label_stands_in_its_box_the_right_way_round(box: tuple[float, float, float, float]):
    stamps = stamps_of(SLIP, "label", ("Regatta", "lay first"), MODULES, box, Lettering(set_label), (1.0, 1.0))
    assert len(stamps) == 5  # the code, two digits, two lines
    for stamp in stamps:
        points = reach(stamp)
        assert (points.min(axis=0) >= np.array(box[:2]) - 0.7).all()  # tails of letters reach a little below
        assert (points.max(axis=0) <= np.array(box[2:]) + 0.7).all()
        assert np.linalg.det(stamp.to_page[:2, :2]) == pytest.approx(1.0)


def test_a_printer_that_prints_too_long_gets_it_shorter():
    pen = Lettering(set_label)
    box = (10.0, 20.0, 70.0, 25.4)
    plain, scaled = (stamps_of(SLIP, "code", (), MODULES, box, pen, scale)[0] for scale in ((1.0, 1.0), (1.01, 0.99)))
    assert reach(scaled) == pytest.approx(reach(plain) / np.array([1.01, 0.99]))


def test_a_code_is_its_dark_modules():
    bars = Lettering(set_label).code(MODULES)
    assert bars.boxes[:, 2:].prod(axis=1).sum() == pytest.approx(12 * MODULE_MM**2)
    top = bars.boxes[bars.boxes[:, 1].argmax()]
    assert top[:2] == pytest.approx([0.0, 11 * MODULE_MM])  # the first row is the upper one


def test_a_title_is_cut_to_its_room():
    pen = Lettering(set_label)
    cut = shortened("A title that is far too long", 12.0, pen)
    assert cut.endswith("…")
    assert pen.wide(cut, LINE_MM) <= 12.0
    assert shortened("Ada", 40.0, pen) == "Ada"
    assert shortened("Ada", 0.1, pen) == ""


def test_rows_that_differ_in_a_number_share_their_shapes():
    pen = Lettering(set_label)
    one, _ = row_of(("sheet", "12", "of", "30"), LINE_MM, pen)
    other, _ = row_of(("sheet", "21", "of", "30"), LINE_MM, pen)
    assert {id(path) for path, _ in one} == {id(path) for path, _ in other}
    assert [at for _, at in one] == sorted(at for _, at in one)
