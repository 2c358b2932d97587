"""Of two stations that start the same oven one has it."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from pathlib import Path
from threading import Barrier

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.store.place import Store
from wrapwright.outside.store.rows.press.heaters import heater_kept, put_heater_row, take_heater_row

NOW = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)
STATIONS = 6


def test_two_stations_start_the_same_oven(tmp_path: Path) -> None:
    stores = [Store(tmp_path) for _ in range(STATIONS)]
    with stores[0].writing() as connection:
        oven = put_heater_row(connection, "Left", "oven", {"power_w": 1500.0, "capacity": 4}, 0, NOW)
    together = Barrier(STATIONS)

    def start(heat: int) -> str:
        together.wait(timeout=30)
        try:
            with stores[heat - 1].writing() as connection:
                take_heater_row(connection, oven, heat)
        except WrapwrightError as problem:
            return f"{problem.kind}: {problem.message}"
        return ""

    with ThreadPoolExecutor(STATIONS) as pool:
        said = list(pool.map(start, range(1, STATIONS + 1)))
    assert said.count("") == 1
    won = said.index("") + 1
    with stores[0].reading() as connection:
        assert heater_kept(connection, id=oven).busy == won
    assert {one for one in said if one} == {f"refused: Left is heating (heat {won}); nothing was changed."}
    for store in stores:
        store.close()
