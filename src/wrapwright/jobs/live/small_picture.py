"""A kept picture made small, for a list of pictures."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from wrapwright.core.design.supplies import Art

_QUALITY = 85
_DECODED_PX = 1024  # vector art that must become pixels is read no larger than this


@dataclass(frozen=True)
class SmallPicture:
    """A kept picture and the longer side it is to have, pixels."""

    sha256: str
    longest_px: int = 256


def small_picture(request: SmallPicture, bench: Bench, watch: Watch) -> bytes:
    """Return a JPEG of the picture on white; it is never enlarged.

    Raises:
        WrapwrightError: missing, when there is no such picture; unusable, when it can no longer be read.
    """
    from wrapwright.jobs.kept.pictures import ShowPicture, show_picture

    _, file = show_picture(ShowPicture(request.sha256), bench, watch)
    key = ("small picture", request.sha256, request.longest_px)
    packed: bytes = bench.recent.packed.get(key, lambda: _jpeg(_pixels(file, request.longest_px, bench)), len)
    return packed


def _pixels(file: Path, longest_px: int, bench: Bench) -> NDArray[np.uint8]:
    """Return sRGB on white, uint8 (h, w, 3)."""
    from wrapwright.outside.images.reading import read_art

    art = read_art(file, cache=bench.folders.cache, longest_px=_DECODED_PX)
    share = longest_px / max(art.width, art.height)
    share = min(1.0, share) if art.kind == "pixels" else share
    size = max(1, round(art.width * share)), max(1, round(art.height * share))
    return _outlined(art, size) if art.kind == "outlines" else _shrunk(art, size, bench)


def _shrunk(art: Art, size: tuple[int, int], bench: Bench) -> NDArray[np.uint8]:
    import numpy as np

    from wrapwright.core.design.elements import Adjust
    from wrapwright.outside.icc.working import srgb_working
    from wrapwright.outside.images.reading import open_pixels
    from wrapwright.outside.raster.sources import source

    pixels = open_pixels(art, cache=bench.folders.cache)
    found = source(pixels, (0.0, 0.0, 1.0, 1.0), size, Adjust(), srgb_working()).array
    codes = found if found.dtype == np.uint8 else np.rint(found.astype(np.float32) / 257.0)
    if codes.shape[-1] == 3:
        return np.asarray(codes, dtype=np.uint8)
    return np.asarray(np.clip(codes[..., :3] + (255.0 - codes[..., 3:]), 0.0, 255.0), dtype=np.uint8)


def _outlined(art: Art, size: tuple[int, int]) -> NDArray[np.uint8]:
    """Return vector art filled shape by shape, each in its colour over what lies below."""
    import numpy as np

    from wrapwright.outside.raster.edges import coverage, filled, stroked

    wide, high = size
    to_px = np.array([[wide, 0.0, 0.0], [0.0, -high, high], [0.0, 0.0, 1.0]])
    drawn = np.full((high, wide, 3), 255.0, dtype=np.float32)

    def share(path: object, **how: bool) -> NDArray[np.float32]:
        return coverage(filled(path, to_px, **how), (0, high), (0, wide))  # type: ignore[arg-type]

    for shape in art.shapes:
        if shape.stroke:
            cover = coverage(stroked(shape.path, to_px, shape.stroke), (0, high), (0, wide))
        else:
            cover = share(shape.path, even_odd=shape.even_odd)
        for clip in shape.clips:
            cover = cover * share(clip)
        part = (cover * np.float32(shape.opacity))[..., None]
        drawn += part * (np.array(shape.colour, dtype=np.float32) * 255.0 - drawn)
    return np.asarray(np.rint(drawn), dtype=np.uint8)


def _jpeg(pixels: NDArray[np.uint8]) -> bytes:
    import cv2

    done, packed = cv2.imencode(".jpg", cv2.cvtColor(pixels, cv2.COLOR_RGB2BGR), [cv2.IMWRITE_JPEG_QUALITY, _QUALITY])
    if not done:
        raise RuntimeError("the JPEG writer refused an ordinary picture")
    return bytes(packed)
