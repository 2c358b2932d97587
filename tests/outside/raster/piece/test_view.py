"""Marks at known places on the wall are found where the closed form of a far eye puts them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.colour.coating import on_coating
from wrapwright.core.design.frame import seen_frame
from wrapwright.outside.raster.piece.dye import FlatArt
from wrapwright.outside.raster.piece.view import Piece, piece_camera, piece_view, piece_views, snug

SIZE = (500, 640)
GIRTH = 80 * math.pi  # G8 of the blank's check values: a cylinder of diameter 80
MUG = FlatWrap(GIRTH, GIRTH, 90.0, gap_mm=24.0, seam_deg=180.0)


def marked(wrap, marks, paper=255, ink=0):
    """Flat art with rectangles (at_deg, up_mm, half width mm along the level, half height mm)."""
    x, y = wrap.to_flat(np.linspace(0, 360, 60)[:, None], np.linspace(0, wrap.height_mm, 9)[None, :])
    frame = seen_frame((x.min() - 3, y.min() - 3, x.max() + 10, y.max() + 3), 160)
    col, row = np.meshgrid(np.arange(frame.width_px) + 0.5, np.arange(frame.height_px) + 0.5)
    turn, up = wrap.from_flat(
        frame.to_flat[0, 0] * col + frame.to_flat[0, 2], frame.to_flat[1, 1] * row + frame.to_flat[1, 2]
    )
    pixels = np.full((*turn.shape, 3), paper, np.uint8)
    for at_deg, height, half_wide, half_tall in marks:
        off = (turn - wrap.turn_of(at_deg) + 180) % 360 - 180
        along = off / 360 * (wrap.lower_mm + wrap.theta * up)
        pixels[(abs(along) < half_wide) & (abs(up - height) < half_tall)] = ink
    return FlatArt(pixels, frame)


def straight(**more):
    wrap = FlatWrap(GIRTH, GIRTH, 100.0, overlap_mm=6.0, seam_deg=more.pop("seam_deg", 270.0))
    return Piece(((0.0, GIRTH), (140.0, GIRTH)), wrap, 20.0, **more)


def dark(picture):
    return (picture[..., 3] > 250) & (picture[..., :3].max(axis=-1) < 90)


def centre_of(mask):
    rows, cols = np.nonzero(mask)
    return cols.mean() + 0.5, rows.mean() + 0.5


@pytest.mark.parametrize("at_deg", [0.0, 90.0, 180.0, 270.0])
def test_marks_face_us_from_their_own_side_at_their_heights(at_deg):
    piece = straight(seam_deg=45.0)
    camera = piece_camera(piece, SIZE)
    heights = (15.0, 50.0, 85.0)
    art = marked(piece.wrap, [(at_deg, up, 3, 3) for up in heights])
    seen = dark(piece_view(piece, art, at_deg=at_deg, size_px=SIZE))
    for up in heights:
        # Far eye, `elevation` above the level: the wall's nearest line is seen at Z cos - r sin (parallel projection).
        rise = (20.0 + up) * math.cos(camera.elevation) - 40.0 * math.sin(camera.elevation)
        expected = camera.centre_y - camera.scale * rise
        window = np.zeros_like(seen)
        window[int(expected - 8 * camera.scale) : int(expected + 8 * camera.scale)] = True
        column, row = centre_of(seen & window)
        assert column == pytest.approx(camera.centre_x, abs=0.6)
        assert row == pytest.approx(expected, abs=0.8)


@pytest.mark.parametrize(("at_deg", "view"), [(30.0, 0.0), (-45.0, 0.0), (250.0, 270.0), (130.0, 90.0)])
def test_angles_grow_to_our_right(at_deg, view):
    piece = straight(seam_deg=(view + 180.0) % 360.0)
    camera = piece_camera(piece, SIZE)
    picture = piece_view(piece, marked(piece.wrap, [(at_deg, 50, 1.2, 4)]), at_deg=view, size_px=SIZE)
    rel = math.radians((at_deg - view + 180) % 360 - 180)
    column, row = centre_of(dark(picture))
    rise = 70.0 * math.cos(camera.elevation) - 40.0 * math.cos(rel) * math.sin(camera.elevation)
    assert column == pytest.approx(camera.centre_x + camera.scale * 40.0 * math.sin(rel), abs=0.7)
    assert row == pytest.approx(camera.centre_y - camera.scale * rise, abs=0.9)


def test_an_arc_of_40_on_diameter_80_is_seen_38_35_wide():
    # O2: 80 sin(0.5) = 38.3540.
    piece = straight()
    camera = piece_camera(piece, SIZE)
    picture = piece_view(piece, marked(piece.wrap, [(0, 50, 20, 6)]), at_deg=0, size_px=SIZE)
    wide = dark(picture).any(axis=0).sum() / camera.scale
    assert wide == pytest.approx(38.354, abs=1.2 / camera.scale)


def test_foreshortening():
    # O1: the cosine of the angle from facing; over a mark 8 mm wide the chord differs by less than 0.2 %.
    piece = straight()
    size = (640, 820)
    camera = piece_camera(piece, size)
    marks = [(30, 20, 4, 5), (45, 50, 4, 5), (60, 80, 4, 5)]
    seen = dark(piece_view(piece, marked(piece.wrap, marks), at_deg=0, size_px=size))
    for (rel, up, _, _), share in zip(marks, (0.86603, 0.70711, 0.5), strict=True):
        rise = (20 + up) * math.cos(camera.elevation) - 40 * math.cos(math.radians(rel)) * math.sin(camera.elevation)
        line = seen[int(camera.centre_y - camera.scale * rise)]
        assert line.sum() / camera.scale == pytest.approx(8 * share, abs=1.2 / camera.scale)


def test_heights_on_a_taper_follow_the_upright_height():
    # G5: diameters 72 and 90, upright height 160, slant 160.25293.
    slant = 160.25293
    wrap = FlatWrap(72 * math.pi, 90 * math.pi, slant, overlap_mm=5)
    piece = Piece(((0.0, 72 * math.pi), (slant, 90 * math.pi)), wrap, 0.0)
    camera = piece_camera(piece, SIZE)
    picture = piece_view(piece, marked(wrap, [(0, slant / 2, 3, 3)]), at_deg=0, size_px=SIZE)
    column, row = centre_of(dark(picture))
    rise = 80.0 * math.cos(camera.elevation) - 40.5 * math.sin(camera.elevation)
    assert column == pytest.approx(camera.centre_x, abs=0.6)
    assert row == pytest.approx(camera.centre_y - camera.scale * rise, abs=0.8)


def test_the_print_is_print_times_coating():
    coating = (0.9, 0.8, 0.6)
    piece = straight(coating=coating)
    art = marked(piece.wrap, [(20, 50, 12, 40)], ink=(200, 120, 60))
    camera = piece_camera(piece, SIZE)
    picture = piece_view(piece, art, at_deg=0, size_px=SIZE)
    # One and the same height on the ring, just inside and just outside the mark's right edge: the same light.
    edge = math.radians(20) + 12 / 40
    found = []
    for angle in (edge - 0.06, edge + 0.06):
        rise = 70 * math.cos(camera.elevation) - 40 * math.cos(angle) * math.sin(camera.elevation)
        column, row = camera.centre_x + camera.scale * 40 * math.sin(angle), camera.centre_y - camera.scale * rise
        found.append(picture[int(row), int(column), :3] / 255.0)
    asked = on_coating(np.array([200, 120, 60]) / 255.0, coating)
    light = found[1] / np.array(coating)  # near 1, the same in each channel but for the gloss
    assert found[0] == pytest.approx(asked * light, abs=0.03)


def test_the_wall_beyond_the_band_and_the_handles_gap_are_bare():
    piece = Piece(((0.0, GIRTH), (98.0, GIRTH)), MUG, 4.0, handle=(180.0, 24.0))
    art = marked(MUG, [], paper=10)
    camera = piece_camera(piece, SIZE)
    front, back = piece_views(piece, art, at_deg=(0, 180), size_px=SIZE)
    for wall, expected in ((2.0, False), (50.0, True), (96.5, False)):
        rise = wall * math.cos(camera.elevation) - 40 * math.sin(camera.elevation)
        assert bool(dark(front)[int(camera.centre_y - camera.scale * rise), int(camera.centre_x)]) is expected
    rise = 90 * math.cos(camera.elevation) - 40 * math.sin(camera.elevation)
    line = dark(back)[int(camera.centre_y - camera.scale * rise)]
    bare = np.flatnonzero(~line[int(camera.centre_x - 25 * camera.scale) : int(camera.centre_x + 25 * camera.scale)])
    assert len(bare) / camera.scale == pytest.approx(80 * math.sin(12 / 40), abs=1.5 / camera.scale)


def test_the_handle_stands_where_it_is():
    piece = Piece(((0.0, GIRTH), (98.0, GIRTH)), MUG, 4.0, handle=(180.0, 24.0))
    art = marked(MUG, [], paper=10)
    camera = piece_camera(piece, SIZE)
    front, right, back, left = piece_views(piece, art, at_deg=(0, 90, 180, 270), size_px=SIZE)
    rise = 52 * math.cos(camera.elevation)
    row, edge = int(camera.centre_y - camera.scale * rise), camera.scale * 46
    beyond = [
        (bool((one[row, : int(camera.centre_x - edge), 3] > 250).any()),
         bool((one[row, int(camera.centre_x + edge) :, 3] > 250).any()))
        for one in (front, right, back, left)
    ]  # fmt: skip
    assert beyond == [(False, False), (False, True), (False, False), (True, False)]
    assert dark(front)[row, int(camera.centre_x)]
    assert not dark(back)[row, int(camera.centre_x)]


def test_the_seam_shows_as_a_soft_line_on_its_side_only():
    piece = straight(seam_deg=270.0)
    art = marked(piece.wrap, [], paper=200)
    camera = piece_camera(piece, SIZE)
    front, left = piece_views(piece, art, at_deg=(0, 270), size_px=SIZE)
    row = int(camera.centre_y - camera.scale * (70 * math.cos(camera.elevation) - 40 * math.sin(camera.elevation)))
    span = slice(int(camera.centre_x - 8 * camera.scale), int(camera.centre_x + 8 * camera.scale))
    lines = [one[row, span, 1].astype(float) for one in (front, left)]
    falls = [float(line.max() - line.min()) for line in lines]
    assert falls[1] > falls[0] + 8
    wide = (lines[1] < np.interp(np.arange(len(lines[1])), [0, len(lines[1]) - 1], lines[1][[0, -1]]) - 2).sum()
    assert 0 < wide / camera.scale <= 3.0


def test_the_same_call_gives_the_same_pixels_and_a_view_alone_the_same_as_among_others():
    piece = straight()
    art = marked(piece.wrap, [(0, 50, 20, 6)])
    alone = piece_view(piece, art, at_deg=90, size_px=(200, 260))
    among = piece_views(piece, art, at_deg=(0, 90), size_px=(200, 260))[1]
    assert np.array_equal(alone, among)


def test_snug_cuts_all_alike_and_keeps_the_axis_in_the_middle():
    piece = Piece(((0.0, GIRTH), (98.0, GIRTH)), MUG, 4.0, handle=(180.0, 24.0))
    views = piece_views(piece, marked(MUG, []), at_deg=(0, 90), size_px=(300, 500))
    cut = snug(views)
    assert cut[0].shape == cut[1].shape
    assert cut[0].shape[0] < 500
    assert max(one[..., 3].max() for one in (cut[0][0:1], cut[1][0:1])) > 3
    half = cut[0].shape[1] / 2
    rows, cols = np.nonzero(cut[0][..., 3] == 255)
    assert (cols.min() + cols.max() + 1) / 2 == pytest.approx(half, abs=1.0)
    assert len(rows)
