"""Writes a page as TIFF (TIFF 6.0, 1992; Deflate as in its Adobe supplement 2; ICC.1 annex for the profile)."""

from __future__ import annotations

import hashlib
import struct
import zlib
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

StripOf = Callable[[int, int], NDArray[np.uint8]]

_GREY, _RGB, _SEPARATED = 1, 2, 5
_PHOTOMETRIC = {1: _GREY, 3: _RGB, 4: _SEPARATED}
_SHORT, _LONG, _RATIONAL, _BYTES = 3, 4, 5, 7
_SIZES = {_SHORT: 2, _LONG: 4, _RATIONAL: 8, _BYTES: 1}
_DEFLATE = 8
_DIFFERENCES = 2  # predictor: each pixel less its left neighbour


@dataclass(frozen=True)
class TiffPage:
    """A finished file and the SHA-256 (hex) of its pixels, row by row."""

    data: bytes
    pixels_sha256: str


def page_tiff(
    strip_of: StripOf, *, width: int, height: int, channels: int, ppi: float, profile: bytes, rows: int = 96
) -> TiffPage:
    """Return the TIFF file of a page, 8 bits a channel, grey, RGB or CMYK, without any date.

    Args:
        strip_of: (first row, row after the last) -> uint8 of shape (rows, width, channels).
        width: in pixels.
        height: in pixels.
        channels: 1, 3 or 4.
        ppi: pixels per inch.
        profile: ICC profile of the pixels.
        rows: rows in a strip.
    """
    digest, strips = hashlib.sha256(), []
    for first in range(0, height, rows):
        strip = np.ascontiguousarray(strip_of(first, min(first + rows, height)))
        digest.update(strip.data)
        strips.append(_deflated(_differences(strip)))
    entries = _entries(strips, width=width, height=height, channels=channels, ppi=ppi, profile=profile, rows=rows)
    return TiffPage(_file(strips, entries), digest.hexdigest())


def _differences(strip: NDArray[np.uint8]) -> bytes:
    out = strip.copy()
    out[:, 1:] -= strip[:, :-1]
    return out.tobytes()


def _deflated(data: bytes) -> bytes:
    try:
        from isal import isal_zlib

        return bytes(isal_zlib.compress(data, 1))
    except ImportError:
        return zlib.compress(data, 1)


Entry = tuple[int, int, list[int] | bytes]  # tag, type, values


def _entries(
    strips: list[bytes], *, width: int, height: int, channels: int, ppi: float, profile: bytes, rows: int
) -> list[Entry]:
    offsets, at = [], 8
    for strip in strips:
        offsets.append(at)
        at += len(strip) + len(strip) % 2
    resolution = [round(ppi * 1000), 1000]
    entries: list[Entry] = [
        (256, _LONG, [width]),
        (257, _LONG, [height]),
        (258, _SHORT, [8] * channels),
        (259, _SHORT, [_DEFLATE]),
        (262, _SHORT, [_PHOTOMETRIC[channels]]),
        (273, _LONG, offsets),
        (274, _SHORT, [1]),
        (277, _SHORT, [channels]),
        (278, _LONG, [rows]),
        (279, _LONG, [len(strip) for strip in strips]),
        (282, _RATIONAL, resolution),
        (283, _RATIONAL, resolution),
        (284, _SHORT, [1]),
        (296, _SHORT, [2]),  # inches
        (317, _SHORT, [_DIFFERENCES]),
    ]
    if channels == 4:
        entries.append((332, _SHORT, [1]))  # inks are CMYK
    entries.append((34675, _BYTES, profile))
    return entries


def _file(strips: list[bytes], entries: list[Entry]) -> bytes:
    body = b"".join(strip + b"\0" * (len(strip) % 2) for strip in strips)
    at = 8 + len(body)
    after = at + 2 + 12 * len(entries) + 4
    table, extra = [struct.pack("<H", len(entries))], b""
    for tag, kind, values in entries:
        data = (
            values
            if isinstance(values, bytes)
            else struct.pack(f"<{len(values)}{'H' if kind == _SHORT else 'I'}", *values)
        )
        count = len(data) // _SIZES[kind]
        if len(data) > 4:
            place = struct.pack("<I", after + len(extra))
            extra += data + b"\0" * (len(data) % 2)
        else:
            place = data.ljust(4, b"\0")
        table.append(struct.pack("<HHI", tag, kind, count) + place)
    return struct.pack("<2sHI", b"II", 42, at) + body + b"".join(table) + struct.pack("<I", 0) + extra
