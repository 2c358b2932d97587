"""Pictures as layers: bent over the lattice, cross-faded at the wrap's ends, or repeated as tiles."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour.tone import Tone
from wrapwright.core.design.drawlist import PlacedPicture
from wrapwright.core.design.frame import Frame
from wrapwright.outside.raster.edges import Cover, Edges
from wrapwright.outside.raster.lattice import Map, Part, looked_at
from wrapwright.outside.raster.layers import Painted
from wrapwright.outside.raster.sources import Source

Codes = NDArray[Any]


def sampled(array: Codes, u: Map, v: Map) -> Codes:
    """Return the pixels at places u, v (centre of the first = 0), bicubic; the rim goes on outside."""
    return np.asarray(cv2.remap(array, u, v, cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE))


def parted(codes: Codes) -> tuple[NDArray[np.uint16], Cover | None]:
    """Return 16-bit colours and their share of sampled codes (three bands, or four multiplied by the fourth)."""
    if codes.dtype == np.uint8:
        return codes.astype(np.uint16) * np.uint16(257), None
    if codes.shape[-1] == 3:
        return codes, None
    alpha = codes[..., 3:].astype(np.float32)
    colours = np.divide(codes[..., :3] * np.float32(65535), alpha, out=np.zeros_like(codes[..., :3], np.float32),
                        where=alpha > 0)  # fmt: skip
    return np.clip(colours + 0.5, 0, 65535).astype(np.uint16), alpha[..., 0] / np.float32(65535)


@dataclass(frozen=True, eq=False)
class PictureLayer:
    """A picture bent by its placement."""

    frame: Frame
    item: PlacedPicture
    source: Source
    tone: Tone
    limits: tuple[Edges, ...]
    opacity: float

    @property
    def plain(self) -> bool:
        """Return whether it is 8-bit, opaque and needs no fade: then it can be bent straight into the strip."""
        return (
            self.source.array.dtype == np.uint8
            and self.source.plain
            and self.opacity >= 1.0
            and self.item.join_mm == 0.0
        )

    def bent(self, part: Part) -> Codes:
        """Return the source's codes under each pixel of a part."""
        u, v = looked_at(self.frame, part, self._look, max(self.source.width, self.source.height) / 2.0)
        return sampled(self.source.array, u, v)

    def painted(self, part: Part) -> Painted:
        """Return its colours and alpha."""
        return parted(self.bent(part)) if self.item.join_mm <= 0.0 else self._faded(part)

    def _look(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> tuple[Any, Any]:
        return self._in_source(*self.item.placement.to_local(x, y))

    def _in_source(self, a: Codes, b: Codes) -> tuple[Codes, Codes]:
        one, item = self.source, self.item
        side = -1.0 if item.flip else 1.0
        u = one.left - 0.5 + (0.5 + side * a / item.width_mm) * one.width
        v = one.top - 0.5 + (0.5 - b / item.height_mm) * one.height
        return u, v

    def _faded(self, part: Part) -> Painted:
        """Return the picture with its left end faded into what follows its right end, a whole turn on.

        Past its right end the picture goes on mirrored. The overlap repeats the left end.
        """
        place, item = self.item.placement, self.item
        circle = place.wrap.turn_length(place.up_mm)
        level = replace(place, turn_deg=0.0)
        a, b = looked_at(self.frame, part, level.to_local, circle / 2.0)
        half = item.window_mm[0] / 2.0
        past = a + np.float32(half)
        again = np.where(past >= circle, past - np.float32(circle), past)
        share = np.clip(1.0 - again / np.float32(item.join_mm), 0.0, 1.0)
        left = self._at(again - np.float32(half), b)
        if not share.any():
            return left
        on = again + np.float32(circle)
        right = self._at(np.where(on > 2 * half, np.float32(4 * half) - on, on) - np.float32(half), b)
        return _mixed(left, right, share.astype(np.float32), self.tone)

    def _at(self, a: Map, b: Map) -> tuple[NDArray[np.uint16], Cover | None]:
        angle = math.radians(self.item.placement.turn_deg)
        cos, sin = np.float32(math.cos(angle)), np.float32(math.sin(angle))
        u, v = self._in_source(a * cos - b * sin, a * sin + b * cos)
        return parted(sampled(self.source.array, u.astype(np.float32), v.astype(np.float32)))


def _mixed(left: Painted, right: Painted, share: Cover, tone: Tone) -> Painted:
    one = np.float32(1.0)
    left_cover = np.ones_like(share) if left[1] is None else left[1]
    right_cover = np.ones_like(share) if right[1] is None else right[1]
    weigh_left, weigh_right = left_cover * (one - share), right_cover * share
    cover = weigh_left + weigh_right
    light = tone.decode(left[0]) * weigh_left[..., None] + tone.decode(right[0]) * weigh_right[..., None]
    colours = tone.encode(light / np.maximum(cover, np.float32(1e-6))[..., None])
    np.copyto(colours, left[0], where=(share == 0)[..., None])
    return colours, None if left[1] is None and right[1] is None else cover
