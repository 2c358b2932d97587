"""Alpha and colour chosen for a screen that blends encoded codes."""

from __future__ import annotations

import numpy as np

from wrapwright.core.colour import srgb
from wrapwright.jobs.live.art.pixels import looked_up, over_white, with_alpha


def renders(light: np.ndarray, share: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """A colour in linear light laid over white and over black by its share, as sRGB codes (IEC 61966-2-1)."""
    white, black = (light * share + paper * (1.0 - share) for paper in (1.0, 0.0))
    return tuple(np.rint(srgb.encode(one) * 255.0).astype(np.uint8) for one in (white, black))  # type: ignore[return-value]


def test_over_white_a_screen_shows_the_renderers_picture() -> None:
    random = np.random.default_rng(5)
    light, share = random.random((40, 60, 3)), random.random((40, 60, 1))
    white, black = renders(light, share)
    made = with_alpha(white, black)
    assert np.abs(over_white(made).astype(int) - white).max() <= 1


def test_greys_are_right_over_black_too() -> None:
    random = np.random.default_rng(6)
    light, share = np.repeat(random.random((30, 30, 1)), 3, axis=-1), random.random((30, 30, 1))
    white, black = renders(light, share)
    made = with_alpha(white, black)
    over_black = np.rint(made[..., :3] * (made[..., 3:] / 255.0)).astype(int)
    assert np.abs(over_black - black).max() <= 2


def test_opaque_and_bare_places_are_exact() -> None:
    colours = np.arange(2 * 5 * 3, dtype=np.uint8).reshape(2, 5, 3)
    opaque = with_alpha(colours, colours)
    assert (opaque[..., :3] == colours).all()
    assert (opaque[..., 3] == 255).all()
    bare = with_alpha(np.full((2, 2, 3), 255, np.uint8), np.zeros((2, 2, 3), np.uint8))
    assert (bare[..., 3] == 0).all()


def test_another_look_over_white_is_met_as_well_however_much_darker() -> None:
    white, black = renders(np.full((4, 4, 3), 0.9), np.full((4, 4, 1), 0.3))
    for code in (200, 120, 20):
        look = np.full((4, 4, 3), code, dtype=np.uint8)
        assert np.abs(over_white(with_alpha(white, black, look)).astype(int) - code).max() <= 1


def test_pixels_are_looked_up_where_they_lie_and_nothing_lies_outside() -> None:
    pixels = np.zeros((4, 6, 4), dtype=np.uint8)
    pixels[1, 2] = (10, 200, 30, 255)
    u, v = np.meshgrid([2.5, 3.5, -5.0], [1.5])
    found = looked_up(pixels, u, v)
    assert found[0].tolist() == [[10, 200, 30, 255], [0, 0, 0, 0], [0, 0, 0, 0]]
    half = looked_up(pixels, np.array([[3.0]]), np.array([[1.5]]))[0, 0]
    # Half way to a bare pixel the colour stays: only its share fades.
    assert half.tolist() == [10, 200, 30, 128]
