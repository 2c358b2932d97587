"""Trials over the REST face."""

from __future__ import annotations

from typing import Any

import pytest

PLAN = {"name": "Steel", "recipe": "steel-oven", "celsius": ["383 F"], "seconds": ["2 min", 180, "4:30", "7.5 min"]}


@pytest.fixture(scope="module")
def where(client: Any) -> str:
    return f"/api/press/trials/{client.post('/api/press/trials', json=PLAN).json()['id']}"


def test_scored_gone_on_with_and_accepted(client: Any, where: str) -> None:
    told = client.get(where).json()
    assert [one["celsius"] for one in told["coupons"]] == [195.0] * 4
    assert client.put(f"{where}/accepted", json={"accepted": True}).status_code == 409
    for number, row in enumerate(((1, 5, 5), (3, 5, 5), (5, 5, 5), (5, 2, 3)), start=1):
        body = dict(zip(("density", "sharpness", "yellowing"), row, strict=True))
        told = client.post(f"{where}/scores", json={"number": number, **body, "seen": told["revision"]}).json()
    assert told["window"]["low"][0] < told["window"]["low_mid"] < told["window"]["low"][1]
    stale = client.post(f"{where}/scores", json={"number": 1, "density": 2, "seen": 1})
    assert (stale.status_code, stale.json()["error"]["kind"]) == (409, "refused")
    added = client.post(f"{where}/coupons", json={})
    assert (added.status_code, len(added.json()["coupons"])) == (201, 5)
    own = client.post(f"{where}/coupons", json={"celsius": "200 C", "seconds": "6 min"}).json()
    assert (own["coupons"][-1]["celsius"], own["coupons"][-1]["seconds"]) == (200.0, 360.0)
    taken = client.put(f"{where}/accepted", json={"accepted": True}).json()
    assert taken["accepted"]["low"] == taken["window"]["low"]
    assert client.delete(f"{where}/scores/1").json()["coupons"][0]["scores"]["density"] is None
    assert [one["accepted"] for one in client.get("/api/press/trials").json()] == [True]


def test_coupons_as_file_and_picture(client: Any, where: str) -> None:
    file = client.get(f"{where}/coupons.pdf")
    assert (file.headers["content-type"], file.content[:4]) == ("application/pdf", b"%PDF")
    picture = client.get(f"{where}/coupons.svg?paper=A4&width=40&height=60")
    assert picture.text.startswith("<svg")
    assert client.get(f"{where}/coupons.svg?page=9").status_code == 404
    wrong = client.get(f"{where}/coupons.pdf?width=10&height=60")
    assert (wrong.status_code, wrong.json()["error"]["where"]) == (422, "size")


@pytest.mark.parametrize(
    ("change", "where_"),
    [
        ({"celsius": [383]}, "celsius"),
        ({"celsius": ["383"]}, "celsius"),
        ({"seconds": [0]}, "dwell"),
        ({"seconds": ["10 h"]}, "dwell"),
        ({"pieces": 0, "seconds": []}, "pieces"),
        ({"name": "steel"}, "name"),
    ],
)
def test_bad_plans_are_refused_where_they_are_wrong(
    client: Any, where: str, change: dict[str, Any], where_: str
) -> None:
    assert where
    refused = client.post("/api/press/trials", json={**PLAN, "name": "Other", **change})
    assert refused.status_code in (409, 422)
    assert refused.json()["error"]["where"] == where_


def test_bad_scores_and_unknown_trials(client: Any, where: str) -> None:
    refused = client.post(f"{where}/scores", json={"number": 1, "density": 6})
    assert (refused.status_code, refused.json()["error"]["where"]) == (422, "density")
    assert client.post(f"{where}/scores", json={"number": 1, "heated": "10 h"}).json()["error"]["where"] == "dwell"
    assert client.get("/api/press/trials/999").status_code == 404
    gone = client.post("/api/press/trials", json={**PLAN, "name": "Gone"}).json()["id"]
    assert client.delete(f"/api/press/trials/{gone}").status_code == 204
    assert client.delete(f"/api/press/trials/{gone}").status_code == 404
