"""The texts of the QR codes (ISO/IEC 18004) in a picture."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray


def texts_read(picture: NDArray[Any]) -> tuple[str, ...]:
    """Return the text of every QR code found in an sRGB picture, uint8 (h, w, 3); light on dark counts as well."""
    import cv2
    import zxingcpp

    grey = cv2.cvtColor(np.ascontiguousarray(picture, dtype=np.uint8), cv2.COLOR_RGB2GRAY)
    found = zxingcpp.read_barcodes(
        grey, formats=zxingcpp.BarcodeFormats(zxingcpp.QRCode), text_mode=zxingcpp.TextMode.Plain
    )
    return tuple(one.text for one in found if one.valid)
