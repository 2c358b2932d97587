"""The blank's drawing says what was read, and shows the band where it lies."""

from __future__ import annotations

import itertools

import pytest
from tests.outside.documents.screen.drawn import box, bulging, fitted, mug, read, straight, tapered

from wrapwright.core.blank.readings import Keepout
from wrapwright.outside.documents.screen.blank_drawing import large_blank, small_blank

SIZE = (360.0, 400.0)


def test_the_small_form_has_no_words_but_says_what_it_is() -> None:
    blank, wrapped, _ = fitted(tapered(225.0, 281.0, wall_mm=158.0))
    drawn = read(small_blank(blank, wrapped, name="Cup"))
    assert drawn.words == []
    spoken = str(drawn.root.get("aria-label"))
    assert spoken.startswith("Cup: girth 225 mm at the bottom and 281 mm at the top, wall 158 mm")


def test_the_large_form_has_every_length_in_the_unit() -> None:
    blank, wrapped, _ = fitted(straight(), band_from_mm=10.0, band_height_mm=120.0)
    words = read(large_blank(blank, wrapped, unit="mm", size=SIZE)).words
    # The diameter of a girth of 235 mm: 235 / pi = 74.803.
    assert "round 235 mm  ·  ⌀ 74.8 mm" in words
    assert {"10 mm", "120 mm", "35 mm", "165 mm"} <= set(words)
    inches = read(large_blank(blank, wrapped, unit="in", size=SIZE)).words
    assert {"0.394 in", "4.724 in", "1.378 in", "6.496 in"} <= set(inches)  # each over 25.4


def test_a_profile_names_every_reading_on_a_line_of_its_own() -> None:
    rows = [(10.0 * step, 226.0 + step) for step in range(7)]
    blank, wrapped, _ = fitted(bulging(*rows))
    drawn = read(large_blank(blank, wrapped, unit="mm", size=SIZE))
    assert {f"{girth:g} mm" for _, girth in rows} <= set(drawn.words)
    heights = sorted(
        float(one.get("y", "0"))
        for one in drawn.root.iter()
        if (one.text or "").endswith(" mm") and one.get("text-anchor") == "start"
    )
    assert len(heights) == 7
    assert min(b - a for a, b in itertools.pairwise(heights)) >= 12.0  # a line's height: none over another


def test_the_outline_has_the_readings_proportions() -> None:
    blank, wrapped, _ = fitted(straight(235.0, 165.0))
    drawn = read(large_blank(blank, wrapped, unit="mm", size=SIZE))
    left, top, right, bottom = box(drawn.paths("wd-hair", "s-ink-2")[0])
    width = right - left
    # A near ring is drawn open by 0.13 of the radius, at the foot; the rim's near half hangs inside the outline.
    wall = (bottom - 0.13 * width / 2.0) - top
    assert wall / width == pytest.approx(165.0 * 3.14159265 / 235.0, rel=2e-3)


def test_handle_and_keepout_are_drawn_only_where_they_are_seen() -> None:
    plain = read(large_blank(*fitted(straight())[:2], unit="mm", size=SIZE))
    blank, wrapped, _ = fitted(mug())
    handled = read(large_blank(blank, wrapped, unit="mm", size=SIZE))
    assert "seen from the right" in handled.words
    assert len(handled.paths("s-ink-2")) == len(plain.paths("s-ink-2")) + 1
    for at, seen in ((0.0, 1), (180.0, 0)):
        kept, wrap, _ = fitted(straight(keepouts=(Keepout(at, 40.0, 20.0, 10.0),)))
        assert len(read(large_blank(kept, wrap, unit="mm", size=SIZE)).paths("s-bad")) == seen
