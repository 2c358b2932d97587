"""Packs a raster into one Flate stream, strip by strip, the same bytes whatever the number of threads.

Each strip is filtered (PNG filter "sub"; W3C PNG specification, section 9), deflated on its own and ended with a full
flush (RFC 1951 blocks on a byte border), so that strips can be packed side by side and joined. The checksums are
joined by arithmetic modulo 65521 (Adler-32, RFC 1950).
"""

from __future__ import annotations

import hashlib
import zlib
from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Strip = NDArray[np.uint8]
StripOf = Callable[[int, int], Strip]

_BASE = 65521  # largest prime under 2**16
_HEADER = b"\x78\x01"  # RFC 1950: deflate, 32 KB window, fastest level


@dataclass(frozen=True)
class Packed:
    """A packed raster.

    Attributes:
        data: a whole zlib stream (RFC 1950) of rows, each with its filter byte: PDF /Predictor 15, PNG's IDAT.
        pixels_sha256: SHA-256 (hex) of the unfiltered device bytes, row by row.
        width, height, channels: of the raster, 8 bits a channel.
    """

    data: bytes
    pixels_sha256: str
    width: int
    height: int
    channels: int


def packed(strip_of: StripOf, *, width: int, height: int, channels: int, rows: int = 96, threads: int = 2) -> Packed:
    """Return the packed raster.

    Args:
        strip_of: (first row, row after the last) -> uint8 of shape (rows, width, channels). Called once for each
            strip; with more than one thread from several threads at once, so it must not share scratch space.
        width: of the raster in pixels.
        height: of the raster in pixels.
        channels: 1, 3 or 4.
        rows: rows in a strip; part of the result's bytes.
        threads: how many strips are made at once.
    """
    digest = hashlib.sha256()
    parts, check = [_HEADER], 1
    edges = [(first, min(first + rows, height)) for first in range(0, height, rows)]
    wanted = (width, channels)

    def one(edge: tuple[int, int]) -> tuple[Strip, bytes, int, int]:
        strip = strip_of(*edge)
        if strip.dtype != np.uint8 or strip.shape != (edge[1] - edge[0], *wanted):
            raise ValueError(f"a strip of {strip.dtype} {strip.shape} came for rows {edge} of {wanted}")
        filtered = _filtered(strip)
        return strip, _deflated(filtered, last=edge[1] == height), zlib.adler32(filtered), len(filtered)

    for strip, data, adler, length in _in_order(one, edges, threads):
        digest.update(np.ascontiguousarray(strip).data)
        parts.append(data)
        check = joined_adler(check, adler, length)
    parts.append(check.to_bytes(4, "big"))
    return Packed(b"".join(parts), digest.hexdigest(), width, height, channels)


def joined_adler(first: int, second: int, length: int) -> int:
    """Return the Adler-32 of two runs of bytes joined, `length` being that of the second (RFC 1950, section 8.2)."""
    a = (first & 0xFFFF) + (second & 0xFFFF) - 1
    b = (first >> 16) + (second >> 16) + (length % _BASE) * ((first & 0xFFFF) - 1)
    return (b % _BASE) << 16 | (a % _BASE)


def _in_order(one: Callable[[Any], Any], edges: list[tuple[int, int]], threads: int) -> Iterator[Any]:
    """Yield one(edge) in order, at most two strips a thread under way."""
    if threads <= 1 or len(edges) <= 1:
        yield from map(one, edges)
        return
    with ThreadPoolExecutor(threads) as pool:
        under_way: deque[Future[Any]] = deque()
        try:
            for edge in edges:
                under_way.append(pool.submit(one, edge))
                if len(under_way) > 2 * threads:
                    yield under_way.popleft().result()
            while under_way:
                yield under_way.popleft().result()
        finally:
            for future in under_way:
                future.cancel()


def _filtered(strip: Strip) -> bytes:
    """Return the rows with PNG's "sub" filter: each byte less the same channel of the pixel to its left."""
    count, width, channels = strip.shape
    flat = strip.reshape(count, width * channels)
    out = np.empty((count, width * channels + 1), dtype=np.uint8)
    out[:, 0] = 1
    out[:, 1 : channels + 1] = flat[:, :channels]
    np.subtract(flat[:, channels:], flat[:, :-channels], out=out[:, channels + 1 :])
    return out.tobytes()


def _deflated(data: bytes, *, last: bool) -> bytes:
    """Return raw deflate blocks; all but the last end with a full flush, which starts the next on a byte border."""
    try:
        from isal import isal_zlib

        packer: Any = isal_zlib.compressobj(1, zlib.DEFLATED, -zlib.MAX_WBITS)
    except ImportError:
        packer = zlib.compressobj(1, zlib.DEFLATED, -zlib.MAX_WBITS)
    return bytes(packer.compress(data) + packer.flush(zlib.Z_FINISH if last else zlib.Z_FULL_FLUSH))
