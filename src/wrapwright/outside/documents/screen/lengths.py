"""Lengths as a screen says them: millimetres, or inches with decimals."""

from __future__ import annotations

from typing import Literal

from wrapwright.core.base.units import INCH_MM, mm_words

Unit = Literal["mm", "in"]


def said(mm: float, unit: Unit, *, digits: int = 1) -> str:
    """Return a length with its unit; `digits` are those of millimetres, inches get two more and at most three."""
    if unit == "mm":
        return mm_words(mm, digits=digits)
    text = f"{mm / INCH_MM:.{min(3, digits + 2)}f}".rstrip("0").rstrip(".")
    return f"{'0' if text in ('-0', '') else text} in"


def both(mm: float, unit: Unit, *, digits: int = 1) -> str:
    """Return a length in the unit and, in brackets, in the other."""
    other: Unit = "in" if unit == "mm" else "mm"
    return f"{said(mm, unit, digits=digits)} ({said(mm, other, digits=digits)})"
