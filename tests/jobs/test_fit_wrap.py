"""The job that fits a wrap."""

from __future__ import annotations

import pickle
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.blank.readings import Blank, Reading, Tape, WrapRequest
from wrapwright.jobs.bench import Bench, Folders, Watch
from wrapwright.jobs.fit_wrap import FitRequest, fit_wrap


class NoPool:
    def map(self, function: Any, requests: Sequence[Any]) -> Iterator[tuple[int, Any]]:
        raise AssertionError("fitting needs no pool")


def bench(folder: Path) -> Bench:
    return Bench(Folders(folder, folder, folder), NoPool(), lambda: datetime(2000, 1, 1, tzinfo=UTC))


NET = FitRequest(
    Blank(
        "tapered",
        (Reading(None, 127.0, "diameter"), Reading(None, 203.2, "diameter")),
        axial_mm=101.6,
        tape=Tape(thickness_mm=0.0),
    ),
    WrapRequest(overlap_mm=0.0),
)


def test_a_published_net_through_the_job(tmp_path: Path) -> None:
    # ceemrr.com/Geometry2/DrawingsNets/DrawingsNets6.html, diameters 5 and 8, height 4 (in): radii 7.12 and 11.39.
    fitted = fit_wrap(NET, bench(tmp_path), Watch())
    wrap = fitted.wrapped.wrap
    assert wrap.inner_radius_mm / 25.4 == pytest.approx(7.12, abs=0.005)
    assert wrap.outer_radius_mm / 25.4 == pytest.approx(11.39, abs=0.005)
    # a sector under half a circle is as wide as its chord
    assert fitted.bounding_box_mm[0] == pytest.approx(fitted.outer_chord_mm)
    assert list(tmp_path.iterdir()) == []


def test_request_and_result_cross_a_process_border(tmp_path: Path) -> None:
    again = pickle.loads(pickle.dumps(NET))
    assert again == NET
    fitted = fit_wrap(again, bench(tmp_path), Watch())
    assert pickle.loads(pickle.dumps(fitted)) == fitted


def test_it_stops_when_asked(tmp_path: Path) -> None:
    with pytest.raises(WrapwrightError) as stopped:
        fit_wrap(NET, bench(tmp_path), Watch(cancelled=lambda: True))
    assert stopped.value.kind is Kind.STOPPED
