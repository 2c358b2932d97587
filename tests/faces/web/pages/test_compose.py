"""The composing screen as it leaves the server."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.faces.asked import app_at, asking

from wrapwright.faces.web.assets import FOLDER
from wrapwright.faces.web.pages.compose import modules

LARGEST = 200_000  # bytes on the wire of a first load without pictures


@pytest.fixture
def client(tmp_path: Path) -> Iterator[Any]:
    with asking(app_at(tmp_path)) as made:
        yield made


@pytest.fixture
def design(client: Any) -> int:
    blank = {"kind": "straight", "girth": "234 mm", "wall": "206 mm"}
    document = {"format": 1, "title": "Tom & Ada <3", "blank": blank, "element": []}
    answer = client.post("/api/designs", json={"title": "Tom & Ada <3", "document": document}).json()
    return int(answer.get("design", answer)["id"])


def test_the_page_carries_the_design_and_its_parts(client: Any, design: int) -> None:
    page = client.get(f"/designs/{design}")
    assert page.status_code == 200
    assert "Tom &amp; Ada &lt;3" in page.text
    assert f'data-design="{design}"' in page.text
    for part in ("<wrap-canvas", "<wrap-dial", "<turning-view", 'id="elements"', 'id="findings"'):
        assert part in page.text


def test_every_file_that_the_page_asks_for_is_there_and_all_together_are_small(client: Any, design: int) -> None:
    page = client.get(f"/designs/{design}")
    files = set(re.findall(r'(?:href|src)="(/s/[^"]+)"', page.text))
    assert len(files) > len(modules())
    wire = len(page.content)
    for file in files:
        answer = client.get(file, headers={"Accept-Encoding": "gzip"})
        assert answer.status_code == 200, file
        wire += int(answer.headers["Content-Length"])
    assert wire <= LARGEST


def test_every_module_that_a_module_loads_is_named_beforehand() -> None:
    named = set(modules())
    for name in named:
        file = FOLDER / name
        for found in re.findall(r'(?:from|import)\s+"(\.[^"]+)"', file.read_text(encoding="utf-8")):
            loaded = (file.parent / found).resolve().relative_to(FOLDER.resolve()).as_posix()
            assert loaded in named, f"{name} loads {loaded}"


def test_a_design_that_is_not_there_is_said_so(client: Any) -> None:
    page = client.get("/designs/987")
    assert page.status_code == 404
    assert "987" in page.text


@pytest.mark.parametrize(
    "address", ["/designs/{}", "/designs/{}/sheet", "/measure/{}", "/setups?change={}", "/history?before={}"]
)
def test_a_number_beyond_all_numbers_of_the_store(client: Any, address: str) -> None:
    answer = client.get(address.format(10**24))
    assert answer.status_code == 422
    assert f"the most is {2**53 - 1}" in answer.text
