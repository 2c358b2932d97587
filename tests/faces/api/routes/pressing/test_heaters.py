"""Heaters and circuits over the REST face."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from tests.faces.asked import app_at, asking


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    with asking(app_at(tmp_path_factory.mktemp("bench"))) as made:
        yield made


def test_a_circuit_with_two_heaters(client: Any) -> None:
    assert client.get("/api/press/heaters").json() == []
    circuit = client.post("/api/press/circuits", json={"name": "Bench", "volts": 120, "amps": 15}).json()
    oven = {"name": "Left", "kind": "oven", "power_w": 1500, "capacity": 4, "circuit": circuit["id"]}
    made = client.post("/api/press/heaters", json=oven)
    assert (made.status_code, made.json()["circuit_name"], made.json()["offset_half_k"]) == (201, "Bench", 15)
    where = f"/api/press/heaters/{made.json()['id']}"
    assert client.put(where, json={**oven, "power_w": 1900}).json()["rated_w"] == 1900
    (told,) = client.get("/api/press/circuits").json()
    assert (told["rated_w"], told["limit_w"], told["load_w"]) == (1900, 1800, 0)
    assert "not on this circuit" in told["words"]
    assert client.delete(f"/api/press/circuits/{circuit['id']}").status_code == 409
    wide = client.put(f"/api/press/circuits/{circuit['id']}", json={"name": "Bench", "volts": 230, "amps": 16})
    assert wide.json()["words"] == ""
    assert client.post(f"{where}/retire").json() == {"name": "Left", "removed": True}
    assert client.get(where).status_code == 404
    assert client.delete(f"/api/press/circuits/{circuit['id']}").status_code == 204


def test_figures_that_cannot_be(client: Any) -> None:
    refused = client.post("/api/press/heaters", json={"name": "A", "kind": "oven", "power_w": 0, "capacity": -1})
    assert refused.status_code == 422
    assert [one["where"] for one in refused.json()["problems"]] == ["power_w", "capacity"]
    assert client.post("/api/press/circuits", json={"name": "B", "volts": 120, "amps": 0}).status_code == 422
    assert client.get("/api/press/heaters").json() == []
    assert client.post("/api/press/heaters/99/restore").status_code == 404
