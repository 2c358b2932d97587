"""Recipes over the REST face."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from tests.faces.asked import app_at, asking


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    with asking(app_at(tmp_path_factory.mktemp("bench"))) as made:
        yield made


def test_recipes_from_one_to_start_from_to_ones_own(client: Any) -> None:
    shipped = client.get("/api/press/recipes").json()
    steel = next(one for one in shipped if one["name"] == "steel-oven")
    assert (steel["id"], steel["place"], steel["fahrenheit"]) == (0, "shipped", [374.0, 401.0])
    assert ["set to", "190–205 °C (374–401 °F)"] in steel["words"]
    content = {**steel["content"], "name": "20 oz", "celsius": "374-392 F", "seconds": "5-6 min"}
    made = client.post("/api/press/recipes", json={"content": content})
    assert made.status_code == 201
    kept = made.json()
    assert (kept["version"], kept["place"]) == (1, "workshop")
    assert (kept["content"]["celsius"], kept["content"]["seconds"]) == ([190.0, 200.0], [300.0, 360.0])
    where = f"/api/press/recipes/{kept['id']}"
    body = {"content": {**kept["content"], "seconds": [310, 360]}, "version": 1, "added": kept["added"]}
    assert client.put(where, json=body).status_code == 200
    stale = client.put(where, json=body)
    assert (stale.status_code, stale.json()["error"]["kind"]) == (409, "refused")
    assert [one["version"] for one in client.get(f"{where}/versions").json()] == [1]
    assert client.get(where).json()["content"]["seconds"] == [310, 360]
    assert client.post(f"{where}/retire").json() == {"name": "20 oz", "removed": True}
    assert client.get(where).status_code == 404
    assert client.post(f"{where}/restore").status_code == 404


def test_what_is_typed_is_asked_about(client: Any) -> None:
    steel = client.get("/api/press/recipes").json()[0]["content"]
    body = {"content": {**steel, "name": "x", "celsius": "383 C", "seconds": "7"}}
    refused = client.post("/api/press/recipes", json=body)
    assert refused.status_code == 422
    told = {one["where"]: one["remedy"] for one in refused.json()["problems"]}
    assert told == {
        "celsius": 'Is 383 °F (195 °C) meant? Then write "383 F".',
        "seconds": 'Write "7 min" or "7 s".',
    }


def test_a_figure_is_read_or_asked_about_while_it_is_typed(client: Any) -> None:
    asked = client.get("/api/press/reading", params={"kind": "temperature", "text": "383"}).json()
    assert asked["low"] is None
    assert asked["choices"] == [{"text": "383 F", "words": "195 °C (383 °F)"}]
    read = client.get("/api/press/reading", params={"kind": "time", "text": "7:30", "single": True}).json()
    assert (read["low"], read["words"], read["question"]) == (450, "7 min 30 s", "")
