"""An element is made ready once, whatever is done with its place."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.design.supplies import Art
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.composed import tried_of
from wrapwright.outside.fonts import setting
from wrapwright.outside.images import reading

Design = Callable[..., dict[str, Any]]


@pytest.fixture
def counted(monkeypatch: pytest.MonkeyPatch) -> dict[str, int]:
    """Count the texts set and the pictures read."""
    counts = {"texts": 0, "pictures": 0}
    set_text, read_art = setting.set_text, reading.read_art

    def counting_text(*given: Any, **named: Any) -> Any:
        counts["texts"] += 1
        return set_text(*given, **named)

    def counting_art(*given: Any, **named: Any) -> Any:
        counts["pictures"] += 1
        return read_art(*given, **named)

    monkeypatch.setattr(setting, "set_text", counting_text)
    monkeypatch.setattr(reading, "read_art", counting_art)
    return counts


def test_a_move_sets_no_text_and_reads_no_picture(
    counted: dict[str, int], live_bench: Bench, job_folder: Path, design: Design
) -> None:
    photo = {"kind": "picture", "file": "photo.png", "width": "40 mm"}
    text = {"kind": "text", "text": "Ada", "size": "9 mm"}
    tried_of(design(photo, text), job_folder, live_bench)
    assert counted == {"texts": 1, "pictures": 1}
    moved = design({**photo, "at": "77 deg", "up": "31 mm"}, {**text, "turn": 12, "colour": "#ff0000"})
    tried_of(moved, job_folder, live_bench)
    assert counted == {"texts": 1, "pictures": 1}
    tried_of(design(photo, {**text, "text": "Grace"}), job_folder, live_bench)
    assert counted == {"texts": 2, "pictures": 1}


def test_a_file_that_has_changed_is_read_again(
    counted: dict[str, int], live_bench: Bench, job_folder: Path, design: Design
) -> None:
    document = design({"kind": "picture", "file": "star.svg", "width": "40 mm"})
    first = tried_of(document, job_folder, live_bench).composition
    drawing = job_folder / "star.svg"
    drawing.write_text(drawing.read_text(encoding="utf-8").replace("#0e625b", "#aa0000"), encoding="utf-8")
    os.utime(drawing, ns=(1, 1))
    second = tried_of(document, job_folder, live_bench).composition
    assert counted["pictures"] == 2
    assert first is not None
    assert second is not None
    assert first.supplied.supplies[0] != second.supplied.supplies[0]


def test_a_drawing_that_becomes_pixels_is_drawn_finer_when_it_is_laid_larger(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    shaded = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><linearGradient id="g"><stop stop-color="#000"/>'
        '<stop offset="1" stop-color="#fff"/></linearGradient><rect width="100" height="100" fill="url(#g)"/></svg>'
    )
    (job_folder / "shaded.svg").write_text(shaded, encoding="utf-8")
    sizes = []
    for width in ("20 mm", "120 mm"):
        document = design({"kind": "picture", "file": "shaded.svg", "width": width, "height": width})
        composition = tried_of(document, job_folder, live_bench).composition
        assert composition is not None
        art = composition.supplied.supplies[0]
        assert isinstance(art, Art)
        sizes.append(art.width)
    assert sizes[1] > 2.0 * sizes[0]
