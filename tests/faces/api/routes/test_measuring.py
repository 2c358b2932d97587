"""Measuring over the REST face: outlines read from drawings, nothing of them kept."""

from __future__ import annotations

from typing import Any

TAG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 90" onload="alert(1)"><script>alert(1)</script>'
    b'<path d="M0 0H60V90H0Z"/></svg>'
)


def test_an_outline_comes_back_as_points(client: Any) -> None:
    found = client.put("/api/outlines/tag.svg", content=TAG)
    assert found.status_code == 200
    points = found.json()["points"]
    across, up = zip(*points, strict=True)
    assert len(points) == 4
    assert (max(up) - min(up)) / (max(across) - min(across)) == 1.5
    assert found.json()["holes"] == 0
    assert client.get("/api/pictures").json() == []
    kept = client.post("/api/blanks", json={"name": "Tag", "table": {"kind": "flat", "outline": points, "width": 60}})
    assert kept.status_code == 201
    drawn = client.get(f"/api/blanks/{kept.json()['id']}/drawing.svg")
    assert "60 mm wide, 90 mm high" in drawn.text


def test_a_drawing_that_is_none_is_one_sentence(client: Any) -> None:
    refused = client.put("/api/outlines/tag.svg", content=b"<svg")
    assert refused.status_code == 422
    assert refused.json()["error"]["where"] == "blank: outline"
    file = client.post("/api/blanks", json={"name": "T", "table": {"kind": "flat", "outline": "tag.svg", "width": 60}})
    assert file.status_code == 422
    assert "keeps an outline as its points" in file.json()["error"]["message"]
