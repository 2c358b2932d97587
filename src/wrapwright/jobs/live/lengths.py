"""A length as a person writes it, understood."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from wrapwright.core.base.units import length_mm


@dataclass(frozen=True)
class ReadLength:
    """A length to be read; without a unit of its own it is in `unit`."""

    text: str
    unit: Literal["mm", "in"] = "mm"


@dataclass(frozen=True)
class LengthRead:
    """A length in millimetres, and as a document holds it: "234.95 mm", up to 6 decimals."""

    mm: float
    text: str


def read_length(request: ReadLength) -> LengthRead:
    """Return the length that was written.

    Raises:
        WrapwrightError: unusable; not a length, or one that can be read in two ways.
    """
    mm = round(length_mm(request.text, unit=request.unit), 6) + 0.0
    figure = f"{mm:.6f}".rstrip("0").rstrip(".")
    return LengthRead(mm, f"{figure} mm")
