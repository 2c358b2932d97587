"""Bodies beyond their limit: refused by what they say and by what comes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.routing import APIRoute
from tests.faces.asked import app_at, asking

from wrapwright.faces.api.asking import RAW
from wrapwright.faces.api.rest import ROUTERS
from wrapwright.faces.web import bodies


@pytest.mark.parametrize("said", [True, False])
def test_a_written_body_is_held_to_its_limit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, said: bool) -> None:
    monkeypatch.setattr(bodies, "WRITTEN", 10_000)

    def pieces(count: int) -> Iterator[bytes]:
        yield b'{"blank": {"note": "'
        for _ in range(count):
            yield b"x" * 1000
        yield b'"}}'

    with asking(app_at(tmp_path)) as client:
        for count, status in ((5, 200), (20, 413)):
            content = b"".join(pieces(count)) if said else pieces(count)
            answer = client.post("/api/measure", content=content, headers={"Content-Type": "application/json"})
            assert answer.status_code == status, answer.text
        assert answer.json()["error"]["message"] == "The request is larger than 0.01 MB."
        assert answer.headers["connection"] == "close"


def test_whatever_takes_a_file_holds_its_own_limit() -> None:
    """A table, a logger's file, a drawn outline: none is held to what is written by hand."""
    taking = [
        f"/api{re.sub(r'{[^}]+}', '7', route.path)}"
        for router in ROUTERS
        for route in router.routes
        if isinstance(route, APIRoute) and route.openapi_extra is RAW
    ]
    assert "/api/designs/7/names/table/7" in taking
    assert [path for path in taking if not bodies.FILES.match(path)] == []
    written = ["/api/measure", "/api/designs/7", "/api/designs/7/names", "/api/designs/7/names/decisions"]
    assert [path for path in written if bodies.FILES.match(path)] == []


def test_a_table_larger_than_what_is_written_comes_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bodies, "WRITTEN", 10_000)
    with asking(app_at(tmp_path)) as client:
        document = {"format": 1, "blank": {"kind": "straight", "girth": "235 mm", "wall": "100 mm"}}
        design = client.post("/api/designs", json={"title": "Crew", "document": document}).json()["id"]
        rows = "name\n" + "".join(f"Ada {number}\n" for number in range(2000))
        answer = client.put(f"/api/designs/{design}/names/table/crew.csv", content=rows.encode())
        assert (answer.status_code, answer.json()["check"]["rows"]) == (201, 2000)
