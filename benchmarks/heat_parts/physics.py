"""The physics of heat: against published figures, an independent integrator, its own balance, and the clock."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from benchmarks.heat_parts._published import checks

from wrapwright.core.press.dose.band import dose_band, dose_bands
from wrapwright.core.press.dose.dose import equivalent_minutes
from wrapwright.core.press.heat.known import cover_named, material_named, starter_heater, starter_heaters
from wrapwright.core.press.heat.slab import by_differences, by_series
from wrapwright.core.press.heat.warming import Cases, warm_up
from wrapwright.core.press.values import Load, Opening, Range, Wall

OVEN = starter_heater("oven")
PAPER = (cover_named("paper"),)
STEEL = Load(Wall(material_named("steel"), 0.5, 0.045), 4, PAPER, 200.0)
CERAMIC = Load(Wall(material_named("ceramic"), 4.0, 0.024), 4, PAPER, 200.0)
WIDE = 60


def rows(quick: bool) -> list[str]:  # noqa: FBT001 (as the bench calls it)
    """Return the rows: what, ours, what it is held to."""
    return [
        *_published(),
        _series_and_layers(),
        _balance(),
        _integrator(),
        _coverage(400 if quick else 4000),
        *_clock(3 if quick else 9),
    ]


def _row(what: str, figure: str, limit: str, *, holds: bool) -> str:
    return f"{what:<{WIDE}} {figure:>12}   {limit}{'' if holds else '   OVER'}"


def _published() -> Iterator[str]:
    held = 0
    every = checks()
    for one in every:
        ours = one.ours()
        holds = abs(ours - one.figure) <= one.tolerance
        held += holds
        yield _row(one.what, f"{ours:.6g}", f"{one.figure:g} +- {one.tolerance:g}   {one.source}", holds=holds)
    yield _row("published figures held to their tolerance", f"{held}", f"of {len(every)}", holds=held == len(every))


def _series_and_layers() -> str:
    fourier = np.linspace(0.05, 4.0, 80)
    biots = [0.1, 0.148, 0.3, 0.5, 1.0, 2.0]
    layers = by_differences(biots, fourier)
    worst = 0.0
    for number, biot in enumerate(biots):
        for place, column in ((1.0, 0), (0.0, -1)):
            worst = max(worst, float(np.abs(layers[number, :, column] - by_series(biot, fourier, place)).max()))
    return _row("series against layers, Bi 0.1 to 2, Fo from 0.05", f"{worst:.1e}", "<= 1e-3", holds=worst <= 1e-3)


def _balance() -> str:
    worst = 0.0
    for heater in starter_heaters():
        for load in (STEEL, CERAMIC):
            for switching in (False, True):
                load = replace(load, preheated=False, openings=(Opening(120, 20),))
                back = Cases(back=np.array([0.0, 8.0]))
                warming = warm_up(heater, load, until_s=900, cases=back, switching=switching)
                gap = np.abs(warming.heater_j - warming.lost_j - warming.stored_j) / warming.heater_j
                worst = max(worst, float(gap.max()))
    return _row("energy balance, three heaters, thin and thick walls", f"{worst:.1e}", "<= 1e-3", holds=worst <= 1e-3)


def _integrator() -> str:
    """Compare with scipy's integrator: four pieces of steel under paper, a door opened, a film that stays."""
    from scipy.integrate import solve_ivp

    oven = replace(OVEN, radiant=0.0)
    load = replace(STEEL, openings=(Opening(100, 20),))
    passes = 0.045 / (1 / 30 + 0.13e-3 / 0.10)
    held = 8000 * 500 * 0.0005 * 0.045

    def slope(at: float, state: np.ndarray) -> list[float]:
        air, wall = state
        loss = (3.5 + (20 if at < 10 or 100 <= at < 120 else 0)) * (air - 25)
        on = min(1.0, max(0.0, (205 - air) / 10))
        return [(1500 * on - loss - 4 * passes * (air - wall)) / 3500, passes * (air - wall) / held]

    warming = warm_up(oven, load, until_s=420)
    other = solve_ivp(slope, (0, 420), [200, 25], t_eval=warming.times_s, rtol=1e-8, atol=1e-8, max_step=1.0).y
    worst = max(np.abs(warming.air_c[0] - other[0]).max(), np.abs(warming.coating_c[0] - other[1]).max())
    return _row("oven and load against scipy's integrator, K", f"{worst:.3f}", "<= 0.3", holds=bool(worst <= 0.3))


def _coverage(count: int) -> str:
    draw = np.random.default_rng(7)

    def either_side(spread: Range) -> np.ndarray:
        place = draw.uniform(-1, 1, count)
        return spread.mid + place * np.where(place < 0, spread.mid - spread.low, spread.high - spread.mid)

    cases = Cases(
        film=either_side(OVEN.film),
        offset_k=draw.uniform(-15, 15, count),
        thickness=draw.uniform(0.9, 1.1, count),
        cover=draw.uniform(-1, 1, count),
    )
    energy = either_side(Range(80, 120, 170))
    warming = warm_up(OVEN, STEEL, until_s=300, step_s=2.0, cases=cases)
    doses = equivalent_minutes(warming.times_s, warming.coating_c, energy)
    band = dose_band(OVEN, STEEL, 300).dose
    inside = float(np.mean((doses >= band.low) & (doses <= band.high)))
    what = f"of {count} cases drawn at random lie in the band"
    return _row(what, f"{inside:.3f}", "0.87 to 0.93", holds=0.87 <= inside <= 0.93)


def _clock(tries: int) -> Iterator[str]:
    for what, load, dwell in (("steel, 5 min", STEEL, 300), ("ceramic, 14 min", CERAMIC, 840)):
        taken = _least(lambda load=load, dwell=dwell: dose_band(OVEN, load, dwell), tries)  # type: ignore[misc]
        holds = taken <= 50
        yield _row(f"curve with band, 4 pieces, {what}, ms of processor", f"{taken:.1f}", "<= 50", holds=holds)
    dwells = [60.0 * minute for minute in range(1, 21)]
    taken = _least(lambda: dose_bands(OVEN, CERAMIC, dwells), tries)
    yield _row("twenty dwells up to 20 min, ms of processor", f"{taken:.1f}", "no limit", holds=True)


def _least(call: object, tries: int) -> float:
    taken = []
    for _ in range(tries):
        began = time.process_time()
        call()  # type: ignore[operator]
        taken.append((time.process_time() - began) * 1000)
    return min(taken)
