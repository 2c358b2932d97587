"""A bench of one's own with one set-up, and a clock that ticks a second at each look."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from shutil import copytree

import pytest

from wrapwright.core.press.trial.values import Scores
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.setups import AddSetup, add_setup
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.press.trial.keeping import score_trial
from wrapwright.jobs.press.trial.planning import plan_trial
from wrapwright.jobs.press.trial.values import PlanTrial, ScoreTrial, TrialTold

QUIET = Watch()
START = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a data folder whose store holds the set-up; every test works on a copy of it."""
    data = tmp_path_factory.mktemp("trials") / "data"
    made = open_bench(cache=data / "cache", data=data, fonts=data / "fonts", threads=1)
    add_setup(AddSetup("Desk", {"paper": "A4", "thickness": "0.12 mm"}, {}), made, QUIET)
    made.kept().close()
    return data


@pytest.fixture
def bench(tmp_path: Path, made_once: Path) -> Iterator[Bench]:
    data, ticks = tmp_path / "data", count()
    copytree(made_once, data)
    opened = open_bench(cache=tmp_path / "cache", data=data, fonts=data / "fonts", threads=1)
    made = replace(opened, clock=lambda: START + timedelta(seconds=next(ticks)))
    yield made
    made.kept().close()


@pytest.fixture
def trial(bench: Bench) -> TrialTold:
    """Give a trial of five coupons at 195 degrees C, no scores yet."""
    asked = PlanTrial("Steel", "steel-oven", celsius=(195.0,), seconds=(120.0, 180.0, 270.0, 450.0, 900.0))
    return plan_trial(asked, bench, QUIET)


@pytest.fixture
def scored(bench: Bench, trial: TrialTold) -> TrialTold:
    """Give the same trial with scores that tell both bounds."""
    rows = {1: Scores(1, 5, 5), 2: Scores(3, 5, 5), 3: Scores(5, 5, 5), 4: Scores(5, 4, 5), 5: Scores(5, 2, 3)}
    return score_trial(ScoreTrial(rows, id=trial.id), bench, QUIET)
