"""Glyphs that exist only in colour, in a small font made here: outlined where layers allow, else named as missing."""

from __future__ import annotations

import pytest
from fontTools.colorLib.builder import buildCOLR, buildCPAL
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen

from wrapwright.core.design.elements import Text
from wrapwright.outside.fonts.setting import set_text
from wrapwright.outside.fonts.shelf import FontShelf


def box(left, bottom, right, top):
    pen = TTGlyphPen(None)
    pen.moveTo((left, bottom))
    for to in ((left, top), (right, top), (right, bottom)):
        pen.lineTo(to)
    pen.closePath()
    return pen.glyph()


@pytest.fixture
def shelf(tmp_path):
    order = [".notdef", "H", "sun", "layer1", "layer2", "bitmap", "space"]
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap({ord("H"): "H", ord(" "): "space", 0x2600: "sun", 0x2601: "bitmap"})
    empty = TTGlyphPen(None).glyph()
    builder.setupGlyf(
        {
            ".notdef": box(50, 0, 450, 700),
            "H": box(50, 0, 450, 700),
            "sun": empty,
            "layer1": box(100, 0, 400, 300),
            "layer2": box(500, 0, 900, 300),
            "bitmap": empty,
            "space": empty,
        }
    )
    starts = {".notdef": 50, "H": 50, "layer1": 100, "layer2": 500}
    builder.setupHorizontalMetrics({name: (1000, starts.get(name, 0)) for name in order})
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupNameTable({"familyName": "Suns", "styleName": "Regular"})
    builder.setupOS2(sCapHeight=700, sxHeight=500)
    builder.setupPost()
    builder.font["COLR"] = buildCOLR({"sun": [("layer1", 0), ("layer2", 1)]}, version=0)
    builder.font["CPAL"] = buildCPAL([[(1, 0, 0, 1), (0, 0, 1, 1)]])
    builder.save(tmp_path / "suns.ttf")
    return FontShelf(tmp_path)


def made(text, shelf):
    return set_text(Text(name="t", text=text, font="Suns", size_mm=7.0), fonts=shelf, fields={})


def test_layers_of_a_colour_glyph_become_its_outline(shelf):
    sun = made("\u2600", shelf)
    assert sun.missing == ()
    assert len(sun.path.subpaths) == 2
    left, _, right, _ = sun.path.box()
    assert right - left == pytest.approx(8.0)  # 100 to 900 units at 0.01 mm each


def test_a_glyph_without_any_outline_is_named(shelf):
    cloud = made("H \u2601H\u2601", shelf)
    assert cloud.missing == ("\u2601",)
    assert len(cloud.path.subpaths) == 2


def test_spaces_are_not_missing(shelf):
    assert made("H H\u200d", shelf).missing == ()
