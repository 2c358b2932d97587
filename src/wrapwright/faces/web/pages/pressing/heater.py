"""The screen of one heater: what is known of it, with its doubt, and from what; where more is learnt of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.core.base.heat_words import celsius_words, shift_words, step_words
from wrapwright.core.base.units import to_fahrenheit_step
from wrapwright.core.press.fit.without.oven_map import Point, places_of
from wrapwright.core.press.values import REFERENCE_C
from wrapwright.data.press import cautions
from wrapwright.faces.api.asking import Id
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Watch
from wrapwright.outside.documents.screen.evidence.doubt_rule import doubt_rule

if TYPE_CHECKING:
    from wrapwright.jobs.press.evidence.values import Known
    from wrapwright.outside.store.rows.press.evidence import EvidenceRow

router = APIRouter()

OFFSETS = (-30.0, 30.0)
TITLES = {"log": "Log", "readings": "Readings", "recipe": "Known recipe", "map": "Map"}


@dataclass(frozen=True)
class FigureShown:
    """A figure on the screen: its name, its value and doubt in words, where it comes from, its rule as SVG."""

    name: str
    value: str
    doubt: str
    source: str
    rule: str


@dataclass(frozen=True)
class EvidenceShown:
    """A piece of evidence in the list: the record, what it told in a few words, whether it is in use, its sentences."""

    kept: EvidenceRow
    title: str
    told: str
    used: bool
    words: tuple[str, ...]
    plot: bool


@router.get("/press/heaters/{heater:int}", response_class=HTMLResponse)
def heater(request: Request, heater: Id) -> HTMLResponse:
    """Return the screen of one heater."""
    from wrapwright.core.press.heat.known import materials
    from wrapwright.jobs.press.evidence.keeping import show_evidence
    from wrapwright.jobs.press.evidence.values import ShowEvidence
    from wrapwright.jobs.press.evidence.without import map_points
    from wrapwright.jobs.press.kept.recipes import ListRecipes, list_recipes

    bench = request.app.state.bench
    known = show_evidence(ShowEvidence(heater), bench, Watch())
    oven = known.heater.heater.kind == "oven"
    fitting = [one.recipe for one in list_recipes(ListRecipes(), bench, Watch())]
    return page(
        request,
        "press_heater.html",
        step="press",
        heater=known.heater,
        oven=oven,
        figures=_figures(known),
        evidence=[_shown(one, known) for one in known.evidence],
        words=known.words,
        map=_map(map_points(known)),
        materials=materials(),
        recipes=[one for one in fitting if one.heater == known.heater.heater.kind],
        today=bench.clock().astimezone().date(),
        cautions=[one.text for one in cautions() if one.name in ("second-thermometer", "hot-surfaces")],
    )


def _figures(known: Known) -> list[FigureShown]:
    figures, sources = known.heater.heater, known.sources
    offset, half = figures.offset_k, figures.offset_half_k
    film, true_c = figures.film, REFERENCE_C + offset
    step = 20.0 if film.high <= 100.0 else 100.0
    most = max(60.0, step * math.ceil(film.high / step))
    said = (
        shift_words(offset),
        f"± {step_words(half)}: set to {celsius_words(REFERENCE_C)} it is about {celsius_words(round(true_c))}",
    )
    surface = (f"{film.mid:.0f} W/m²K", f"{film.low:.0f} to {film.high:.0f} W/m²K")
    return [
        FigureShown(
            "Offset: true less set, °C and °F",
            *said,
            _source(known, "offset_k"),
            doubt_rule(
                OFFSETS,
                (offset - half, offset, offset + half),
                sure="offset_k" in sources,
                spoken=f"Offset {said[0]}, from {shift_words(offset - half)} to {shift_words(offset + half)}.",
                other=to_fahrenheit_step(1.0),
            ),
        ),
        FigureShown(
            "Film: heat from the air to a surface, W/m²K"
            if figures.kind == "oven"
            else "Film: heat into the wall, W/m²K",
            *surface,
            _source(known, "film"),
            doubt_rule(
                (0.0, most),
                (film.low, film.mid, film.high),
                sure="film" in sources,
                spoken=f"Film coefficient {film.mid:.0f}, from {film.low:.0f} to {film.high:.0f} W/m²K.",
            ),
        ),
    ]


def _source(known: Known, name: str) -> str:
    row = next((one for one in known.evidence if one.id == known.sources.get(name)), None)
    return "estimate" if row is None else f"{TITLES.get(row.kind, row.kind).lower()}, {row.day.isoformat()}"


def _shown(row: EvidenceRow, known: Known) -> EvidenceShown:
    figures = row.found.get("figures", {})
    told = []
    if "offset_k" in figures:
        told.append(f"offset {shift_words(figures['offset_k'])}, ± {step_words(figures['offset_half_k'])}")
    if "film" in figures:
        low, mid, high = figures["film"]
        told.append(f"film {mid:.0f} ({low:.0f} to {high:.0f}) W/m²K")
    return EvidenceShown(
        row,
        TITLES.get(row.kind, row.kind),
        ", ".join(told) or "no figure",
        row.id in set(known.sources.values()),
        tuple(row.found.get("words", ())),
        bool(row.found.get("drawn")),
    )


def _map(points: Sequence[Point]) -> dict[str, Any]:
    """Return the map as a table: set points along, places down, each cell an offset and its doubt in words, or None."""
    settings = sorted({one.set_c for one in points})
    at = {(one.place.casefold(), one.set_c): (shift_words(one.offset_k), step_words(one.half_k)) for one in points}
    titles = [celsius_words(one) for one in settings]
    rows = [(place, [at.get((place.casefold(), one)) for one in settings]) for place in places_of(points)]
    return {"settings": titles, "rows": rows}
