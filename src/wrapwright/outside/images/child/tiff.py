"""The kinds of TIFF that libvips takes wrongly."""

from __future__ import annotations

import mmap
from typing import IO, Any, cast

import pyvips
from PIL import Image

from wrapwright.outside.images.child.size import measured

_COMPRESSION, _JPEG_CODED = 259, 7  # a TIFF tag, and its value for JPEG


def odd_tiff(data: mmap.mmap, most: int) -> pyvips.Image | None:
    """Return a TIFF that libvips takes wrongly (8-bit CIELAB, uncoded YCbCr) as Pillow reads it, else None."""
    Image.MAX_IMAGE_PIXELS = most
    try:
        with Image.open(cast("IO[bytes]", data), formats=["TIFF"]) as opened:
            file: Any = opened
            if file.mode not in ("LAB", "YCbCr") or file.tag_v2.get(_COMPRESSION) == _JPEG_CODED:
                return None
            measured(file.width, file.height, most, "TIFF")
            lab = file.mode == "LAB"
            held = file if lab else file.convert("RGB")
            image = pyvips.Image.new_from_memory(held.tobytes(), file.width, file.height, 3, "uchar")
            image = _signed_lab(image) if lab else image.copy(interpretation="srgb")
            icc, frames = file.info.get("icc_profile"), getattr(file, "n_frames", 1)
    except (OSError, ValueError, SyntaxError, TypeError, KeyError, Image.DecompressionBombError):
        return None
    image = image.copy()
    if icc:
        image.set_type(pyvips.GValue.blob_type, "icc-profile-data", icc)
    image.set_type(pyvips.GValue.gint_type, "n-pages", frames)
    return image


def _signed_lab(image: pyvips.Image) -> pyvips.Image:
    """Return CIELAB as numbers from TIFF's 8 bits: L* over 0..255, a* and b* signed (TIFF 6.0, section 23)."""
    light, signed = image[0] * (100 / 255), image.extract_band(1, n=2)
    signed = signed - (signed > 127) / 255 * 256
    return light.bandjoin(signed).cast("float").copy(interpretation="lab")
