"""Sprites by their keys."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.drawing import DrawDesign, draw_design
from wrapwright.jobs.live.sprites import SpriteRequest, sprite


def test_a_sprite_of_a_drawn_design_is_a_png_with_alpha(
    live_bench: Bench, job_folder: Path, design: Callable[..., dict[str, Any]]
) -> None:
    document = design({"kind": "picture", "file": "photo.png", "width": "40 mm", "mask": "circle"})
    (copy,) = draw_design(DrawDesign(document, job_folder), live_bench, Watch()).copies
    assert copy.sprite is not None
    key = copy.sprite.url.removeprefix("/api/sprites/").removesuffix(".png")
    packed = sprite(SpriteRequest(key), live_bench, Watch())
    pixels = cv2.imdecode(np.frombuffer(packed, dtype=np.uint8), cv2.IMREAD_UNCHANGED)
    high, wide, bands = pixels.shape
    assert bands == 4
    assert copy.sprite.box[2] / wide == pytest.approx(copy.sprite.box[3] / high)
    assert pixels[high // 2, wide // 2, 3] == 255
    assert pixels[0, 0, 3] == 0
    # Its blue grows from none at the picture's left side to all at its right.
    middle = pixels[high // 2, :, 0].astype(int)
    assert middle[wide // 8] < 60
    assert middle[-wide // 8] > 195
    assert sprite(SpriteRequest(key), live_bench, Watch()) == packed


def test_an_unknown_key_is_missing(live_bench: Bench) -> None:
    with pytest.raises(WrapwrightError) as caught:
        sprite(SpriteRequest("0" * 64), live_bench, Watch())
    assert caught.value.kind is Kind.MISSING
