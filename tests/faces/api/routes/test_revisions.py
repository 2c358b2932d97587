"""One revision: its checks, its proof, its sheets, and how long a browser may keep them."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

BLANK = {"kind": "straight", "girth": "200 mm", "wall": "80 mm"}


@pytest.fixture(scope="module")
def address(client: Any) -> str:
    fill = {"kind": "fill", "colour": "#c81e1e"}
    document = {"format": 1, "blank": BLANK, "element": [fill], "wrap": {"bleed": "0 mm"}, "sheet": {"ppi": 150}}
    number = client.post("/api/designs", json={"title": "Red", "document": document}).json()["id"]
    return f"/api/designs/{number}/revisions/1"


def test_the_proof_is_the_wrap(client: Any, address: str) -> None:
    answer = client.get(f"{address}/proof.jpg", params={"width": 400})
    assert answer.headers["content-type"] == "image/jpeg"
    picture = Image.open(io.BytesIO(answer.content))
    assert picture.width == 400
    middle = np.asarray(picture)[picture.height // 2, 200]
    assert np.abs(middle.astype(int) - [0xC8, 0x1E, 0x1E]).max() <= 4
    assert client.get(f"{address}/proof.jpg", params={"width": 10}).status_code == 422


def test_what_a_browser_may_keep(client: Any, address: str) -> None:
    """A revision's picture may change with the fonts there are, so it is asked for again; one with a state is not."""
    plain = client.get(f"{address}/proof.jpg", params={"width": 100})
    assert plain.headers["cache-control"] == "private, no-cache"
    tag = plain.headers["etag"]
    same = client.get(f"{address}/proof.jpg", params={"width": 100}, headers={"If-None-Match": f'"x", W/{tag}'})
    assert (same.status_code, same.content) == (304, b"")
    kept = client.get(f"{address}/proof.jpg", params={"width": 100, "state": "3f"})
    assert kept.headers["cache-control"] == "private, max-age=31536000, immutable"
    other = client.get(f"{address}/proof.jpg", params={"width": 101}, headers={"If-None-Match": tag})
    assert other.status_code == 200


def test_the_sheet(client: Any, address: str) -> None:
    sheet = client.get(f"{address}/sheet").json()
    page = sheet["pages"][0]
    assert sheet["paper"] == "Letter"
    tile = client.get(f"{address}/sheet.png", params={"ppi": 20, "state": sheet["state"]})
    assert "immutable" in tile.headers["cache-control"]
    drawn = client.get(address.rpartition("/revisions")[0]).json()["drawn"]
    assert drawn["proof"]["url"].endswith(f"&state={sheet['state']}")
    assert "immutable" in client.get(drawn["proof"]["url"]).headers["cache-control"]
    assert {page["width_mm"], page["height_mm"]} == {215.9, 279.4}  # ANSI/ASME Y14.1
    whole = client.get(f"{address}/sheet.png", params={"ppi": 25.4})
    assert Image.open(io.BytesIO(whole.content)).size == (round(page["width_mm"]), round(page["height_mm"]))
    left, top, wide, high = page["pieces"][0]["box"]
    part = {"x": left + wide / 2, "y": top + high / 2, "width": 10, "height": 5, "ppi": 50.8, "side": "seen"}
    picture = Image.open(io.BytesIO(client.get(f"{address}/sheet.png", params=part).content)).convert("RGB")
    assert picture.size in {(20, 10), (21, 10), (20, 11), (21, 11)}  # widened to whole pixels
    assert np.asarray(picture).reshape(-1, 3).tolist() == [[0xC8, 0x1E, 0x1E]] * (picture.width * picture.height)
    assert client.get(f"{address}/sheet.png", params={"page": 7}).status_code == 422


def test_the_checks(client: Any, address: str) -> None:
    told = client.get(f"{address}/checks").json()
    assert told["revision"] == 1
    assert "never-calibrated" in {one["rule"] for one in told["findings"]}


def test_what_is_not_there(client: Any, address: str) -> None:
    for path in ("checks", "proof.jpg", "sheet", "sheet.png"):
        assert client.get(f"{address}0/{path}").status_code == 404
        assert client.get(f"/api/designs/99/revisions/1/{path}").status_code == 404
