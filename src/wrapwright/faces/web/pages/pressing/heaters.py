"""Heaters and circuits: what is entered and what is found of each, what hangs on which breaker; and their forms."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.heat_words import step_words
from wrapwright.core.base.units import to_fahrenheit_step
from wrapwright.core.press.recipe.telling import HEATER_WORDS
from wrapwright.data.press import cautions
from wrapwright.faces.api.asking import Whole
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.circuits import CircuitKept
from wrapwright.jobs.press.kept.heaters import HeaterKept

router = APIRouter()

FURTHEST_K = 30.0  # either end of the ruler of offsets
OFFSETS = (-30, -15, 0, 15, 30)
CAUTIONS = ("circuit", "second-thermometer", "no-food", "press")


@dataclass(frozen=True)
class HeaterShown:
    """A heater as a row of the list.

    Attributes:
        kept: the record.
        kind: in words.
        offset: how its true temperature stands to what it is set to, in words.
        at, low, width: that figure and its band on the ruler of offsets, in percent.
        rows: everything that is known of it.
    """

    kept: HeaterKept
    kind: str
    offset: str
    at: float
    low: float
    width: float
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class CircuitShown:
    """A circuit with its load on a ruler that is as long as the larger of limit and load.

    Attributes:
        kept: the record.
        limit: where its limit lies, in percent.
        parts: what hangs on it: name, watts, where it begins and how wide it is in percent, whether it heats now.
    """

    kept: CircuitKept
    limit: float
    parts: tuple[tuple[str, float, float, float, bool], ...]


@router.get("/press/heaters")
def heaters(request: Request, change: Whole = 0, new: Whole = 0, circuit: Whole = 0, wire: Whole = 0) -> HTMLResponse:
    """Return the heaters and circuits, with the form for a new heater or circuit, or the one to change."""
    from wrapwright.jobs.press.kept.circuits import ListCircuits, list_circuits
    from wrapwright.jobs.press.kept.heaters import ListHeaters, ShowHeater, list_heaters, show_heater

    bench: Bench = request.app.state.bench
    changing = show_heater(ShowHeater(id=change), bench, Watch()) if change else None
    shown = [heater_shown(one) for one in list_heaters(ListHeaters(retired=True), bench, Watch())]
    offered = [one for one in shown if not one.kept.retired]
    circuits = list_circuits(ListCircuits(), bench, Watch())
    return page(
        request,
        "heaters.html",
        step="press",
        heaters=offered,
        retired=[one for one in shown if one.kept.retired],
        circuits=[circuit_shown(one, [it.kept for it in offered]) for one in circuits],
        loose=[one.kept.name for one in offered if not one.kept.circuit],
        offsets=[(_percent(one), _signed(one), _signed(to_fahrenheit_step(one))) for one in OFFSETS],
        kinds=HEATER_WORDS,
        changing=changing,
        open=bool(changing or new or (not offered and not wire and not circuit)),
        wiring=next((one for one in circuits if one.id == circuit), None),
        wire=bool(wire or circuit),
        cautions={one.name: one.text for one in cautions() if one.name in CAUTIONS},
    )


def heater_shown(kept: HeaterKept) -> HeaterShown:
    """Return a heater as its row shows it."""
    from wrapwright.core.press.recipe.telling import heater_words

    one = kept.heater
    low, high = (_percent(one.offset_k + side * one.offset_half_k) for side in (-1, 1))
    reads = "hotter" if one.offset_k > 0 else "cooler"
    offset = f"{step_words(abs(one.offset_k))} {reads} than set" if one.offset_k else "as it is set"
    words = f"{offset}, ± {step_words(one.offset_half_k)}"
    return HeaterShown(
        kept, HEATER_WORDS[one.kind], words, _percent(one.offset_k), low, round(high - low, 2), heater_words(one)
    )


def circuit_shown(kept: CircuitKept, heaters: list[HeaterKept]) -> CircuitShown:
    """Return a circuit with its load, heater by heater."""
    whole = max(kept.limit_w, kept.rated_w)
    parts, begun = [], 0.0
    for one in heaters:
        if one.circuit != kept.id:
            continue
        width = 100 * one.rated_w / whole
        parts.append((one.name, one.rated_w, round(begun, 2), round(width, 2), bool(one.busy)))
        begun += width
    return CircuitShown(kept, round(100 * kept.limit_w / whole, 2), tuple(parts))


def _signed(figure: float) -> str:
    return f"{figure:+.0f}".replace("-", "−") if figure else "0"


def _percent(kelvin: float) -> float:
    """Return where an offset lies on its ruler, in percent, never off it."""
    return round(50 + 50 * min(1.0, max(-1.0, kelvin / FURTHEST_K)), 2)
