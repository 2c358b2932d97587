"""A short text as the dark and light modules of a Data Matrix (ISO/IEC 16022, ECC 200)."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable

# Characters: enough for an order's name and a number, and the symbol stays small beside the piece.
LONGEST = 24


def matrix_modules(text: str, *, where: str = "code") -> NDArray[np.bool_]:
    """Return the smallest Data Matrix for a text, True is dark, top row first, without its quiet zone.

    Raises:
        WrapwrightError: the text is empty, over 24 characters or not plain ASCII.
    """
    import zxingcpp

    if not 0 < len(text) <= LONGEST or not text.isascii() or not text.isprintable():
        raise unusable(
            f"a Data Matrix beside a piece holds 1 to {LONGEST} plain letters, digits and signs, not {text!r}.",
            remedy="Shorten the order's name.",
            where=where,
        )
    symbol = zxingcpp.create_barcode(text, zxingcpp.DataMatrix)
    return np.array(symbol.to_image(scale=1, add_quiet_zones=False)) < 128
