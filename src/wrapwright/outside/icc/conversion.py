"""Working RGB to the printer's own colours, exactly: LittleCMS without its 8-bit short cuts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageCms, features

from wrapwright.core.base.errors import unusable
from wrapwright.core.colour.request import Intent
from wrapwright.outside.icc.profiles import MODES, Profile

Bytes = NDArray[np.uint8]

INTENTS: dict[str, ImageCms.Intent] = {
    "perceptual": ImageCms.Intent.PERCEPTUAL,
    "relative": ImageCms.Intent.RELATIVE_COLORIMETRIC,
    "saturation": ImageCms.Intent.SATURATION,
    "absolute": ImageCms.Intent.ABSOLUTE_COLORIMETRIC,
}
EXACT = ImageCms.Flags.NOOPTIMIZE


def engine() -> str:
    """Return LittleCMS's version."""
    return features.version("littlecms2") or "unknown"


@dataclass(frozen=True, eq=False)
class Conversion:
    """A conversion between two profiles; safe to use from several threads.

    The result is within 0.5 of a code of LittleCMS's float path (nearest code).

    Attributes:
        source, device: the two profiles.
        intent, black_point: as asked.
        handle: LittleCMS's transform.
    """

    source: Profile
    device: Profile
    intent: Intent
    black_point: bool
    handle: ImageCms.ImageCmsTransform

    @property
    def channels(self) -> int:
        """Return the number of device channels."""
        return 4 if self.device.space == "cmyk" else 3

    def strip(self, pixels: Bytes) -> Bytes:
        """Return device codes, uint8 (h, w, n), of source codes, uint8 (h, w, m). CMYK: 255 = full ink."""
        image = Image.fromarray(pixels if pixels.shape[-1] > 1 else pixels[..., 0], MODES[self.source.space])
        done = ImageCms.applyTransform(image, self.handle)
        codes: Bytes = np.asarray(done, dtype=np.uint8)
        return codes

    def colours(self, codes: NDArray[Any]) -> Bytes:
        """Return device codes, uint8 (k, n), of single source codes, uint8 (k, m): equal to what `strip` gives."""
        return np.asarray(self.strip(np.ascontiguousarray(codes, dtype=np.uint8)[None])[0])


def conversion(source: Profile, device: Profile, intent: Intent, *, black_point: bool) -> Conversion:
    """Return the conversion from 8-bit `source` codes to 8-bit `device` codes.

    Black point compensation does nothing for the absolute intent, as ICC and LittleCMS have it.

    Raises:
        WrapwrightError: unusable, when the profiles lack what the intent needs.
    """
    flags = EXACT | (ImageCms.Flags.BLACKPOINTCOMPENSATION if black_point else ImageCms.Flags.NONE)
    try:
        handle = ImageCms.buildTransform(
            source.opened(), device.opened(), MODES[source.space], MODES[device.space], INTENTS[intent], flags
        )
    except ImageCms.PyCMSError as error:
        raise unusable(
            f'the profile "{device.description}" cannot be used with the intent {intent}.',
            remedy="Choose another intent, or ask for a fresh copy of the profile.",
            where="colour: intent",
        ) from error
    return Conversion(source, device, intent, black_point, handle)
