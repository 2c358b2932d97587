"""The first drawing, made before anyone asks for one."""

from __future__ import annotations

from pathlib import Path

from wrapwright.faces.web.warming import SMALL, warm_up
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.live.drawing import DrawDesign, draw_design
from wrapwright.jobs.open_bench import open_bench


def test_the_small_piece_is_drawn_whole_and_nothing_is_kept(tmp_path: Path) -> None:
    bench = open_bench(cache=tmp_path / "cache", data=tmp_path / "data", fonts=tmp_path / "fonts", threads=1)
    drawn = draw_design(DrawDesign(SMALL, tmp_path), bench, Watch())
    assert drawn.problems == ()
    assert [one.kind for one in drawn.copies] == ["text", "code"]
    warm_up(bench)
    assert not (tmp_path / "data").exists()
