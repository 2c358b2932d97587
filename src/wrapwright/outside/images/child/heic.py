"""HEIC into normalised samples, by libheif's decoder."""

from __future__ import annotations

import mmap
from pathlib import Path
from typing import Any

import pi_heif

from wrapwright.core.base.errors import unusable
from wrapwright.outside.images.child.profile import kept_profile
from wrapwright.outside.images.child.size import measured


def read_heic(data: mmap.mmap, *, most: int) -> dict[str, Any]:
    """Return the description of the primary picture, its samples left in `samples`.

    libheif applies the file's own turning and mirroring (ISO/IEC 23008-12), so the samples come upright.
    """
    notes: list[str] = []
    try:
        file = pi_heif.open_heif(data, convert_hdr_to_8bit=False)
        image = file[file.primary_index]
        measured(int(image.size[0]), int(image.size[1]), most, "HEIC")
        if len(file) > 1:
            notes.append(f"It holds {len(file)} pictures; the main one is used.")
        return _written(image, notes)
    except (ValueError, OSError, EOFError, RuntimeError, SyntaxError) as problem:
        raise unusable(
            "The HEIC is cut short or damaged: its picture data cannot be read to the end.",
            remedy="Save it again, or get it anew from where it came.",
        ) from problem


def _written(image: Any, notes: list[str]) -> dict[str, Any]:
    """Write the rows without their padding and return what they are."""
    mode = str(image.mode)
    bands = {"L": 1, "LA": 2, "RGB": 3, "RGBA": 4, "RGBa": 4}[mode.split(";")[0]]
    bits = 16 if ";16" in mode or ";1" in mode else 8
    if bits == 16:
        notes.append("Its more than 8 bits a channel are kept in 16.")
    width, height = image.size
    row = width * bands * bits // 8
    samples = memoryview(image.data).cast("B")
    with Path("samples").open("wb") as out:
        for at in range(height):
            start = at * image.stride
            out.write(samples[start : start + row])
    space = "rgb" if bands >= 3 else "gray"
    profile = kept_profile(bytes(image.info.get("icc_profile") or b""), space, notes)
    return {
        "form": "pixels",
        "width": width,
        "height": height,
        "bands": bands,
        "bits": bits,
        "space": space,
        "alpha": bands in (2, 4),
        "profile": profile,
        "notes": notes,
    }
