"""Texts set: sizes against the fonts' tables, boxes, lines, arcs, and what could not be set."""

from __future__ import annotations

import hashlib
import math

import numpy as np
import pytest
from fontTools.ttLib import TTFont
from tests.core.design.dense import both_ways

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.elements import Text
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.supplies import Misfit
from wrapwright.outside.fonts.setting import SMALLEST_CAP_MM, faces_of, measure_text, set_text
from wrapwright.outside.fonts.shelf import FontShelf, packaged

SHELF = FontShelf()


def made(text="H", fields=None, **more):
    return set_text(Text(name="name", text=text, **more), fonts=SHELF, fields=fields or {})


@pytest.mark.parametrize("font", ["Open Sans", "Noto Sans"])
def test_size_is_the_height_of_a_capital(font):
    set_ = made("H", font=font, size_mm=9.0)
    _, bottom, _, top = set_.path.box()
    assert top - bottom == pytest.approx(9.0, rel=0.002)  # an H stands on the base line and reaches the cap height
    assert (top, bottom) == pytest.approx((4.5, -4.5), abs=0.02)  # the block's middle is the origin
    assert set_.cap_height_mm == set_.height_mm == 9.0
    table = TTFont(next(one.file for one in packaged() if one.family == font and not one.italic))
    em = 9.0 * table["head"].unitsPerEm / table["OS/2"].sCapHeight
    if font == "Noto Sans":  # its tables hold the regular weight as they stand
        assert set_.width_mm == pytest.approx(table["hmtx"]["H"][0] / table["head"].unitsPerEm * em, rel=1e-3)


def test_a_box_is_filled_by_shrinking_and_growing():
    wide = made("A rather long name indeed", width_mm=90.0, height_mm=16.0)
    assert wide.cap_height_mm < 16.0
    left, _, right, _ = wide.path.box()
    assert 88.0 < right - left <= 90.0
    short = made("HOH", width_mm=90.0, height_mm=16.0)
    assert short.cap_height_mm == pytest.approx(16.0)
    assert (short.width_mm, short.height_mm) == (90.0, 16.0)
    assert short.fits
    assert wide.fits
    left, _, right, _ = short.path.box()
    assert (left + right) / 2 == pytest.approx(0.0, abs=0.5)


def test_a_box_too_small_is_said_and_nothing_is_squeezed_further():
    tight = made("x" * 200, width_mm=20.0)
    assert not tight.fits
    assert tight.cap_height_mm == pytest.approx(SMALLEST_CAP_MM)
    # The box's width over the width at capitals of 1 mm is the height that the capitals would need.
    one_mm = made("x" * 200, size_mm=1.0).width_mm
    assert tight.misfit == Misfit("capitals", pytest.approx(20.0 / one_mm), SMALLEST_CAP_MM)
    long = made("Ada", size_mm=9.0, width_mm=10.0)
    assert not long.fits
    assert long.misfit == Misfit("length", pytest.approx(made("Ada", size_mm=9.0).width_mm), 10.0)
    assert made("Ada\nEve", size_mm=9.0, height_mm=10.0).misfit == Misfit(
        "height", pytest.approx(made("Ada\nEve", size_mm=9.0).height_mm), 10.0
    )
    assert made("Ada", size_mm=9.0, width_mm=40.0).fits


def test_lines_lie_leading_ems_apart_and_are_aligned():
    one, two = made("HH", size_mm=7.0), made("HH\nHH", size_mm=7.0, leading=1.5)
    em = 7.0 * 2048 / 1462  # Open Sans: OS/2.sCapHeight 1462 of 2048
    assert two.height_mm == pytest.approx(7.0 + 1.5 * em)
    assert two.width_mm == pytest.approx(one.width_mm)
    for align, share in (("start", 0.0), ("middle", 0.5), ("end", 1.0)):
        lines = made("H\nHHHH", size_mm=7.0, align=align)
        subs = lines.path.subpaths
        first = min(sub.points[:, 0].min() for sub in subs if sub.points[:, 1].max() > 0)
        slack = lines.width_mm * 3 / 4
        side = 203 / 2048 * em  # about the left side bearing of H
        assert first == pytest.approx(-lines.width_mm / 2 + share * slack + side, abs=0.2)
    assert len(made(r"a\nb", size_mm=7.0).path.subpaths) == len(made("a\nb", size_mm=7.0).path.subpaths)
    assert made(r"a\nb", size_mm=7.0).height_mm > 8.0


def test_start_is_the_right_for_a_right_to_left_line():
    set_ = made("\u05d0\nxxxxxxxxxx", size_mm=7.0, align="start")
    upper = [sub.points for sub in set_.path.subpaths if sub.points[:, 1].min() > -set_.height_mm / 2 + 8.0]
    assert max(points[:, 0].max() for points in upper) > set_.width_mm / 2 - 2.0


def test_spacing_adds_a_gap_between_letters_only():
    plain, spaced = made("abcd", size_mm=7.0), made("abcd", size_mm=7.0, spacing_mm=2.0)
    assert spaced.width_mm == pytest.approx(plain.width_mm + 3 * 2.0)
    filled = made("HIIH", width_mm=60.0, spacing_mm=2.0)
    left, _, right, _ = filled.path.box()
    bearings = 2 * 203 / 1462 * filled.cap_height_mm  # about the left side bearing of H, twice
    assert filled.fits
    assert right - left == pytest.approx(60.0 - bearings, abs=0.5)


def test_fields_are_filled_and_missing_ones_refused():
    assert made("{name}", {"name": "Ada"}, size_mm=7.0).width_mm == made("Ada", size_mm=7.0).width_mm
    with pytest.raises(WrapwrightError, match=r"name: text: the field \{club\} has no value"):
        made("{club}", {"name": "Ada"}, size_mm=7.0)
    with pytest.raises(WrapwrightError, match=r"U\+0007"):
        made("{name}", {"name": "A\x07"}, size_mm=7.0)
    with pytest.raises(WrapwrightError, match="needs a size"):
        made("Ada")


def test_text_is_composed_first():
    assert made("e\u0301", size_mm=7.0).width_mm == made("\u00e9", size_mm=7.0).width_mm


def test_missing_characters_are_named_with_the_fonts_used():
    set_ = made("A\u65e5", size_mm=7.0)
    assert set_.missing == ("\u65e5",)
    assert set_.fonts[0][0] == "OpenSans[wdth,wght].ttf"
    file = next(one.file for one in packaged() if one.name == "OpenSans[wdth,wght].ttf")
    assert set_.fonts[0][1] == hashlib.sha256(file.read_bytes()).hexdigest()
    assert len(set_.path.subpaths) == 2  # the A and its counter; no box for what is missing


def test_the_extra_is_named_when_it_would_help(monkeypatch):
    base = tuple(one for one in packaged() if "Arabic" not in one.family)
    monkeypatch.setattr("wrapwright.outside.fonts.shelf.packaged", lambda: base)
    set_ = made("\u0639\u0644\u064a", size_mm=7.0)
    assert set_.missing == ("\u0639", "\u0644", "\u064a")
    assert set_.advice == (
        'Install the extra fonts in the environment that wrapwright runs in: pip install "wrapwright[fonts]". '
        "Among them: Noto Sans Arabic."
    )
    assert made("\u65e5", size_mm=7.0).advice == ""


@pytest.mark.parametrize(("arc", "inner", "outer"), [(30.0, 30.0, 35.0), (-30.0, 25.0, 30.0)])
def test_arc_text_stands_on_its_circle(arc, inner, outer):
    set_ = made("HHHHHHHH", size_mm=5.0, arc_mm=arc)
    ends = np.concatenate([sub.points[::3] for sub in set_.path.subpaths])
    radii = np.hypot(*ends.T)
    assert radii.min() >= inner - 0.25
    assert radii.max() <= outer + 0.25  # straight feet of upright letters leave the circle by w^2 / 8R
    assert np.sign(ends[:, 1].mean()) == np.sign(arc)
    left, bottom, right, top = set_.path.box()
    assert set_.centre_mm == ((left + right) / 2, (bottom + top) / 2)
    assert (left + right) / 2 == pytest.approx(0.0, abs=0.3)
    spread = np.degrees(np.arctan2(ends[:, 0], np.abs(ends[:, 1])))
    left, _, right, _ = made("HHHHHHHH", size_mm=5.0).path.box()
    assert spread.max() - spread.min() == pytest.approx(math.degrees((right - left) / 30.0), abs=1.5)


def test_reading_goes_clockwise_at_the_top_and_anticlockwise_at_the_foot():
    for arc in (30.0, -30.0):
        set_ = made("I........", size_mm=5.0, arc_mm=arc)
        tall = max(set_.path.subpaths, key=lambda sub: np.ptp(sub.points, axis=0).max())
        assert tall.points[:, 0].mean() < 0.0  # the first letter is at the left both ways


def test_an_arc_too_tight_or_a_text_too_long_for_it_is_said():
    with pytest.raises(WrapwrightError, match=r"radius 4\.0 mm is too tight for capitals of 5\.0 mm"):
        made("Ada", size_mm=5.0, arc_mm=4.0)
    assert not made("H" * 80, size_mm=5.0, arc_mm=20.0).fits
    too_long = made("H" * 80, size_mm=5.0, arc_mm=20.0).misfit
    assert too_long.limit_mm == pytest.approx(2.0 * math.pi * 20.0)
    assert too_long.figure_mm == pytest.approx(made("H" * 80, size_mm=5.0).width_mm)


def test_the_stem_is_the_thinnest_stroke():
    # Noto Sans draws I as one bar, so its box is its stroke.
    left, _, right, _ = made("I", font="Open Sans", size_mm=20.0).path.box()
    assert made("I", font="Open Sans", size_mm=20.0).stem_mm == pytest.approx(right - left, rel=0.02)
    light, heavy = (made("nom", font="Noto Sans", weight=weight, size_mm=9.0).stem_mm for weight in (100, 900))
    assert light < 0.5 * heavy


def test_large_glyphs_on_a_steep_cup_are_true_to_ten_micrometres():
    set_ = made("Sg", font="Noto Sans", weight=800, size_mm=45.0)
    steep = FlatWrap(120.0, 330.0, 90.0)  # 134 degrees of sector
    assert both_ways(set_.path, Placement(steep, 170.0, 42.0, "level")) <= 0.010


@pytest.mark.parametrize("text", ["", " ", "  \n \t", "\u00a0\u2003", "{name}"])
def test_a_text_of_which_nothing_would_print_is_refused(text):
    with pytest.raises(WrapwrightError, match="nothing of it would print") as refused:
        made(text, {"name": ""}, size_mm=9.0)
    assert refused.value.where == "name"


@pytest.mark.parametrize("words", ["Ada Lovelace", "שרה", "Ada\\nByron", "😀", "Zoë"])
@pytest.mark.parametrize("room", [{"width_mm": 40.0}, {"height_mm": 9.0}, {"size_mm": 7.0}, {"width_mm": 2.0}])
def test_a_text_measured_has_the_figures_of_the_text_set(words: str, room: dict[str, float]) -> None:
    text = Text(name="name", text=words, **room)  # type: ignore[arg-type]
    shelf = FontShelf()
    found = measure_text(text, faces=faces_of(text, shelf), fonts=shelf, fields={})
    whole = set_text(text, fonts=shelf, fields={})
    assert (found.cap_mm, found.stem_mm, found.missing, found.misfit, found.advice) == (
        whole.cap_height_mm, whole.stem_mm, whole.missing, whole.misfit, whole.advice,
    )  # fmt: skip
    if text.width_mm is None:
        assert found.long_mm == whole.width_mm
