"""How many pixels a picture may have."""

from __future__ import annotations

from wrapwright.core.base.errors import unusable


def measured(width: int, height: int, most: int, name: str) -> None:
    """Raise when a picture has more pixels than allowed."""
    if width * height > most:
        raise unusable(
            f"The {name} has {width} x {height} pixels ({width * height / 1e6:.0f} million); at most "
            f"{most / 1e6:.0f} million are read.",
            remedy="Save it smaller.",
        )
