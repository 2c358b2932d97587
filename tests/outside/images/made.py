"""Pictures made for the tests: ramps whose every sample is known, and files built byte by byte."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.supplies import Art, Pixels
from wrapwright.outside.images.reading import open_pixels, read_art

HEIGHT, WIDTH = 48, 64


def ramps() -> NDArray[np.uint8]:
    """Return a colour picture that is different in every direction."""
    y, x = np.mgrid[0:HEIGHT, 0:WIDTH]
    return np.stack([x * 4, y * 5, (x + y) * 2], axis=-1).astype(np.uint8)


def alpha() -> NDArray[np.uint8]:
    """Return an alpha channel."""
    return (255 - np.mgrid[0:HEIGHT, 0:WIDTH][0] * 5).astype(np.uint8)


def read(file: Path) -> tuple[Art, Pixels]:
    """Return a file as read through a cache beside it."""
    cache = file.parent / "cache"
    art = read_art(file, cache=cache)
    return art, open_pixels(art, cache=cache)


def chunk(name: bytes, data: bytes) -> bytes:
    """Return a PNG chunk (ISO/IEC 15948, 5.3)."""
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def png(width: int, height: int, *, depth: int = 8, colour: int = 2, data: bytes = b"", before: bytes = b"") -> bytes:
    """Return a PNG with the given header, chunks `before` its data, and compressed data."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + before + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def zeros(count: int) -> bytes:
    """Return `count` zero bytes as a zlib stream (RFC 1950), made of one flushed megabyte repeated."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    megabyte = packer.compress(bytes(1 << 20)) + packer.flush(zlib.Z_FULL_FLUSH)
    rest = zlib.compressobj(9, zlib.DEFLATED, -15)
    last = rest.compress(bytes(count & (1 << 20) - 1)) + rest.flush()
    # The Adler-32 sum of n zero bytes: its low half stays 1, its high half counts them modulo 65521.
    check = struct.pack(">HH", count % 65521, 1)
    return b"\x78\xda" + megabyte * (count >> 20) + last + check


def svg(body: str, head: str = 'viewBox="0 0 100 50"') -> bytes:
    """Return an SVG document."""
    names = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f"<svg {names} {head}>{body}</svg>".encode()


def pdf(content: bytes, *, page: str = "/MediaBox [0 0 100 50]", catalogue: str = "", more: str = "") -> bytes:
    """Return a one-page PDF; a reader has to find its objects by itself, for it has no table."""
    return (
        (
            f"%PDF-1.7\n1 0 obj << /Type /Catalog /Pages 2 0 R {catalogue} >> endobj\n"
            f"2 0 obj << /Type /Pages /Kids [3 0 R] /Count 1 >> endobj\n"
            f"3 0 obj << /Type /Page /Parent 2 0 R {page} /Contents 4 0 R >> endobj\n"
            f"4 0 obj << /Length {len(content)} >> stream\n"
        ).encode()
        + content
        + f"\nendstream endobj\n{more}\ntrailer << /Root 1 0 R >>\n".encode()
    )
