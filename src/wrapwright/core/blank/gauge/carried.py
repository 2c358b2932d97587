"""A gauge's reading carried to the set-up that prints the wrap: as it stands with its own, converted with another."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from wrapwright.core.blank.measuring.tape import tape_kind
from wrapwright.core.blank.readings import Blank, Tape

Printed = Literal["same", "turned", "other"]


@dataclass(frozen=True)
class Printer:
    """The set-up that prints a wrap, as far as a gauge's reading depends on it.

    Attributes:
        setup: its name; "" when the job does not say it.
        thickness_mm: of its paper.
        scale: its scale across and along.
        lies: the way the wrap's length lies in the printer; "" when it is not known.
    """

    setup: str
    thickness_mm: float
    scale: tuple[float, float] = (1.0, 1.0)
    lies: Literal["", "across", "along"] = ""


def is_gauge(blank: Blank) -> bool:
    """Return whether flat lengths of this blank were read with a gauge whose set-up is named."""
    flats = any(one.how == "flat" for one in blank.readings)
    return flats and bool(blank.tape.setup) and tape_kind(blank.tape) == "gauge"


def printed_with(tape: Tape, printer: Printer | None) -> Printed:
    """Return how a gauge's set-up and the one that prints the wrap go together.

    None, and a gauge without a named set-up: nothing says that they differ, and the reading is used as it stands.
    "turned" is the same set-up with the wrap across the way the strip lay.
    """
    if printer is None or not tape.setup:
        return "same"
    if tape.setup.strip().casefold() != printer.setup.strip().casefold():
        return "other"
    return "turned" if tape.lies and printer.lies and tape.lies != printer.lies else "same"


def carried(blank: Blank, printer: Printer | None) -> Blank:
    """Return the blank with its gauge's flat lengths in the millimetres of the set-up that prints the wrap.

    The same set-up: a strip of the same number of file millimetres is wanted, so that the length changes only by the
    scale that was measured since. Another: girth + pi t with that paper's t; both scales are then in doubt.
    """
    if printer is None or not is_gauge(blank):
        return blank
    if printed_with(blank.tape, printer) == "other":
        thickness = printer.thickness_mm if blank.tape.thickness_mm is None else blank.tape.thickness_mm
        factor, more = 1.0, math.pi * (printer.thickness_mm - thickness)
    else:
        factor, more = _scale_now(blank.tape, printer) / (blank.tape.scale or 1.0), 0.0
    readings = tuple(
        replace(one, length_mm=one.length_mm * factor + more) if one.how == "flat" else one for one in blank.readings
    )
    return replace(blank, readings=readings)


def _scale_now(tape: Tape, printer: Printer) -> float:
    """Return the printer's scale in the strip's direction; of an unknown one the mean of both."""
    across, along = printer.scale
    return {"across": across, "along": along}.get(tape.lies, (across + along) / 2.0)
