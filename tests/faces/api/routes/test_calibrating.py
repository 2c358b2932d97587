"""Calibrating and measuring by paper over the REST face."""

from __future__ import annotations

from typing import Any

import pytest


@pytest.fixture(scope="module")
def desk(client: Any) -> int:
    made = client.post("/api/setups", json={"name": "Desk", "sheet": {"paper": "Letter"}})
    return int(made.json()["id"])


def test_scales_are_kept_told_and_removed(client: Any, desk: int) -> None:
    where = f"/api/setups/{desk}/scales"
    assert client.get(where).json()["asked_mm"] == [207.0, 271.0]
    body = {"measured_mm": [206.586, 271.271], "day": "2026-05-02", "note": "new ink"}
    kept = client.post(where, json=body)
    assert kept.status_code == 201
    row = kept.json()["measurements"][0]
    assert (row["scale"], row["note"], row["day"]) == (pytest.approx([0.998, 1.001]), "new ink", "2026-05-02")
    refused = client.post(where, json={"measured_mm": [8.15, 271.0]})
    assert (refused.status_code, refused.json()["error"]["where"]) == (422, "across")
    assert client.delete(f"{where}/99").status_code == 404
    gone = client.delete(f"{where}/{row['id']}")
    assert gone.json()["measurements"] == []


def test_the_target_as_file_and_picture(client: Any, desk: int) -> None:
    file = client.get(f"/api/setups/{desk}/target.pdf")
    assert (file.headers["content-type"], file.content[:5]) == ("application/pdf", b"%PDF-")
    assert client.get(f"/api/setups/{desk}/target.svg").text.startswith("<svg")
    assert client.get("/api/setups/99/target.pdf").status_code == 404


def test_a_gauge_and_its_reading(client: Any, desk: int) -> None:
    told = client.get("/api/gauge", params={"setup": desk, "girth": 235, "wall": 165}).json()
    assert (told["lies"], told["pages"], told["strips"][0]["low_mm"]) == ("along", 1, 227)
    assert client.get("/api/gauge.pdf", params={"setup": desk, "girth": 235}).content[:5] == b"%PDF-"
    assert client.get("/api/gauge.svg", params={"setup": desk, "girth": 235}).text.startswith("<svg")
    assert client.get("/api/gauge.svg", params={"girth": 235, "page": 2}).status_code == 404
    assert client.get("/api/gauge", params={"setup": desk, "girth": 9.25}).status_code == 422
    assert client.get("/api/gauge", params={"girth": 235, "top": 230}).status_code == 422
    blank = client.post(
        "/api/blanks", json={"name": "Bottle", "table": {"kind": "straight", "girth": 235, "wall": 165}}
    )
    number = blank.json()["id"]
    body = {"readings": [{"at_mm": None, "flat_mm": 235.7}], "setup": desk, "blank": number}
    read = client.post("/api/gauge/reading", json=body).json()
    assert (read["kept"]["version"], read["kept"]["table"]["flat"]) == (2, "235.7 mm")
    assert client.post("/api/gauge/reading", json={"readings": []}).status_code == 422
