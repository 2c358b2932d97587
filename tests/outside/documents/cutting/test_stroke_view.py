"""The screen's drawings of a stroke: well-formed, the line where it is, the distance said, the paper turned."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest
from tests.core.sheet.cut.layouts import grid

from wrapwright.core.sheet.cut.listing import cut_list
from wrapwright.core.sheet.cut.values import Stroke, Trimmer
from wrapwright.core.sheet.lay.values import Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock
from wrapwright.outside.documents.cutting.stroke_view import stroke_view, trimmer_view

LAYOUT = grid(2, 3, size=(40.0, 25.0))
CUTS = cut_list(LAYOUT, Trimmer(stack_mm=0.12))
SVG = "{http://www.w3.org/2000/svg}"


def paths(svg: str, name: str) -> list[list[tuple[float, float]]]:
    """Return the corners of every path that has a class."""
    tree = ET.fromstring(svg)
    found = [one.get("d", "") for one in tree.iter(f"{SVG}path") if name in one.get("class", "").split()]
    return [[(float(x), float(y)) for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", d)] for d in found]


def said(svg: str) -> set[str]:
    return {one.text or "" for one in ET.fromstring(svg).iter(f"{SVG}text")}


@pytest.mark.parametrize("stroke", CUTS.strokes, ids=lambda one: str(one.number))
def test_the_line_lies_where_the_blade_comes_down(stroke: Stroke) -> None:
    svg = stroke_view(LAYOUT, CUTS, stroke.number, width_px=400.0, height_px=400.0)
    sheet = LAYOUT.sheets[0]
    by = min(332.0 / sheet.width_mm, 332.0 / sheet.height_mm)
    (line,) = paths(svg, "wd-thick")
    layer = stroke.layers[0]
    if layer.edge in ("left", "right"):
        assert {round(x, 1) for x, _ in line} == {round(34.0 + by * layer.at_mm, 1)}
    else:
        assert {round(y, 1) for _, y in line} == {round(34.0 + by * (sheet.height_mm - layer.at_mm), 1)}
    earlier = [one for one in paths(svg, "s-ink-2") if len(one) == 2]
    assert len(earlier) == stroke.number - 1
    assert ("printed line" if stroke.fence_mm is None else f"{stroke.fence_mm:.1f} mm") in said(svg)


@pytest.mark.parametrize("stroke", CUTS.strokes, ids=lambda one: str(one.number))
def test_at_the_trimmer_the_blade_stands_the_fences_distance_from_it(stroke: Stroke) -> None:
    svg = trimmer_view(LAYOUT, CUTS, stroke.number, width_px=400.0, height_px=400.0)
    layer = stroke.layers[0]
    left, bottom, right, top = layer.box
    across, along = (right - left, top - bottom) if layer.edge in ("left", "right") else (top - bottom, right - left)
    by = min(332.0 / across, 332.0 / along)
    (blade,) = paths(svg, "wd-thick")
    edge = {"left": left, "right": right, "bottom": bottom, "top": top}[layer.edge]
    assert {round(x, 1) for x, _ in blade} == {round(34.0 + by * abs(layer.at_mm - edge), 1)}
    if stroke.fence_mm is not None:
        assert f"{stroke.fence_mm:.1f} mm" in said(svg)


def test_before_the_first_and_after_the_last_stroke() -> None:
    assert paths(stroke_view(LAYOUT, CUTS, 0), "wd-thick") == []
    after = stroke_view(LAYOUT, CUTS, len(CUTS.strokes) + 1)
    assert paths(after, "wd-thick") == []
    assert len([one for one in paths(after, "s-ink-2") if len(one) == 2]) == len(CUTS.strokes)


def test_names_are_words_and_layers_are_counted() -> None:
    part = Part(Shape("circle", 60.0, 60.0), copies=2, name="<b>&")
    cell = Cell(5.0, 5.0, 90.0, 90.0, part=0, copy=0)
    sheet = LaidSheet(0, 100.0, 100.0, (Laid(0, 0, 20.0, 20.0, 0),), cell)
    other = replace(sheet, pieces=(Laid(0, 1, 20.0, 20.0, 0),), cell=replace(cell, copy=1))
    layout = Layout(LayRequest((part,), (Stock("paper", 100.0, 100.0),)), (sheet, other))
    cuts = cut_list(layout, Trimmer())
    svg = trimmer_view(layout, cuts, len(cuts.strokes))
    assert "<b>& 1" in said(svg)
    assert "2 layers" in said(svg)
    assert cuts.strokes[-1].number == 6
