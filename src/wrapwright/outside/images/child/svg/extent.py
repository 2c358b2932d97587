"""How large an SVG says it is."""

from __future__ import annotations

import re

from wrapwright.core.base.errors import unusable

UNITS = 20_000

_LENGTH = re.compile(
    r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(px|in|cm|mm|q|pt|pc|em|ex|%)?\s*$", re.IGNORECASE
)
# CSS Values and Units 3, section 6: 1 in = 96 px; an em here is the initial font size, 16 px.
_PX = {"": 1.0, "px": 1.0, "in": 96.0, "cm": 96 / 2.54, "mm": 96 / 25.4, "q": 96 / 101.6, "pt": 96 / 72, "pc": 16.0}
_PX |= {"em": 16.0, "ex": 8.0}


def sized_root(attributes: dict[str, str], notes: list[str]) -> dict[str, str]:
    """Return the root's attributes with a definite width and height wherever a viewBox gives the shape.

    A missing or relative side follows from the other and the viewBox's shape (SVG 2, 8.2; CSS Images 3, 4.3).

    Raises:
        WrapwrightError: unusable, when a side is not a positive length or is over UNITS.
    """
    box = _view_box(attributes)
    width, height = (_side(attributes.get(key, ""), key) for key in ("width", "height"))
    if box is None:
        if width is None or height is None:
            notes.append("It has neither viewBox nor a full size; the extent of what it draws is taken.")
    else:
        shape = box[0] / box[1]
        if width is None:
            width = height * shape if height is not None else box[0]
        if height is None:
            height = width / shape
        attributes = {**attributes, "width": f"{width:.9g}", "height": f"{height:.9g}"}
    for side in (width, height):
        if side is not None and side > UNITS:
            raise unusable(
                f"The SVG is {side:.0f} units on a side; at most {UNITS} are read.",
                remedy="Give it a smaller width and height; the viewBox may stay.",
            )
    return attributes


def _side(text: str, key: str) -> float | None:
    """Return a side in px, or None when it is missing, automatic or relative."""
    if text.strip().lower() in ("", "auto"):
        return None
    found = _LENGTH.match(text)
    if not found:
        raise unusable(f"The SVG's {key} cannot be understood: {text[:40]!r}.")
    unit = (found[2] or "").lower()
    if unit == "%":
        return None
    side = float(found[1]) * _PX[unit]
    if not 0 < side < float("inf"):
        raise unusable(f"The SVG's {key} is {text.strip()[:40]}; it must be above 0.")
    return side


def _view_box(attributes: dict[str, str]) -> tuple[float, float] | None:
    """Return width and height of the viewBox, or None when there is none."""
    text = attributes.get("viewBox")
    if text is None:
        return None
    try:
        parts = [float(part) for part in re.split(r"[\s,]+", text.strip())]
    except ValueError:
        parts = []
    if len(parts) != 4 or not all(0 < part < float("inf") for part in parts[2:]):
        raise unusable(f"The SVG's viewBox cannot be understood: {text[:40]!r}.")
    return parts[2], parts[3]
