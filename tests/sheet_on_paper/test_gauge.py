"""Gauges printed, cut, wound and read: the marks come from the PDF, the blank from a random draw."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from tests.sheet_on_paper.wound import Cone, Ends, angle_at, ends_of_strip, joined, marks_of, read_arc, read_straight

from wrapwright.core.blank.gauge.carried import Printer
from wrapwright.core.blank.gauge.reading import ends_of, read_gauge
from wrapwright.core.blank.readings import Blank, Reading, Tape, WrapRequest
from wrapwright.core.blank.wrapped import Setup, wrap_blank
from wrapwright.core.design.path import Path, rectangle
from wrapwright.core.sheet.arrange import arrange
from wrapwright.core.sheet.gauge.page import Field, field_for, gauge_pages, strips_for
from wrapwright.core.sheet.placed import PlacedPage, Slip
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.room import corners
from wrapwright.outside.icc.profiles import srgb_profile
from wrapwright.outside.pdf.drawn import drawn_pdf
from wrapwright.outside.pdf.metadata import About

READ_MM = 0.051  # half a step of the vernier, and a thousandth for the PDF's own rounding
MEET_MM = 0.06
PAPERS = {"Letter": (215.9, 279.4), "A4": (210.0, 297.0), "A3": (297.0, 420.0)}


@cache
def no_words(text: str, cap: float) -> Path:
    """Return a box as large as words are: only the marks are looked at."""
    return rectangle(0.0, 0.0, 0.6 * cap * len(text), cap)


def sheet_on(paper: str, thickness: float, scale: tuple[float, float]) -> SheetRequest:
    width, height = PAPERS[paper]
    return SheetRequest(
        paper, width, height, thickness_mm=thickness, scale_across=scale[0], scale_along=scale[1], setup="Desk"
    )


def printed_file(strips: tuple, page: Field) -> bytes:
    pages = gauge_pages(strips, page, words=("",), steps=("cut",), wall_mm=None, set_label=no_words)
    return drawn_pdf(pages[:1], srgb=srgb_profile().data, about=About("gauge", "test"))


def wrap_page(blank: Blank, sheet: SheetRequest) -> PlacedPage:
    """Return the page of the butt-joined wrap that the reading gives, through the same set-up."""
    scale = (sheet.scale_across, sheet.scale_along)
    setup = Setup(sheet.thickness_mm, calibrated=True, printer=Printer("desk", sheet.thickness_mm, scale))
    wrapped = wrap_blank(blank, WrapRequest(overlap_mm=0.0, bleed_mm=0.0), setup)
    arrangement = arrange(wrapped.wrap, bleed_mm=0.0, sheet=sheet, slips=[Slip("x")], set_label=no_words)
    return arrangement.pages[0]


def gauge_tape(lies: str, scale: float) -> Tape:
    return Tape(0.1, 0.12, "gauge", setup="Desk", scale=scale, lies=lies)  # type: ignore[arg-type]


@pytest.mark.parametrize("seed", range(12))
def test_a_straight_blank(seed: int) -> None:
    draw = random.Random(seed)
    girth, thickness = draw.uniform(150.0, 320.0), draw.uniform(0.08, 0.20)
    printer = (draw.uniform(0.985, 1.015), draw.uniform(0.985, 1.015))
    # Never calibrated, or calibrated with an error of its own: the reading must not care.
    setup = (
        (1.0, 1.0) if seed % 2 else (printer[0] * draw.uniform(0.997, 1.003), printer[1] * draw.uniform(0.997, 1.003))
    )
    sheet = sheet_on(draw.choice(list(PAPERS)), thickness, setup)
    page = field_for(sheet, "along")
    rough = girth + draw.uniform(-3.0, 3.0)
    strips = strips_for(((None, rough + math.pi * thickness, math.inf),), page)
    # The page lies on its side: the printer's along is the drawing's x.
    prints = (printer[1], printer[0])
    marks = marks_of(printed_file(strips, page), page.scale)
    pieces = len(strips[0].pieces)
    ends = (joined if pieces == 2 else ends_of_strip)(marks, prints, page.scale)
    once_round = girth + math.pi * thickness
    head, line = read_straight(ends, once_round, round(strips[0].low_mm))
    flat = read_gauge(head, line)
    assert abs(flat - once_round * setup[1] / printer[1]) <= READ_MM
    blank = Blank("straight", (Reading(None, flat, "flat"),), wall_mm=60.0, tape=gauge_tape("along", setup[1]))
    # A paper on which the wrap can only lie along, as the strip did.
    wrap = wrap_page(blank, replace(sheet_on("A3", thickness, setup), width_mm=100.0))
    left, _, right, _ = wrap.trim_box
    assert wrap.width_mm > wrap.height_mm
    assert abs((right - left) * printer[1] - once_round) <= MEET_MM


def test_two_pieces_are_met_by_longer_girths() -> None:
    """Both kinds are among the random draws: a gauge of one piece, and one that is joined."""
    page = field_for(sheet_on("Letter", 0.12, (1.0, 1.0)), "along")
    counts = {len(strips_for(((None, flat, math.inf),), page)[0].pieces) for flat in (150.0, 240.0, 245.0, 320.0)}
    assert counts == {1, 2}
    assert len(strips_for(((None, 240.0, math.inf),), page)[0].pieces) == 1  # the commonest girth needs no join


@pytest.mark.parametrize("seed", range(5))
def test_a_tapered_blank(seed: int) -> None:
    """Two arcs, cut for rough readings, give a wrap whose ends meet all the way up.

    The wall is read on the sheet's paper rule; a half is read where two lines of the vernier meet as well.
    """
    draw = random.Random(1000 + seed)
    thickness, wall = draw.uniform(0.08, 0.20), draw.uniform(110.0, 160.0)
    foot = draw.uniform(170.0, 230.0)
    rim = foot + draw.choice([1, 1, 1, -1]) * draw.uniform(8.0, 60.0)
    printer = draw.uniform(0.985, 1.015)
    setup = 1.0 if seed % 2 else printer * draw.uniform(0.997, 1.003)
    more = math.pi * thickness
    cone = Cone(foot + more, rim + more, wall)
    wall_read = wall * setup / printer  # in the set-up's own millimetres
    sheet = sheet_on("A3", thickness, (setup, setup))
    page = field_for(sheet, "along")
    readings = tuple(one_arc(draw, cone, at, wall_read, page, printer / setup) for at in (10.0, wall_read - 10.0))
    for at, flat in readings:
        assert abs(flat - (cone.bottom + cone.theta * at * printer / setup) * setup / printer) <= READ_MM
    flats = ends_of(readings, wall_read)
    lengths = (Reading(None, flats[0], "flat"), Reading(None, flats[1], "flat"))
    blank = Blank("tapered", lengths, wall_mm=wall_read, tape=gauge_tape("along", setup))
    wrap = wrap_page(blank, replace(sheet, width_mm=290.0))
    assert max(abs(gap) for gap in gaps(wrap, cone, printer)) <= MEET_MM


def one_arc(
    draw: random.Random, cone: Cone, at: float, wall_read: float, page: Field, prints: float
) -> tuple[float, float]:
    """Return (wall position, flat length read) of an arc cut for readings that are out by up to 1.5 mm."""
    bottom, top = (one + draw.uniform(-1.5, 1.5) for one in (cone.bottom, cone.top))
    slope = (top - bottom) / wall_read
    rough = bottom + slope * at
    strip = strips_for(((at, rough, rough / slope),), page)[0]
    assert len(strip.pieces) == 1
    marks = marks_of(printed_file((strip,), page), page.scale)
    ends = ends_of_strip(marks, (prints * page.scale[0], prints * page.scale[1]), page.scale)
    if slope < 0:  # a foot wider than the rim: looked at upside down
        ends = Ends(ends.vernier * (1.0, -1.0), ends.scale * (1.0, -1.0))
        head, line = read_arc(ends, cone.turned_over, cone.wall - at * prints, round(strip.low_mm))
    else:
        head, line = read_arc(ends, cone, at * prints, round(strip.low_mm))
    return at, read_gauge(head, line)


def gaps(wrap: PlacedPage, cone: Cone, printer: float) -> list[float]:
    """Return how far the printed wrap's ends are from meeting, from edge to edge, laid level on the unrolled cone."""
    places = np.array([place for place, _, _ in corners(wrap.trim)]) * printer
    places = places[np.argsort(places[:, 0])]
    left, right = (side[np.argsort(side[:, 1])] for side in (places[:2], places[2:]))
    if cone.theta < 0:
        left, right = left[::-1] * (1.0, -1.0), right[::-1] * (1.0, -1.0)
        cone = cone.turned_over
    shares = np.linspace(0.0, 1.0, 9)[:, None]
    ends = [side[0] + (side[1] - side[0]) * shares for side in (left, right)]
    middle = places[:, 0].mean()
    wanted = np.mean([cone.radius(0.0), cone.radius(cone.wall)])
    low = min(left[0, 1], right[0, 1]) - wanted
    for _ in range(40):
        apex = np.array([middle, low])
        low += float(np.mean([np.linalg.norm(side - apex, axis=1).mean() for side in ends])) - wanted
    angles = [np.array([angle_at(one, apex) for one in side]) for side in ends]
    radii = np.linalg.norm(ends[0] - apex, axis=1)
    return list((angles[1] - angles[0] - cone.theta) * radii)
