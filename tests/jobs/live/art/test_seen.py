"""The wrap painted again where it has changed is the wrap painted anew."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from tests.outside.icc.press import cmyk_file

from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.frame import seen_frame
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.art.seen import seen_pixels
from wrapwright.jobs.live.composed import composed_of
from wrapwright.jobs.work.painting import seen_wrap

PPI = 50.0
GROUND = {"kind": "fill", "gradient": {"from": "#203040", "to": "#f0e0d0", "along": "round"}}
TILE = {"kind": "tile", "file": "badge.png", "width": "31 mm", "gap": "4 mm", "shift": 0.5, "opacity": 0.3}
PHOTO = {"kind": "picture", "file": "photo.png", "width": "60 mm", "mask": "circle", "at": ["front", "back"]}
STAR = {"kind": "picture", "file": "star.svg", "width": "40 mm", "at": "right", "opacity": 0.6}
NAME = {"kind": "text", "text": "Ada", "size": "9 mm", "at": "265 deg", "outline": {"width": "1 mm", "colour": "#fff"}}

TAPERED = {"kind": "tapered", "girth_bottom": "200 mm", "girth_top": "260 mm", "wall": "90 mm"}


def changes() -> list[list[dict[str, Any]]]:
    """A session: moves, another opacity, an element gone, one on top, the order changed."""
    return [
        [GROUND, TILE, PHOTO, STAR, NAME],
        [GROUND, TILE, {**PHOTO, "at": ["20 deg", "back"], "up": "50 mm"}, STAR, NAME],
        [GROUND, TILE, PHOTO, {**STAR, "opacity": 0.9, "turn": 30}, NAME],
        [GROUND, PHOTO, STAR, NAME],
        [GROUND, PHOTO, STAR, NAME, {**TILE, "name": "above"}],
        [GROUND, STAR, NAME, PHOTO],
        [GROUND, STAR, NAME, PHOTO, {**NAME, "name": "over", "at": "front"}],
        [GROUND, STAR, NAME, {**NAME, "name": "over", "at": "front"}, PHOTO],
        [PHOTO, STAR, {**NAME, "text": "Grace"}],
        [],
    ]


@pytest.mark.parametrize("colour", [{}, {"route": "convert", "profile": "press.icc"}])
def test_every_step_of_a_session_is_what_the_renderer_paints(
    colour: dict[str, str], live_bench: Bench, job_folder: Path, design: Callable[..., dict[str, Any]]
) -> None:
    shutil.copy(cmyk_file(), job_folder / "press.icc")
    before = None
    for elements in changes():
        composed = composed_of(design(*elements, blank=TAPERED, colour=colour), job_folder, live_bench)
        frame = seen_frame(bleed_outline(composed.wrapped.wrap, composed.draw_list.bleed_mm).box(), PPI)
        made = seen_pixels(composed, frame, live_bench)
        anew, _ = seen_wrap(composed, PPI)
        assert (made == anew).all()
        assert before is None or before.shape != made.shape or bool(np.any(before != made))
        before = made
