"""What an ICC profile says: its header and the tags of RGB spaces made of three curves and a matrix (ICC.1:2022)."""

from __future__ import annotations

import struct
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Curve = Callable[[Array], Array]

HEADER_BYTES = 128


@dataclass(frozen=True)
class Header:
    """The header's fields that matter here, blanks kept: kind "prtr", space "CMYK", connection "Lab "."""

    size: int
    kind: str
    space: str
    connection: str
    magic: bool


def header(data: bytes) -> Header:
    """Return the header of at least 128 bytes (ICC.1 clause 7.2)."""

    def word(at: int) -> str:
        return data[at : at + 4].decode("latin-1")

    return Header(struct.unpack_from(">I", data)[0], word(12), word(16), word(20), word(36) == "acsp")


def tags(data: bytes) -> dict[str, bytes]:
    """Return the tags' contents by signature; tags that reach past the end are left out."""
    count = min(struct.unpack_from(">I", data, HEADER_BYTES)[0], 200) if len(data) >= HEADER_BYTES + 4 else 0
    found = {}
    for at in range(HEADER_BYTES + 4, min(HEADER_BYTES + 4 + 12 * count, len(data) - 11), 12):
        name, offset, size = struct.unpack_from(">4sII", data, at)
        if offset + size <= len(data):
            found[name.decode("latin-1")] = data[offset : offset + size]
    return found


def curve(tag: bytes) -> Curve | None:
    """Return the function encoded -> linear of a `curv` or `para` tag, or None when it is neither."""
    try:
        if tag[:4] == b"curv":
            return _table_curve(tag)
        if tag[:4] == b"para":
            return _formula_curve(tag)
    except (struct.error, IndexError, ValueError):
        return None
    return None


def _table_curve(tag: bytes) -> Curve:
    (count,) = struct.unpack_from(">I", tag, 8)
    if count == 0:
        return lambda value: value
    if count == 1:
        gamma = struct.unpack_from(">H", tag, 12)[0] / 256.0
        return lambda value: value**gamma
    table = np.frombuffer(tag, ">u2", count, 12).astype(np.float64) / 65535.0
    at = np.linspace(0.0, 1.0, count)
    return lambda value: np.interp(value, at, table)


# ICC.1 table 68: number of parameters of each function type.
_PARAMETERS = (1, 3, 4, 5, 7)


def _formula_curve(tag: bytes) -> Curve:
    (kind,) = struct.unpack_from(">H", tag, 8)
    values = [value / 65536.0 for value in struct.unpack_from(f">{_PARAMETERS[kind]}i", tag, 12)]
    g, a, b, c, d, e, f = values + [1.0, 0.0, 0.0, 0.0, 0.0, 0.0][len(values) - 1 :]
    if kind in (1, 2):  # the straight part ends where a x + b = 0, and is the constant c
        d, e, f, c = -b / a, c, c, 0.0
    if kind == 0:
        d = -1.0

    def at(value: Array) -> Array:
        return np.asarray(np.where(value >= d, np.maximum(a * value + b, 0.0) ** g + e, c * value + f))

    return at


def xyz(tag: bytes) -> Array:
    """Return the first XYZ number of an `XYZ ` tag."""
    return np.array(struct.unpack_from(">3i", tag, 8)) / 65536.0
