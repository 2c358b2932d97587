"""What the ink would look like: device codes back to colour."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pyvips
from numpy.typing import NDArray

from wrapwright.core.colour.difference import ciede2000
from wrapwright.outside.icc.conversion import Bytes, Conversion, conversion
from wrapwright.outside.icc.profiles import Profile, srgb_profile
from wrapwright.outside.icc.working import Working


@dataclass(frozen=True, eq=False)
class Proofing:
    """The way back from a printer's ink.

    Attributes:
        there: the conversion to ink.
        working: the space it starts from.
        back: device codes -> sRGB relative to the media white.
    """

    there: Conversion
    working: Working
    back: Conversion

    def seen(self, device: Bytes) -> Bytes:
        """Return sRGB, uint8 (h, w, 3), of device codes (h, w, n), relative to the media white: no ink is white.

        Black point compensation stays off, so a weak black shows as one.
        """
        return self.back.strip(device)

    def reached(self, device: Bytes) -> NDArray[np.float64]:
        """Return Lab (D50, relative to the media white) of device codes.

        Black is scaled as the conversion to ink scaled it, so that only colours, not the depth of black, count.
        """
        compensated = self.there.intent != "absolute" and (self.there.black_point or self.there.intent == "perceptual")
        return device_lab(device, self.there.device, black_point=compensated)

    def short(self, pixels: Bytes, device: Bytes) -> NDArray[np.float64]:
        """Return the CIEDE2000, shape (h, w), between what working pixels ask for and what their ink reaches."""
        return np.asarray(ciede2000(self.working.lab(pixels), self.reached(device)))


def proofing(there: Conversion, working: Working) -> Proofing:
    """Return the way back of a conversion that starts at `working`."""
    return Proofing(there, working, conversion(there.device, srgb_profile(), "relative", black_point=False))


def device_lab(device: Bytes, profile: Profile, *, black_point: bool) -> NDArray[np.float64]:
    """Return Lab (D50, relative to the media white) of device codes, uint8 (h, w, n), within 1 of the exact value."""
    rows, columns, bands = device.shape
    image = pyvips.Image.new_from_memory(np.ascontiguousarray(device), columns, rows, bands, "uchar")
    image = image.copy(interpretation="cmyk" if bands == 4 else "srgb")
    image.set_type(pyvips.GValue.blob_type, "icc-profile-data", profile.data)
    seen = image.icc_import(embedded=True, intent="relative", pcs="lab", black_point_compensation=black_point)
    return np.asarray(seen.numpy(), dtype=np.float64).reshape(rows, columns, 3)
