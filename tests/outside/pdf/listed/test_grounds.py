"""Shared pixels are drawn once for a run: kept beside its shards, and drawn anew where what was kept is not whole."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from wrapwright.core.design.layers import Box
from wrapwright.core.design.path import rectangle
from wrapwright.core.sheet.lay.printed.values import LaidPage
from wrapwright.outside.pdf.document import SheetColour
from wrapwright.outside.pdf.flate import Packed
from wrapwright.outside.pdf.listed import grounds
from wrapwright.outside.pdf.listed.values import SharedArt

PLACES = ((0.0, (10.0, 10.0)), (180.0, (10.0, 60.0)), (0.0, (70.0, 10.0)))


class Piece:
    """What the grounds look at of a piece that lies on a page."""

    def __init__(self, turn_deg: float, at: tuple[float, float]) -> None:
        self.turn_deg = turn_deg
        self.bleed_box = (*at, at[0] + 25.4, at[1] + 25.4)
        self.to_page = np.array([[1.0, 0.0, at[0]], [0.0, 1.0, at[1]], [0.0, 0.0, 1.0]])


@pytest.fixture
def page() -> LaidPage:
    return LaidPage(200.0, 100.0, tuple(Piece(turn, at) for turn, at in PLACES))  # type: ignore[arg-type]


def art_that_counts(drawn: list[Box]) -> SharedArt:
    def paint(_to_page: NDArray[np.float64], box: Box) -> Packed:
        drawn.append(box)
        return Packed(bytes([len(drawn)]) + b"\n\x00pixels", "ab" * 32, 3, 2, 3)

    return SharedArt(SheetColour(3, b"", "", False), tuple, rectangle(0.0, 0.0, 1.0, 1.0), (), paint)


def test_neighbours_begin_with_other_ways_and_find_each_others(page: LaidPage, tmp_path: Path) -> None:
    first: list[Box] = []
    art = art_that_counts(first)
    grounds.share_pixels(art, page, ppi=254.0, folder=tmp_path, number=0)
    assert len(first) == len(art.packed) == 2  # two of the three lie alike
    other: list[Box] = []
    again = art_that_counts(other)
    grounds.share_pixels(again, page, ppi=254.0, folder=tmp_path, number=1)
    assert other == []
    assert again.packed == art.packed
    assert list(again.packed) == list(reversed(art.packed))


def test_what_is_not_whole_is_drawn_anew(page: LaidPage, tmp_path: Path) -> None:
    grounds.share_pixels(art_that_counts([]), page, ppi=254.0, folder=tmp_path, number=0)
    files = sorted(tmp_path.iterdir())
    assert [file.suffix for file in files] == [".art", ".art"]
    files[0].write_bytes(files[0].read_bytes()[:-1])
    files[1].write_bytes(b"[]\n")
    drawn: list[Box] = []
    grounds.share_pixels(art_that_counts(drawn), page, ppi=254.0, folder=tmp_path, number=0)
    assert len(drawn) == 2


def test_where_nothing_can_be_kept_each_draws_its_own(page: LaidPage, tmp_path: Path) -> None:
    drawn: list[Box] = []
    art = art_that_counts(drawn)
    grounds.share_pixels(art, page, ppi=254.0, folder=tmp_path / "not there", number=0)
    assert len(drawn) == len(art.packed) == 2
