"""The flat wrap's drawing against closed forms and published developments."""

from __future__ import annotations

import math

import pytest
from tests.outside.documents.screen.drawn import bulging, fitted, mug, points, read, straight, tapered

from wrapwright.core.blank.readings import Keepout
from wrapwright.outside.documents.screen.flat_drawing import flat_spoken, flat_wrap

SIZE = (620.0, 400.0)


def drawn_box(svg: str) -> tuple[float, float]:
    """Return width and height in px of the trim outline; its curves sampled finely (a control point lies outside)."""
    d = read(svg).paths("s-ink", "f-sheet")[0]
    chain = points(d)
    found = []
    for start in range(0, len(chain) - 3, 3):
        p = chain[start : start + 4]
        for step in range(65):
            t = step / 64
            weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
            found.append(tuple(sum(w * one[axis] for w, one in zip(weights, p, strict=True)) for axis in (0, 1)))
    x, y = zip(*found, strict=True)
    return max(x) - min(x), max(y) - min(y)


def test_a_tapered_blank_is_the_sector_of_the_closed_form() -> None:
    # Diameters 72 and 90, axial height 160: slant 160.25293, radii 641.01170 and 801.26463, 20.21800 degrees, bounding
    # box 281.2787 x 170.2043 (development of a frustum, drmath 55270).
    cup = tapered(72 * math.pi, 90 * math.pi, axial_mm=160.0)
    svg = flat_wrap(*fitted(cup), unit="mm", size=SIZE)
    assert any("radii 641 mm and 801.3 mm" in one and "20.22°" in one for one in read(svg).words)
    width, height = drawn_box(svg)
    assert width / height == pytest.approx(281.2787 / 170.2043, rel=1e-3)


def test_a_straight_blank_is_the_rectangle_of_girth_and_wall() -> None:
    svg = flat_wrap(*fitted(straight(80 * math.pi, 95.0)), unit="mm", size=SIZE)  # diameter 80: 251.327412
    assert {"251.3 mm", "95 mm"} <= set(read(svg).words)
    width, height = drawn_box(svg)
    assert width / height == pytest.approx(251.327412 / 95.0, rel=1e-3)


def test_the_overlap_is_hatched_and_said() -> None:
    svg = flat_wrap(*fitted(straight(), overlap_mm=6.0), unit="mm", size=SIZE)
    assert "241 mm with 6 mm overlap" in read(svg).words
    bare = flat_wrap(*fitted(straight()), unit="mm", size=SIZE)
    assert drawn_box(svg)[0] > 0
    assert len(read(svg).paths("wd-thin", "s-ink-3")) > len(read(bare).paths("wd-thin", "s-ink-3"))


def test_with_a_handle_the_ends_stop_at_its_gap() -> None:
    svg = flat_wrap(*fitted(mug()), unit="mm", size=SIZE)
    words = read(svg).words
    assert "233 mm" in words  # 257 less the gap of 24
    assert words.count("Handle") == 2
    assert "Seam" not in words


def test_named_lines_and_what_is_kept_bare() -> None:
    kept = straight(keepouts=(Keepout(0.0, 40.0, 20.0, 10.0), Keepout(0.0, 160.0, 20.0, 10.0)))
    drawn = read(flat_wrap(*fitted(kept, band_height_mm=120.0), unit="mm", size=SIZE))
    assert {"Front", "Right", "Back", "Seam"} <= set(drawn.words)
    assert len(drawn.paths("s-bad")) == 1  # the other one lies above the band


@pytest.mark.parametrize(
    "blank",
    [straight(), mug(), tapered(281, 225, wall_mm=158), bulging((0, 226), (40, 231), (90, 229)), straight(60.0, 600.0)],
)
@pytest.mark.parametrize("width", [270.0, 620.0, 1400.0])
def test_it_keeps_to_its_width_and_its_words_stay_inside(blank, width: float) -> None:
    drawn = read(flat_wrap(*fitted(blank), unit="mm", size=(width, 400.0)))
    assert float(drawn.root.get("width", "0")) == width
    high = float(drawn.root.get("height", "0"))
    assert high <= 402.0 or high < 200.0
    for one in drawn.root.iter():
        if one.get("x"):
            assert 0.0 <= float(one.get("x", "0")) <= width
            assert 0.0 <= float(one.get("y", "0")) <= high


def test_it_is_said_in_one_sentence() -> None:
    _, wrapped, _ = fitted(mug())
    assert (
        flat_spoken(wrapped, "mm")
        == "Flat wrap: a rectangle, 233 mm wide and 94 mm high, bare for 24 mm at the handle."
    )
