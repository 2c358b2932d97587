"""Codes read back from the print, or not."""

from __future__ import annotations

import numpy as np
import pytest
from tests.outside.raster.measuring.wraps import BLACK, BLEED, STRAIGHT, TAPERED, WHITE, box, eye, ground

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.drawlist import DrawList
from wrapwright.core.design.elements import Code
from wrapwright.core.design.kinds.code import QUIET_MODULES, lay_code
from wrapwright.core.design.kinds.ground import Ground
from wrapwright.outside.codes.writing import code_modules
from wrapwright.outside.icc.working import srgb_working
from wrapwright.outside.raster.measure import measure
from wrapwright.outside.raster.measuring.subjects import Subject

TEXT = "regatta 2026"


def read(*, at=0.0, width=24.0, wrap=STRAIGHT, below=(), above=(), text=TEXT, asked=TEXT, coating=WHITE, **more):
    code = code_modules(text)
    laid = lay_code(
        1, Code(name="code", at_deg=(at,), text=text, width_mm=width, **more), Ground(wrap, BLEED, {1: code})
    )
    draw_list = DrawList(wrap, BLEED, (*below, *laid.items, *above), laid.extents)
    modules = len(code.dark) + 2 * QUIET_MODULES
    subject = Subject(1, 0, "code", "code", code_text=asked, code_modules=modules)
    return measure(draw_list, {}, [subject], space=srgb_working(), eye=eye(coating)).copies[0].code_read


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED])
@pytest.mark.parametrize("at", [0.0, 100.0])
def test_a_plain_code_is_read(wrap, at):
    assert read(wrap=wrap, at=at) is True


def test_another_text_is_not_the_one_asked():
    assert read(asked="regatta 2027") is False


def test_a_code_under_something_is_not_read():
    assert read(above=[box(-40, 15, -28, 35, WHITE, 2)]) is False
    assert read(above=[box(0, 15, 20, 35, WHITE, 2)]) is True


def test_a_code_in_the_colour_of_its_ground_is_not_read():
    assert read(below=[ground(BLACK)]) is False
    assert read(below=[ground((0.0, 0.2, 0.3))], colour="#00334d") is False


def test_a_black_coating_hides_it():
    assert read(coating=BLACK) is False
    assert read(coating=(0.8, 0.75, 0.6)) is True


def test_small_modules_are_read_from_a_render_of_their_own():
    assert read(width=9.0) is True  # 29 modules: 0.31 mm each, 1.2 pixels of the whole render


@pytest.mark.parametrize("wrap", [STRAIGHT, TAPERED, FlatWrap(120.0, 120.0, 50.0)])
@pytest.mark.parametrize("turn_deg", [0.0, 45.0, 90.0])
@pytest.mark.parametrize("text", [TEXT, "Wf04e1oAbDuL", "?lor:qeJF8Lxyn155EWvrKV1w6KNO5 WAL3pj8ad"])
def test_across_the_seam_it_is_read_as_on_the_piece(wrap, turn_deg, text):
    assert read(at=270.0, wrap=wrap, turn_deg=turn_deg, text=text, asked=text, colour="#7a2e1d") is True


def test_a_code_cut_by_the_handle_is_not_read():
    assert read(at=270.0, wrap=FlatWrap(120.0, 120.0, 50.0, gap_mm=16.0)) is False


def test_turned_codes_are_read():
    assert read(turn_deg=30.0) is True


def test_umlauts_and_signs_survive():
    text = "Zoë, 東京 ✓"
    assert read(text=text, asked=text) is True
    assert np.array(code_modules(text).dark).size > 0
