from __future__ import annotations

import numpy as np
import pytest

from wrapwright.core.sheet.mirror import image_box, image_frame, mirrored, page_frame, page_pixels, seen_through


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_it_mirrors_once_whatever_the_turn(turn):
    assert np.linalg.det(mirrored(turn)[:2, :2]) == pytest.approx(-1.0)


@pytest.mark.parametrize(
    ("turn", "right", "up"),
    [
        (0, (-1, 0), (0, 1)),
        (90, (0, -1), (-1, 0)),
        (180, (1, 0), (0, -1)),
        (270, (0, 1), (1, 0)),
    ],
)
def test_turns_go_anticlockwise_after_mirroring(turn, right, up):
    # Seen right is page left once mirrored; a quarter turn anticlockwise takes left to down and up to left.
    move = mirrored(turn)[:2, :2]
    assert move @ [1, 0] == pytest.approx(right)
    assert move @ [0, 1] == pytest.approx(up)


def test_lengths_are_divided_by_what_the_printer_makes_of_them():
    # A head that draws 1 % too long needs 100/1.01 mm in the file for 100 mm on paper.
    move = mirrored(0, (1.01, 0.99))
    assert abs((move @ [100, 0, 0])[0]) == pytest.approx(100 / 1.01)
    assert (move @ [0, 100, 0])[1] == pytest.approx(100 / 0.99)


@pytest.mark.parametrize("turn", [0, 90])
def test_the_frame_looks_back_at_the_flat_wrap(turn):
    to_page = mirrored(turn, (1.004, 0.997), (150.0, 80.0))
    box = image_box((20.03, 30.0, 60.0, 45.01), 300)
    frame = image_frame(to_page, box, 300)
    pitch = 25.4 / 300
    assert (frame.width_px, frame.height_px) == (round((box[2] - box[0]) / pitch), round((box[3] - box[1]) / pitch))
    for px, py in ((0.0, 0.0), (10.5, 7.5), (frame.width_px, frame.height_px)):
        on_page = to_page @ frame.to_flat @ [px, py, 1.0]
        assert on_page[:2] == pytest.approx((box[0] + px * pitch, box[3] - py * pitch), abs=1e-9)


def test_the_image_box_holds_the_piece_in_whole_pixels():
    box = image_box((20.03, 30.0, 60.0, 45.01), 600)
    assert box[0] <= 20.03
    assert box[1] <= 30.0
    assert box[2] >= 60.0
    assert box[3] >= 45.01
    pixels = np.array(box) * 600 / 25.4
    assert pixels == pytest.approx(np.round(pixels), abs=1e-6)
    assert image_box(box, 600) == pytest.approx(box)  # nothing grows twice


def test_the_whole_page_frame_and_its_inverse_agree():
    to_page = mirrored(0, (1.0, 1.0), (150.0, 80.0))
    frame = page_frame(to_page, (279.4, 215.9), 300)
    assert (frame.width_px, frame.height_px) == (3300, 2550)
    assert page_pixels((279.4, 215.9), 300) @ to_page @ frame.to_flat == pytest.approx(np.eye(3), abs=1e-9)


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_through_the_paper_nothing_is_mirrored_and_everything_lies_behind_its_place(turn):
    to_page, width = mirrored(turn, shift=(150.0, 120.0)), 215.9
    through = seen_through(to_page, width)
    assert np.linalg.det(through[:2, :2]) == pytest.approx(1.0)
    for place in ([0.0, 0.0, 1.0], [30.0, -12.0, 1.0]):
        x, y, _ = to_page @ place
        assert through @ place == pytest.approx([width - x, y, 1.0])
