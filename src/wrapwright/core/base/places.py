"""Angles round a blank as people name them: front 0, right 90, back 180, left 270 degrees."""

from __future__ import annotations

import re

from wrapwright.core.base.errors import unusable

PLACES: dict[str, float] = {"front": 0.0, "right": 90.0, "back": 180.0, "left": 270.0}

_ANGLE = re.compile(r"(?P<value>[-+]?[0-9]+(?:[.,][0-9]+)?)\s*(?:°|º|deg\.?|degrees?)?")


def angle_deg(value: str | float, *, where: str = "") -> float:
    """Return an angle round the blank in [0, 360) from a word (`back`), `112 deg`, `112°` or a number of degrees.

    Raises:
        WrapwrightError: unusable; not a place, or more than one whole turn either way.
    """
    number: float | None = None
    if isinstance(value, str):
        text = " ".join(value.replace("\u2212", "-").lower().split())
        if text in PLACES:
            return PLACES[text]
        found = _ANGLE.fullmatch(text)
        number = float(found["value"].replace(",", ".")) if found else None
    elif not isinstance(value, bool) and abs(value) <= 1e12:
        number = float(value)
    if number is None:
        shown = " ".join(str(value).split())[:40]
        raise unusable(
            f'"{shown}" is not a place on the blank.',
            remedy='Write front, right, back, left or an angle such as "112 deg".',
            where=where,
        )
    if abs(number) > 360.0:
        raise unusable(
            f"{number:g} degrees is more than one whole turn (360).",
            remedy="Write an angle from 0 to 360.",
            where=where,
        )
    return whole_turn(number)


def whole_turn(degrees: float) -> float:
    """Return the same angle in [0, 360)."""
    turned = degrees % 360.0
    return 0.0 if turned >= 360.0 else turned  # the remainder of a tiny negative number rounds to 360


def place_words(degrees: float) -> str:
    """Return how an angle round the blank is said: `back`, else `112 deg`."""
    for word, angle in PLACES.items():
        if abs((degrees - angle + 180.0) % 360.0 - 180.0) < 1e-9:
            return word
    return f"{whole_turn(degrees):g} deg"


def at_place_words(degrees: float) -> str:
    """Return where something is, in words: `at the back`, else `at 112 deg`."""
    said = place_words(degrees)
    return f"at the {said}" if said in PLACES else f"at {said}"
