"""The decode child's main part: one file on standard input becomes samples in the working folder."""

from __future__ import annotations

import mmap
from typing import Any

from wrapwright.core.base.errors import unusable
from wrapwright.outside.system.child_inside import serve


def decode(request: dict[str, Any]) -> dict[str, Any]:
    """Return the description of what was left in `samples` (and `profile.icc`).

    Args:
        request: `kind` (a key of kinds.NAMES), `longest_px` (of vector art made pixels), `pixels` (most a picture
            may have).
    """
    with mmap.mmap(0, 0, access=mmap.ACCESS_READ) as data:
        return by_kind(data, request)


def by_kind(data: mmap.mmap, request: dict[str, Any]) -> dict[str, Any]:
    """Return what the reader of the content's kind says; each brings only the libraries it needs."""
    kind, most = str(request["kind"]), int(request["pixels"])
    if kind == "heic":
        from wrapwright.outside.images.child.heic import read_heic

        return read_heic(data, most=most)
    if kind == "svg":
        from wrapwright.outside.images.child.svg.drawing import read_svg

        return read_svg(bytes(data), longest_px=int(request["longest_px"]))
    if kind == "pdf":
        from wrapwright.outside.images.child.page.reading import read_pdf

        return read_pdf(bytes(data), longest_px=int(request["longest_px"]), notes=[])
    if kind in ("jpeg", "png", "tiff", "webp", "gif", "avif"):
        from wrapwright.outside.images.child.photo import read_photo

        return read_photo(data, kind=kind, most=most)
    raise unusable("The file is of a kind that is not read.")


if __name__ == "__main__":
    serve(decode)
