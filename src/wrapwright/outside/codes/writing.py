"""A text as the dark and light modules of a QR code (ISO/IEC 18004)."""

from __future__ import annotations

from typing import Literal

import numpy as np

from wrapwright.core.base.errors import unusable
from wrapwright.core.design.supplies import CodeModules

Level = Literal["L", "M", "Q", "H"]
# Bytes that the largest symbol (version 40) holds; ISO/IEC 18004, table of data capacities.
MOST_BYTES: dict[Level, int] = {"L": 2953, "M": 2331, "Q": 1663, "H": 1273}


def code_modules(text: str, level: Level = "M", *, where: str = "code") -> CodeModules:
    """Return the smallest QR symbol for a text at an error correction level, without its quiet zone.

    Raises:
        WrapwrightError: the text is empty or does not go into the largest symbol.
    """
    import zxingcpp

    if not text:
        raise unusable("a code needs a text.", where=where)
    try:
        symbol = zxingcpp.create_barcode(text, zxingcpp.QRCode, ec_level=level)
    except (ValueError, RuntimeError):
        size = len(text.encode("utf-8"))
        raise unusable(
            f"the text has {size} bytes; a QR code of level {level} holds at most {MOST_BYTES[level]}.",
            remedy="Shorten the text, or take a lower level.",
            where=where,
        ) from None
    picture = np.array(symbol.to_image(scale=1, add_quiet_zones=False))
    return CodeModules(picture < 128)
