"""The screen of one heater, answered without a browser."""

from __future__ import annotations

from typing import Any

from wrapwright.core.press.fit.without.oven_map import Point
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.evidence.values import About, KeepMap, KeepReadings
from wrapwright.jobs.press.evidence.without import keep_map, keep_readings
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater


def test_what_is_known_and_what_is_not(client: Any, bench: Bench) -> None:
    number = keep_heater(KeepHeater("Left <b>", "oven", 1500.0, 4), bench, Watch()).id
    fresh = client.get(f"/press/heaters/{number}").text
    assert "not calibrated yet" in fresh
    assert "Nothing yet." in fresh
    assert "Left &lt;b&gt;" in fresh
    keep_readings(KeepReadings(About(heater_id=number), 200.0, (190.0, 191.0, 192.0), 1.0, 2.0), bench, Watch())
    points = (Point(180.0, "top", 6.0, 3.0), Point(200.0, "bottom", -4.0, 3.0))
    keep_map(KeepMap(About(heater_id=number), points), bench, Watch())
    known = client.get(f"/press/heaters/{number}").text
    assert "calibrated on your own evidence" in known
    assert known.count("in use</span>") == 1
    assert "set to 180 °C" in known
    assert known.count("not measured</span>") == 2
    assert client.get("/press/heaters/99").status_code == 404


def test_a_press_has_no_map(client: Any, bench: Bench) -> None:
    number = keep_heater(KeepHeater("Mugs", "mug-press", 350.0), bench, Watch()).id
    page = client.get(f"/press/heaters/{number}").text
    assert "tab-map" not in page
    assert "120 to 500 W/m²K" in page
