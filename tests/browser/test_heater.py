"""The screen of one heater in a browser: a log chosen, named, fitted and kept; readings marked where they are wrong."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from tests.browser.running import Running

from wrapwright.core.press.fit.curves import approach, wall_in_approach
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater


def log_at(folder: Path) -> Path:
    times = np.arange(0.0, 700.0)
    air = approach(times, 206.0, 25.0, 100.0)
    wall = wall_in_approach(times, (206.0, 25.0, 100.0), 25.0, 80.0)
    file = folder / "heat-up.csv"
    rows = [f"{t:.0f},{a:.1f},{w:.1f}" for t, a, w in zip(times, air, wall, strict=True)]
    file.write_text("\n".join(["t,T1,T2", *rows]), encoding="utf-8")
    return file


def test_a_log_is_fitted_and_kept_by_keys(
    server: Running, open_page: Callable[..., Any], axe: Callable[[Any], list[str]], tmp_path: Path
) -> None:
    bench = server.app.state.bench
    number = keep_heater(KeepHeater("Left", "oven", 1500.0, 4), bench, Watch()).id
    page = open_page(bypass_csp=True)
    page.goto(f"{server.url}/press/heaters/{number}")
    page.focus("#tab-readings")
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.id") == "tab-log"
    assert page.is_hidden("#readings")
    page.set_input_files("#log-file", str(log_at(tmp_path)))
    page.wait_for_selector("#log-columns select")
    page.select_option('#log-columns select[data-column="2"]', "air")
    page.select_option('#log-columns select[data-column="3"]', "wall")
    page.fill("#l-set", "392")
    page.click("#log button[name=look]")
    page.wait_for_selector("#l-set[aria-invalid]")  # C or F?
    assert "392 F" in page.inner_text("#l-set-wrong")
    page.fill("#l-set", "392 F")
    page.select_option("#l-material", "steel")
    page.fill("#l-wall", "0.5 mm")
    assert page.is_disabled("#log button[name=keep]")  # what was not looked at is not kept
    page.click("#log button[name=look]")
    page.wait_for_selector("#log .ev-result svg")
    assert "25.00 W/m²K" in page.inner_text("#log .ev-estimates")
    assert axe(page) == []
    page.click("#log button[name=keep]")
    page.wait_for_selector(".ev-list li")
    assert "+6 °C (+10.8 °F)" in page.inner_text(".ev-figure")
    page.click("text=Remove")
    page.click("text=Remove it")
    page.wait_for_selector("text=Nothing yet.")
