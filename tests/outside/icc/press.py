"""Printer profiles for the tests: one from a package when it is there, and one of our own made on the spot."""

from __future__ import annotations

import struct
from functools import cache
from pathlib import Path

import numpy as np
from tests.witness import absent

from wrapwright.core.colour import lab

_NAME = "default_cmyk.icc"


@cache
def cmyk_file() -> Path:
    """Return Ghostscript's CMYK profile (Debian libgs-common); without it fail in CI, else skip."""
    roots = [Path("/usr/share/color/icc"), Path("/usr/share/ghostscript")]
    found = sorted(file for root in roots if root.is_dir() for file in root.rglob(_NAME))
    if not found:
        absent(f"profile {_NAME}")
    return found[0]


def rgb_printer(*, kind: bytes = b"prtr", with_back: bool = True) -> bytes:
    """Return an RGB printer profile (ICC v2, lut16): a dull printer whose black is weak and whose green leans.

    Both ways hold the same 9-step tables of a made-up printer; built here from the layout in ICC.1:2001-04.
    """
    steps = np.linspace(0, 1, 9)
    grid = np.stack(np.meshgrid(steps, steps, steps, indexing="ij"), axis=-1).reshape(-1, 3)
    colour = lab.of_srgb(0.12 + 0.88 * grid) * [1.0, 0.8, 0.85]
    forward = np.stack([colour[:, 0] * 652.8, (colour[:, 1] + 128) * 256, (colour[:, 2] + 128) * 256], axis=-1)
    axes = np.stack(
        np.meshgrid(steps * 65535 / 652.8, steps * 65535 / 256 - 128, steps * 65535 / 256 - 128, indexing="ij"), axis=-1
    ).reshape(-1, 3)
    back = np.clip((lab.to_srgb(axes / [1.0, 0.8, 0.85]) - 0.12) / 0.88, 0, 1) * 65535
    parts = {b"wtpt": b"XYZ \0\0\0\0" + struct.pack(">3i", *np.rint(lab.WHITE_D50 * 65536).astype(int).tolist())}
    parts[b"desc"] = b"desc\0\0\0\0" + struct.pack(">I", 8) + b"Dull RGB"[:7] + b"\0" + bytes(78)
    parts[b"cprt"] = b"text\0\0\0\0none\0"
    if with_back:
        parts[b"A2B0"] = _lut16(forward)
    parts[b"B2A0"] = _lut16(back)
    table, body, start = struct.pack(">I", len(parts)), b"", 132 + 12 * len(parts)
    for name, content in parts.items():
        table += struct.pack(">4sII", name, start + len(body), len(content))
        body += content + bytes(-len(content) % 4)
    size = start + len(body)
    head = struct.pack(">I4s4s4s4s4s", size, bytes(4), b"\x02\x40\0\0", kind, b"RGB ", b"Lab ") + bytes(12) + b"acsp"
    head += bytes(28) + struct.pack(">3i", 63190, 65536, 54061)
    return head + bytes(128 - len(head)) + table + body


def _lut16(nodes: np.ndarray) -> bytes:
    matrix = struct.pack(">9i", *(65536 if at % 4 == 0 else 0 for at in range(9)))
    straight = struct.pack(">2H", 0, 65535) * 3
    clut = np.clip(np.rint(nodes), 0, 65535).astype(">u2").tobytes()
    return b"mft2\0\0\0\0" + bytes([3, 3, 9, 0]) + matrix + struct.pack(">2H", 2, 2) + straight + clut + straight
