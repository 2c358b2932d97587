"""Writes a page as PNG (W3C Recommendation, Portable Network Graphics, second edition)."""

from __future__ import annotations

import struct
import zlib

from wrapwright.core.base.errors import unusable

_SIGNATURE = b"\x89PNG\r\n\x1a\n"
_COLOUR_TYPE = {1: 0, 3: 2}
_PIECE = 1 << 20  # bytes of one IDAT chunk


def page_png(data: bytes, *, width: int, height: int, channels: int, ppi: float, profile: bytes) -> bytes:
    """Return the PNG file of a page, 8 bits a channel, with its resolution and its ICC profile.

    Args:
        data: one zlib stream of the rows, each with its PNG filter byte in front.
        width: in pixels.
        height: in pixels.
        channels: 1 (grey) or 3 (RGB).
        ppi: pixels per inch; written as whole pixels per metre, as the format has it (0.002 % off at 300 ppi).
        profile: ICC profile of the pixels.

    Raises WrapwrightError (unusable) for CMYK, which PNG cannot hold.
    """
    if channels not in _COLOUR_TYPE:
        raise unusable(
            f"PNG holds grey or RGB, and this sheet has {channels} inks (CMYK).",
            remedy='Ask for --as tiff or --as pdf, or use route = "driver".',
        )
    per_metre = round(ppi / 0.0254)
    parts = [
        _SIGNATURE,
        _chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, _COLOUR_TYPE[channels], 0, 0, 0)),
        _chunk(b"iCCP", b"ICC profile\0\0" + zlib.compress(profile, 9)),
        _chunk(b"pHYs", struct.pack(">IIB", per_metre, per_metre, 1)),
        *(_chunk(b"IDAT", data[at : at + _PIECE]) for at in range(0, len(data), _PIECE)),
        _chunk(b"IEND", b""),
    ]
    return b"".join(parts)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(data, zlib.crc32(kind)))
