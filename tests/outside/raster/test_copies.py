"""A translucent copy of several shapes is one thing: what overlaps within it does not show through.

Expected colours by hand: linear light, share x own + (1 - share) x below (CSS Compositing and Blending Level 1, the
group's opacity, with linear instead of encoded values).
"""

from __future__ import annotations

import numpy as np
import pytest
from tests.outside.raster.naive import naive
from tests.outside.raster.scenes import STRAIGHT, fill, frame_of, listed, with_ink

from wrapwright.core.colour import srgb
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import rectangle
from wrapwright.outside.icc.working import srgb_working
from wrapwright.outside.raster.renderer import prepare

GROUND, RED, BLUE = (0.9, 0.9, 0.2), (0.8, 0.1, 0.1), (0.1, 0.2, 0.8)


def _shape(box, colour, **more):
    return PlacedOutline(element=1, path=rectangle(*box), colour=colour, **{"copy": 0, "copy_opacity": 0.4} | more)


def _scene(*shapes):
    return listed(STRAIGHT, fill(STRAIGHT, GROUND), *shapes)


def _mixed(above, below, share=0.4):
    light = share * srgb.decode(np.array(above)) + (1 - share) * srgb.decode(np.array(below))
    return srgb.encode(light) * 255


def _seen(scene, x, y, frame):
    at = np.linalg.inv(frame.to_flat) @ [x, y, 1.0]
    return prepare(scene, frame, {}, space=srgb_working()).whole()[int(at[1]), int(at[0])]


def test_the_upper_shape_of_a_copy_hides_the_lower_one():
    frame = frame_of(STRAIGHT)
    scene = _scene(_shape((-30.0, 20.0, 10.0, 60.0), RED), _shape((0.0, 20.0, 30.0, 60.0), BLUE))
    assert _seen(scene, -20.0, 40.0, frame) == pytest.approx(_mixed(RED, GROUND), abs=1.0)
    assert _seen(scene, 5.0, 40.0, frame) == pytest.approx(_mixed(BLUE, GROUND), abs=1.0)
    assert _seen(scene, 20.0, 40.0, frame) == pytest.approx(_mixed(BLUE, GROUND), abs=1.0)


def test_two_copies_show_through_each_other():
    scene = _scene(_shape((-30.0, 20.0, 10.0, 60.0), RED), _shape((0.0, 20.0, 30.0, 60.0), BLUE, copy=1))
    both = _mixed(BLUE, _mixed(RED, GROUND) / 255)
    assert _seen(scene, 5.0, 40.0, frame_of(STRAIGHT)) == pytest.approx(both, abs=1.5)


def test_ink_on_a_translucent_copy_is_its_share_of_what_it_covers():
    frame = frame_of(STRAIGHT)
    scene = listed(STRAIGHT, _shape((-30.0, 20.0, 10.0, 60.0), RED), _shape((0.0, 20.0, 30.0, 60.0), BLUE))
    _, ink = with_ink(prepare(scene, frame, {}, space=srgb_working()))
    assert set(np.unique(ink)) >= {0, 102}
    assert ink.max() == 102  # 0.4 x 255


def test_the_slow_renderer_agrees():
    frame = frame_of(STRAIGHT)
    scene = _scene(_shape((-30.3, 20.1, 10.2, 60.4), RED, opacity=0.5), _shape((0.0, 20.0, 30.6, 63.0), BLUE))
    fast = prepare(scene, frame, {}, space=srgb_working()).whole() / 255
    slow = naive(scene, frame, {}) / 255
    assert np.abs(srgb.decode(fast) - srgb.decode(slow)).max() <= 0.14
