"""Embedded ICC profiles: kept when they are sound and fit the picture, else left aside with a note."""

from __future__ import annotations

import io
from pathlib import Path

_MOST = 16_000_000
_SIGNATURES = {"gray": b"GRAY", "rgb": b"RGB ", "cmyk": b"CMYK", "lab": b"Lab "}
_WITHOUT = {
    "gray": "It has no colour profile; its grey is taken as that of sRGB.",
    "rgb": "It has no colour profile; sRGB is assumed.",
    "cmyk": "It is CMYK without a colour profile; its colours can only be guessed.",
    "lab": "",
}


def kept_profile(icc: bytes, space: str, notes: list[str]) -> str | None:
    """Return the description of a usable profile, left in `profile.icc`; None (with a note) when it is left aside.

    None without a note when the picture carries none: the checks say so where it is printed.

    Usable: at most 16 MB, the mark and data space of its header right (ICC.1:2022, 7.2), and LittleCMS can
    make a conversion to sRGB from it.
    """
    if not icc:
        return None
    fault = _fault(icc, space)
    if fault:
        notes.append(f"Its colour profile {fault} and was left aside. {_WITHOUT[space]}".strip())
        return None
    named = _described(icc, space)
    if named is None:
        notes.append(f"Its colour profile is damaged and was left aside. {_WITHOUT[space]}".strip())
        return None
    Path("profile.icc").write_bytes(icc)
    return named


def _fault(icc: bytes, space: str) -> str:
    """Return what is wrong with the profile's header, or ""."""
    if len(icc) > _MOST:
        return f"has {len(icc) / 1e6:.0f} MB, more than {_MOST / 1e6:.0f} MB,"
    if len(icc) < 132 or icc[36:40] != b"acsp" or int.from_bytes(icc[:4], "big") > len(icc):
        return "is damaged"
    if icc[16:20] != _SIGNATURES[space]:
        of = icc[16:20].decode("ascii", "replace").strip()
        return f"is for {of}, not for this picture's colours,"
    return ""


def _described(icc: bytes, space: str) -> str | None:
    """Return the profile's own description if LittleCMS can convert with it, else None."""
    from PIL import ImageCms

    mode = {"gray": "L", "rgb": "RGB", "cmyk": "CMYK", "lab": "LAB"}[space]
    try:
        profile = ImageCms.ImageCmsProfile(io.BytesIO(icc))
        ImageCms.buildTransform(profile, ImageCms.createProfile("sRGB"), mode, "RGB")
        name = ImageCms.getProfileDescription(profile)
    except (ImageCms.PyCMSError, OSError, ValueError):
        return None
    return " ".join(name.split())[:200] or "unnamed profile"
