"""Flat blanks on the finished sheet, seen by poppler and read back from its pixels.

Expected figures are plane geometry: a disc of its diameter, a drawn outline mirrored left to right, each at the place
that the report names. Tolerances: one pixel at 600 ppi for a border, 0.05 mm for a length, as promised to the user.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely import contains_xy
from shapely.affinity import scale, translate
from shapely.geometry import Polygon
from tests.whole.measuring import blots
from tests.whole.product import MM_PER_INCH, job_text, svg

import wrapwright
from wrapwright.core.base.errors import WrapwrightError

DPI = 600
PIXEL = MM_PER_INCH / DPI
FILL = 'kind = "fill"\ncolour = "#000000"'
SHEET = "paper = [110, 110]"
# No mirror image of itself: a slanted shoulder on one side, a step on the other.
LOPSIDED = ((0, 0), (40, 0), (40, 50), (30, 50), (30, 60), (15, 60), (0, 35))
TAG = svg(40, 60, f'<path d="M{" L".join(f"{x} {60 - y}" for x, y in LOPSIDED)}Z"/>')
# A shape of curves and a hole, drawn in units of its own.
EGG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 10"><path fill-rule="evenodd" d="{}"/></svg>'.format(
    "M0 6 C0 2 2 0 4 0 S8 2 8 6 S6 10 4 10 S0 9 0 6Z M3 5h2v2h-2Z"
)


def ink_of(product, margin_mm: float = 0.0) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Ink 0..1 of the piece's crop, and the page mm of each pixel's middle."""
    pixels, (left, top) = product.crop("pdftoppm", DPI, margin_mm)
    rows, columns = np.mgrid[: pixels.shape[0], : pixels.shape[1]]
    return 1.0 - pixels / 255.0, left + (columns + 0.5) * PIXEL, top - (rows + 0.5) * PIXEL


def agrees(ink: np.ndarray, x: np.ndarray, y: np.ndarray, shape: Polygon) -> bool:
    """Whether every pixel over a pixel inside the shape is ink and every one over a pixel outside it is bare.

    The dashes to cut by lie 3 mm outside it.
    """
    inside = contains_xy(shape.buffer(-PIXEL), x, y)
    outside = contains_xy(shape.buffer(2.5), x, y) & ~contains_xy(shape.buffer(PIXEL), x, y)
    return bool((ink[inside] > 0.9).all() and (ink[outside] < 0.1).all())


@pytest.fixture(scope="module")
def coaster(workshop):
    dot = 'kind = "picture"\nfile = "dot.svg"\nwidth = 10\nacross = 11\nup = 34'
    text = job_text('kind = "flat"\ncircle = "48 mm"', dot, wrap="bleed = 0", sheet=SHEET)
    return workshop.make(text, {"dot.svg": svg(10, 10, '<rect width="10" height="10"/>')})


def test_a_circle_is_a_disc_of_its_diameter_with_its_bleed_all_round(workshop):
    made = workshop.make(job_text('kind = "flat"\ncircle = "48 mm"', FILL, wrap='bleed = "2 mm"', sheet=SHEET))
    piece = made.piece
    assert (piece["width_mm"], piece["height_mm"]) == pytest.approx((48, 48), abs=1e-6)
    ink, x, y = ink_of(made, 2.5)
    middle = (piece["x_mm"] + 24, piece["y_mm"] + 24)
    away = np.hypot(x - middle[0], y - middle[1])
    assert (ink[away < 26 - PIXEL] > 0.9).all()
    assert (ink[(away > 26 + PIXEL) & (away < 26.4)] < 0.1).all()
    assert 2 * math.sqrt(ink[away < 26.4].sum() * PIXEL**2 / math.pi) == pytest.approx(52, abs=0.05)


def test_the_dashes_to_cut_by_lie_three_millimetres_outside_the_trim(coaster):
    assert "guide line 3 mm" in coaster.piece["marks"]
    assert "corner marks" not in coaster.piece["marks"]
    ink, x, y = ink_of(coaster, 3.6)
    away = np.hypot(x - coaster.piece["x_mm"] - 24, y - coaster.piece["y_mm"] - 24) - 24
    dashes = (ink > 0.5) & (away > 0.1) & (away < 3.5)
    assert away[dashes].min() == pytest.approx(3.0, abs=0.05)
    turned = np.degrees(np.arctan2(y - coaster.piece["y_mm"] - 24, x - coaster.piece["x_mm"] - 24))[dashes]
    counts, _ = np.histogram(turned, bins=18, range=(-180, 180))
    assert (counts > 0).sum() >= 14  # all round, but for what words beside it take


def test_across_is_to_the_right_as_seen_and_so_to_the_left_on_the_paper(coaster):
    dot, *dashes = blots(coaster, "pdftoppm", DPI)
    assert all(one.area < 1 for one in dashes)
    assert math.sqrt(dot.area) == pytest.approx(10, abs=0.05)
    assert dot.x == pytest.approx(coaster.piece["x_mm"] + 24 - 11, abs=0.05)
    assert dot.y == pytest.approx(coaster.piece["y_mm"] + 34, abs=0.05)
    (row,) = coaster.report["elements"]
    assert (row["across_mm"], row["up_mm"], row["at_deg"]) == (11, 34, 0)


def test_an_outline_is_printed_mirrored_true_to_a_pixel(workshop):
    text = job_text('kind = "flat"\noutline = "tag.svg"\nheight = "60 mm"', FILL, wrap="bleed = 0", sheet=SHEET)
    made = workshop.make(text, {"tag.svg": TAG})
    piece = made.piece
    assert (piece["width_mm"], piece["height_mm"], piece["turn_deg"]) == pytest.approx((40, 60, 0), abs=1e-4)
    assert [one["path"] for one in made.report["inputs"]] == ["job.toml", "tag.svg"]
    ink, x, y = ink_of(made, 1.0)
    mirrored = translate(scale(Polygon(LOPSIDED), -1, 1, origin=(20, 0)), piece["x_mm"], piece["y_mm"])
    assert agrees(ink, x, y, mirrored)
    assert not agrees(ink, x, y, translate(Polygon(LOPSIDED), piece["x_mm"], piece["y_mm"]))


def test_an_outline_is_stretched_to_both_sides_and_turned_where_the_paper_asks_it(workshop):
    blank = 'kind = "flat"\noutline = "tag.svg"\nheight = "30 mm"\nwidth = "60 mm"'
    text = job_text(blank, FILL, wrap="bleed = 0", sheet='paper = { roll = "52 mm" }')
    made = workshop.make(text, {"tag.svg": TAG})
    piece = made.piece
    assert (piece["width_mm"], piece["height_mm"], piece["turn_deg"]) == pytest.approx((30, 60, 90), abs=1e-4)
    shape = scale(Polygon(LOPSIDED), -1.5, 0.5, origin=(20, 30))
    shape = Polygon([(-y, x) for x, y in shape.exterior.coords])
    left, bottom, _, _ = shape.bounds
    ink, x, y = ink_of(made, 1.0)
    assert agrees(ink, x, y, translate(shape, piece["x_mm"] - left, piece["y_mm"] - bottom))


def test_curves_keep_their_shape_and_a_hole_is_covered_and_noted(workshop):
    text = job_text('kind = "flat"\noutline = "egg.svg"\nwidth = "32 mm"', FILL, wrap="bleed = 0", sheet=SHEET)
    made = workshop.make(text, {"egg.svg": EGG})
    assert (made.piece["width_mm"], made.piece["height_mm"]) == pytest.approx((32, 40), abs=0.01)
    assert any("a hole: the transfer covers it; cut the hole by hand" in note for note in made.report["notes"])
    ink, x, y = ink_of(made, 1.0)
    # The drawing's four cubics, points on each by their own formula.
    at = np.linspace(0, 1, 400)[:, None]
    chains = [((0, 6), (0, 2), (2, 0), (4, 0)), ((4, 0), (6, 0), (8, 2), (8, 6)),
              ((8, 6), (8, 10), (6, 10), (4, 10)), ((4, 10), (2, 10), (0, 9), (0, 6))]  # fmt: skip
    border = np.concatenate([
        (1 - at) ** 3 * np.array(a) + 3 * at * (1 - at) ** 2 * np.array(b) + 3 * at**2 * (1 - at) * np.array(c)
        + at**3 * np.array(d)
        for a, b, c, d in chains
    ])  # fmt: skip
    egg = Polygon([(4 * (8 - u), 4 * (10 - v)) for u, v in border])
    assert agrees(ink, x, y, translate(egg, made.piece["x_mm"], made.piece["y_mm"]))


REFUSED = [
    ("M0 0 L40 60 L40 0 L0 60Z", "the outline crosses or touches itself"),
    ("M0 0 L10 0 L10 10 L0 10Z M20 0 L40 0 L40 60 L20 60Z", "holds 2 shapes that are not inside each other"),
    ("M0 0 L40 60", "nothing on it would print"),
]


@pytest.mark.parametrize(("d", "said"), REFUSED, ids=["crossing", "two", "nothing"])
def test_a_drawing_that_is_no_outline_is_refused_with_one_sentence(workshop, d, said):
    text = job_text('kind = "flat"\noutline = "bad.svg"\nwidth = "40 mm"', FILL)
    folder = workshop.folder(text, {"bad.svg": svg(40, 60, f'<path d="{d}"/>')})
    with pytest.raises(WrapwrightError) as caught:
        wrapwright.make_sheets(
            wrapwright.MakeRequest(folder / "job.toml", None, folder / "out"), workshop.bench, wrapwright.Watch()
        )
    assert said in str(caught.value)
    assert caught.value.where == "blank: outline"
    assert not (folder / "out").exists()
