"""A log as a job: what it tells in words, its recipe's wall and covers, its plots."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.evidence.logs import fit_evidence, kept_plot, look_at, plot_of, write_plot
from wrapwright.jobs.press.evidence.values import About, FitLog, KeepReadings, Told
from wrapwright.jobs.press.evidence.without import keep_readings

QUIET = Watch()


def told(bench: Bench, log: Path, **more: object) -> Told:
    return fit_evidence(FitLog(log, set_c=200.0, **more), bench, QUIET)  # type: ignore[arg-type]


def test_it_is_told_in_words(bench: Bench, log: Path) -> None:
    found = told(bench, log)
    assert found.words[0].startswith("Time constant of the wall: 79.9 s, 95 % interval 79.8 to 80.1 s")
    assert any(one.startswith("Not told: film coefficient; the log does not say") for one in found.words)
    assert look_at(FitLog(log), bench, QUIET).questions == ()


def test_the_recipes_wall_and_covers_are_taken(bench: Bench, log: Path) -> None:
    bare = told(bench, log, material="steel", wall_mm=0.5)
    under = told(bench, log, recipe="steel-oven", wall_mm=0.5)
    paper = told(bench, log, material="steel", wall_mm=0.5, covers=("paper",))
    films = [one.fitted.told("film").value for one in (bare, under, paper)]  # type: ignore[union-attr]
    assert films[0] < films[2] <= films[1]


def test_the_plot_is_drawn_now_and_from_what_is_kept(bench: Bench, log: Path, tmp_path: Path) -> None:
    found = told(bench, log, about=About("left"))
    assert found.known is not None
    again = kept_plot(found.known.evidence[0])
    assert again.startswith("<svg")
    assert "heat-up.csv" in again
    file = write_plot(found, tmp_path / "plot.svg", "Left", force=False)
    assert file.read_text(encoding="utf-8") == plot_of(found, "Left", alone=True)
    for name, kind in (("plot.svg", Kind.REFUSED), ("plot.png", Kind.USAGE)):
        with pytest.raises(WrapwrightError) as caught:
            write_plot(found, tmp_path / name, "Left", force=False)
        assert caught.value.kind is kind
    read = keep_readings(KeepReadings(About("left"), 200.0, (199.0, 201.0), 1.0), bench, QUIET)
    with pytest.raises(WrapwrightError, match="Only a log"):
        plot_of(read, "", alone=True)
    assert kept_plot(read.known.evidence[0]) == ""  # type: ignore[union-attr]
