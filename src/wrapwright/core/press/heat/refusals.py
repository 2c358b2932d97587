"""Figures that no heater, wall or load can have: one sentence each."""

from __future__ import annotations

import math
from collections.abc import Iterator

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.press.values import Heater, Load, Wall

HOTTEST_C = 260.0  # dearer coatings, sleeves and papers are past saving; common practice, no source
THICKEST_MM = 50.0
LONGEST_S = 6 * 3600.0


def refuse_heat(heater: Heater, load: Load) -> None:
    """Return nothing when heater and load can be.

    Raises:
        WrapwrightError: unusable, every figure that cannot be.
    """
    raise_all([*_of_heater(heater), *_of_wall(load.wall), *_of_load(load)])


def refuse_time(until_s: float, step_s: float) -> None:
    """Return nothing when a time can be looked at.

    Raises:
        WrapwrightError: unusable.
    """
    if not (math.isfinite(until_s) and 0 < until_s <= LONGEST_S):
        raise unusable(
            f"a time in the heat of {_time(until_s)} cannot be reckoned: give more than 0 s and at most "
            f"{LONGEST_S / 3600:g} h."
        )
    if not (math.isfinite(step_s) and step_s > 0):
        raise unusable(f"a step of {step_s:g} s does not lead on: give one over 0 s.")


def _time(seconds: float) -> str:
    return f"{seconds / 3600:g} h" if math.isfinite(seconds) and abs(seconds) > 3600 else f"{seconds:g} s"


def _above(what: str, figure: float, unit: str, remedy: str, where: str, *, least: float = 0.0) -> WrapwrightError:
    limit = f"over {least:g}"
    return unusable(f"{what} of {figure:g} {unit} cannot be: it must be {limit} {unit}; {remedy}.", where=where)


def _wrong(figure: float, *, zero: bool = False) -> bool:
    return not math.isfinite(figure) or figure < 0 or (figure == 0 and not zero)


def _of_heater(heater: Heater) -> Iterator[WrapwrightError]:
    where = f"heater {heater.name}"
    if _wrong(heater.power_w):
        yield _above("a power", heater.power_w, "W", "read it on the rating plate", where)
    if _wrong(heater.own_j_k):
        yield _above("a heat capacity", heater.own_j_k, "J/K", "use an estimate of its kind", where)
    if _wrong(heater.film.low):
        yield _above("a surface coefficient", heater.film.low, "W/m²K", "use an estimate of its kind", where)
    if _wrong(heater.offset_half_k, zero=True) or not math.isfinite(heater.offset_k):
        yield unusable(
            f"a doubt of {heater.offset_half_k:g} K of the temperature cannot be: give 0 or more.", where=where
        )
    if not 0 <= heater.radiant <= 1:
        yield unusable(f"a radiant share of {heater.radiant:g} cannot be: give 0 to 1.", where=where)
    for what, figure, unit in (
        ("a loss to the room", heater.loss_w_k, "W/K"),
        ("a loss through the open door", heater.door_w_k, "W/K"),
        ("a thermostat band", heater.band_k, "K"),
    ):
        if _wrong(figure, zero=True):
            yield unusable(f"{what} of {figure:g} {unit} cannot be: give 0 or more.", where=where)


def _of_wall(wall: Wall) -> Iterator[WrapwrightError]:
    if _wrong(wall.thickness_mm):
        yield _above("a wall", wall.thickness_mm, "mm", "measure it with a calliper at the rim", "wall")
    elif wall.thickness_mm > THICKEST_MM:
        yield unusable(
            f"a wall of {wall.thickness_mm:g} mm is no blank's: give up to {THICKEST_MM:g} mm, of a double wall the "
            "outer shell alone.",
            where="wall",
        )
    if _wrong(wall.area_m2):
        yield _above("a heated face", wall.area_m2, "m2", "girth times height in metres", "wall")
    if _wrong(wall.other_j_k, zero=True):
        yield unusable(f"heat in base and handle of {wall.other_j_k:g} J/K cannot be: give 0 or more.", where="wall")
    if not 0 <= wall.doubt < 1:
        yield unusable(
            f"a doubt of {wall.doubt:g} of the wall cannot be: give a share from 0 to below 1.", where="wall"
        )
    for what, figure in (
        ("density", wall.material.density.low),
        ("specific heat", wall.material.specific_heat.low),
        ("conductivity", wall.material.conductivity.low),
    ):
        if _wrong(figure):
            yield unusable(f"the {what} of {wall.material.title} is {figure:g}: it must be over 0.", where="wall")


def _of_load(load: Load) -> Iterator[WrapwrightError]:
    if load.pieces < 1 or load.pieces != int(load.pieces):
        yield unusable(f"{load.pieces:g} pieces cannot be heated: give a whole number from 1.", where="load")
    if not math.isfinite(load.room_c) or not -30 <= load.room_c <= 60:
        yield unusable(f"a room at {load.room_c:g} degrees C cannot be: give -30 to 60.", where="load")
    if not math.isfinite(load.set_c) or load.set_c <= load.room_c:
        yield unusable(
            f"set to {load.set_c:g} degrees C nothing warms up in a room at {load.room_c:g}: set it higher.",
            where="load",
        )
    elif load.set_c > HOTTEST_C:
        yield unusable(
            f"{load.set_c:g} degrees C is above {HOTTEST_C:g}, where coatings, paper and sleeves are spoilt; if "
            f"{load.set_c:g} degrees F is meant, that is {(load.set_c - 32) / 1.8:.0f} degrees C.",
            where="load",
        )
    for one in load.covers:
        if _wrong(one.thickness_mm) or _wrong(one.conductivity.low):
            yield unusable(f"the cover {one.name} must be over 0 mm thick and lead heat at over 0 W/mK.", where="load")
    if _wrong(load.door_s, zero=True):
        yield unusable(f"a door open for {load.door_s:g} s cannot be: give 0 or more.", where="load")
    for opening in load.openings:
        if _wrong(opening.at_s, zero=True) or _wrong(opening.for_s, zero=True):
            yield unusable(
                f"a door that opens at {opening.at_s:g} s for {opening.for_s:g} s cannot be: give 0 or more.",
                where="load",
            )
