"""The tray as it lies: all of it, nothing over another, where a hand has put it, with the strokes that cut it."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.designs import RemoveDesign, remove_design
from wrapwright.jobs.tray.laying import LayTray, lay_tray
from wrapwright.jobs.tray.values import Tray, TrayPaper, TrayPiece, TrayPin

QUIET = Watch()
TRAY = Tray(pieces=(TrayPiece(1, 4), TrayPiece(2, 9), TrayPiece(3, 2)))


def laid(bench: Bench, tray: Tray, seconds: float = 0.05):
    return lay_tray(LayTray(tray, seconds), bench, QUIET)


def overlaps(one, other):
    wide = min(one[0] + one[2], other[0] + other[2]) - max(one[0], other[0])
    high = min(one[1] + one[3], other[1] + other[3]) - max(one[1], other[1])
    return min(wide, high) > 1e-6


def whole(view):
    """Every copy lies once, inside what can be printed, clear of all others."""
    seen = [(one.piece, one.copy) for sheet in view.sheets for one in sheet.copies]
    assert sorted(seen) == [(at, copy) for at, piece in enumerate(view.pieces) for copy in range(piece.laid)]
    for sheet in view.sheets:
        left, top, width, height = sheet.printable
        for one in sheet.copies:
            x, y, wide, high = one.box
            assert left - 1e-6 <= x
            assert x + wide <= left + width + 1e-6
            assert top - 1e-6 <= y
            assert y + high <= top + height + 1e-6
        assert not any(overlaps(a.clear, b.clear) for a, b in itertools.combinations(sheet.copies, 2))


@pytest.mark.parametrize("way", ["trimmer", "free"])
def test_everything_lies_once_and_apart(bench: Bench, way):
    view = laid(bench, replace(TRAY, way=way))
    assert [piece.laid for piece in view.pieces] == [4, 9, 2]
    if way == "trimmer":
        whole(view)
        assert view.strokes_all == len(view.strokes) > 0
        assert "strokes" in view.cut_words
    else:
        assert view.strokes == ()
    assert view.bound <= len(view.sheets)
    assert view.proven == (view.bound == len(view.sheets))


def test_the_matrix_mirrors_the_art_into_its_place(bench: Bench):
    view = laid(bench, TRAY)
    for sheet in view.sheets:
        for one in sheet.copies:
            a, b, c, d, e, f = one.matrix
            assert a * d - b * c == pytest.approx(-1.0)  # a mirror, nothing scaled
            if one.piece != 0:
                continue
            # The cup's trim: 180 mm round with its overlap, its corners by hand in the flat frame, y down.
            width = view.pieces[0].width_mm
            corners = np.array([(-90.0, 0.0), (width - 90.0, -60.0)])
            places = corners @ np.array([[a, b], [c, d]]) + (e, f)
            x, y, wide, high = one.box
            assert places.min(axis=0) == pytest.approx((x, y), abs=1e-6)
            assert places.max(axis=0) == pytest.approx((x + wide, y + high), abs=1e-6)


def test_what_a_hand_put_somewhere_stays_and_the_rest_goes_round_it(bench: Bench):
    pin = TrayPin(piece=1, copy=3, sheet=0, x_mm=81.0, y_mm=120.0, turn_deg=90)
    view = laid(bench, replace(TRAY, pins=(pin,)))
    assert view.loose == ()
    whole(view)
    [held] = [one for one in view.sheets[0].copies if one.pinned]
    assert (held.piece, held.copy, held.turn_deg) == (1, 3, 90)
    x, y, wide, high = held.box
    assert (x, wide, high) == pytest.approx((81.0, 30.0, 50.0))
    assert view.sheets[0].height_mm - y - high == pytest.approx(120.0)


def test_a_pin_that_cannot_stay_is_let_go_with_the_reason(bench: Bench):
    both = (TrayPin(1, 0, 0, 50.0, 50.0, 0), TrayPin(1, 1, 0, 60.0, 55.0, 0))
    view = laid(bench, replace(TRAY, pins=both))
    assert view.loose == (0, 1)
    assert view.notes[0]
    whole(view)
    gone = laid(bench, replace(TRAY, pins=(TrayPin(7, 0, 0, 50.0, 50.0, 0),)))
    assert gone.loose == (0,)


def test_prices_are_added_and_a_piece_too_large_is_told_beside_it(bench: Bench):
    view = laid(bench, replace(TRAY, papers=(TrayPaper("A4", 0.25),)))
    assert view.cost == pytest.approx(0.25 * len(view.sheets))
    small = laid(bench, replace(TRAY, papers=(TrayPaper("100 x 150 mm", 0.1),)))
    assert [bool(piece.problems) for piece in small.pieces] == [True, False, False]
    assert "too" in small.pieces[0].problems[0]
    assert small.pieces[1].laid == 9
    with pytest.raises(WrapwrightError, match="A44"):
        laid(bench, replace(TRAY, papers=(TrayPaper("A44"),)))


def test_a_design_that_is_gone_is_told_and_the_others_are_laid(bench: Bench):
    remove_design(RemoveDesign(3), bench, QUIET)
    view = laid(bench, TRAY)
    assert view.pieces[2].revision == 0
    assert "no design" in view.pieces[2].problems[0]
    assert [piece.laid for piece in view.pieces] == [4, 9, 0]
    assert laid(bench, Tray()).sheets == ()
    assert laid(bench, Tray(pieces=(TrayPiece(3),))).sheets == ()


def test_a_set_up_that_is_gone_is_missing(bench: Bench):
    with pytest.raises(WrapwrightError) as caught:
        laid(bench, replace(TRAY, setup=9))
    assert caught.value.kind is Kind.MISSING


def test_more_than_can_be_waited_for_is_refused_at_once(bench: Bench):
    with pytest.raises(WrapwrightError, match="holds 3001 pieces; the limit here is 3000") as caught:
        laid(bench, Tray(pieces=(TrayPiece(1, 3000), TrayPiece(2, 1))), seconds=20.0)
    assert caught.value.kind is Kind.UNUSABLE
