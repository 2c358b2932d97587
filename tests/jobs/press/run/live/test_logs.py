"""A logger's growing file tells the live dose."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from tests.jobs.press.run.conftest import Shop

HEAD = "time_s,air C,wall C\n"


def grown(file: Path, shop: Shop, rows: list[tuple[float, float, float]]) -> None:
    """Let the logger write rows, the last of them just now."""
    file.parent.mkdir(parents=True, exist_ok=True)
    fresh = not file.exists()
    with file.open("a", encoding="utf-8", newline="\n") as opened:
        opened.write((HEAD if fresh else "") + "".join(f"{a:g},{b:g},{c:g}\n" for a, b, c in rows))
    now = shop.machine.wall.timestamp()
    os.utime(file, (now, now))


def test_the_dose_follows_the_log_by_its_own_times(shop: Shop) -> None:
    """The logger ran for a minute before the door closed; at 195 C under the wrap a minute counts as a minute."""
    file = shop.bench.folders.data / "logs" / "oven.csv"
    heat = shop.start(dwell_s=300.0, log="oven.csv").id
    shop.happens(heat, "loaded")
    told = shop.heat(heat)
    assert (told.dose.by, "is not there yet" in " ".join(told.words)) == ("model", True)
    shop.machine.passes(120.0)
    grown(file, shop, [(float(one), 190.0, 195.0) for one in range(0, 181, 2)])
    told = shop.heat(heat)
    assert told.dose.by == "log"
    assert told.dose.now == pytest.approx(2.0, abs=0.02)
    assert (told.dose.air_c, told.dose.coating_c) == (190.0, 195.0)
    shop.machine.passes(60.0)
    grown(file, shop, [(float(one), 190.0, 195.0) for one in range(182, 241, 2)])
    assert shop.heat(heat).dose.now == pytest.approx(3.0, abs=0.02)
    shop.machine.passes(60.0)
    assert shop.happens(heat, "taken-out").dose.now == pytest.approx(4.0, abs=0.05)


def test_a_log_that_is_silent_is_said(shop: Shop) -> None:
    file = shop.bench.folders.data / "logs" / "oven.csv"
    heat = shop.start(dwell_s=300.0, log="oven.csv").id
    shop.happens(heat, "loaded")
    shop.machine.passes(30.0)
    grown(file, shop, [(float(one), 190.0, 195.0) for one in range(0, 31, 2)])
    shop.machine.passes(100.0)
    assert any("The logger has said nothing for 1 min 40 s" in one for one in shop.heat(heat).words)


def test_what_is_no_log_leaves_the_model(shop: Shop, tmp_path: Path) -> None:
    file = tmp_path / "letter.csv"
    file.write_text("Dear sir,\nno temperatures here\nat all\nnor here\n" * 3, encoding="utf-8")
    heat = shop.start(dwell_s=300.0, log=str(file)).id
    shop.happens(heat, "loaded")
    shop.machine.passes(100.0)
    told = shop.heat(heat)
    assert told.dose.by == "model"
    assert told.dose.now is not None
    assert any("letter.csv cannot be read, so the dose is the model's" in one for one in told.words)
