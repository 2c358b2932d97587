"""The tray's routes: kept with its revision, laid, limits told, made."""

from __future__ import annotations

from typing import Any

import pytest

BLANK = {"kind": "flat", "width": "50 mm", "height": "30 mm"}


@pytest.fixture(scope="module")
def tray(client: Any) -> dict[str, Any]:
    document = {"format": 1, "blank": BLANK, "element": [{"kind": "fill", "colour": "#0e3a5a"}], "sheet": {"ppi": 100}}
    design = client.post("/api/designs", json={"title": "Tag", "document": document}).json()["id"]
    return {"pieces": [{"design": design, "quantity": 4}], "title": "Friday"}


def test_it_is_kept_from_revision_to_revision(client: Any, tray: dict[str, Any]) -> None:
    now = client.get("/api/tray").json()["revision"]
    kept = client.put("/api/tray", json=tray, headers={"If-Match": f'"{now}"'})
    assert kept.status_code == 200
    assert kept.json()["revision"] == now + 1
    late = client.put("/api/tray", json=tray, headers={"If-Match": f'"{now}"'})
    assert late.status_code == 409
    assert str(now + 1) in late.json()["error"]["message"]


def test_it_is_laid(client: Any, tray: dict[str, Any]) -> None:
    view = client.post("/api/tray/lay", json={"tray": tray, "seconds": 0.05, "window": "w"}).json()
    assert view["pieces"][0]["laid"] == 4
    assert sum(len(sheet["copies"]) for sheet in view["sheets"]) == 4
    assert view["proven"]


@pytest.mark.parametrize(
    ("key", "value"),
    [("gutter_mm", -1), ("gutter_mm", 1e9), ("way", "laser"), ("pieces", [{"design": 1, "quantity": 0}]), ("x", 1)],
)
def test_what_a_tray_cannot_be_is_refused(client: Any, tray: dict[str, Any], key: str, value: object) -> None:
    answer = client.post("/api/tray/lay", json={"tray": tray | {key: value}})
    assert answer.status_code == 422


def test_more_pieces_than_can_be_waited_for_are_refused_with_both_figures(client: Any, tray: dict[str, Any]) -> None:
    many = tray | {"pieces": [tray["pieces"][0] | {"quantity": 9999}]}
    answer = client.post("/api/tray/lay", json={"tray": many})
    assert answer.status_code == 422
    message = answer.json()["error"]["message"]
    assert "9999" in message
    assert "3000" in message


def test_an_empty_tray_is_not_made(client: Any) -> None:
    answer = client.post("/api/tray/made", json={"tray": {}})
    assert answer.status_code == 422
    assert "empty" in answer.json()["error"]["message"]
