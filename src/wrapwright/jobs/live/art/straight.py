"""A picture of the flat wrap straightened: where each pixel looks is worked out once for a wrap and a size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour.tone import srgb_tone
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.frame import Frame
from wrapwright.core.design.path import Path
from wrapwright.jobs.live.art.pixels import flat_places
from wrapwright.jobs.live.views.frames import Canvas

Bytes = NDArray[np.uint8]
Share = NDArray[np.float32]
Places = tuple[NDArray[Any], NDArray[Any]]  # rows, columns

BESIDE_PX = 3.0  # so far outside the flat border a straight pixel may look


@dataclass(frozen=True, eq=False)
class Straightening:
    """How a flat picture becomes a straight one.

    Attributes:
        look: where each straight pixel looks in the flat picture (columns, rows; the first pixel's centre is 0, 0).
        share: of each straight pixel inside the straight border.
        beside: the flat pixels at and just outside the flat border, which are part paper.
        nearest: for each of them, the nearest one that is all art: it stands for it.
    """

    look: tuple[Share, Share]
    share: Share
    beside: Places
    nearest: Places

    def applied(self, flat: Bytes) -> Bytes:
        """Return the straight picture on white, sRGB (h, w, 3), of a flat one."""
        import cv2

        full = flat.copy()
        full[self.beside] = flat[self.nearest]
        found: Bytes = np.asarray(
            cv2.remap(full, *self.look, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE), dtype=np.uint8
        )
        found[self.share == 0.0] = 255
        partly = np.nonzero((self.share > 0.0) & (self.share < 1.0))
        part, tone = self.share[partly][:, None], srgb_tone()
        light = tone.decode(found[partly]) * part + (np.float32(1.0) - part)
        found[partly] = (tone.encode(light).astype(np.uint32) + 128) // 257
        return found


def straightening(canvas: Canvas, straight: Frame, flat: Frame) -> Straightening:
    """Return how a picture over the upright frame `flat` becomes one over `straight`, a frame of the canvas."""
    m, f = straight.to_flat, flat.to_flat
    x, y = flat_places(canvas, (m[0, 2], m[1, 2]), float(m[0, 0]), (straight.width_px, straight.height_px))
    look = (
        ((x - f[0, 2]) / f[0, 0] - 0.5).astype(np.float32),
        ((y - f[1, 2]) / f[1, 1] - 0.5).astype(np.float32),
    )
    border = bleed_outline(canvas.wrap, canvas.bleed_mm)
    return Straightening(look, _share(canvas.border, straight), *_beside(_share(border, flat)))


def _share(border: Path, frame: Frame) -> Share:
    from wrapwright.outside.raster.edges import coverage, filled

    to_px = np.asarray(np.linalg.inv(frame.to_flat), dtype=np.float64)
    return coverage(filled(border, to_px), (0, frame.height_px), (0, frame.width_px))


def _beside(share: Share) -> tuple[Places, Places]:
    """Return the pixels that are not all inside, as far as they are looked at, and the nearest one that is."""
    import cv2

    part = (share < 1.0).astype(np.uint8)
    away, labels = cv2.distanceTransformWithLabels(part, cv2.DIST_L2, 5, labelType=cv2.DIST_LABEL_PIXEL)
    full = np.nonzero(part == 0)
    at = np.zeros(int(labels.max()) + 1, dtype=np.int64)
    at[labels[full]] = np.arange(len(full[0]))
    beside = np.nonzero((part == 1) & (away <= BESIDE_PX))
    which = at[labels[beside]]
    return (beside[0], beside[1]), (full[0][which], full[1][which])
