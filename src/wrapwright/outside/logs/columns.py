"""What the columns of a log are: from their names and cells, or from what a person says of them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.outside.logs.figures import figure, unit_in
from wrapwright.outside.logs.stamps import Kind, usual_kind
from wrapwright.outside.logs.values import Column, LogAsked, Role, Unit

_TIME = re.compile(
    r"\b(time|timestamp|zeit|uhrzeit|elapsed|seconds?|secs?|minutes?|mins?|heure|hora|date ?time)\b|^[st]$"
)
_DATE = re.compile(r"\b(date|datum|day|fecha)\b")
_AIR = re.compile(r"\b(air|oven|ambient|chamber|cavity|luft|ofen|four|aire|horno)\b")
_WALL = re.compile(
    r"\b(wall|wrap|transfer|blank|flask|mug|cup|bottle|tumbler|piece|surface|coating|steel|ceramic|glass|ware|body|"
    r"wand|tasse|becher)\b"
)
_OTHER = re.compile(
    r"(#|%|\b(no|nr|index|row|record|id|sample|rh|humidity|humid|dew|battery|volt|volts|mv|cold|junction|cj|internal|"
    r"room|set|setpoint|status|alarm|event|mark|note|comment)\b)"
)
_UNIT = re.compile(
    r"(?:°|º|deg(?:rees)?\.?\s*|[\[(/]\s*(?:°|º|deg\.?)?\s*)([CFK])\b|\b(celsius|fahrenheit|kelvin)\b|[_ ](c|f)$", re.I
)


def named_columns(names: Sequence[str], data: Sequence[Sequence[str]]) -> tuple[Column, ...]:
    """Return the columns of a log by their names and first cells; what is neither time nor other is a temperature."""
    found: list[Column] = []
    kinds = [usual_kind([row[at] for row in data]) for at in range(len(names))]
    for at, name in enumerate(names):
        cells = [row[at] for row in data]
        unit = _unit(name) or next((one for one in map(unit_in, cells) if one), "")
        found.append(Column(at + 1, name, _role(name, kinds[at], cells), as_unit(unit)))
    return _with_time(found, kinds, data)


def _role(name: str, kind: Kind | None, cells: Sequence[str]) -> Role:
    words = re.sub(r"[_\W]+", " ", name.lower()).strip()
    if kind in ("clock", "stamp"):
        return "time"
    if kind == "date":
        return "date"
    if kind is None:
        return "other"
    if _OTHER.search(words) or "%" in name or "#" in name:
        return "other"
    if _AIR.search(words) or _WALL.search(words):
        return "wall" if _WALL.search(words) else "air"
    if _TIME.search(words) or (_DATE.search(words) and "temp" not in words):
        return "time"
    return "temperature" if any(figure(cell) is not None for cell in cells) else "other"


def _unit(name: str) -> str:
    found = _UNIT.search(name)
    return (found[1] or (found[2] or "")[:1] or found[3] or "").upper() if found else ""


def as_unit(letter: str) -> Unit | Literal[""]:
    """Return a letter as the unit it stands for; nothing for any other."""
    known: dict[str, Unit] = {"C": "C", "F": "F", "K": "K"}
    return known.get(letter, "")


def _with_time(found: list[Column], kinds: Sequence[Kind | None], data: Sequence[Sequence[str]]) -> tuple[Column, ...]:
    """Return the columns with one time at least: without a name for it, the first one that only rises."""
    if any(one.role == "time" for one in found):
        # A stamp or a clock goes before plain numbers that are called a time too.
        first = min(
            (one for one in found if one.role == "time"),
            key=lambda one: (kinds[one.number - 1] == "number", one.number),
        )
        return tuple(
            replace(one, role="other") if one.role == "time" and one.number != first.number else one for one in found
        )
    for one in found:
        values = [figure(row[one.number - 1]) for row in data]
        known = [value for value in values if value is not None]
        rises = all(later >= before for before, later in pairwise(known))
        if one.role in ("temperature", "other") and len(known) == len(values) > 1 and rises and known[-1] > known[0]:
            return tuple(replace(each, role="time") if each.number == one.number else each for each in found)
    return tuple(found)


def chosen(columns: Sequence[Column], asked: LogAsked, name: str) -> tuple[Column, Column | None, Column | None]:
    """Return the columns of time, air and wall: those a person names, else those that are called so.

    Raises:
        WrapwrightError: unusable: no time, a name that no column has, or columns of which nothing says what they are.
    """
    time = _named(columns, asked.time, "time") or next((one for one in columns if one.role == "time"), None)
    if time is None:
        remedy = "Say which column is the time."
        raise unusable("Nothing in the log says which column is the time.", remedy=remedy, where="time")
    air, wall = _named(columns, asked.air, "air"), _named(columns, asked.wall, "wall")
    taken = {one.number for one in (time, air, wall) if one is not None}
    if air is None or wall is None:
        air = air or _only(columns, "air", taken)
        wall = wall or _only(columns, "wall", taken)
    if air is None and wall is None:
        raise _which(columns, taken, name)
    if air is not None and wall is not None and air.number == wall.number:
        message = f"C{wall.called[1:]} cannot be both the air and the wall."
        raise unusable(message, remedy="Name two columns.", where="wall")
    return time, air, wall


def _named(columns: Sequence[Column], said: str, role: str) -> Column | None:
    if not said.strip():
        return None
    wanted = said.strip().casefold()
    for one in columns:
        if one.name.casefold() == wanted or str(one.number) == wanted:
            return one
    known = ", ".join(one.called for one in columns)
    raise unusable(f'There is no column "{said}" in the log.', remedy=f"It has {known}.", where=role)


def _only(columns: Sequence[Column], role: Role, taken: set[int]) -> Column | None:
    """Return the one column of a role that is still free; several are averaged by nobody, so they are asked about."""
    found = [one for one in columns if one.role == role and one.number not in taken]
    if len(found) > 1:
        names = " and ".join(one.called for one in found)
        raise unusable(f"{names} may all be the {role}.", remedy=f"Say which one is the {role}.", where=role)
    return found[0] if found else None


def _which(columns: Sequence[Column], taken: set[int], name: str) -> WrapwrightError:
    found = [one for one in columns if one.role == "temperature" and one.number not in taken]
    if not found:
        message = "The log has one column that can be read; times and temperatures are needed, in two columns or more."
        return unusable(message, remedy="Have the logger write the temperature beside each time.", where=name)
    names = " and ".join(one.called for one in found)
    verb = "is the air or the wall" if len(found) == 1 else "are the air and the wall"
    return unusable(f"Nothing in the log says which of its columns {verb}: {names}.", remedy=_REMEDY, where="columns")


_REMEDY = "Say which column is the air of the oven and which the wall of the blank."


def unit_of(columns: Sequence[Column | None]) -> Unit | None:
    """Return the unit that the columns say, or None; two that differ are refused by the caller."""
    found = {one.unit for one in columns if one is not None and one.unit}
    return found.pop() if len(found) == 1 else None
