"""Heats told by their events, for the tests of this folder."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from wrapwright.core.press.heat.known import material_named, starter_heater
from wrapwright.core.press.run.values import Event, EventKind, HeatPlan, Stamp
from wrapwright.core.press.values import Heater, Load, Wall

BEGAN = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)


def at(seconds: float) -> datetime:
    return BEGAN + timedelta(seconds=seconds)


def told(*events: tuple[float, EventKind] | tuple[float, EventKind, float]) -> list[Event]:
    """Return events from (seconds since the start, kind, seconds or degrees)."""
    made = []
    for number, (when, kind, *more) in enumerate(events, 1):
        figure = float(more[0]) if more else None
        seconds, celsius = (None, figure) if kind == "measured" else (figure, None)
        made.append(Event(number, kind, Stamp(at(when), "boot", when), f"key {number}", seconds, celsius))
    return made


def plan(**more: object) -> HeatPlan:
    return HeatPlan(**{"heater_kind": "oven", "set_c": 195.0, "dwell_s": 300.0, "cool_s": 120.0, **more})  # type: ignore[arg-type]


def oven() -> Heater:
    return starter_heater("oven")


def load(pieces: int = 1) -> Load:
    return Load(Wall(material_named("steel"), 0.5, 0.043), pieces, set_c=195.0)
