"""Pictures brought to about their printed size, in the working space, ready to be bent."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import pyvips
from numpy.typing import NDArray

from wrapwright.core.colour import srgb
from wrapwright.core.colour.adjust import changed
from wrapwright.core.colour.working import WorkingSpace
from wrapwright.core.design.elements import Adjust
from wrapwright.core.design.supplies import Pixels

LONGEST_PX = 32000  # the warp counts pixels in 16 bits
MOST_PX = 64_000_000  # an enlarged picture is held whole: past this the warp itself enlarges
# Shrinking averages light, so it is done in linear light; at this shrink or less the difference is not worth its cost
# (mean under half a code on photographs).
LINEAR_FROM = 2.0
_CHUNK = 64


@dataclass(frozen=True, eq=False)
class Source:
    """A picture ready to be bent.

    Attributes:
        array: working RGB, uint8 or uint16 (h, w, 3), or uint16 (h, w, 4) multiplied by its alpha, the fourth.
        left, top: where the cropped picture starts in it, in pixels.
        width, height: its size in pixels, fractions included.
    """

    array: NDArray[np.uint8] | NDArray[np.uint16]
    left: float
    top: float
    width: float
    height: float

    @property
    def plain(self) -> bool:
        """Return whether it is opaque."""
        return bool(self.array.shape[-1] == 3)


def source(
    pixels: Pixels, crop: tuple[float, float, float, float], size: tuple[float, float], change: Adjust,
    space: WorkingSpace,
) -> Source:  # fmt: skip
    """Return the cropped picture at about `size` (width, height in pixels), adjusted, in the working space."""
    high, wide = pixels.array.shape[:2]
    left, top, right, bottom = crop[0] * wide, crop[1] * high, crop[2] * wide, crop[3] * high
    x0, y0 = math.floor(left + 1e-6), math.floor(top + 1e-6)
    x1, y1 = max(x0 + 1, math.ceil(right - 1e-6)), max(y0 + 1, math.ceil(bottom - 1e-6))
    room = max(MOST_PX, (right - left) * (bottom - top)) / (size[0] * size[1])
    less = min(1.0, LONGEST_PX / max(size), math.sqrt(room))
    asked = [max(1.0, length * less) for length in size]
    columns = max(1, math.ceil((x1 - x0) * asked[0] / (right - left) - 1e-6))
    rows = max(1, math.ceil((y1 - y0) * asked[1] / (bottom - top) - 1e-6))
    cut = pixels.array[y0:y1, x0:x1] if (x0, y0, x1, y1) != (0, 0, wide, high) else pixels.array
    bands = _resized(cut, (columns, rows), alpha=pixels.alpha, light=pixels.space in ("gray", "rgb"))
    colours = bands[..., :-1] if pixels.alpha else bands
    done = _adjusted(space.converted(colours, pixels.space, pixels.icc), change, space)
    if pixels.alpha and int(bands[..., -1].min()) < np.iinfo(bands.dtype).max:
        done = _multiplied(_deep(done), _deep(bands[..., -1]))
    across, along = columns / (x1 - x0), rows / (y1 - y0)
    return Source(
        np.ascontiguousarray(done),
        (left - x0) * across,
        (top - y0) * along,
        (right - left) * across,
        (bottom - top) * along,
    )


def _deep(codes: NDArray[Any]) -> NDArray[np.uint16]:
    return codes if codes.dtype == np.uint16 else codes.astype(np.uint16) * np.uint16(257)


def _multiplied(colours: NDArray[np.uint16], alpha: NDArray[np.uint16]) -> NDArray[np.uint16]:
    share = alpha[..., None].astype(np.uint32)
    scaled = ((colours.astype(np.uint32) * share + 32767) // 65535).astype(np.uint16)
    return np.concatenate([scaled, alpha[..., None]], axis=-1)


def _adjusted(codes: NDArray[Any], change: Adjust, space: WorkingSpace) -> NDArray[Any]:
    if change == Adjust():
        return codes
    out = np.empty(codes.shape, dtype=np.uint16)
    for at in range(0, len(codes), _CHUNK):
        out[at : at + _CHUNK] = space.of_lab(changed(space.lab(codes[at : at + _CHUNK]), change))
    return out


def _resized(array: NDArray[Any], size: tuple[int, int], *, alpha: bool, light: bool) -> NDArray[Any]:
    """Return the bands at another size: Lanczos, in linear light when much smaller, weighted by alpha."""
    high, wide, bands = array.shape
    if (wide, high) == size:
        return array
    if size[0] > wide or size[1] > high:
        array = _enlarged(array, (max(size[0], wide), max(size[1], high)), alpha=alpha)
        high, wide = array.shape[:2]
    if (wide, high) == size:
        return array
    image = pyvips.Image.new_from_memory(
        np.ascontiguousarray(array), wide, high, bands, "uchar" if array.dtype == np.uint8 else "ushort"
    )
    shrink = max(wide / size[0], high / size[1])
    done = _shrunk(image, size, alpha=alpha, linear=light and shrink > LINEAR_FROM)
    return np.ndarray((size[1], size[0], bands), array.dtype, done.write_to_memory())


def _shrunk(image: pyvips.Image, size: tuple[int, int], *, alpha: bool, linear: bool) -> pyvips.Image:
    form, colours = image.format, image.bands - (1 if alpha else 0)
    top = 255 if form == "uchar" else 65535
    own = image.extract_band(colours) if alpha else None
    body = image.extract_band(0, n=colours) if alpha else image
    if linear:
        body = body.maplut(_curve(top))
    if own is not None:
        deep = (own * 257).cast("ushort") if top == 255 else own
        body = (body * (own / top)).bandjoin(deep)
    body = body.resize(size[0] / image.width, vscale=size[1] / image.height, kernel="lanczos3")
    if own is not None:
        share = body.extract_band(colours)
        body = (share > 0).ifthenelse(body.extract_band(0, n=colours) * 65535 / share, 0)
        share = (share / (65535 / top) + 0.5).cast(form)
        body = (body + 0.5).cast("ushort" if linear else form)
    if linear:
        body = body.maplut(_curve_back(top))
    return body.bandjoin(share) if own is not None else body


def _curve(top: int) -> pyvips.Image:
    light = np.rint(srgb.decode(np.arange(top + 1) / top) * 65535).astype(np.uint16)
    return pyvips.Image.new_from_memory(light.tobytes(), top + 1, 1, 1, "ushort")


def _curve_back(top: int) -> pyvips.Image:
    codes = np.rint(srgb.encode(np.arange(65536) / 65535) * top)
    data = codes.astype(np.uint8 if top == 255 else np.uint16).tobytes()
    return pyvips.Image.new_from_memory(data, 65536, 1, 1, "uchar" if top == 255 else "ushort")


def _enlarged(array: NDArray[Any], size: tuple[int, int], *, alpha: bool) -> NDArray[Any]:
    """Return a larger picture by an 8-tap Lanczos filter."""
    if not alpha:
        return np.atleast_3d(np.asarray(cv2.resize(array, size, interpolation=cv2.INTER_LANCZOS4)))
    top = float(np.iinfo(array.dtype).max)
    share = array[..., -1:].astype(np.float32) / top
    heavy = np.concatenate([array[..., :-1].astype(np.float32) * share, share], axis=-1)
    large = np.asarray(cv2.resize(heavy, size, interpolation=cv2.INTER_LANCZOS4))
    weight = large[..., -1:]
    colours = np.divide(large[..., :-1], weight, out=np.zeros_like(large[..., :-1]), where=weight > 1e-4)
    joined = np.concatenate([np.clip(colours, 0.0, top), weight * top], axis=-1)
    return np.asarray(np.clip(joined + 0.5, 0, top).astype(array.dtype))
