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


def matrix_text(modules: NDArray[np.bool_]) -> str:
    """Return the text of a Data Matrix (ISO/IEC 16022) given by its modules, True is dark; "" where it is none."""
    import zxingcpp

    quiet = 2
    light = np.pad(~modules, quiet, constant_values=True)
    picture = np.repeat(np.repeat(light, 3, axis=0), 3, axis=1).astype(np.uint8) * 255
    found = zxingcpp.read_barcodes(
        picture, formats=zxingcpp.BarcodeFormats(zxingcpp.DataMatrix), text_mode=zxingcpp.TextMode.Plain, is_pure=True
    )
    return next((one.text for one in found if one.valid), "")
