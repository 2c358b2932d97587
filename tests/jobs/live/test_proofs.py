"""The picture of the whole wrap."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.composed import composed_of
from wrapwright.jobs.live.drawing import DrawDesign, draw_design
from wrapwright.jobs.live.proofs import ProofPicture, proof_frame, proof_picture, proof_pixels
from wrapwright.jobs.live.views.frames import Canvas
from wrapwright.jobs.work.painting import seen_wrap

Design = Callable[..., dict[str, Any]]

TAPERED = {"kind": "tapered", "girth_bottom": "200 mm", "girth_top": "260 mm", "wall": "90 mm"}
PHOTO = {"kind": "picture", "file": "photo.png", "width": "60 mm", "at": "back"}


def decoded(data: bytes) -> np.ndarray:
    return cv2.cvtColor(cv2.imdecode(np.frombuffer(data, dtype=np.uint8), cv2.IMREAD_COLOR), cv2.COLOR_BGR2RGB)


def test_the_flat_proof_is_the_wrap_as_seen(live_bench: Bench, job_folder: Path, design: Design) -> None:
    document = design(PHOTO, {"kind": "text", "text": "Ada", "size": "12 mm", "up": "30 mm"}, blank=TAPERED)
    composed = composed_of(document, job_folder, live_bench)
    canvas = Canvas(composed.wrapped.wrap, composed.draw_list.bleed_mm, "flat")
    frame, box = proof_frame(canvas, 500)
    seen, flat_box = seen_wrap(composed, 25.4 / frame.to_flat[0, 0])
    assert (proof_pixels(composed, canvas, 500, live_bench) == seen).all()
    assert box[0] == pytest.approx(flat_box[0])
    assert -box[1] == pytest.approx(flat_box[3])
    packed = decoded(proof_picture(ProofPicture(document, job_folder, 500), live_bench, Watch()))
    assert packed.shape == seen.shape
    assert np.abs(packed.astype(int) - seen).mean() < 3.0  # JPEG at quality 88


def test_the_straight_proof_has_every_place_where_the_straight_frame_has_it(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    # A level picture is an upright box in the straight frame: its border is looked for in the proof.
    level = {**PHOTO, "lay": "level", "at": "60 deg", "up": "33 mm"}
    document = design(level, blank=TAPERED)
    request = DrawDesign(document, job_folder, "straight")
    found = draw_design(request, live_bench, Watch())
    (copy,) = found.copies
    assert found.proof is not None
    composed = composed_of(document, job_folder, live_bench)
    canvas = Canvas(composed.wrapped.wrap, composed.draw_list.bleed_mm, "straight")
    pixels = proof_pixels(composed, canvas, 1000, live_bench)
    pitch = found.proof.box[2] / 1000
    marked = np.argwhere((pixels < 250).any(axis=-1))
    top, left = marked.min(axis=0) * pitch
    bottom, right = (marked.max(axis=0) + 1) * pitch
    half_wide, half_high = copy.matrix[0] * 30.0, 22.5
    x, y = copy.matrix[4] - found.proof.box[0], copy.matrix[5] - found.proof.box[1]
    true = (x - half_wide, x + half_wide, y - half_high, y + half_high)
    assert (left, right, top, bottom) == pytest.approx(true, abs=2.0 * pitch)


def test_a_straight_proof_is_full_to_its_border(live_bench: Bench, job_folder: Path, design: Design) -> None:
    document = design({"kind": "fill", "colour": "#204060"}, blank=TAPERED)
    composed = composed_of(document, job_folder, live_bench)
    canvas = Canvas(composed.wrapped.wrap, composed.draw_list.bleed_mm, "straight")
    pixels = proof_pixels(composed, canvas, 400, live_bench)
    fill = np.array([0x20, 0x40, 0x60])
    # The box of the proof begins at the border: its first row and first column are full, whatever was flat there.
    for full in (pixels[0, 20:360], pixels[2:-2, 0], pixels[80, 20:360]):
        assert np.abs(full.astype(int) - fill).max() <= 8  # the border is true to 3 micrometres, half a pixel to 297
    # The right end is cut slanting in this frame: there the raster shows paper as well.
    assert (pixels[1, -1] == 255).all()


def test_a_proof_of_nothing_or_of_no_size_is_refused(live_bench: Bench, job_folder: Path, design: Design) -> None:
    with pytest.raises(WrapwrightError, match="64 to 4096"):
        proof_picture(ProofPicture(design(PHOTO), job_folder, 5), live_bench, Watch())
    with pytest.raises(WrapwrightError, match="missing"):
        proof_picture(ProofPicture({"format": 1}, job_folder), live_bench, Watch())
