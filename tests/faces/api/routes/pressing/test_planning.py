"""A heat planned over the REST face."""

from __future__ import annotations

from typing import Any

import pytest

STEEL = {"recipe": "steel-oven", "pieces": 2, "wall_mm": 0.5}


def test_figures_words_and_plots(client: Any) -> None:
    told = client.get("/api/press/plan", params=STEEL).json()
    assert (told["set_c"], told["set_f"], told["heater"]["kind"]) == (200.0, 392.0, "oven")
    assert [row["pieces"] for row in told["rows"]] == [1, 2, 3, 4]
    assert told["recommended"]["pieces"] == 2
    assert told["aim"]["complete_from"] is None
    assert {one["change"] for one in told["sensitivity"]} >= {"hotter", "more", "door", "longer"}
    assert told["wall"]["from"] == "given"
    picture = client.get("/api/press/plan.svg", params=STEEL)
    assert (picture.headers["content-type"].split(";")[0], picture.text[:4]) == ("image/svg+xml", "<svg")
    assert "var(--heat" in picture.text
    pixels = client.get("/api/press/plan.png", params=STEEL)
    assert (pixels.headers["content-type"], pixels.content[:4]) == ("image/png", b"\x89PNG")


def test_a_wall_not_given_is_the_recipe_s(client: Any) -> None:
    told = client.get("/api/press/plan", params={"recipe": "aluminium-press", "heater": "mug-press"}).json()
    assert told["wall"] == {"material": "aluminium", "thickness_mm": 1.0, "double": False, "from": "recipe"}
    assert any("The wall is the recipe's own" in one for one in told["words"])


@pytest.mark.parametrize(
    ("more", "status", "said"),
    [
        ({"set_c": 383}, 422, "383 °F (195 °C) meant"),
        ({"dwell_s": 0}, 422, "a dwell of 0 s"),
        ({"dwell_s": 36000}, 422, "a dwell of 10 h"),
        ({"pieces": 0}, 422, "0 pieces cannot be heated"),
        ({"heater": "99"}, 404, ""),
        ({"heater": "Nobody's"}, 404, "no heater called"),
        ({"oven": "x"}, 422, ""),
        ({"set_c": "nan"}, 422, ""),
    ],
)
def test_what_cannot_be(client: Any, more: dict[str, Any], status: int, said: str) -> None:
    answer = client.get("/api/press/plan", params={**STEEL, **more})
    assert answer.status_code == status
    error = answer.json()["error"]
    assert said in error["message"] + error["remedy"]


def test_a_sleeve(client: Any) -> None:
    body = {"largest_mm": 242, "smallest_mm": 194, "band_mm": 102, "sleeves": [{"flat_mm": 127}, {"flat_mm": 120}]}
    told = client.post("/api/press/sleeve", json=body).json()
    assert [one["does"] for one in told["sleeves"]] == [True, False]
    refused = client.post("/api/press/sleeve", json={**body, "band_mm": -1})
    assert refused.status_code == 422
