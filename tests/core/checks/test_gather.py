"""Facts of laid-out designs: what a draw list and the requests say without any pixel."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.readings import Blank, Handle, Keepout, Reading, WrapRequest
from wrapwright.core.checks.facts import CopyFacts, Facts
from wrapwright.core.checks.gather import Asked, effective_ppi, facts_of
from wrapwright.core.checks.run import RULES_WITHOUT_PIXELS, run_rules
from wrapwright.core.design.drawlist import PlacedPicture
from wrapwright.core.design.elements import AnyElement, Code, Fill, Picture, Text, TextOutline
from wrapwright.core.design.layout import lay_out
from wrapwright.core.design.path import rectangle
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.supplies import Art, CodeModules, Misfit, SetText, Supply

STRAIGHT = FlatWrap(240.0, 240.0, 100.0, overlap_mm=6.0, seam_deg=270.0)
TAPER = FlatWrap(200.0, 250.0, 100.0, overlap_mm=6.0, seam_deg=270.0)
MUG = FlatWrap(240.0, 240.0, 100.0, gap_mm=24.0, seam_deg=180.0)
PHOTO = Art("photo", "pixels", 1200.0, 800.0)


def words(width: float, height: float, **more: Any) -> SetText:
    path = rectangle(-width / 2, -height / 2, width / 2, height / 2)
    return SetText(path, width, height, height, **more)


def facts(
    elements: list[AnyElement], supplies: list[Supply], wrap: FlatWrap = STRAIGHT, band_from: float = 10.0, **blank: Any
) -> Facts:
    held = dict(enumerate(supplies))
    laid = lay_out(elements, wrap=wrap, bleed_mm=2.0, supplies=held)
    known = Blank("straight", (Reading(None, 240.0),), wall_mm=120.0, **blank)
    return facts_of(laid.draw_list, Asked(known, WrapRequest(), elements, held, band_from, calibrated=True))


def only(found: Facts) -> CopyFacts:
    (one,) = found.copies
    return one


def rules(found: Facts) -> set[str]:
    return {one.rule for one in run_rules(found, RULES_WITHOUT_PIXELS)}


def picture(**more: Any) -> Picture:
    return Picture(name="photo", file="photo.jpg", **more)


def test_a_picture_in_the_middle_of_the_front() -> None:
    # 60 x 40 mm on 240 x 100: front lies 90 degrees = 60 mm from the left end.
    one = only(facts([picture(width_mm=60.0)], [PHOTO]))
    assert (one.span_deg, one.span_mm) == (pytest.approx(90.0), pytest.approx(60.0))
    assert (one.room_base_mm, one.room_rim_mm) == (pytest.approx(30.0), pytest.approx(30.0))
    assert (one.room_left_mm, one.room_right_mm) == (pytest.approx(30.0), pytest.approx(150.0))
    assert one.ppi == pytest.approx(1200 / 60 * 25.4)
    assert (one.stretch, one.wide, one.label) == (pytest.approx(1.0), False, "photo")


def test_pixels_per_inch_count_what_is_left_of_the_picture() -> None:
    cropped = only(facts([picture(width_mm=60.0, crop=(0.25, 0.0, 0.75, 1.0))], [PHOTO]))
    assert cropped.ppi == pytest.approx(600 / 60 * 25.4)
    cover = only(facts([picture(width_mm=60.0, height_mm=80.0, fit="cover")], [PHOTO]))
    assert cover.ppi == pytest.approx(800 / 80 * 25.4)  # scaled until its height covers the box
    flat = only(facts([picture(width_mm=60.0, height_mm=80.0, fit="stretch")], [PHOTO]))
    assert flat.ppi == pytest.approx(800 / 80 * 25.4)
    assert flat.stretch == pytest.approx(2.0)  # 3:2 becomes 3:4


def test_a_level_picture_on_a_taper_is_coarsest_at_its_wide_edge() -> None:
    # 200 mm round at the base, 250 at the rim: at up 50 + 20 one turn is 235 mm, at its centre 225.
    item = PlacedPicture(
        element=0,
        copy=0,
        picture="photo",
        placement=Placement(TAPER, 90.0, 50.0, "level"),
        width_mm=60.0,
        height_mm=40.0,
    )
    assert effective_ppi(item, PHOTO) == pytest.approx(1200 / 60 * 25.4 * 225.0 / 235.0)


def test_outlines_have_no_pixels_per_inch() -> None:
    assert only(facts([picture(width_mm=60.0)], [Art("a", "outlines", 300.0, 200.0)])).ppi is None


def test_copies_front_and_back_are_two_rows() -> None:
    found = facts([picture(width_mm=60.0, at_deg=(0.0, 180.0))], [PHOTO])
    assert [(one.copy, one.of, one.label) for one in found.copies] == [
        (0, 2, "photo at front"),
        (1, 2, "photo at back"),
    ]


def test_an_element_over_the_seam_is_found() -> None:
    text = Text(name="who", text="Ada", size_mm=9.0, at_deg=(270.0,))
    found = facts([text], [words(30.0, 9.0)])
    assert min(only(found).room_left_mm, only(found).room_right_mm) == pytest.approx(-15.0)
    assert "crosses-seam" in rules(found)
    assert "crosses-seam" not in rules(facts([Text(name="who", text="Ada", size_mm=9.0)], [words(30.0, 9.0)]))


def test_an_element_in_the_handles_gap_is_found() -> None:
    handle = Handle(180.0, 24.0)
    # 75 degrees from the handle's middle = 50 mm; half the gap is 12, half the text 45.
    near = Text(name="who", text="Ada", size_mm=9.0, at_deg=(255.0,))
    found = facts([near], [words(90.0, 9.0)], MUG, handle=handle)
    assert only(found).room_left_mm == pytest.approx(50.0 - 45.0 - 12.0)
    assert "over-handle" in rules(found)
    clear = facts([near], [words(60.0, 9.0)], MUG, handle=handle)
    assert "over-handle" not in rules(clear)


def test_a_fill_goes_over_keepouts_inside_the_band_only() -> None:
    inside = (Keepout(0.0, 30.0, 20.0, 8.0, "mark"),)
    below = (Keepout(0.0, 5.0, 20.0, 8.0, "mark"),)
    fill: list[AnyElement] = [Fill(name="ground", colour="#336699")]
    assert only(facts(fill, [None], keepouts=inside)).keepouts[0].area_mm2 == pytest.approx(160.0)
    assert only(facts(fill, [None], keepouts=below)).keepouts == ()


def test_uncoated_wall_counts_inside_the_band() -> None:
    # Band 10..110 on the wall; coated 14..104: 4 mm below and 6 mm above lie bare.
    fill: list[AnyElement] = [Fill(name="ground", colour="#336699")]
    assert only(facts(fill, [None], coated=(14.0, 104.0))).uncoated_mm == pytest.approx(10.0)
    assert only(facts(fill, [None], coated=(0.0, 120.0))).uncoated_mm == 0.0
    assert only(facts([picture(width_mm=60.0)], [PHOTO], coated=(45.0, 120.0))).uncoated_mm == pytest.approx(5.0)


def test_art_all_round_short_of_the_bleed_and_of_the_trim() -> None:
    def found(height: float, *, below: bool = False) -> set[tuple[str, str]]:
        wide: list[AnyElement] = [picture(wrap_width=True, height_mm=height, fit="stretch")]
        ground: list[AnyElement] = [Fill(name="ground", colour="#336699")] if below else []
        made = facts(ground + wide, [None, PHOTO] if below else [PHOTO])
        return {
            (one.rule, one.severity.value) for one in run_rules(made, RULES_WITHOUT_PIXELS) if one.rule == "art-short"
        }

    assert found(96.0) == {("art-short", "error")}
    assert found(100.0) == {("art-short", "warning")}
    assert found(104.0) == set()
    assert found(96.0, below=True) == set()


def test_set_text_and_codes_tell_their_sizes() -> None:
    text = Text(name="who", text="Ada", size_mm=1.5, outline=TextOutline(0.4, "#ffffff"))
    code = Code(name="menu", text="x", width_mm=11.0, at_deg=(180.0,))
    dark = CodeModules(np.zeros((21, 21), dtype=np.bool_))
    found = facts(
        [text, code], [words(10.0, 1.5, stem_mm=0.3, missing=("ß",), misfit=Misfit("length", 10.0, 8.0)), dark]
    )
    who, menu = found.elements
    assert (who.cap_height_mm, who.stem_mm, who.line_mm, who.missing) == (1.5, 0.3, 0.2, ("ß",))
    assert menu.module_mm == pytest.approx(11.0 / 29.0)  # 21 modules and 4 quiet ones each side, ISO/IEC 18004
    expected = {"text-small", "stroke-thin", "glyph-missing", "text-does-not-fit", "code-module"}
    assert expected <= rules(found)


def test_a_codes_quiet_zone_counts_as_its_own() -> None:
    code = Code(name="menu", text="x", width_mm=29.0)
    dark = CodeModules(np.ones((21, 21), dtype=np.bool_))
    assert only(facts([code], [dark])).span_mm == pytest.approx(29.0, abs=1e-6)


def test_long_text_reads_a_third_of_the_girth() -> None:
    text = Text(name="who", text="Ada", size_mm=9.0)
    assert "text-too-long" in rules(facts([text], [words(80.5, 9.0)]))
    assert "text-too-long" not in rules(facts([text], [words(79.5, 9.0)]))


def test_a_picture_measured_from_the_walls_foot_instead_of_the_bands_is_off_the_wrap() -> None:
    assert "off-wrap" in rules(facts([picture(width_mm=60.0, up_mm=95.0)], [PHOTO]))
    assert "off-wrap" not in rules(facts([picture(width_mm=60.0, up_mm=60.0)], [PHOTO]))
