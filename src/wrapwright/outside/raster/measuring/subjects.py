"""What is measured, and with whose eyes."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Bytes = NDArray[np.uint8]
Rgb = tuple[float, float, float]

MOST_LOOKED_AT = 20_000


@dataclass(frozen=True)
class Subject:
    """One copy of an element to be measured.

    Attributes:
        element, copy: indices as in the draw list.
        name, kind: the element's, as the facts give them.
        masked: a picture cut to a mask.
        wide: it covers the wrap from end to end.
        code_text: what a code must say; None = not a code.
        code_modules: modules along a side of the code, quiet zone included.
    """

    element: int
    copy: int
    name: str
    kind: str
    masked: bool = False
    wide: bool = False
    code_text: str | None = None
    code_modules: int = 0


@dataclass(frozen=True, eq=False)
class Eye:
    """How working colours come out of the printer. All take working codes, uint8 (h, w, 3).

    Attributes:
        coating: the bare coated surface, encoded sRGB 0..1.
        seen: sRGB, uint8 (h, w, 3), as printed on white, relative to the paper's white.
        off: CIEDE2000 (h, w) between asked and reached colour; None when someone else converts.
        ink: total ink in percent (h, w); None without ink channels.
        read: texts of the codes found in an sRGB picture, uint8 (h, w, 3).
    """

    coating: Rgb
    seen: Callable[[Bytes], Bytes]
    read: Callable[[Bytes], Collection[str]]
    off: Callable[[Bytes], NDArray[Any]] | None = None
    ink: Callable[[Bytes], NDArray[Any]] | None = None


def by_colour(codes: Bytes, judge: Callable[[Bytes], NDArray[Any]]) -> NDArray[Any]:
    """Return what `judge` says of each pixel of (h, w, 3), asked once for each different colour."""
    wide = codes.astype(np.uint32)
    packed = wide[..., 0] | (wide[..., 1] << np.uint32(8)) | (wide[..., 2] << np.uint32(16))
    few, back = np.unique(packed, return_inverse=True)
    colours = np.stack([few, few >> 8, few >> 16], axis=-1).astype(np.uint8)
    said = judge(np.ascontiguousarray(colours[None]))[0]
    return np.asarray(said[back.reshape(codes.shape[:-1])])


def some(flags: NDArray[np.bool_]) -> NDArray[np.int64]:
    """Return the flat indices of the flagged pixels, or of 20,000 of them evenly spread."""
    found = np.flatnonzero(flags)
    if len(found) <= MOST_LOOKED_AT:
        return found
    return found[np.arange(MOST_LOOKED_AT) * len(found) // MOST_LOOKED_AT]
