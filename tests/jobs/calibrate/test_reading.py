"""A gauge's reading: as a job writes it, onto the shelf, and used as it stands through its own set-up."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.calibrate.reading import ReadGauge, take_gauge
from wrapwright.jobs.calibrate.scales import KeepScale, keep_scale, sheet_request
from wrapwright.jobs.kept.blanks import AddBlank, add_blank
from wrapwright.jobs.work.heating import heat_of
from wrapwright.outside.jobfile.reading import read_document

QUIET = Watch()
TAPE = {"kind": "gauge", "division": "0.1 mm", "thickness": "0.12 mm", "setup": "Desk", "lies": "along"}


def test_a_straight_reading(bench: Bench) -> None:
    read = take_gauge(ReadGauge(((None, 235.7),), 165.0, setup="desk"), bench, QUIET)
    assert read.table == {"kind": "straight", "flat": "235.7 mm", "wall": "165 mm", "tape": TAPE}
    assert read.kept is None
    assert 'in the millimetres of "Desk"' in read.words[0]
    bare = take_gauge(ReadGauge(((None, 235.7),)), bench, QUIET)
    assert "No set-up is named" in bare.words[1]
    assert "setup" not in bare.table["tape"]


def test_two_arcs(bench: Bench) -> None:
    read = take_gauge(ReadGauge(((10.0, 228.4), (148.0, 281.25)), 158.0, setup="Desk"), bench, QUIET)
    slope = (281.25 - 228.4) / 138.0
    assert read.flats_mm == pytest.approx((228.4 - 10 * slope, 281.25 + 10 * slope))
    assert (read.table["kind"], read.table["flat_bottom"], read.table["flat_top"]) == (
        "tapered",
        "224.57 mm",
        "285.08 mm",
    )
    assert read.table["tape"]["pieces"] == 2  # the upper arc is longer than Letter
    for asked, said in (
        (ReadGauge(((10.0, 228.4), (148.0, 281.25))), "needs its wall"),
        (ReadGauge(((None, 228.4), (148.0, 281.25)), 158.0), "its place on the wall"),
        (ReadGauge(()), "no reading"),
        (ReadGauge(((None, 9.2),)), "less than the 30 mm"),
    ):
        with pytest.raises(WrapwrightError, match=said):
            take_gauge(asked, bench, QUIET)


def test_it_becomes_the_blanks_next_version(bench: Bench) -> None:
    table = {
        "kind": "straight",
        "girth": "9 1/4 in",
        "wall": "6 1/2 in",
        "coating": "#dddddd",
        "tape": {"kind": "class I"},
    }
    blank = add_blank(AddBlank("Bottle", table), bench, QUIET)
    read = take_gauge(ReadGauge(((None, 235.7),), setup="Desk", blank="bottle"), bench, QUIET)
    assert read.kept is not None
    assert (read.kept.id, read.kept.version) == (blank.id, 2)
    assert read.kept.table == {
        "wall": "6 1/2 in", "coating": "#dddddd", "kind": "straight", "flat": "235.7 mm", "tape": TAPE,
    }  # fmt: skip


def test_its_own_set_up_uses_it_as_it_stands_also_when_calibrated_since(bench: Bench) -> None:
    """The wrap's file millimetres stay those that the strip read: F / s then = N / s now."""
    from wrapwright.core.blank.wrapped import wrap_blank

    read = take_gauge(ReadGauge(((None, 235.7),), 100.0, setup="Desk"), bench, QUIET)
    scales = keep_scale(KeepScale((206.4, 271.3), name="Desk"), bench, QUIET)
    lengths = []
    for sheet in (
        {"setup": "Desk"},
        {**scales.setup.sheet, "setup": "Desk"},
        {"setup": "Studio", "thickness": "0.2 mm"},
    ):
        job = read_document({"format": 1, "blank": dict(read.table), "sheet": sheet}, folder=Path(), stem="x")
        wrapped = wrap_blank(job.blank, job.wrap, heat_of(job, None))
        lengths.append((wrapped.wrap.lower_mm / sheet_request(sheet).scale_along, len(wrapped.overlap_budget)))
    assert lengths[0] == (pytest.approx(235.7), 3)
    assert lengths[1] == (pytest.approx(235.7), 3)
    assert lengths[2] == (pytest.approx(235.7 + 3.14159265 * 0.08), 6)
