"""SVG as outlines: held against librsvg, which had no part in reading them."""

from __future__ import annotations

import numpy as np
import pytest
from tests.outside.images.made import svg
from tests.outside.images.show import as_svg, rendered, unlike

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.images.reading import open_pixels, read_art

pytestmark = pytest.mark.usefixtures("without_child")

FIRST = '<path id="p" d="M20 5 C60 -5 60 60 30 45 S5 20 20 5 Z" '
SOLID = {
    "rectangle": '<rect x="10" y="10" width="30" height="20" fill="#f00"/>',
    "circle": '<circle cx="50" cy="25" r="20" fill="#0a0"/>',
    "even-odd": '<path fill-rule="evenodd" d="M5 5H95V45H5Z M20 10H80V40H20Z" fill="navy"/>',
    "nonzero": '<path d="M5 5H95V45H5Z M20 10H80V40H20Z" fill="navy"/>',
    "transform": '<g transform="translate(50 25) rotate(30) scale(2 1)">'
    '<rect x="-10" y="-10" width="20" height="20"/></g>',
    "opacity": '<rect width="50" height="50" fill-opacity=".4"/>'
    '<circle cx="50" cy="25" r="20" opacity=".5" fill="red"/>',
    "clip": '<clipPath id="c"><circle cx="50" cy="25" r="20"/></clipPath>'
    '<rect clip-path="url(#c)" x="40" width="60" height="50" fill="#456"/>',
    "even-odd clip": '<clipPath id="c">'
    '<path clip-rule="evenodd" d="M5 5H60V45H5ZM15 10H50V40H15ZM25 20H40V30H25Z"/></clipPath>'
    '<rect clip-path="url(#c)" width="100" height="50" fill="#456"/>',
    "nonzero clip": '<clipPath id="c"><path d="M5 5H60V45H5ZM15 10H50V40H15Z"/></clipPath>'
    '<rect clip-path="url(#c)" width="100" height="50" fill="#456"/>',
    "use": '<defs><g id="q"><rect width="9" height="9" fill="teal"/></g></defs>'
    '<use href="#q" x="10"/><use xlink:href="#q" x="40" y="20"/>',
    "nested": '<svg x="10" y="10" width="40" height="20" viewBox="0 0 5 5"><rect width="5" height="5"/></svg>',
    "symbol": '<symbol id="s" viewBox="0 0 10 10"><circle cx="5" cy="5" r="5"/></symbol>'
    '<use href="#s" width="40" height="40"/>',
    "style": "<style>rect { fill: #c60; stroke: #036; stroke-width: 3 }</style>"
    '<rect x="20" y="10" width="40" height="30"/>',
    "round line": FIRST + 'fill="none" stroke="red" stroke-width="4" stroke-linejoin="round"/>',
    "mitred line": '<path d="M10 40 L50 10 L90 40" fill="none" stroke="red" stroke-width="6"/>',
    "bevelled line": '<path d="M10 40 L50 10 L90 40" '
    'fill="none" stroke="red" stroke-width="6" stroke-linejoin="bevel"/>',
    "sharp line": '<path d="M10 20 L90 25 L10 30" fill="none" stroke="red" stroke-width="6"/>',
    "square caps": '<path d="M20 40 Q50 -10 80 40" fill="none" stroke="red" stroke-width="6" stroke-linecap="square"/>',
    "closed mitred": '<path d="M10 10 H80 L50 40 Z" fill="#ee8" stroke="#123" stroke-width="5"/>',
    "dashes": '<path d="M5 40 Q50 -20 95 40" fill="none" stroke="green" stroke-width="4" stroke-dasharray="9 4 2"/>',
    "round dashes": '<path d="M5 25 H95" '
    'stroke="green" stroke-width="4" stroke-dasharray="0.01 8" stroke-linecap="round"/>',
    "stretched line": '<circle cx="25" cy="8" r="5" transform="scale(2 3)" fill="none" stroke="red" stroke-width="2"/>',
    "marker": '<marker id="m" markerWidth="4" markerHeight="4" refX="1" refY="1"><rect width="2" height="2"/></marker>'
    '<path d="M10 10 L70 35" stroke="red" stroke-width="3" marker-end="url(#m)"/>',
    "off the page": '<circle cx="0" cy="25" r="20" fill="purple"/>'
    '<path d="M50 50H120" stroke="red" stroke-width="20"/>',
}


def outlined(tmp_path, body, **head):
    file = tmp_path / "drawing.svg"
    file.write_bytes(svg(body, **head))
    return read_art(file, cache=tmp_path / "cache", longest_px=400)


@pytest.mark.parametrize("body", SOLID.values(), ids=SOLID.keys())
def test_solid_drawings_are_outlines_and_look_right(tmp_path, body):
    art = outlined(tmp_path, body)
    assert art.kind == "outlines"
    wanted = rendered(svg(body, 'width="100" height="50" viewBox="0 0 100 50"'), 400, 200)
    assert wanted.min() < 200
    assert unlike(rendered(as_svg(art, 400, 200), 400, 200), wanted) < 30


@pytest.mark.parametrize(
    ("head", "shape"),
    [
        ('viewBox="0 0 100 50"', 2.0),
        ('width="40mm" viewBox="0 0 100 50"', 2.0),
        ('height="2in" viewBox="0 0 100 50"', 2.0),
        ('width="100%" height="100%" viewBox="0 0 100 50"', 2.0),
        ('width="50" height="50" viewBox="0 0 100 50"', 1.0),
        ('width="50" height="50" viewBox="0 0 100 50" preserveAspectRatio="none"', 1.0),
        ('width="120" height="40" viewBox="0 0 100 50" preserveAspectRatio="xMinYMin slice"', 3.0),
        ('width="100" height="50"', 2.0),
        ('viewBox="-20 -10 100 50" width="25"', 2.0),
    ],
)
def test_size_and_view_box(tmp_path, head, shape):
    body = '<rect x="10" y="10" width="30" height="20" fill="#f00"/><circle cx="60" cy="30" r="9"/>'
    art = outlined(tmp_path, body, head=head)
    assert art.width / art.height == pytest.approx(shape, rel=1e-5)
    width = round(200 * shape)
    sized = head if "width" in head and "height" in head and "%" not in head else _both(head)
    assert unlike(rendered(as_svg(art, width, 200), width, 200), rendered(svg(body, sized), width, 200)) < 30


def _both(head):
    box = head[head.index("viewBox") :]
    return f'width="100" height="50" {box.split(" width")[0]}'


def test_an_analytic_shape_lies_where_it_should(tmp_path):
    """A quarter of a ring, filled: its area and centre of gravity by integral geometry."""
    art = outlined(tmp_path, '<path d="M50 10 A30 30 0 0 1 80 40 L65 40 A15 15 0 0 0 50 25 Z"/>')
    (shape,) = art.shapes
    corners = np.concatenate([_dense(sub.points) for sub in shape.path.subpaths]) * (100, 50)
    x, y = corners.T
    cross = x * np.roll(y, -1) - np.roll(x, -1) * y
    area = cross.sum() / 2
    centre = ((x + np.roll(x, -1)) * cross).sum() / 6 / area, ((y + np.roll(y, -1)) * cross).sum() / 6 / area
    assert abs(area) == pytest.approx(np.pi / 4 * (30**2 - 15**2), rel=1e-3)
    # Centroid of a quarter ring from its centre: 4 (R^3 - r^3) / 3 pi (R^2 - r^2) along each axis.
    reach = 4 * (30**3 - 15**3) / (3 * np.pi * (30**2 - 15**2))
    assert centre == (pytest.approx(50 + reach, abs=0.02), pytest.approx(10 + reach, abs=0.02))


def _dense(points):
    t = np.linspace(0, 1, 40)[:, None]
    pieces = [points[at : at + 4] for at in range(0, len(points) - 1, 3)]
    return np.concatenate(
        [(1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d for a, b, c, d in pieces]
    )


PAINTED = {
    "linear gradient": '<linearGradient id="g"><stop offset="0"/>'
    '<stop offset="1" stop-color="red"/></linearGradient>'
    '<rect x="10" y="5" width="80" height="40" fill="url(#g)"/>',
    "pattern": '<pattern id="p" width="10" height="10" patternUnits="userSpaceOnUse">'
    '<circle cx="5" cy="5" r="4"/></pattern>'
    '<rect width="100" height="50" fill="url(#p)"/>',
    "overlap in a group": '<g opacity=".5"><rect width="60" height="40"/><rect x="40" width="60" height="40"/></g>',
    "translucent over translucent": '<linearGradient id="g"><stop offset="0"/><stop offset="1" stop-color="red"/>'
    '</linearGradient><rect x="80" y="30" width="20" height="20" fill="url(#g)"/>'
    '<rect width="60" height="40" fill-opacity=".5"/><rect x="20" y="10" width="50" height="20" fill-opacity=".5"/>',
    "soft mask": '<mask id="m"><rect width="50" height="50" fill="#888"/></mask>'
    '<rect mask="url(#m)" width="90" height="40"/>',
    "blending": '<rect width="60" height="50" fill="red"/>'
    '<rect x="30" width="60" height="50" fill="cyan" style="mix-blend-mode:multiply"/>',
}


@pytest.mark.parametrize("body", PAINTED.values(), ids=PAINTED.keys())
def test_what_is_not_solid_becomes_pixels(tmp_path, body):
    art = outlined(tmp_path, body)
    assert (art.kind, art.width, art.height, art.alpha, art.space) == ("pixels", 400, 200, True, "rgb")
    assert any("drawn as pixels (400 on the longer side)" in note for note in art.notes)
    assert art.profile == "sRGB"  # SVG 1.1, 12.2: colours are sRGB; no profile stands beside the samples
    assert open_pixels(art, cache=tmp_path / "cache").icc is None
    array = open_pixels(art, cache=tmp_path / "cache").array.astype(float)
    shown = array[..., :3] * array[..., 3:] / 255 + 255 - array[..., 3:]
    wanted = rendered(svg(body, 'width="100" height="50" viewBox="0 0 100 50"'), 400, 200)
    assert unlike(shown, wanted) < 30


def test_text_becomes_paths_in_our_fonts(tmp_path):
    art = outlined(tmp_path, '<text x="5" y="30" font-size="20" font-family="Some Face">office fi é</text>')
    assert art.kind == "outlines"
    assert len(art.shapes) >= 6
    assert any("Some Face" in note for note in art.notes)
    box = np.array([shape.path.box() for shape in art.shapes])
    # Base line at 30 of 50 from the top; the x height of Open Sans is 0.535 em (its OS/2 table), ascenders 0.76.
    assert box[:, 1].min() == pytest.approx(0.4, abs=0.01)
    assert box[:, 3].max() == pytest.approx(0.4 + 20 * 0.77 / 50, abs=0.02)


def test_arabic_and_stroked_text_are_outlines(tmp_path):
    art = outlined(tmp_path, '<text x="5" y="30" font-size="20" stroke="red" stroke-width="1">لال a</text>')
    assert art.kind == "outlines"
    assert {shape.colour for shape in art.shapes} == {(0.0, 0.0, 0.0), (1.0, 0.0, 0.0)}


@pytest.mark.parametrize("asked", ['font-weight="bold"', 'style="font-weight:700"', 'style="font:bold 20px Face"'])
def test_bold_text_is_set_bold(tmp_path, asked):
    """The stem of Open Sans Bold is nearly twice that of the regular: the same letters cover more."""
    covers = {}
    for name, heavy in (("light", ""), ("heavy", asked)):
        (tmp_path / name).mkdir()
        art = outlined(tmp_path / name, f'<text x="5" y="40" font-size="20" {heavy}>HILT</text>')
        assert (art.kind, len(art.shapes)) == ("outlines", 4)
        covers[name] = (rendered(as_svg(art, 400, 200), 400, 200) < 128).mean()
    assert 1.5 < covers["heavy"] / covers["light"] < 2.3


def test_characters_without_a_font_are_named(tmp_path):
    art = outlined(tmp_path, '<text x="5" y="30" font-size="20">漢 a</text>')
    assert any("漢" in note for note in art.notes)


def test_an_empty_drawing_is_refused(tmp_path):
    with pytest.raises(WrapwrightError, match="empty") as caught:
        outlined(tmp_path, "")
    assert caught.value.kind is Kind.UNUSABLE


def test_a_document_type_without_declarations_is_no_matter(tmp_path):
    file = tmp_path / "old.svg"
    start = (
        b'<?xml version="1.0"?>\n<!-- made by hand -->\n<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "svg11.dtd">\n'
    )
    file.write_bytes(start + svg(SOLID["circle"]))
    assert read_art(file, cache=tmp_path / "cache").kind == "outlines"
