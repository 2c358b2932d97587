"""Evidence kept and dropped: the newest figures stand in the heater; what is refused changes nothing."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.fit.without.oven_map import Point
from wrapwright.core.press.values import UNCALIBRATED_K
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.evidence.keeping import drop_evidence, show_evidence
from wrapwright.jobs.press.evidence.logs import fit_evidence
from wrapwright.jobs.press.evidence.stated import known_table
from wrapwright.jobs.press.evidence.values import (
    About,
    DropEvidence,
    FitLog,
    KeepKnown,
    KeepMap,
    KeepReadings,
    ShowEvidence,
    Told,
)
from wrapwright.jobs.press.evidence.without import keep_known, keep_map, keep_readings, newest_map
from wrapwright.jobs.press.kept.heaters import heater_named

QUIET = Watch()
LEFT = About("left")


def readings(bench: Bench, about: About = LEFT, *read: float) -> Told:
    return keep_readings(KeepReadings(about, 200.0, read or (190.0, 192.0, 191.0), 1.0), bench, QUIET)


def logged(bench: Bench, log: Path, about: About = LEFT) -> Told:
    return fit_evidence(FitLog(log, about, set_c=200.0, material="steel", wall_mm=0.5), bench, QUIET)


def test_the_newest_of_each_figure_stands_in_the_heater(bench: Bench, log: Path) -> None:
    before = heater_named("Left", bench).heater
    assert before.offset_half_k == UNCALIBRATED_K
    told = logged(bench, log, About("left", day=date(2026, 4, 1)))
    assert told.known is not None
    heater = heater_named("Left", bench).heater
    assert (heater.offset_k, heater.film.mid) == (pytest.approx(6.0, abs=0.1), pytest.approx(25.0, rel=0.01))
    assert heater.offset_half_k == pytest.approx(2.5, abs=0.05)  # the sensor's own doubt in it
    assert heater.source == "log of 2026-04-01"
    newer = readings(bench)
    heater = heater_named("Left", bench).heater
    assert (heater.offset_k, heater.film.mid) == (pytest.approx(-9.0), pytest.approx(25.0, rel=0.01))
    assert newer.known is not None
    assert [one.kind for one in newer.known.evidence] == ["readings", "log"]
    assert newer.known.sources == {"offset_k": 2, "offset_half_k": 2, "film": 1}
    left = drop_evidence(DropEvidence(newer.known.heater.id, 2), bench, QUIET)
    assert left.heater.heater.offset_k == pytest.approx(6.0, abs=0.1)
    none = drop_evidence(DropEvidence(left.heater.id, 1), bench, QUIET)
    assert (none.heater.calibrated, none.heater.heater) == (False, before)
    assert "not known: 15 °C (27 °F)" in none.words[0]


def test_a_recipe_stands_only_where_nothing_was_measured(bench: Bench, log: Path) -> None:
    good = KeepKnown(LEFT, "steel-oven", 205.0, 420.0, wall_mm=0.5)
    first = keep_known(good, bench, QUIET)
    assert first.figures == {}  # with a film that nobody knows it tells nothing
    fit_evidence(FitLog(log, LEFT, material="steel", wall_mm=0.5), bench, QUIET)  # the film alone
    told = keep_known(good, bench, QUIET)
    assert told.known is not None
    # Hotter and longer than most of the recipe, and good: the oven is cooler than it says.
    assert told.known.heater.heater.offset_k < -3.0
    assert readings(bench, LEFT, 199.0, 200.0, 201.0).known.heater.heater.offset_k == 0.0  # type: ignore[union-attr]
    after = keep_known(good, bench, QUIET)
    assert after.known.heater.heater.offset_k == 0.0  # type: ignore[union-attr]


def test_a_map_is_kept_whole(bench: Bench) -> None:
    points = (Point(200.0, "top", 8.0, 4.0), Point(200.0, "bottom", -4.0, 3.0))
    told = keep_map(KeepMap(LEFT, points), bench, QUIET)
    assert told.figures == {"offset_k": 2.0, "offset_half_k": 10.0}
    assert newest_map("left", bench, QUIET) == points


def test_looking_keeps_nothing(bench: Bench, log: Path) -> None:
    look = About("left", keep=False)
    assert logged(bench, log, look).known is None
    assert readings(bench, look).evidence == 0
    assert logged(bench, log, About()).figures["offset_k"] == pytest.approx(6.0, abs=0.1)
    assert show_evidence(ShowEvidence(heater="left"), bench, QUIET).evidence == ()


def test_what_is_refused_changes_nothing(bench: Bench, log: Path) -> None:
    for about, kind in (
        (About("right"), Kind.MISSING),
        (About("small-oven"), Kind.REFUSED),
        (About("left", day=date(2026, 5, 9)), Kind.UNUSABLE),
        (About("left", note="x" * 201), Kind.UNUSABLE),
    ):
        with pytest.raises(WrapwrightError) as caught:
            readings(bench, about)
        assert caught.value.kind is kind
    for more in ({"material": "steel"}, {"wall_mm": 0.5}, {"wall_mm": 900.0, "material": "steel"}, {"set_c": 383.0}):
        with pytest.raises(WrapwrightError):
            fit_evidence(FitLog(log, LEFT, **more), bench, QUIET)  # type: ignore[arg-type]
    with pytest.raises(WrapwrightError, match="no map of Left"):
        newest_map("left", bench, QUIET)
    with pytest.raises(WrapwrightError, match="no evidence with the number 7"):
        drop_evidence(DropEvidence(1, 7), bench, QUIET)
    assert show_evidence(ShowEvidence(1), bench, QUIET).evidence == ()


def test_it_is_stated_as_plain_tables(bench: Bench, log: Path) -> None:
    told = logged(bench, log)
    assert told.known is not None
    table = known_table(told.known)
    row = table["evidence"][0]
    assert (row["kind"], row["given"]["file"], "drawn" in row["found"]) == ("log", "heat-up.csv", False)
    names = [one["name"] for one in row["found"]["estimates"]]
    assert names == ["wall-time-constant", "film", "oven-time-constant", "level", "offset"]
    assert table["figures"]["film"][1] == pytest.approx(25.0, rel=0.01)
