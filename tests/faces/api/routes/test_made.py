"""What is made: asked for, fetched, and only what was left of it."""

from __future__ import annotations

import time
from typing import Any

import pytest

BLANK = {"kind": "straight", "girth": "120 mm", "wall": "40 mm"}


@pytest.fixture(scope="module")
def design(client: Any) -> int:
    document = {"format": 1, "blank": BLANK, "element": [{"kind": "fill", "colour": "#0e3a5a"}], "sheet": {"ppi": 150}}
    return int(client.post("/api/designs", json={"title": "Größe 3", "document": document}).json()["id"])


@pytest.fixture(scope="module")
def made(client: Any, design: int) -> dict[str, Any]:
    row = client.post("/api/made", json={"design": design}).json()
    ends = time.monotonic() + 90
    while row["state"] in {"waiting", "making"} and time.monotonic() < ends:
        time.sleep(0.02)
        row = client.get(f"/api/made/{row['id']}").json()
    assert row["state"] == "done", row
    return dict(row)


def test_its_files(client: Any, made: dict[str, Any]) -> None:
    kinds = {"sheets.pdf": "application/pdf", "proof.pdf": "application/pdf", "ticket.pdf": "application/pdf"}
    kinds["report.json"] = "application/json"
    assert {one["name"] for one in made["files"]} == set(kinds)
    for one in made["files"]:
        answer = client.get(f"/api/made/{made['id']}/files/{one['name']}")
        assert answer.headers["content-type"] == kinds[one["name"]]
        assert len(answer.content) == one["bytes"]
        assert answer.headers["content-security-policy"] == "default-src 'none'; sandbox"
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["content-disposition"].startswith("attachment; filename*=utf-8''Gr%C3%B6%C3%9Fe%203%20")
    shown = client.get(f"/api/made/{made['id']}/files/sheets.pdf", params={"show": True})
    assert shown.headers["content-disposition"].startswith("inline;")
    assert shown.content.startswith(b"%PDF-")


@pytest.mark.parametrize(
    "name", ["store.sqlite3", "..%2fsheets.pdf", "..%2f..%2fstore.sqlite3", "..%5csheets.pdf", "C:x", "%00"]
)
def test_nothing_else(client: Any, made: dict[str, Any], name: str) -> None:
    assert client.get(f"/api/made/{made['id']}/files/{name}").status_code in {404, 405}


def test_lists_stops_and_ends(client: Any, design: int, made: dict[str, Any]) -> None:
    assert [one["id"] for one in client.get("/api/made", params={"design": design}).json()] == [made["id"]]
    assert client.get("/api/made", params={"design": 99}).json() == []
    assert client.post(f"/api/made/{made['id']}/stop").json()["state"] == "done"
    assert client.delete(f"/api/made/{made['id']}").status_code == 204
    assert client.get(f"/api/made/{made['id']}/files/sheets.pdf").status_code == 404


@pytest.mark.parametrize(
    ("asked", "status"),
    [
        ({"design": 99}, 404),
        ({"design": 1, "output": "gif"}, 422),
        ({"design": 1, "accept": ["no-such-rule"]}, 422),
        ({"design": 1, "accept": ["does-not-fit"]}, 422),
        ({"design": 0}, 422),
        ({}, 422),
    ],
)
def test_what_cannot_be_made(client: Any, design: int, asked: dict[str, Any], status: int) -> None:
    assert client.post("/api/made", json=asked).status_code == status
