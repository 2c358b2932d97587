"""Strips nested in a child: what comes back is complete, and nothing the child does takes us with it."""

from __future__ import annotations

import time
from dataclasses import replace
from pathlib import Path

import pytest
import shapely

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.rings import turned
from wrapwright.core.sheet.lay.values import LayRequest, Part, Shape, Stock
from wrapwright.core.sheet.nest.free import lay_free
from wrapwright.core.sheet.nest.values import StripItem, StripRequest
from wrapwright.outside.nesting import spyrrow

BRACKET = ((0.0, 0.0), (60.0, 0.0), (60.0, 15.0), (15.0, 15.0), (15.0, 60.0), (0.0, 60.0))
STRIP = StripRequest(
    (StripItem(BRACKET, 6, (0, 90, 180, 270)), StripItem(((0.0, 0.0), (30.0, 0.0), (15.0, 25.0)), 4, (0, 180))),
    130.0,
    enough_mm=1000.0,
)


def test_every_copy_lies_in_the_strip_and_none_on_another(tmp_path: Path) -> None:
    answer = spyrrow.nested_by_spyrrow(STRIP, folder=tmp_path, seconds=2)
    assert answer is not None
    lie = [
        shapely.affinity.translate(
            shapely.Polygon(turned(STRIP.items[spot.item].ring, spot.turn_deg)), spot.x_mm, spot.y_mm
        )
        for spot in answer.spots
    ]
    assert [spot.item for spot in sorted(answer.spots, key=lambda spot: spot.item)] == [0] * 6 + [1] * 4
    assert {spot.turn_deg for spot in answer.spots if spot.item == 1} <= {0, 180}
    left, bottom, right, top = shapely.union_all(lie).bounds
    assert min(left, bottom) > -0.01
    assert top < 130.01
    assert right < answer.length_mm + 0.01
    assert max(one.intersection(other).area for at, one in enumerate(lie) for other in lie[:at]) < 0.01
    assert answer.length_mm < 6 * 60.0 / 2 + 60.0  # brackets in two rows, as boxes, and triangles beside them
    assert list(tmp_path.iterdir()) == []


def test_it_lays_outlines_for_us_closer_than_we_do(tmp_path: Path) -> None:
    """Thirty brackets on a roll: the nester's page is sound and no longer than ours."""
    shape = Shape("outline", 60.0, 60.0, ring=BRACKET)
    request = LayRequest((Part(shape, 10),), (Stock("roll", 140.0, None),), 2.0, "free")
    (ours,) = lay_free(request)
    (theirs,) = lay_free(request, spyrrow.nester(tmp_path, seconds=1))
    assert theirs.height_mm <= ours.height_mm
    assert len(theirs.pieces) == 10


def test_a_child_that_fails_or_hangs_is_no_answer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(spyrrow, "_START_S", -0.9)  # not even time to start
    begun = time.monotonic()
    assert spyrrow.nested_by_spyrrow(replace(STRIP, enough_mm=0.0), folder=tmp_path, seconds=1) is None
    assert time.monotonic() - begun < 10.0
    assert list(tmp_path.iterdir()) == []


def test_what_the_child_refuses_is_no_answer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuses(*_: object, **__: object) -> None:
        raise unusable("no")

    monkeypatch.setattr(spyrrow, "run_child", refuses)
    assert spyrrow.nested_by_spyrrow(STRIP, folder=tmp_path, seconds=1) is None


@pytest.mark.parametrize(
    "answer",
    [
        {},
        {"length": 1.0, "spots": [[0, 0.0, 0.0, 0.0]]},
        {"length": "x", "spots": []},
        {"length": 9.0, "spots": [[0, 0.0, 0.0, 45.0]] * 6 + [[1, 0.0, 0.0, 0.0]] * 4},
        {"length": 9.0, "spots": [[0, 0.0, 0.0, 0.0]] * 6 + [[1, 0.0, 0.0, 0.0]] * 4 + [[2, 0.0, 0.0, 0.0]]},
        {"length": float("inf"), "spots": [[0, 0.0, 0.0, 0.0]] * 6 + [[1, 0.0, 0.0, 0.0]] * 4},
        {"length": 9.0, "spots": [[0, 0.0]]},
    ],
)
def test_an_answer_that_is_not_whole_is_none(
    answer: dict[str, object], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(spyrrow, "run_child", lambda *_, **__: answer)
    assert spyrrow.nested_by_spyrrow(STRIP, folder=tmp_path, seconds=1) is None


def test_without_the_library_there_is_no_nester(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(spyrrow, "can_nest", lambda: False)
    assert spyrrow.nester(tmp_path, seconds=1) is None
    assert spyrrow.nested_by_spyrrow(STRIP, folder=tmp_path, seconds=1) is None


def test_nothing_is_asked_for_nothing(tmp_path: Path) -> None:
    assert spyrrow.nested_by_spyrrow(StripRequest((), 100.0), folder=tmp_path, seconds=1) is None


def test_the_child_stops_when_it_is_short_enough(tmp_path: Path) -> None:
    begun = time.monotonic()
    assert spyrrow.nested_by_spyrrow(STRIP, folder=tmp_path, seconds=60) is not None
    assert time.monotonic() - begun < 30.0


def test_a_child_that_is_not_ours_is_no_answer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(spyrrow, "_INSIDE", "this")  # prints verses
    assert spyrrow.nested_by_spyrrow(STRIP, folder=tmp_path, seconds=1) is None
