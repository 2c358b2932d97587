"""A job file that uses a blank of the shelf, and one that does without a store."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.jobs.kept.given import QUIET, STRAIGHT

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.check_job import check_job
from wrapwright.jobs.kept.blanks import AddBlank, ChangeBlank, add_blank, change_blank
from wrapwright.jobs.kept.shelf import shelf_of
from wrapwright.jobs.requests import CheckRequest
from wrapwright.jobs.work.opening import opened

USING = 'format = 1\nblank = { use = "big TUMBLER" }\n'


def using(bench: Bench, text: str = USING):
    return opened(None, text, bench.folders.fonts, shelf_of(bench)).job


def test_the_newest_readings_are_used(bench: Bench) -> None:
    kept = add_blank(AddBlank("Big tumbler", STRAIGHT, {"seam": "right", "bleed": "1 mm"}), bench, QUIET)
    assert using(bench).blank.readings[0].length_mm == pytest.approx(234.95)
    change_blank(ChangeBlank(kept.id, "Big tumbler", {**STRAIGHT, "girth": "240 mm"}, kept.wrap, 1), bench, QUIET)
    job = using(bench, USING + 'wrap = { bleed = "3 mm" }\n')
    assert job.blank.readings[0].length_mm == 240.0
    assert (job.blank.name, job.wrap.seam_deg, job.wrap.bleed_mm) == ("Big tumbler", 90.0, 3.0)
    assert check_job(CheckRequest(None, USING), bench, QUIET).findings


def test_a_name_and_readings_do_not_go_together(bench: Bench) -> None:
    add_blank(AddBlank("Big tumbler", STRAIGHT), bench, QUIET)
    with pytest.raises(WrapwrightError, match="use and girth are both given") as caught:
        using(bench, 'format = 1\nblank = { use = "Big tumbler", girth = "9 in" }\n')
    assert "has no blank" not in str(caught.value)


def test_names_that_are_there_are_told(bench: Bench) -> None:
    add_blank(AddBlank("Mug", STRAIGHT), bench, QUIET)
    with pytest.raises(WrapwrightError, match="On the shelf are Mug"):
        using(bench)


def test_an_empty_shelf_is_not_made_for_looking_at_it(bench: Bench) -> None:
    with pytest.raises(WrapwrightError, match="Nothing is on the shelf yet: give the readings"):
        using(bench)
    assert not bench.folders.data.exists()


def test_a_job_with_readings_opens_no_store(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    bench.folders.data.mkdir()
    (bench.folders.data / "store.sqlite3").write_bytes(b"not a store, and nobody looks")
    text = 'format = 1\n[blank]\nkind = "straight"\ngirth = "9 1/4 in"\nwall = "100 mm"\n'
    check_job(CheckRequest(None, text), bench, QUIET)
    with pytest.raises(WrapwrightError, match="not a store"):
        check_job(CheckRequest(None, USING), bench, QUIET)


def test_the_file_of_a_job_is_not_changed_by_it(bench: Bench, tmp_path: Path) -> None:
    add_blank(AddBlank("Big tumbler", STRAIGHT), bench, QUIET)
    file = tmp_path / "use.toml"
    file.write_text(USING, encoding="utf-8")
    opened(file, None, bench.folders.fonts, shelf_of(bench))
    assert file.read_text(encoding="utf-8") == USING
