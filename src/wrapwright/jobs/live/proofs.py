"""The picture of the whole wrap as it will be printed, small enough to be sent on every change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import raise_all, unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.values import Box, FrameKind

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from wrapwright.core.design.frame import Frame
    from wrapwright.jobs.live.views.frames import Canvas
    from wrapwright.jobs.work.composing import Composition

QUALITY = 88
LEAST_PX, MOST_PX = 64, 4096


@dataclass(frozen=True)
class ProofPicture:
    """The picture of a document's whole wrap, `width_px` wide, in a frame; the files it names lie in `folder`."""

    document: Mapping[str, Any]
    folder: Path
    width_px: int = 1024
    frame: FrameKind = "flat"


def proof_picture(request: ProofPicture, bench: Bench, watch: Watch) -> bytes:
    """Return a JPEG of the flat wrap as it will look on white, over the box that `Drawn.proof` states.

    Elements that cannot be drawn are left out, as on the screen.

    Raises:
        WrapwrightError: there is no wrap to draw on, or the width is beyond 64 to 4096 pixels.
    """
    from wrapwright.jobs.live.composed import tried_of
    from wrapwright.jobs.live.views.frames import Canvas

    if not LEAST_PX <= request.width_px <= MOST_PX:
        raise unusable(
            f"a proof {request.width_px} pixels wide is not drawn; {LEAST_PX} to {MOST_PX} are.", where="width"
        )
    watch.step("composing", 0.0)
    tried = tried_of(request.document, request.folder, bench)
    composed = tried.composition
    if composed is None:
        raise_all([problem for _, problem in tried.troubles])
        raise AssertionError("a document that cannot be composed has no problem to show")
    canvas = Canvas(composed.wrapped.wrap, composed.draw_list.bleed_mm, request.frame)
    watch.step("drawing", 0.2)
    key = ("proof", tried.key, request.width_px, canvas)
    packed: bytes = bench.recent.packed.get(
        key, lambda: _jpeg(proof_pixels(composed, canvas, request.width_px, bench)), len
    )
    return packed


def proof_frame(canvas: Canvas, width_px: int) -> tuple[Frame, Box]:
    """Return the raster of a proof over a canvas, and the box (y down) that its whole pixels cover."""
    from wrapwright.core.design.frame import seen_frame
    from wrapwright.jobs.live.views.frames import down

    left, _, right, top = canvas.box
    ppi = width_px * 25.4 / (right - left)
    frame = seen_frame(canvas.box, ppi)
    pitch = 25.4 / ppi
    return frame, down((left, top - frame.height_px * pitch, left + frame.width_px * pitch, top))


def proof_pixels(composed: Composition, canvas: Canvas, width_px: int, bench: Bench) -> NDArray[np.uint8]:
    """Return sRGB, uint8 (h, w, 3): the wrap as printed on white, straightened when the canvas is."""
    from wrapwright.core.design.borders import bleed_outline
    from wrapwright.core.design.frame import seen_frame
    from wrapwright.jobs.live.art.seen import seen_pixels
    from wrapwright.jobs.live.art.straight import Straightening, straightening

    frame, _ = proof_frame(canvas, width_px)
    box = bleed_outline(canvas.wrap, canvas.bleed_mm).box()
    flat = seen_frame(box, 25.4 / float(frame.to_flat[0, 0]))
    seen = seen_pixels(composed, flat, bench)
    if not canvas.straightens:
        return seen
    how: Straightening = bench.recent.lookups.get((canvas, width_px), lambda: straightening(canvas, frame, flat))
    return how.applied(seen)


def _jpeg(pixels: NDArray[np.uint8]) -> bytes:
    import cv2

    done, packed = cv2.imencode(".jpg", cv2.cvtColor(pixels, cv2.COLOR_RGB2BGR), [cv2.IMWRITE_JPEG_QUALITY, QUALITY])
    if not done:
        raise RuntimeError("the JPEG writer refused an ordinary picture")
    return bytes(packed)
