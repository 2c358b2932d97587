"""How places on a blank are said to someone who cannot see them."""

from __future__ import annotations

from wrapwright.core.base.places import PLACES, whole_turn

NEAR_DEG = 0.5  # a side is said by its name up to here


def side_words(at_deg: float) -> str:
    """Return "front", "right", "back" or "left" next to one of them, else "112 degrees"."""
    for word, angle in PLACES.items():
        if abs((at_deg - angle + 180.0) % 360.0 - 180.0) < NEAR_DEG:
            return word
    return f"{round(whole_turn(at_deg))} degrees"


def spoken_place(name: str, at_deg: float, up_mm: float) -> str:
    """Return where a copy is: "Crest, front, 46 millimetres up"."""
    up = round(up_mm)
    unit = "millimetre" if abs(up) == 1 else "millimetres"
    way = f"{abs(up)} {unit} {'up' if up >= 0 else 'below the band'}"
    return f"{_named(name)}, {side_words(at_deg)}, {way}"


def spoken_round(name: str) -> str:
    """Return what goes all round: "Waves, all round"."""
    return f"{_named(name)}, all round"


def _named(name: str) -> str:
    return name[:1].upper() + name[1:]
