"""A bench of one's own with an oven for four and a mug press on one circuit, and a machine whose clocks are ours."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.recent import Recent
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.press.kept.circuits import KeepCircuit, keep_circuit
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater
from wrapwright.jobs.press.run.happening import tell_event
from wrapwright.jobs.press.run.looking import tell_look
from wrapwright.jobs.press.run.showing import show_heat
from wrapwright.jobs.press.run.starting import start_heat
from wrapwright.jobs.press.run.values import HeatTold, ShowHeat, StartHeat, TellEvent, TellLook
from wrapwright.outside.system.clock.steady import SteadyClock

NINE = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)
TICKED = ("open-empty-dry",)
RECENT = Recent()  # doses that were reckoned once


@dataclass
class Machine:
    """A machine: what its wall clock reads, its counter, the word of its start."""

    wall: datetime = NINE
    counter: float = 1000.0
    word: str = "one start"

    def passes(self, seconds: float) -> None:
        """Let time pass, by both clocks."""
        self.wall += timedelta(seconds=seconds)
        self.counter += seconds

    def clock(self) -> SteadyClock:
        """Return the clock of a program that starts on it now."""
        return SteadyClock(lambda: self.wall, lambda: self.counter, self.word)


@dataclass
class Shop:
    """A bench, its machine, and the requests people make of it."""

    bench: Bench
    machine: Machine

    def start(self, **asked: Any) -> HeatTold:
        request = {"heater": "Oven", "recipe": "steel-oven", "count": 1, "ticked": TICKED, "set_c": 195.0, **asked}
        return start_heat(StartHeat(**request), self.bench, Watch())

    def happens(self, heat: int, kind: Any, **more: Any) -> HeatTold:
        return tell_event(TellEvent(heat, kind, **more), self.bench, Watch())

    def looks(self, heat: int, place: int, result: str, **more: Any) -> HeatTold:
        return tell_look(TellLook(heat, place, result, **more), self.bench, Watch())

    def heat(self, number: int) -> HeatTold:
        return show_heat(ShowHeat(number), self.bench, Watch())

    def begun_anew(self) -> Shop:
        """Return the shop after its program was ended and started again."""
        self.bench.kept().close()
        return Shop(replace(opened(self.bench.folders.data), clock=self.machine.clock()), self.machine)


def opened(data: Path) -> Bench:
    return open_bench(cache=data.parent / "cache", data=data, fonts=data / "fonts", threads=1)


@pytest.fixture(autouse=True)
def _nothing_moved(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave out what small changes of a load would do: it takes longest, and nothing here asks for it.

    Of each test's own: in a folder that is no package a package's fixture stays until the very end of a run.
    """
    monkeypatch.setattr("wrapwright.core.press.load.sensitivity.sensitivity", lambda *_asked: ())


@pytest.fixture(scope="package")
def furnished(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a data folder with the heaters in it, to be copied."""
    data = tmp_path_factory.mktemp("furnished") / "data"
    bench = replace(opened(data), clock=Machine().clock())
    circuit = keep_circuit(KeepCircuit("Bench left", 120.0, 15.0), bench, Watch())
    keep_heater(KeepHeater("Oven", "oven", 1200.0, 4, circuit.id), bench, Watch())
    keep_heater(KeepHeater("Press", "mug-press", 350.0, 1, circuit.id), bench, Watch())
    keep_heater(KeepHeater("Other oven", "oven", 1500.0, 4), bench, Watch())
    bench.kept().close()
    return data


@pytest.fixture
def shop(furnished: Path, tmp_path: Path) -> Iterator[Shop]:
    yield from shop_at(tmp_path / "data", furnished)


@pytest.fixture(scope="package")
def quiet(furnished: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    """Give a shop for requests that are refused: they leave nothing behind."""
    yield from shop_at(tmp_path_factory.mktemp("quiet") / "data", furnished)


def shop_at(data: Path, furnished: Path) -> Iterator[Shop]:
    machine = Machine()
    shutil.copytree(furnished, data)
    made = Shop(replace(opened(data), clock=machine.clock(), recent=RECENT), machine)
    yield made
    made.bench.kept().close()
