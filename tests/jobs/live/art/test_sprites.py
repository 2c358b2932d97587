"""Sprites, judged by the renderer's own pictures."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pytest

from wrapwright.core.design.frame import Frame
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.art.pixels import over_white
from wrapwright.jobs.live.art.sprites import Sprite
from wrapwright.jobs.live.composed import composed_of
from wrapwright.jobs.live.drawing import DrawDesign, draw_design
from wrapwright.jobs.live.values import CopyView
from wrapwright.outside.raster.renderer import prepare

Design = Callable[..., dict[str, Any]]

PICTURES = {
    "cropped": {"file": "photo.png", "width": "50 mm", "crop": [0.2, 0.1, 0.9, 0.8]},
    "masked": {"file": "photo.png", "width": "50 mm", "mask": "rounded 9 mm", "flip": True},
    "covering": {"file": "photo.png", "width": "50 mm", "height": "50 mm", "fit": "cover"},
    "with alpha": {"file": "badge.png", "width": "46 mm", "adjust": {"lightness": 12, "chroma": -30}},
    "translucent": {"file": "badge.png", "width": "46 mm", "opacity": 0.45},
    "drawing": {"file": "star.svg", "width": "46 mm", "opacity": 0.5},
    "clipped drawing": {"file": "star.svg", "width": "46 mm", "mask": "circle"},
}
TAPERED = {"kind": "tapered", "girth_bottom": "200 mm", "girth_top": "260 mm", "wall": "90 mm"}


def recipe(bench: Bench, copy: CopyView) -> Sprite:
    assert copy.sprite is not None
    found = bench.recent.sprites.find(copy.sprite.url.rpartition("/")[2].removesuffix(".png"))
    assert isinstance(found, Sprite)
    return found


@pytest.mark.parametrize("what", PICTURES)
def test_over_white_a_sprite_is_the_renderers_picture_of_it_on_the_wrap(
    what: str, live_bench: Bench, job_folder: Path, design: Design
) -> None:
    """The sprite is drawn in its own millimetres; here the wrap itself is drawn, upright in the same place."""
    document = design({"kind": "picture", "lay": "true", "up": "40 mm", **PICTURES[what]})
    (copy,) = draw_design(DrawDesign(document, job_folder), live_bench, Watch()).copies
    assert copy.sprite is not None
    made = recipe(live_bench, copy).pixels()
    composed = composed_of(document, job_folder, live_bench)
    x, y, width, height = copy.sprite.box
    pitch = width / made.shape[1]
    assert pitch == pytest.approx(height / made.shape[0])
    to_flat = np.array([[pitch, 0.0, copy.matrix[4] + x], [0.0, -pitch, -copy.matrix[5] - y], [0.0, 0.0, 1.0]])
    frame = Frame(made.shape[1], made.shape[0], to_flat)
    colouring = composed.colouring
    true = prepare(composed.draw_list, frame, colouring.pixels, space=colouring.working).whole()
    off = np.abs(over_white(made).astype(int) - true)
    assert off.max() <= 2
    assert true.min() < 200  # there is something to see
    assert made[..., 3].min() == 0  # and something bare round it


@pytest.mark.parametrize(
    "element",
    [
        {"kind": "fill", "gradient": {"from": "#203040", "to": "#f0e0d0", "along": "up"}},
        {"kind": "tile", "file": "badge.png", "width": "31 mm", "gap": "4 mm", "opacity": 0.4},
        {"kind": "picture", "file": "photo.png", "width": "wrap", "join": "blend 12 mm"},
    ],
)
def test_what_goes_round_is_one_sprite_that_is_the_wraps_own_picture(
    element: dict[str, Any], live_bench: Bench, job_folder: Path, design: Design
) -> None:
    document = design(element, blank=TAPERED)
    (copy,) = draw_design(DrawDesign(document, job_folder), live_bench, Watch()).copies
    assert copy.fixed
    assert copy.sprite is not None
    made = recipe(live_bench, copy).pixels()
    composed = composed_of(document, job_folder, live_bench)
    x, y, width, _ = copy.sprite.box
    pitch = width / made.shape[1]
    frame = Frame(made.shape[1], made.shape[0], np.array([[pitch, 0.0, x], [0.0, -pitch, -y], [0.0, 0.0, 1.0]]))
    colouring = composed.colouring
    true = prepare(composed.draw_list, frame, colouring.pixels, space=colouring.working).whole()
    # A change of colour is dithered on the wrap and not in a sprite: one code more.
    assert np.abs(over_white(made).astype(int) - true).max() <= 2


def test_a_bent_sprite_shows_each_place_where_it_lies(live_bench: Bench, job_folder: Path, design: Design) -> None:
    document = design(
        {"kind": "picture", "file": "photo.png", "width": "70 mm", "lay": "level", "at": "120 deg", "up": "40 mm"},
        blank=TAPERED,
    )
    (copy,) = draw_design(DrawDesign(document, job_folder), live_bench, Watch()).copies
    assert not copy.rigid
    assert copy.sprite is not None
    made = recipe(live_bench, copy).pixels()
    composed = composed_of(document, job_folder, live_bench)
    x, y, width, _ = copy.sprite.box
    pitch = width / made.shape[1]
    frame = Frame(made.shape[1], made.shape[0], np.array([[pitch, 0.0, x], [0.0, -pitch, -y], [0.0, 0.0, 1.0]]))
    colouring = composed.colouring
    true = prepare(composed.draw_list, frame, colouring.pixels, space=colouring.working).whole()
    off = np.abs(over_white(made).astype(int) - true)
    assert np.percentile(off, 95) <= 4  # sampled twice; the picture is smooth
    assert cv2.blur(off.astype(np.float32), (9, 9)).max() < 40  # no place is another's, at the border neither


@pytest.mark.parametrize(
    ("width_mm", "ppi"),
    # 320 pixels over 20 mm are 406 ppi, over 70 mm 116, over 160 mm 51; a sprite has 150 at most and 100 at least.
    [(20.0, 150.0), (70.0, 320 / 70.0 * 25.4), (160.0, 100.0)],
)
def test_a_sprite_is_as_fine_as_its_picture_within_bounds(
    width_mm: float, ppi: float, live_bench: Bench, job_folder: Path, design: Design
) -> None:
    document = design({"kind": "picture", "file": "photo.png", "width": f"{width_mm} mm"})
    (copy,) = draw_design(DrawDesign(document, job_folder), live_bench, Watch()).copies
    assert recipe(live_bench, copy).ppi == pytest.approx(ppi)


def test_a_large_sprite_has_at_most_1600_pixels_a_side(live_bench: Bench, job_folder: Path, design: Design) -> None:
    large = {"kind": "straight", "girth": "700 mm", "wall": "100 mm"}
    document = design({"kind": "tile", "file": "badge.png", "width": "90 mm"}, blank=large)
    (copy,) = draw_design(DrawDesign(document, job_folder), live_bench, Watch()).copies
    assert 1590 <= recipe(live_bench, copy).pixels().shape[1] <= 1600
