"""The exact table, and the way back from ink."""

from __future__ import annotations

import os
import time
from pathlib import Path

import numpy as np
import pytest
from tests.outside.icc.littlecms import floats
from tests.outside.icc.press import cmyk_file, rgb_printer

from wrapwright.outside.icc import tables
from wrapwright.outside.icc.conversion import Conversion, conversion
from wrapwright.outside.icc.profiles import parse, read_printer, srgb_profile
from wrapwright.outside.icc.proofing import proofing
from wrapwright.outside.icc.working import srgb_working

PIXELS = np.random.default_rng(2).integers(0, 256, (96, 300, 3)).astype(np.uint8)


def _to_cmyk() -> Conversion:
    return conversion(srgb_profile(), read_printer(cmyk_file(), named="p"), "relative", black_point=True)


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("tables")
    heard: list[float] = []
    made = tables.build(folder, _to_cmyk(), heard.append)
    assert made is not None
    assert heard[-1] == 1.0
    made.close()
    return folder


def test_the_table_gives_the_conversions_bytes(shelf: Path) -> None:
    table = tables.open_table(shelf, _to_cmyk())
    assert table is not None
    assert np.array_equal(table.strip(PIXELS), _to_cmyk().strip(PIXELS))
    assert [one.name for one in shelf.iterdir()] == [tables.table_name(_to_cmyk()) + ".table"]
    table.close()


def test_a_wrong_table_is_thrown_away(tmp_path: Path) -> None:
    file = tmp_path / (tables.table_name(_to_cmyk()) + ".table")
    with file.open("wb") as stream:
        stream.truncate(tables.FILE_BYTES)
    assert tables.open_table(tmp_path, _to_cmyk()) is None
    assert not file.exists()
    file.write_bytes(b"short")
    assert tables.open_table(tmp_path, _to_cmyk()) is None
    assert not file.exists()


def test_the_third_page_gets_it_built(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    built: list[Path] = []
    monkeypatch.setattr(tables, "build", lambda folder, _conversion: built.append(folder))
    for _ in range(2):
        assert tables.wanted(tmp_path, _to_cmyk()) is None
    assert built == []
    tables.wanted(tmp_path, _to_cmyk())
    assert built == [tmp_path]


def test_one_builder_at_a_time_and_a_dead_one_is_replaced(tmp_path: Path) -> None:
    lock = tmp_path / "a.lock"
    assert tables._locked(lock)
    assert not tables._locked(lock)
    os.utime(lock, (time.time() - 100, time.time() - 100))
    assert tables._locked(lock)


def test_the_name_depends_on_all_that_matters() -> None:
    cmyk, dull = read_printer(cmyk_file(), named="p"), parse(rgb_printer(), named="d")
    names = {
        tables.table_name(conversion(srgb_profile(), device, intent, black_point=black_point))
        for device in (cmyk, dull)
        for intent in ("perceptual", "relative")
        for black_point in (False, True)
    }
    assert len(names) == 8


def test_no_ink_is_white_and_black_shows_weak() -> None:
    way = proofing(_to_cmyk(), srgb_working())
    assert way.seen(np.zeros((1, 1, 4), np.uint8)).tolist() == [[[255, 255, 255]]]
    black = way.seen(_to_cmyk().strip(np.zeros((1, 1, 3), np.uint8)))
    # The exact value by LittleCMS in floating point, relative colorimetric without black point compensation.
    inks = _to_cmyk().colours(np.zeros((1, 3))) / 2.55
    exact = floats(inks, (cmyk_file().read_bytes(), srgb_profile().data), ("cmyk", "rgb"), "relative", bpc=False)
    assert np.abs(black[0] - np.clip(exact * 255, 0, 255)).max() < 0.75
    assert black.max() > 10


def test_reached_colours_agree_with_littlecms() -> None:
    way = proofing(_to_cmyk(), srgb_working())
    inks = _to_cmyk().strip(PIXELS)
    exact = floats(inks.reshape(-1, 4) / 2.55, (cmyk_file().read_bytes(), b""), ("cmyk", "lab"), "relative", bpc=True)
    off = np.abs(way.reached(inks).reshape(-1, 3) - exact)
    assert off.max() < 1.0
    assert off.mean() < 0.1


def test_what_cannot_be_reached_is_far_and_the_rest_is_near() -> None:
    way = proofing(_to_cmyk(), srgb_working())
    asked = np.array([[[0, 0, 255], [0, 255, 0], [128, 128, 128], [200, 170, 150], [255, 255, 255]]], dtype=np.uint8)
    short = way.short(asked, _to_cmyk().strip(asked))[0]
    assert short[:2].min() > 5.0
    assert short[2:].max() < 2.0
