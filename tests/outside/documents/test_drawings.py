"""The line drawings: lengths and sides."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.outside.documents.samples import FLATS, art, blank, sheet, wrap

from wrapwright.core.blank.readings import Keepout
from wrapwright.outside.documents.bench_drawings import piece_drawing, seam_drawing, sheet_drawing
from wrapwright.outside.documents.flat_drawing import flat_drawing
from wrapwright.outside.documents.sketch import ring


def spoken(drawing):
    return {item["text"]: item for item in drawing["items"] if item["k"] == "words"}


def points(item):
    return np.array([move[-2:] for move in item["moves"] if move[0] != "z"])


def strokes(drawing, colour):
    return [points(item) for item in drawing["items"] if item["k"] == "shape" and item["stroke"] == colour]


@pytest.mark.parametrize("kind", ["straight", "tapered", "mug"])
@pytest.mark.parametrize("room", [(180.0, 100.0), (90.0, 150.0)])
def test_the_flat_drawing_keeps_to_its_room(kind, room):
    drawn = flat_drawing(wrap(kind), art(kind), file="art.png", room=room)
    assert drawn["width"] <= room[0] + 1e-6
    assert drawn["height"] <= room[1] + 1e-6
    every = np.vstack([points(one) for one in drawn["items"] if one["k"] == "shape" and one["fill"] not in
                       ("veil", "sheet")])  # fmt: skip
    assert every.min() >= -0.01
    assert every[:, 0].max() <= drawn["width"] + 0.01
    assert every[:, 1].max() <= drawn["height"] + 0.01


def test_seam_lines_stand_one_turn_apart_and_front_halfway_to_back():
    drawn = flat_drawing(wrap("straight"), art("straight"), file="art.png", room=(180.0, 120.0))
    first, last = strokes(drawn, "heat")
    turn = last[0, 0] - first[0, 0]
    trim = strokes(drawn, "ink")[0]
    # One turn is girth + pi t = 235.377 of the 241.377 mm with the overlap (design: all flat lengths mid-paper, P8).
    assert turn / np.ptp(trim[:, 0]) == pytest.approx(235.377 / 241.377, abs=1e-4)
    names = spoken(drawn)
    assert (names["Back"]["x"] - names["Front"]["x"]) / turn == pytest.approx(0.5, abs=1e-4)
    # Seam at 270 (left): front is a quarter of a turn to its right, then right, then back.
    assert names["Front"]["x"] - first[0, 0] == pytest.approx(turn / 4, abs=0.01)
    assert names["Front"]["x"] < names["Right"]["x"] < names["Back"]["x"]


def test_a_keep_out_stands_at_its_place_cut_by_the_band():
    mark = Keepout(180.0, 12.0, 20.0, 16.0, "maker's mark")
    drawn = flat_drawing(wrap("straight"), art("straight"), file="art.png", room=(180.0, 120.0), keepouts=(mark,))
    (box,) = strokes(drawn, "bad")
    trim = strokes(drawn, "ink")[0]
    scale = np.ptp(trim[:, 1]) / 102.0
    # 4 to 20 mm on the wall; the band starts at 10: what shows is its lowest 10 mm.
    assert np.ptp(box[:, 0]) / scale == pytest.approx(20.0, abs=0.02)
    assert np.ptp(box[:, 1]) / scale == pytest.approx(10.0, abs=0.02)
    assert box[:, 1].max() == pytest.approx(trim[:, 1].max(), abs=0.01)
    assert (box[:, 0].min() + box[:, 0].max()) / 2 == pytest.approx(spoken(drawn)["Back"]["x"], abs=0.01)
    below = Keepout(180.0, 3.0, 20.0, 6.0)
    drawn = flat_drawing(wrap("straight"), art("straight"), file="art.png", room=(180.0, 120.0), keepouts=(below,))
    assert not strokes(drawn, "bad")


def test_uprights_of_a_taper_meet_in_one_apex():
    drawn = flat_drawing(wrap("tapered"), art("tapered"), file="art.png", room=(180.0, 120.0))
    lean = {name: spoken(drawn)[name]["turn"] for name in ("Front", "Right", "Back")}
    half = math.degrees(abs(FLATS["tapered"].theta)) / 2
    # Quarters of the sector's angle (closed form): front leans left by a quarter of it, right stands upright.
    assert lean["Front"] == pytest.approx(-half / 2, abs=0.01)
    assert lean["Right"] == pytest.approx(0.0, abs=0.01)
    assert lean["Back"] == pytest.approx(half / 2, abs=0.01)


def test_the_sheet_is_mirrored_and_turned_as_the_page():
    drawn = sheet_drawing(sheet("straight").page, wrap("straight"), art("straight"), file="art.png", room=(68, 72))
    names = spoken(drawn)
    (picture,) = [item for item in drawn["items"] if item["k"] == "picture"]
    assert picture["mirror"] is True
    # Mirrored, the left end (laid first) comes to the right; a quarter turn anticlockwise then brings it to the top.
    assert picture["turn"] == -90
    assert names["1"]["y"] < names["2"]["y"]
    assert names["1"]["x"] == pytest.approx(names["2"]["x"], abs=0.01)
    # The upper edge comes to the left.
    assert names["rim"]["x"] < names["1"]["x"]
    middle = (picture["x"] + picture["w"] / 2, picture["y"] + picture["h"] / 2)
    assert middle == pytest.approx((drawn["width"] / 2, drawn["height"] / 2), abs=0.01)


def test_the_seam_drawing_lays_end_1_under_end_2():
    drawn = seam_drawing(wrap("straight"), width_mm=68)
    under, over = strokes(drawn, "accent")[0], next(one for one in strokes(drawn, "ink") if len(one) == 4)
    seam = strokes(drawn, "heat")[0][0, 0]
    assert under[0, 0] == pytest.approx(seam)
    assert over[-1, 0] > seam
    assert over[-1, 1] < under[0, 1]  # y runs down: further from the wall
    assert "6 mm" in spoken(drawn)
    assert "handle" in spoken(seam_drawing(wrap("mug"), width_mm=68))


def test_the_piece_shows_its_three_distances_in_proportion():
    drawn = piece_drawing(blank("straight"), wrap("straight"), room=(68, 46))
    names = spoken(drawn)
    assert {"53 mm to the rim end", "102 mm band", "10 mm to the base end"} <= set(names)
    band = next(points(item) for item in drawn["items"] if item.get("fill") == "accentsoft")
    wall = next(points(item) for item in drawn["items"] if item.get("fill") == "sheet")
    tall = [abs(one[0, 1] - one[1, 1]) for one in (band, wall)]
    assert tall[0] / tall[1] == pytest.approx(102 / 165, abs=1e-3)


def test_a_ring_is_round():
    moves = ring((3.0, 4.0), (2.0, 1.0), fill="ink")["moves"]
    start = np.array(moves[0][1:])
    for move in moves[1:-1]:
        one, two, end = (np.array(move[i : i + 2]) for i in (1, 3, 5))
        middle = (start + 3 * one + 3 * two + end) / 8
        off = (middle - [3.0, 4.0]) / [2.0, 1.0]
        assert math.hypot(*off) == pytest.approx(1.0, abs=1e-3)
        start = end


def test_dimensions_stand_on_white_over_the_lines_they_may_meet():
    drawn = flat_drawing(wrap("tapered"), art("tapered"), file="art.png", room=(90.0, 150.0))
    items = drawn["items"]
    named = [one for one in items if one["k"] == "words" and one["backed"]]
    assert [one["text"].split(" (")[0] for one in named][:2] == ["198.4 mm", "204.4 mm"]
    for one in named:
        later = items[items.index(one) + 1 :]
        assert all(item["k"] == "words" or np.abs(points(item) - (one["x"], one["y"])).max() > 3.0 for item in later)
