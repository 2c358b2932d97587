"""Colours as they are written in a job: hexadecimal sRGB, read into shares of one and written back."""

from __future__ import annotations

import re

from wrapwright.core.base.errors import unusable

Rgb = tuple[float, float, float]

_HEX = re.compile(r"#(?:[0-9a-fA-F]{3}|[0-9a-fA-F]{6})")


def rgb_of(value: object, *, where: str = "") -> Rgb:
    """Return encoded sRGB, each channel 0..1, of `#rrggbb` or `#rgb` (each digit doubled).

    Raises:
        WrapwrightError: unusable; not such a colour.
    """
    text = value.strip() if isinstance(value, str) else ""
    if not _HEX.fullmatch(text):
        shown = " ".join(str(value).split())[:40]
        remedy = 'Write it as "#rrggbb", for example "#0e3a5a".'
        raise unusable(f'"{shown}" is not a colour.', remedy=remedy, where=where)
    digits = text[1:] if len(text) == 7 else "".join(digit * 2 for digit in text[1:])
    red, green, blue = (int(digits[at : at + 2], 16) / 255.0 for at in (0, 2, 4))
    return red, green, blue


def hex_of(rgb: Rgb) -> str:
    """Return `#rrggbb` of encoded sRGB 0..1, rounded to 8 bits, values outside clipped."""
    return "#" + "".join(f"{round(min(1.0, max(0.0, channel)) * 255.0):02x}" for channel in rgb)
