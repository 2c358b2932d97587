"""Calibrating on logs: how often intervals cover, how near another fit is, how long it takes."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
from scipy.optimize import curve_fit
from scipy.stats import binom

from wrapwright.core.press.fit.curves import approach, held, wall_in_approach, wall_in_held, wall_in_measured
from wrapwright.core.press.fit.film import film_of
from wrapwright.core.press.fit.fitting import fit_log
from wrapwright.core.press.fit.values import Asked, Series
from wrapwright.core.press.heat.known import cover_named, material_named, starter_heater
from wrapwright.core.press.heat.warming import warm_up
from wrapwright.core.press.values import Load, Wall
from wrapwright.outside.logs.reading import read_log
from wrapwright.outside.logs.values import LogAsked

STEEL = Wall(material_named("steel"), 0.5, 0.043)
ASKED = Asked(set_c=200.0, wall=STEEL)
OVEN = replace(starter_heater("oven"), radiant=0.0)
ROOM, NOISE = 25.0, 0.5
LEAST, HELD = 0.93, 0.95
FASTEST_S = 1.0
WIDE = 60


def rows(quick: bool) -> list[str]:  # noqa: FBT001 (as the bench calls it)
    """Return the rows: what, ours, what it is held to."""
    logs = 60 if quick else 500
    return [
        *_cover("air and wall, oven first order", logs, _first_order),
        *_cover("air and wall, oven cycling +-5 K", logs, _cycling),
        *_cover("wall alone, oven level", logs, _wall_alone),
        *_cover("air and wall, full power from cold", logs, _full_power, replace(ASKED, heater=OVEN)),
        _another_fit(),
        *_our_own_warm_up(),
        *_clock(9 if not quick else 3),
        _five_million(50_000 if quick else 5_000_000),
    ]


def _row(what: str, figure: str, limit: str, *, holds: bool = True) -> str:
    return f"{what:<{WIDE}} {figure:>14}   {limit}{'' if holds else '   OVER'}"


def _series(times: Any, air: Any, wall: Any) -> Series:
    return Series(tuple(times.tolist()), tuple(np.asarray(air).tolist()), tuple(np.asarray(wall).tolist()))


def _first_order(random: Any, number: int) -> tuple[Series, dict[str, float]]:
    tau, oven, offset = random.uniform(60.0, 320.0), random.uniform(60.0, 400.0), random.uniform(-15.0, 15.0)
    start = ROOM if number % 2 else random.uniform(110.0, 160.0)
    times = np.arange(0.0, round(8.0 * max(tau, oven)))
    air = approach(times, 200.0 + offset, start, oven)
    wall = wall_in_approach(times, (200.0 + offset, start, oven), ROOM, tau)
    noise = random.normal(0.0, NOISE, (2, len(times)))
    true = {"wall-time-constant": tau, "film": film_of(tau, STEEL), "oven-time-constant": oven, "offset": offset}
    return _series(times, air + noise[0], wall + noise[1]), true


def _cycling(random: Any, number: int) -> tuple[Series, dict[str, float]]:
    tau, offset = random.uniform(60.0, 320.0), random.uniform(-15.0, 15.0)
    times = np.arange(0.0, round(8.0 * tau))
    air = 200.0 + offset + 5.0 * np.sin(2.0 * np.pi * times / random.uniform(60.0, 200.0) + number)
    wall = wall_in_measured(times, air, ROOM, tau)
    noise = random.normal(0.0, NOISE, (2, len(times)))
    true = {"wall-time-constant": tau, "film": film_of(tau, STEEL), "offset": offset}
    return _series(times, air + noise[0], wall + noise[1]), true


def _wall_alone(random: Any, number: int) -> tuple[Series, dict[str, float]]:
    del number
    tau, offset = random.uniform(60.0, 320.0), random.uniform(-15.0, 15.0)
    times = np.arange(0.0, round(random.uniform(4.0, 8.0) * tau))
    wall = approach(times, 200.0 + offset, ROOM, tau) + random.normal(0.0, NOISE, len(times))
    return _series(times, (), wall), {"wall-time-constant": tau, "film": film_of(tau, STEEL), "offset": offset}


def _full_power(random: Any, number: int) -> tuple[Series, dict[str, float]]:
    room, tau, offset = random.uniform(17.0, 28.0), random.uniform(60.0, 320.0), random.uniform(-15.0, 15.0)
    oven = random.uniform(400.0, 1200.0)
    times = np.arange(0.0, 1500.0 + round(5.0 * tau))
    rise = (room + OVEN.power_w / OVEN.loss_w_k, room, oven)
    air, wall = held(times, rise, 200.0 + offset), wall_in_held(times, rise, 200.0 + offset, room, tau)
    noise = random.normal(0.0, NOISE, (2, len(times)))
    true = {"wall-time-constant": tau, "film": film_of(tau, STEEL), "oven-time-constant": oven, "offset": offset}
    del number
    return _series(times, air + noise[0], wall + noise[1]), true


def _cover(what: str, logs: int, make: Any, asked: Asked = ASKED) -> Iterator[str]:
    """Yield how often each 95 % interval covers; of `logs` logs as many as the binomial leaves for 95 %."""
    random = np.random.default_rng(20260502)
    hits: dict[str, int] = {}
    told: dict[str, int] = {}
    widths: dict[str, list[float]] = {}
    for number in range(logs):
        log, true = make(random, number)
        found = fit_log(log, asked)
        for name, value in true.items():
            one = found.told(name)  # type: ignore[arg-type]
            if one is not None:
                told[name] = told.get(name, 0) + 1
                hits[name] = hits.get(name, 0) + (one.low <= value <= one.high)
                widths.setdefault(name, []).append(one.half)
    chance = binom.cdf(int(np.ceil(LEAST * logs)) - 1, logs, HELD)
    for name, count in hits.items():
        share = count / told[name]
        half = float(np.median(widths[name]))
        limit = f">= 93 % (true 95 %: below with chance {chance:.3f}); told in {told[name]} of {logs}, half {half:.3g}"
        floor = LEAST if logs >= 500 else binom.ppf(0.005, logs, HELD) / logs
        yield _row(f"{what}: {name} covers", f"{share * 100:.1f} %", limit, holds=share >= floor and told[name] == logs)


def _another_fit() -> str:
    random = np.random.default_rng(1)
    times = np.arange(0.0, 900.0)
    wall = approach(times, 206.0, ROOM, 120.0) + random.normal(0.0, NOISE, 900)
    theirs, spread = curve_fit(lambda t, a, b, c: a + (b - a) * np.exp(-t / c), times, wall, [200.0, 30.0, 100.0])
    ours = fit_log(_series(times, (), wall), ASKED).told("wall-time-constant")
    off = abs(ours.value - theirs[2]) / np.sqrt(spread[2, 2]) if ours else np.inf
    what = "time constant against scipy's curve_fit, in its deviations"
    return _row(what, f"{off:.2g}", "<= 0.01", holds=off <= 0.01)


def _our_own_warm_up() -> Iterator[str]:
    paper = (cover_named("paper"),)
    oven = replace(starter_heater("oven"), offset_k=6.0)
    for switching in (False, True):
        for preheated in (True, False):
            ran = warm_up(oven, Load(STEEL, 1, paper, 200.0, preheated=preheated), until_s=1500.0, switching=switching)
            noise = np.random.default_rng(2).normal(0.0, NOISE, (2, len(ran.times_s)))
            log = _series(ran.times_s, ran.air_c[0] + noise[0], ran.wall_c[0] + noise[1])
            film = fit_log(log, replace(ASKED, covers=paper, heater=oven)).told("film")
            off = abs(film.value / oven.film.mid - 1.0) if film else np.inf
            state = f"{'switching' if switching else 'on average'}, {'hot' if preheated else 'cold'}"
            yield _row(f"film of a simulated heat, {state}", f"{off * 100:.2f} %", "<= 1 %", holds=off <= 0.01)


def _clock(turns: int) -> Iterator[str]:
    for what, make in (("first order", _first_order), ("cycling", _cycling), ("wall alone", _wall_alone)):
        log, _ = make(np.random.default_rng(3), 1)
        took = []
        for _ in range(turns):
            since = time.process_time()
            fit_log(log, ASKED)
            took.append(time.process_time() - since)
        median = float(np.median(took))
        yield _row(
            f"calibration, {what}, {len(log.times_s)} rows",
            f"{median * 1000:.0f} ms",
            "<= 1 s",
            holds=median <= FASTEST_S,
        )


def _five_million(count: int) -> str:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "log.csv"
        with file.open("w", encoding="utf-8", newline="\n") as out:
            out.write("time_s,air_c,wall_c\n")
            for at in range(count):
                out.write(f"{at},{200 + at % 7 / 10:.1f},{25 + 170 * at / count:.1f}\n")
        since = time.process_time()
        found = read_log(file, LogAsked())
        took = time.process_time() - since
    said = f"thinned to {len(found.times_s):,} rows, and says so" if found.every > 1 else "read whole"
    return _row(f"a log of {count:,} rows is read", f"{took:.2f} s", said, holds=took < 10.0)
