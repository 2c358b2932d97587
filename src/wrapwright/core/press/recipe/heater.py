"""A heater from what was entered, what calibrating found, and estimates for the rest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, cast, get_args

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.base.nearest import nearest
from wrapwright.core.press.values import Heater, HeaterKind, Range
from wrapwright.data.heat.tables import rows

Table = Mapping[str, Any]

KINDS: tuple[str, ...] = get_args(HeaterKind)
_FIGURES = ("power_w", "loss_w_k", "own_j_k", "band_k", "door_w_k", "offset_k", "offset_half_k")
# What may be entered: lowest, highest, unit, and in words. Widest ends that anything of the trade can have.
_ENTERED: dict[str, tuple[float, float, str, str]] = {
    "power_w": (50.0, 40_000.0, "W", "rated power"),
    "loss_w_k": (0.05, 200.0, "W/K", "loss to the room"),
    "own_j_k": (20.0, 500_000.0, "J/K", "heat it takes up itself"),
    "band_k": (0.0, 60.0, "K", "band of the thermostat"),
    "door_w_k": (0.0, 500.0, "W/K", "loss through the open door"),
}
_MOST_PIECES = 200
_LARGEST = 1e12


def read_heater(row: Table) -> tuple[str, dict[str, Any]]:
    """Return the kind of a heater and its figures as the store keeps them.

    Raises:
        WrapwrightError: unusable, with all that is wrong: a kind that is none, a figure of nought or below, unknown
            keys with the nearest known one.
    """
    known = ("kind", "capacity", "film", *_ENTERED)
    problems = [_unknown(key, known) for key in row if key not in known]
    kind = str(row.get("kind", "")).strip().casefold()
    if kind not in KINDS:
        near = nearest(kind, KINDS)
        remedy = f'Is "{near}" meant?' if near else f"It is one of {', '.join(KINDS)}."
        problems.append(unusable(f'"{kind[:40]}" is no kind of heater.', remedy=remedy, where="kind"))
    given: dict[str, Any] = {key: row[key] for key in _ENTERED if row.get(key) is not None}
    problems += [one for key, value in given.items() for one in _figure(key, value)]
    problems += (
        [] if "power_w" in given else [unusable("is missing.", remedy="Read it off its plate.", where="power_w")]
    )
    pieces = row.get("capacity", 1)
    if isinstance(pieces, bool) or not isinstance(pieces, int) or not 1 <= pieces <= _MOST_PIECES:
        message = f"{pieces} pieces is no whole number from 1 to {_MOST_PIECES}."
        problems.append(unusable(message, remedy="Give how many it holds at once.", where="capacity"))
    problems += _film(row.get("film"))
    raise_all(problems)
    more = {"film": [float(one) for one in row["film"]]} if row.get("film") else {}
    return kind, {**{key: float(value) for key, value in given.items()}, "capacity": pieces, **more}


def heater_from(name: str, kind: str, given: Table, found: Table) -> Heater:
    """Return the heater's figures: found before entered, entered before estimated."""
    base = starter_of(kind)
    known = {**given, **found}
    figures: dict[str, Any] = {key: float(known[key]) for key in _FIGURES if known.get(key) is not None}
    if known.get("film") is not None:
        figures["film"] = Range(*(float(one) for one in known["film"]))
    source = f"entered; the rest {base.source}"
    if found:
        source = str(found.get("source") or "calibrated on the workshop's own evidence")
    return replace(base, name=name, capacity=int(given.get("capacity", 1)), source=source, **figures)


def starters() -> tuple[Heater, ...]:
    """Return the shipped heaters to start from, each an estimate."""
    return tuple(_starter(row) for row in rows("heater"))


def starter_of(kind: str) -> Heater:
    """Return the shipped heater of a kind."""
    return next(one for one in starters() if one.kind == kind)


def _starter(row: Table) -> Heater:
    figures = {key: float(row[key]) for key in ("power_w", "loss_w_k", "own_j_k", "band_k", "door_w_k")}
    low, mid, high = (float(one) for one in row["film"])
    kind = cast("HeaterKind", row["kind"])
    film = Range(low, mid, high)
    return Heater(
        kind,
        row["name"],
        **figures,
        film=film,
        capacity=row["capacity"],
        source=row["source"],
        radiant=float(row["radiant"]),
    )


def _unknown(key: str, known: tuple[str, ...]) -> WrapwrightError:
    near = nearest(key, known)
    remedy = f'Is "{near}" meant?' if near else f"Known are {', '.join(known)}."
    return unusable("is no part of a heater.", remedy=remedy, where=key)


def _figure(key: str, value: object) -> list[WrapwrightError]:
    low, high, unit, words = _ENTERED[key]
    if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < _LARGEST:
        return [unusable(f'"{str(value)[:40]}" is no number of use.', where=key)]
    if low <= value <= high:
        return []
    message = f"a {words} of {value:g} {unit} cannot be: {low:g} to {high:g} {unit}."
    return [
        unusable(
            message,
            remedy="Read it off its plate, or leave it out."
            if key != "power_w"
            else "Read the rated power off its plate.",
            where=key,
        )
    ]


def _film(value: object) -> list[WrapwrightError]:
    if not value:
        return []
    whole = isinstance(value, list | tuple) and len(value) == 3
    numbers = whole and all(isinstance(one, int | float) and not isinstance(one, bool) for one in cast("Any", value))
    if numbers:
        low, mid, high = cast("Any", value)
        if 1 <= low <= mid <= high <= 5000:
            return []
    message = "the surface coefficient is three figures from low over used to high, 1 to 5000 W/m²K."
    return [unusable(message, remedy="An oven's lies between 20 and 48.", where="film")]
