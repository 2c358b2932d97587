"""A drawing brought to the measuring form: its outline's points, or one sentence why it is none."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench, Folders, Watch
from wrapwright.jobs.live.measured.outline import OutlineRead, ReadOutline, read_outline
from wrapwright.outside.system.pool import open_pool

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 90"><path fill-rule="evenodd" d="{}"/></svg>'


@pytest.fixture
def read(tmp_path: Path):  # type: ignore[no-untyped-def]
    bench = Bench(Folders(tmp_path / "cache", tmp_path, tmp_path), open_pool(1), lambda: datetime.now(UTC), 1)

    def reading(d: str) -> OutlineRead:
        file = tmp_path / "tag.svg"
        file.write_text(SVG.format(d), encoding="utf-8")
        return read_outline(ReadOutline(file), bench, Watch())

    return reading


def test_points_run_upwards_and_holes_are_counted(read) -> None:  # type: ignore[no-untyped-def]
    found = read("M0 0H60V70L30 90L0 70Z M25 10h10v10h-10Z")
    assert found.holes == 1
    across, up = zip(*found.points, strict=True)
    scale = 60 / (max(across) - min(across))
    corners = {(round((x - min(across)) * scale, 2), round((y - min(up)) * scale, 2)) for x, y in found.points}
    assert corners == {(0, 20), (30, 0), (60, 20), (60, 90), (0, 90)}


def test_one_that_crosses_itself_is_refused(read) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(WrapwrightError) as caught:
        read("M0 0L60 90V0L0 90Z")
    assert "crosses or touches itself" in caught.value.message
    assert caught.value.where == "blank: outline"
