"""Evidence of heaters over the REST face."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from wrapwright.core.press.fit.curves import approach, wall_in_approach

TIMES = np.arange(0.0, 800.0)
AIR = approach(TIMES, 206.0, 25.0, 100.0)
WALL = wall_in_approach(TIMES, (206.0, 25.0, 100.0), 25.0, 80.0)
LOG = "\n".join(["t,T1,T2", *(f"{t:.0f},{a:.1f},{w:.1f}" for t, a, w in zip(TIMES, AIR, WALL, strict=True))]).encode()


@pytest.fixture(scope="module")
def where(client: Any) -> str:
    body = {"name": "Left", "kind": "oven", "power_w": 1500}
    return f"/api/press/heaters/{client.post('/api/press/heaters', json=body).json()['id']}/evidence"


def test_a_log_is_looked_at_fitted_and_kept(client: Any, where: str) -> None:
    look = client.post(f"{where}/looks/log.csv", content=LOG).json()
    assert [one["role"] for one in look["columns"]] == ["time", "temperature", "temperature"]
    assert "which of its columns" in look["questions"][0]
    refused = client.post(f"{where}/logs/log.csv", content=LOG)
    assert (refused.status_code, refused.json()["error"]["where"]) == (422, "columns")
    said = {"air": "2", "wall": "3", "set_c": "392 F", "material": "steel", "wall_mm": "0.5 mm", "covers": ""}
    seen = client.post(f"{where}/logs/log.csv", content=LOG, params={**said, "keep": False}).json()
    assert (seen["evidence"], seen["plot"][:4]) == (0, "<svg")
    assert client.get(where).json()["evidence"] == []
    kept = client.post(f"{where}/logs/log.csv", content=LOG, params=said).json()
    known = client.get(where).json()
    assert known["figures"]["offset_k"] == pytest.approx(6.0, abs=0.05)
    assert known["sources"]["film"] == kept["evidence"]
    plot = client.get(f"{where}/{kept['evidence']}/plot.svg")
    assert (plot.headers["content-type"], plot.text[:4]) == ("image/svg+xml", "<svg")
    assert client.get(f"{where}/99/plot.svg").status_code == 404
    assert client.delete(f"{where}/{kept['evidence']}").json()["evidence"] == []
    assert client.delete(f"{where}/{kept['evidence']}").status_code == 404


def test_readings_recipe_and_map(client: Any, where: str) -> None:
    body = {"set_c": "200 C", "read_c": ["190 C", 191, "374 F"], "step_k": "1 C", "keep": False}
    told = client.post(f"{where}/readings", json=body).json()
    assert (told["kind"], told["evidence"]) == ("readings", 0)
    assert told["figures"]["offset_k"] == pytest.approx(-9.667, abs=0.01)
    for field, value, place in (("set_c", "200", "set"), ("read_c", [190], "readings"), ("step_k", 0, "step")):
        refused = client.post(f"{where}/readings", json={**body, field: value})
        assert (refused.status_code, refused.json()["error"]["where"]) == (422, place)
    good = client.post(f"{where}/recipes", json={"recipe": "steel-oven", "wall_mm": 0.5, "dwell_s": "6 min"}).json()
    assert good["kind"] == "recipe"
    points = [{"set_c": 200, "place": "top", "read_c": 208}, {"set_c": 200, "place": "low", "read_c": 196}]
    assert client.post(f"{where}/maps", json={"points": points}).json()["figures"]["offset_k"] == 2.0
    assert [one["kind"] for one in client.get(where).json()["evidence"]] == ["map", "recipe"]
    assert client.get("/api/press/heaters/99/evidence").status_code == 404
