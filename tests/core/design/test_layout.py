"""Elements laid out: where copies lie on the paper, lays, sizes, laps and what is drawn."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline, inside_trim, trim_outline
from wrapwright.core.design.drawlist import PlacedGradient, PlacedOutline, PlacedPicture
from wrapwright.core.design.elements import Adjust, Code, Fill, Gradient, Mask, Picture, Text, TextOutline, Tile
from wrapwright.core.design.layout import lay_out
from wrapwright.core.design.path import rectangle
from wrapwright.core.design.supplies import Art, ArtShape, CodeModules, SetText

GIRTH, PAPER = 235.0, 0.12
STRAIGHT = FlatWrap(GIRTH + math.pi * PAPER, GIRTH + math.pi * PAPER, 102.0, overlap_mm=6.0)
CUP = FlatWrap(226.6, 283.1, 160.25, overlap_mm=6.0)
MUG = FlatWrap(255.0, 255.0, 90.0, gap_mm=24.0, seam_deg=180.0)
PHOTO = Art("photo", "pixels", 400, 300)
SQUARE = Art(
    "square",
    "outlines",
    100,
    100,
    shapes=(
        ArtShape(rectangle(0, 0, 1, 1), (1.0, 0.0, 0.0)),
        ArtShape(rectangle(0.0, 0.5, 0.5, 1.0), (0.0, 0.0, 1.0), opacity=0.5),
        ArtShape(rectangle(0.8, 0.8, 1.5, 1.5), (0.0, 1.0, 0.0), stroke=0.02),
    ),
)


def lay(element, wrap, supply=None, **more):
    return lay_out([element], wrap=wrap, bleed_mm=2.0, supplies={0: supply}, **more)


def middle(path) -> np.ndarray:
    left, bottom, right, top = path.box()
    return np.array([(left + right) / 2, (bottom + top) / 2])


@pytest.mark.parametrize("at", [(0.0, 180.0), (20.0, 200.0)])
def test_opposite_copies_are_half_a_turn_of_paper_apart_on_a_straight_wall(at):
    laid = lay(Picture(name="p", file="p.jpg", at_deg=at, width_mm=40.0), STRAIGHT, PHOTO)
    one, other = (middle(extent.outline) for extent in laid.draw_list.extents)
    assert abs(one[0] - other[0]) == pytest.approx((GIRTH + math.pi * PAPER) / 2, abs=1e-9)
    assert one[1] == pytest.approx(other[1])


def test_opposite_copies_are_half_the_sectors_angle_apart_about_the_apex():
    laid = lay(Picture(name="p", file="p.jpg", at_deg=(0.0, 180.0), width_mm=30.0, height_mm=30.0), CUP, PHOTO)
    apex = np.array([0.0, -CUP.lower_mm / CUP.theta])
    centres = [extent.outline.subpaths[0].points[:-1:3].mean(axis=0) - apex for extent in laid.draw_list.extents]
    angles = [math.atan2(x, y) for x, y in centres]
    assert abs(angles[0] - angles[1]) == pytest.approx((283.1 - 226.6) / 160.25 / 2, abs=1e-9)
    assert [extent.lay for extent in laid.draw_list.extents] == ["true", "true"]


def test_the_lay_goes_over_to_level_at_four_degrees_of_edge_tilt():
    radius = CUP.turn_length(80.125) / CUP.theta
    limit = 2 * radius * math.tan(math.radians(4.0))
    for width, expected in ((limit - 0.01, "true"), (limit + 0.01, "level")):
        laid = lay(Picture(name="p", file="p.jpg", width_mm=width), CUP, PHOTO)
        assert laid.draw_list.extents[0].lay == expected
    assert lay(Picture(name="p", file="p", width_mm=200.0), STRAIGHT, PHOTO).draw_list.extents[0].lay == "true"
    assert lay(Picture(name="p", file="p", width_mm=9.0, lay="level"), CUP, PHOTO).draw_list.extents[0].lay == "level"


def test_text_goes_over_to_level_at_half_a_millimetre_of_droop():
    radius = CUP.turn_length(80.125) / CUP.theta
    limit = 2 * math.sqrt((radius + 0.5) ** 2 - radius**2)  # R (1/cos - 1) = 0.5 by Pythagoras
    for width, expected in ((limit - 0.01, "true"), (limit + 0.01, "level")):
        text = SetText(rectangle(-width / 2, -4, width / 2, 4), width, 8.0, 8.0)
        laid = lay(Text(name="t", text="Ada", size_mm=8.0), CUP, text)
        assert laid.draw_list.extents[0].lay == expected


def test_a_codes_modules_stay_square_however_steep_the_cup():
    dark = CodeModules(np.eye(21, dtype=bool))
    laid = lay(Code(name="c", text="x", width_mm=60.0, at_deg=(150.0,)), FlatWrap(120, 330, 90), dark)
    assert laid.draw_list.extents[0].lay == "true"
    item = laid.draw_list.items[0]
    corners = item.path.subpaths[0].points[::3]
    sides = np.hypot(*np.diff(corners, axis=0).T)
    assert sides.min() == pytest.approx(60.0 / 29)  # 21 modules and a quiet zone of 4 on each side
    assert laid.draw_list.extents[0].width_mm == 60.0


@pytest.mark.parametrize(
    ("size", "fit", "expected", "window"),
    [
        ({"width_mm": 40.0}, "inside", (40, 30), (40, 30)),
        ({"height_mm": 30.0}, "inside", (40, 30), (40, 30)),
        ({"width_mm": 40.0, "height_mm": 60.0}, "inside", (40, 30), (40, 30)),
        ({"width_mm": 40.0, "height_mm": 60.0}, "cover", (80, 60), (40, 60)),
        ({"width_mm": 40.0, "height_mm": 60.0}, "stretch", (40, 60), (40, 60)),
    ],
)
def test_fit(size, fit, expected, window):
    item = lay(Picture(name="p", file="p", fit=fit, **size), STRAIGHT, PHOTO).draw_list.items[0]
    assert (item.width_mm, item.height_mm) == pytest.approx(expected)
    assert item.window_mm == pytest.approx(window)


def test_crop_comes_before_the_size_and_nothing_left_is_refused():
    item = lay(
        Picture(name="p", file="p", width_mm=40.0, crop=(0.25, 0.0, 0.75, 1.0)), STRAIGHT, PHOTO
    ).draw_list.items[0]
    assert item.height_mm == pytest.approx(60.0)
    with pytest.raises(WrapwrightError, match="leaves nothing"):
        lay(Picture(name="p", file="p", width_mm=40.0, crop=(0.7, 0.0, 0.7, 1.0)), STRAIGHT, PHOTO)


def test_masks_fit_the_part_shown_and_flip_with_the_picture():
    half = rectangle(0.0, 0.0, 0.5, 1.0)
    base = {"name": "p", "file": "p", "width_mm": 40.0, "height_mm": 40.0, "fit": "cover"}
    round_ = lay(Picture(**base, mask=Mask("circle")), STRAIGHT, PHOTO).draw_list.items[0].mask
    radii = np.hypot(*round_.subpaths[0].points[::3].T)
    assert np.allclose(radii, 20.0)
    for flip, expected in ((False, (-20, -20, 0, 20)), (True, (0, -20, 20, 20))):
        item = lay(Picture(**base, mask=Mask("file", file="m.svg"), flip=flip), STRAIGHT, PHOTO, masks={0: half})
        assert item.draw_list.items[0].mask.box() == pytest.approx(expected)
    corner = lay(Picture(**base, mask=Mask("rounded", 4.0)), STRAIGHT, PHOTO).draw_list.items[0].mask
    assert corner.box() == pytest.approx((-20, -20, 20, 20))
    assert np.hypot(*(corner.subpaths[0].points[::3] - 16).T).min() == pytest.approx(4.0)


def test_vector_art_is_cropped_flipped_coloured_and_limited_to_its_page():
    swap = Adjust(lightness=10)
    picture = Picture(name="p", file="p", width_mm=20.0, flip=True, adjust=swap, opacity=0.5)
    laid = lay(picture, STRAIGHT, SQUARE, recolour=lambda colour, _: (colour[2], colour[0], colour[1]))
    first, second, third = laid.draw_list.items
    centre = middle(laid.draw_list.extents[0].outline)
    assert first.colour == (0.0, 1.0, 0.0)
    assert [(one.opacity, one.copy_opacity) for one in (first, second)] == [(1.0, 0.5), (0.5, 0.5)]
    assert first.clips == ()
    left, bottom, right, top = second.path.box()
    assert (left, right) == pytest.approx((centre[0], centre[0] + 10))  # the left half, flipped to the right
    assert (bottom, top) == pytest.approx((centre[1], centre[1] + 10))
    assert third.stroke_mm == pytest.approx(0.4)
    assert third.clips[0].box() == pytest.approx((centre[0] - 10, centre[1] - 10, centre[0] + 10, centre[1] + 10))
    cropped = lay(Picture(name="p", file="p", width_mm=20.0, crop=(0.5, 0.5, 1.0, 1.0)), STRAIGHT, SQUARE)
    assert len(cropped.draw_list.items) == 1  # the blue quarter only shares a corner, the line lies outside
    with pytest.raises(WrapwrightError, match="colour change"):
        lay(picture, STRAIGHT, SQUARE)


def test_a_picture_round_the_wrap_covers_it_from_end_to_end():
    laid = lay(Picture(name="p", file="p", wrap_width=True, join_mm=12.0), STRAIGHT, PHOTO)
    item, extent = laid.draw_list.items[0], laid.draw_list.extents[0]
    assert extent.lay == "level"
    assert extent.width_mm == pytest.approx(GIRTH + math.pi * PAPER + 6.0)
    assert item.join_mm == 12.0
    assert middle(extent.outline)[0] == pytest.approx(3.0)  # overlap in: half of it to the right of the middle
    for wrap in (CUP, FlatWrap(220.0, 260.0, 95.0, gap_mm=24.0, seam_deg=180.0)):
        item = lay(Picture(name="p", file="p", wrap_width=True, height_mm=200.0), wrap, PHOTO).draw_list.items[0]
        edge = bleed_outline(wrap, 2.0).subpaths[0].points[::3]
        a, _ = item.placement.to_local(edge[:, 0], edge[:, 1])
        assert np.abs(a).max() <= item.window_mm[0] / 2 + 1e-9
        assert item.height_mm >= 200.0 - 1e-9


def test_ends_are_not_blended_where_that_cannot_be_done():
    whole = Picture(name="p", file="p", wrap_width=True, join_mm=12.0)
    half = (GIRTH + math.pi * PAPER) / 2
    for element, wrap, art, said in (
        (whole, MUG, PHOTO, "do not meet"),
        (whole, STRAIGHT, SQUARE, "solid shapes"),
        (replace(whole, join_mm=half + 0.1), STRAIGHT, PHOTO, f"{half:.1f} mm, is the most"),
    ):
        with pytest.raises(WrapwrightError, match=said) as caught:
            lay(element, wrap, art)
        assert caught.value.where == "p: join"
    assert lay(replace(whole, join_mm=half), STRAIGHT, PHOTO).draw_list.items[0].join_mm == half


@settings(derandomize=True, max_examples=40, deadline=None)
@given(
    st.sampled_from([STRAIGHT, CUP, MUG, FlatWrap(300.0, 220.0, 110.0, overlap_mm=5.0)]),
    st.floats(0, 360),
    st.floats(5, 120),
    st.floats(-60, 60),
    st.sampled_from(["true", "level"]),
)
def test_every_place_of_the_piece_shows_the_art_that_belongs_there(wrap, at, width, turn, lay_):
    """On the finished piece a place is reached by turns that differ by 360: each must show the same art."""
    picture = Picture(
        name="p", file="p", at_deg=(at,), width_mm=width, height_mm=width, fit="stretch", lay=lay_, turn_deg=turn
    )
    laid = lay(picture, wrap, PHOTO)
    random = np.random.default_rng(3)
    turns, ups = random.uniform(0, 375, 1500), random.uniform(-2, wrap.height_mm + 2, 1500)
    x, y = wrap.to_flat(turns, ups)
    inside = inside_trim(wrap, x, y, 2.0)

    def covered(px, py, placements):
        hit = np.zeros(px.shape, bool)
        for placement in placements:
            a, b = placement.to_local(px, py)
            hit |= (np.abs(a) < width / 2) & (np.abs(b) < width / 2)
        return hit

    listed = covered(x, y, [item.placement for item in laid.draw_list.items])
    element = laid.draw_list.items[0].placement if laid.draw_list.items else None
    if element is None:
        return
    around = np.zeros(x.shape, bool)
    for laps in (-1, 0, 1):  # the truth: the wall's own point, whichever turn of the paper lies on it
        px, py = wrap.to_flat(turns - 360.0 * laps, ups)
        around |= covered(px, py, [type(element)(wrap, element.turn, element.up_mm, lay_, turn, 0)])
    assert (listed == around)[inside].all()


def test_laps_stand_in_the_list_only_where_they_show():
    at_seam = lay(Picture(name="p", file="p", at_deg=(270.0,), width_mm=40.0), STRAIGHT, PHOTO).draw_list
    assert [item.placement.laps for item in at_seam.items] == [0, 1]
    front = lay(Picture(name="p", file="p", width_mm=40.0), STRAIGHT, PHOTO).draw_list
    assert [item.placement.laps for item in front.items] == [0]
    in_overlap = lay(Picture(name="p", file="p", at_deg=(278.0,), width_mm=9.0), STRAIGHT, PHOTO).draw_list
    assert [item.placement.laps for item in in_overlap.items] == [0, 1]
    off = lay(Picture(name="p", file="p", width_mm=9.0, up_mm=-30.0), STRAIGHT, PHOTO).draw_list
    assert off.items == ()
    assert len(off.extents) == 1
    handle = lay(Picture(name="p", file="p", at_deg=(180.0,), width_mm=20.0), MUG, PHOTO).draw_list
    assert handle.items == ()  # wholly in the bare gap


def test_text_has_its_line_below_and_names_its_fields():
    text = SetText(rectangle(-20, -4, 20, 4), 40.0, 8.0, 8.0)
    element = Text(name="t", text="{first} of {club}", size_mm=8.0, outline=TextOutline(0.6, "#0e3a5a"), colour="#fff")
    line, fill = lay(element, STRAIGHT, text).draw_list.items
    assert (line.stroke_mm, fill.stroke_mm) == (0.6, 0.0)
    assert fill.colour == (1.0, 1.0, 1.0)
    assert line.colour == pytest.approx((14 / 255, 58 / 255, 90 / 255))
    assert fill.fields == {"first", "club"}
    with pytest.raises(WrapwrightError, match=r"\{club\} has no value"):
        lay(element, STRAIGHT, text, fields={"first": "Ada"})


def test_a_fill_covers_trim_and_bleed():
    fill = lay(Fill(name="f", colour="#0e3a5a"), CUP).draw_list
    assert isinstance(fill.items[0], PlacedOutline)
    assert fill.items[0].path.box() == bleed_outline(CUP, 2.0).box()
    assert fill.items[0].path.box()[3] > trim_outline(CUP).box()[3]
    change = lay(Fill(name="f", gradient=Gradient("#000", "#fff", 30.0)), CUP).draw_list.items[0]
    assert isinstance(change, PlacedGradient)
    assert (change.start, change.end, change.along) == ((0.0, 0.0, 0.0), (1.0, 1.0, 1.0), 30.0)


def test_every_problem_is_named_at_once():
    with pytest.raises(SeveralProblemsError) as caught:
        lay_out(
            [Fill(name="fill 1", colour="red"), Picture(name="crest", file="p")],
            wrap=STRAIGHT,
            bleed_mm=2.0,
            supplies={1: PHOTO},
        )
    assert [problem.where for problem in caught.value.problems] == ["fill 1", "crest"]
    assert isinstance(lay(Picture(name="p", file="p", width_mm=9), STRAIGHT, PHOTO).draw_list.items[0], PlacedPicture)


def test_arc_text_has_its_circles_middle_at_the_elements_place():
    """A round picture and the text round it take the same `at` and `up`."""
    ring = SetText(rectangle(-20, 25, 20, 35), 40.0, 10.0, 5.0, centre_mm=(0.0, 30.0))
    extent = lay(Text(name="t", text="Ada", size_mm=5.0, arc_mm=30.0), STRAIGHT, ring).draw_list.extents[0]
    assert (extent.at_deg, extent.up_mm) == (0.0, 51.0)
    x, _ = STRAIGHT.to_flat(np.array(STRAIGHT.turn_of(0.0)), np.array(51.0))
    assert middle(extent.outline) == pytest.approx((float(x), 51.0 + 30.0))


def test_turned_text_is_judged_by_the_width_it_then_has():
    text = SetText(rectangle(-40, -2, 40, 2), 80.0, 4.0, 4.0)
    for turn, expected in ((0.0, "level"), (90.0, "true")):
        laid = lay(Text(name="t", text="Ada", size_mm=4.0, turn_deg=turn), CUP, text)
        assert laid.draw_list.extents[0].lay == expected


def test_a_shape_that_cannot_show_is_left_out_of_its_lap():
    art = Art(
        "pair",
        "outlines",
        100,
        20,
        shapes=(ArtShape(rectangle(0, 0, 0.2, 1), (0, 0, 0)), ArtShape(rectangle(0.8, 0, 1, 1), (1, 1, 1))),
    )
    # Its middle on the seam: the left part shows at the right end only, the right part at the left end only.
    items = lay(Picture(name="p", file="p", at_deg=(270.0,), width_mm=60.0), STRAIGHT, art).draw_list.items
    assert [item.colour[0] for item in items] == [1, 0]


@pytest.mark.parametrize("supply", [PHOTO, SQUARE])
def test_a_files_name_is_a_name_braces_and_all(supply):
    odd = "crew {2}}.png"
    picture = lay(Picture(name="p", file=odd, width_mm=40.0), STRAIGHT, supply).draw_list
    tile = lay(Tile(name="t", file=odd, width_mm=40.0), STRAIGHT, supply).draw_list
    assert picture.items
    assert tile.items
    assert {item.fields for item in (*picture.items, *tile.items)} == {frozenset()}
