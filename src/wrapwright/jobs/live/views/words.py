"""How places are said: those on a blank to someone who cannot see them, those in a document to someone at a screen."""

from __future__ import annotations

import re

from wrapwright.core.base.places import PLACES, whole_turn

_ELEMENT = re.compile(r"element \d+ \((.+)\)")
# What tables and keys of a document are called on the screen, where it is not the same word.
_CALLED = {
    "sheet": "set-up",
    "colour": "set-up, colours",
    "press": "recipe",
    "at": "place",
    "up": "up from lower edge",
    "across": "right of the middle",
    "file": "picture",
    "safe": "safe margin",
    "size": "height of a capital",
    "text": "words",
    "leading": "line distance",
    "spacing": "between letters",
    "lay": "on a taper",
}
NEAR_DEG = 0.5  # a side is said by its name up to here


def side_words(at_deg: float) -> str:
    """Return "front", "right", "back" or "left" next to one of them, else "112 degrees"."""
    for word, angle in PLACES.items():
        if abs((at_deg - angle + 180.0) % 360.0 - 180.0) < NEAR_DEG:
            return word
    return f"{round(whole_turn(at_deg))} degrees"


def spoken_place(name: str, at_deg: float, up_mm: float, *, across_mm: float | None = None) -> str:
    """Return where a copy is: "Crest, front, 46 millimetres up"; on a flat blank across instead of the side."""
    up = round(up_mm)
    below = "below the band" if across_mm is None else "below the lower edge"
    way = f"{_millimetres(up)} {'up' if up >= 0 else below}"
    side = side_words(at_deg) if across_mm is None else _across(round(across_mm))
    return f"{_named(name)}, {side}, {way}"


def _across(across: int) -> str:
    return (
        "in the middle" if across == 0 else f"{_millimetres(across)} {'right' if across > 0 else 'left'} of the middle"
    )


def _millimetres(length: int) -> str:
    return f"{abs(length)} {'millimetre' if abs(length) == 1 else 'millimetres'}"


def spoken_all(name: str) -> str:
    """Return what covers a flat blank: "Waves, all over"."""
    return f"{_named(name)}, all over"


def spoken_round(name: str) -> str:
    """Return what goes all round: "Waves, all round"."""
    return f"{_named(name)}, all round"


def _named(name: str) -> str:
    return name[:1].upper() + name[1:]


def place_in_design(where: str) -> str:
    """Return where in a document a problem is, in the screen's words: "Crest, width" for "element 2 (crest): width"."""
    head, *keys = where.split(": ")
    named = _ELEMENT.fullmatch(head)
    words = [named[1] if named else _CALLED.get(head, head), *(_CALLED.get(key, key) for key in keys)]
    return _named(", ".join(words))
